package store_test

import (
	"reflect"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/player"
	"pivotbench/core/scenario"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/wasm/qr"
	"pivotbench/wasm/store"
)

var (
	ann  = store.Player{Name: "Ann", Hand: "right", Bridge: "9.5in; 9.3in; 9.7in", Slow: "3.5mph", SlowName: "soft", Cue: "House 4", Notes: "says 70 %\nplays Tuesdays", When: "2026-11-24T19:00:00+01:00"}
	bert = store.Player{Name: "Bert", Hand: "left", When: "2026-11-24T19:00:00+01:00"}
	turn = store.Turn{Player: "Ann", Stroke: store.Stroke{Cue: "House 4", Link: "v=1&back=0.5&front=0.5", Mark: "-1.9in", At: "30in", Read: "3mm", When: "2026-11-24T19:05:00+01:00"}}
)

func TestPlayersTravel(t *testing.T) {
	k := store.Records{Players: []store.Player{ann, bert}, Turns: []store.Turn{turn}}
	back, err := store.Decode(k.Encode())
	require.NoError(t, err)
	assert.Equal(t, k.Players, back.Players)
	assert.Equal(t, k.Turns, back.Turns)
	assert.Equal(t, k.Encode(), back.Encode())
	assert.NotContains(t, store.Records{}.Encode(), "player", "a file without players is as it was")
	assert.Equal(t, []store.Turn{turn}, k.TurnsOf(" ANN"))
	assert.Empty(t, k.TurnsOf("Bert"))
	assert.Equal(t, 1, k.PlayerAt("bert "))
	assert.Equal(t, -1, k.PlayerAt("Cleo"))
}

// What is not in the record is a habit of the trade, and what is there is measured; both
// are told apart by their types.
func TestFiguresOfAPlayer(t *testing.T) {
	p, wrong := ann.Player()
	require.Nil(t, wrong)
	require.IsType(t, player.Measured[unit.Length]{}, p.Bridge)
	bridge := p.Bridge.(player.Measured[unit.Length])
	assert.InDelta(t, 9.3, float64(bridge.From/unit.Inch), 1e-12)
	assert.IsType(t, player.Usual[unit.Length]{}, p.Grip)
	assert.Equal(t, "soft", p.Paces[0].Name)
	assert.Equal(t, "medium", p.Paces[1].Name)
	assert.InEpsilon(t, 0.15, float64(p.Paces[0].Speed.SD()/p.Paces[0].Speed.Best()), 1e-9, "typed, not measured")
	assert.Contains(t, p.Missing(), player.TheElevation)
	assert.NotContains(t, p.Missing(), player.TheCue)
	left, wrong := bert.Player()
	require.Nil(t, wrong)
	assert.Equal(t, player.LeftHanded, left.Hand)

	// Learned figures are written to four decimals, which is finer than anybody needs.
	learned := p
	learned.Gain = player.Measured[float64]{Estimate: stat.Estimate[float64]{Median: 1.7, Interval: stat.Interval[float64]{From: 1.3, To: 2.2000000000000006}}}
	learned.Bias = player.Measured[unit.Angle]{Estimate: stat.NormalEstimate(-0.1*unit.Degree, 0.07*unit.Degree)}
	rec := ann.Learned(&learned, "2026-11-25T19:00:00+01:00")
	again, wrong := rec.Player()
	require.Nil(t, wrong)
	gain, bias := again.Gain.(player.Measured[float64]), again.Bias.(player.Measured[unit.Angle])
	assert.InDelta(t, 1.7, gain.Median, 1e-9)
	assert.InDelta(t, 2.2, gain.To, 5e-5)
	assert.InDelta(t, -0.1, float64(bias.Median/unit.Degree), 5e-5)
	assert.InDelta(t, 0.07*stat.Reach90*2, float64((bias.To-bias.From)/unit.Degree), 1e-4)
	assert.Equal(t, p.Spread, again.Spread, "still a habit of the trade")
	assert.Equal(t, "2026-11-25T19:00:00+01:00", again.Fitted)
}

func TestPlayersThatCantBe(t *testing.T) {
	for want, spoil := range map[string]func(*store.Player){
		"hand “both”, allowed: right, left":           func(p *store.Player) { p.Hand = "both" },
		"a player needs a name":                       func(p *store.Player) { p.Name = " " },
		"bridge: “long” is not a length":              func(p *store.Player) { p.Bridge = "long" },
		"give one value, or the value and both ends":  func(p *store.Player) { p.Grip = "30in; 31in" },
		"the interval must hold the value":            func(p *store.Player) { p.Elev = "3deg; 3.5deg; 4deg" },
		"each faster than the one before":             func(p *store.Player) { p.Firm = "2mph" },
		"together no longer than a cue":               func(p *store.Player) { p.Grip = "70in" },
		"notes: 1001 characters, allowed: up to 1000": func(p *store.Player) { p.Notes = string(make1001()) },
		"slowname: ": func(p *store.Player) { p.SlowName = string(make1001()) },
	} {
		p := ann
		spoil(&p)
		_, err := store.Decode(store.Records{Players: []store.Player{bert, p}}.Encode())
		require.Error(t, err, want)
		assert.Contains(t, err.Error(), "player 2: ")
		assert.Contains(t, err.Error(), want)
	}
	nobody := turn
	nobody.Player = ""
	_, err := store.Decode(store.Records{Turns: []store.Turn{nobody}}.Encode())
	assert.ErrorContains(t, err, "player's stroke 1: a player needs a name")
}

func make1001() []rune {
	out := make([]rune, 1001)
	for i := range out {
		out[i] = 'a'
	}
	return out
}

// Two phones merge without doubling anyone: of two records of one name the later change
// stays, whichever phone it comes from, and no stroke is counted twice.
func TestPlayersMergeWithoutDoubling(t *testing.T) {
	later := ann
	later.Name, later.Elev, later.When = "ANN", "2deg", "2026-11-25T08:00:00+13:00" // a day later by the clock, 19 hours earlier than noon there
	second := turn
	second.When = "2026-11-24T19:06:00+01:00"
	here := store.Records{Players: []store.Player{bert, ann}, Turns: []store.Turn{turn}}
	there := store.Records{Players: []store.Player{later}, Turns: []store.Turn{turn, second}}
	for _, pair := range [][2]store.Records{{here, there}, {there, here}} {
		got := store.Merge(store.Records{}, pair[0], pair[1])
		assert.ElementsMatch(t, []store.Player{bert, later}, got.Players)
		assert.ElementsMatch(t, []store.Turn{turn, second}, got.Turns)
		assert.Equal(t, got, store.Merge(store.Records{}, got, got), "again changes nothing")
	}
	// Two tabs that changed one player: the later change stays.
	mine, theirs := here, here
	changed := ann
	changed.Notes, changed.When = "mine", "2026-11-24T19:10:00+01:00"
	mine.Players = []store.Player{bert, changed}
	changed.Notes, changed.When = "theirs", "2026-11-24T19:09:00+01:00"
	theirs.Players = []store.Player{bert, changed}
	got := store.Merge(here, mine, theirs)
	require.Len(t, got.Players, 2)
	assert.Equal(t, "mine", got.Players[1].Notes)
	// One removed, the other did not: it goes, and its strokes with the removal.
	mine.Players = []store.Player{bert}
	assert.Equal(t, []store.Player{bert}, store.Merge(here, mine, here).Players)
}

// A class of 60 with ten strokes each fits a file, and reads back.
func TestAClassOfSixty(t *testing.T) {
	var k store.Records
	for i := range 60 {
		p := bert
		p.Name = "Player " + string(rune('A'+i/10)) + string(rune('0'+i%10))
		k.Players = append(k.Players, p)
		for range 10 {
			one := turn
			one.Player = p.Name
			k.Turns = append(k.Turns, one)
		}
	}
	require.NoError(t, k.Fits(store.Records{}))
	assert.Less(t, len(k.Encode()), store.MostBytes/10)
	back, err := store.Decode(k.Encode())
	require.NoError(t, err)
	assert.Len(t, back.Players, 60)
	assert.Len(t, back.TurnsOf("player f9"), 10)
}

// A player travels by a link, as he is, through every messenger; what was cut or mended by
// hand is refused by name.
func TestPlayersTravelByLink(t *testing.T) {
	for _, p := range []store.Player{ann, bert, {Name: "Ünä & Co = “x” 100%", Hand: "left", Notes: "a&b\n#c", Gain: "1.4; 1.1; 1.8", Fitted: "2026-11-24"}} {
		back, err := store.ReadPlayer("https://example.org/bench/#" + p.Fragment(nil) + ".")
		require.NoError(t, err)
		assert.Equal(t, store.Records{Players: []store.Player{p}}, back)
		assert.True(t, strings.HasPrefix(p.Fragment(nil), "player&v=1&"), "copies that know no strokes read it too")
	}
	for text, want := range map[string]string{
		"v=1":                                         "this is not a link to a player",
		"player&v=1&name=Ann&hand=ri":                 "was cut short",
		"player&v=3&name=Ann&end":                     "of version “3”, but this copy of Pivotbench reads version 1 and 2",
		"player&v=1&name=Ann&hand=both&end":           "hand “both”",
		"player&v=1&name=Ann&name=Bert&hand=left&end": "name is given twice",
		"player&v=1&name=Ann&hand=left&age=7&end":     "there is no key “age”",
		"player&v=1&hand=left&end":                    "a player needs a name",
		"player&v=2&name=Ann&hand=left&turn&age=7&see=clean&turn=5&see=up&end": "stroke 1: age: “7” can't be used",
		"player&v=2&name=Ann&hand=left&turn&see=clean&turn=5&see=up&end":       "stroke 2: what the ball hit (see): “up”",
	} {
		_, err := store.ReadPlayer(text)
		assert.ErrorContains(t, err, want, text)
	}
	code := ann
	assert.Less(t, len(code.Fragment(nil)), 900, "a phone can read it as a QR code")
}

// The example of a link in the comments is read for ever.
func TestALinkWithStrokes(t *testing.T) {
	k, err := store.ReadPlayer("#player&v=2&name=Ann&hand=right&when=2026-11-24&turn&when=2026-11-24T19%3A05%3A00Z&cue=House%204&back=0.5&front=0.5&mark=-1.9in&at=30in&read=3mm&turn=65000&side=-0.4&mark=1.2in&turn=1000&side&see=clean&mark&at&read&end")
	require.NoError(t, err)
	assert.Equal(t, []store.Player{{Name: "Ann", Hand: "right", When: "2026-11-24"}}, k.Players)
	first := store.Stroke{Cue: "House 4", Link: "v=1&back=0.5&front=0.5", Mark: "-1.9in", At: "30in", Read: "3mm", When: "2026-11-24T19:05:00Z"}
	second := first
	second.Link, second.Mark, second.When = "v=1&side=-0.4&back=0.5&front=0.5", "1.2in", "2026-11-24T19:06:05Z"
	third := store.Stroke{Cue: "House 4", Link: first.Link, See: "clean", When: "2026-11-24T19:06:06Z"}
	assert.Equal(t, []store.Turn{{Player: "Ann", Stroke: first}, {Player: "Ann", Stroke: second}, {Player: "Ann", Stroke: third}}, k.Turns)
}

// Strokes travel with the player exactly, whatever they are, so that they are not doubled
// where they are known already; and eight of them, as they are noted, with all that they
// have told, are a QR code that a phone can read.
func TestStrokesTravelByLink(t *testing.T) {
	learned := store.Player{
		Name: "Marlene", Hand: "right", Bridge: "9.5in", Grip: "29.5in", Elev: "2.5deg", Slow: "4mph", Medium: "7mph", Firm: "12mph", Cue: "House 4",
		Spread: "0.3124deg; 0.2011deg; 0.4711deg", Bias: "-0.1132deg; -0.3011deg; 0.0913deg", Gain: "1.4142; 1.1023; 1.8211",
		When: "2026-11-24T19:40:00.123+01:00", Fitted: "2026-11-24T19:40:00.123+01:00",
	}
	var turns []store.Turn
	for i, at := range []string{"19:20:05.001", "19:21:17.250", "19:22:59.999", "19:24:00.000", "19:25:31.070", "19:26:40.123", "19:28:12.400", "19:30:01.004"} {
		s, _ := scenario.Parse("v=1&name=House%204&pivot=10.2in&slide=0.21&roll=0.011")
		s.Bridge, s.Grip, s.Elev = 9.5*unit.Inch, 29.5*unit.Inch, 2.5*unit.Degree
		s.Speed, s.Dist = []unit.Speed{4, 12}[i/2%2]*unit.MilePerHour, []unit.Length{24, 48}[i/4]*unit.Inch
		s.Side, s.Back = []float64{0.4, -0.4}[i%2], []float64{1, 0.5, 0}[i%3]
		s.Front = 1 - s.Back
		turns = append(turns, store.Turn{Player: "Marlene", Stroke: store.Stroke{
			Cue: "House 4", Link: s.Format(), Mark: strconv.Itoa(i-4) + ".5in", At: store.Length(float64(s.Dist)), Read: "3mm", When: "2026-11-24T" + at + "+01:00",
		}})
	}
	address := "https://pivotbench.harbour-hall.example/#" + learned.Fragment(turns)
	back, err := store.ReadPlayer(address)
	require.NoError(t, err)
	assert.Equal(t, store.Records{Players: []store.Player{learned}, Turns: turns}, back)
	size, err := qr.Size(len(address), qr.M)
	require.NoError(t, err)
	assert.LessOrEqual(t, size, 117, "%d bytes", len(address))

	odd := []store.Turn{
		{Player: "Marlene", Stroke: store.Stroke{Link: "v=1&dist=24in&side=-0.4", See: "clean", When: "Tuesday"}},                                      // not in the order of a scenario
		{Player: "Marlene", Stroke: store.Stroke{Link: "dist=24in", See: "left", When: "2026-11-24"}},                                                  // by hand
		{Player: "Marlene", Stroke: store.Stroke{Link: "v=1&name=a%26b%3Dc", Mark: "1 7/8 in", At: "30in", Read: "3mm", When: "2026-11-24T19:05:00Z"}}, // a name like a link
		{Player: "Marlene", Stroke: store.Stroke{Cue: "a & b", Link: "v=1&stroke=12mph", Mark: "1in", At: "30in", Read: "3mm", When: "2026-11-24T20:05:01+01:00"}},
		{Player: "Marlene", Stroke: store.Stroke{Link: "v=1&units=cm", See: "right"}},
	}
	back, err = store.ReadPlayer(learned.Fragment(odd))
	require.NoError(t, err)
	assert.Equal(t, odd, back.Turns)
}

// Every text of a stroke travels with its player, and none has the key of a shot.
func TestEveryTextOfAStrokeTravels(t *testing.T) {
	k := filmed() // one that can be; the rest is what the fields are called
	k.Cue, k.When = "", ""
	v := reflect.ValueOf(&k).Elem()
	assert.Equal(t, 3, v.FieldByName("Film").NumField(), "each has to travel with its player: see Stroke.texts")
	for i := range v.NumField() {
		if v.Type().Field(i).Name == "Film" {
			continue
		}
		field := v.Field(i)
		require.Equal(t, reflect.String, field.Kind(), "%s has to travel with its player: see Stroke.texts", v.Type().Field(i).Name)
		if field.String() == "" {
			field.SetString(v.Type().Field(i).Name)
		}
	}
	k.Link, k.See = "v=1", ""
	turns := []store.Turn{{Player: "Ann", Stroke: k}}
	back, err := store.ReadPlayer((&store.Player{Name: "Ann", Hand: "left"}).Fragment(turns))
	require.NoError(t, err)
	assert.Equal(t, turns, back.Turns)
	for _, key := range []string{"turn", "link", "cue", "see", "mark", "at", "read", "when", "filmlaunch", "filmspeed", "filmcov"} {
		assert.Nil(t, scenario.Find(key))
	}
}

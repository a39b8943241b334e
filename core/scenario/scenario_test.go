package scenario_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/margin"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/typed"
	"pivotbench/core/unit"
)

// golden is every key in the order of a link, with its default and, for numbers, the
// limits. Links are in use everywhere: a line may be added here, but never changed.
var golden = []struct{ name, value, least, most string }{
	{"name", "", "", ""},
	{"table", "9ft", "", ""},
	{"ball", "pool", "", ""},
	{"cloth", "normal", "", ""},
	{"diam", "", "1.5in", "3in"},
	{"mass", "", "80g", "300g"},
	{"slide", "", "0.05", "0.6"},
	{"roll", "", "0.002", "0.05"},
	{"spindown", "", "0rad/s2", "60rad/s2"},
	{"hop", "", "0", "0.8"},
	{"pivot", "12in", "5in", "60in"},
	{"pivotspin", "0.5", "0.1", "0.6"},
	{"cuemass", "540g", "200g", "900g"},
	{"tip", "10.6mm", "5mm", "40mm"},
	{"bounce", "0.75", "0.3", "0.98"},
	{"tipwidth", "13mm", "8mm", "16mm"},
	{"chalk", "0.6", "0.1", "1"},
	{"side", "0.4", "-0.8", "0.8"},
	{"height", "0", "-0.8", "0.8"},
	{"elev", "3deg", "0deg", "85deg"},
	{"speed", "7mph", "0.2mph", "40mph"},
	{"stroke", "", "0.2mph", "40mph"},
	{"bridge", "12in", "2in", "40in"},
	{"grip", "30in", "5in", "55in"},
	{"back", "1", "-5", "5"},
	{"front", "0", "-5", "5"},
	{"dist", "36in", "3in", "140in"},
	{"gate", "30in", "0in", "140in"},
	{"gap", "2.75in", "0in", "60in"},
	{"object", "24in", "1in", "140in"},
	{"cut", "0deg", "-80deg", "80deg"},
	{"pocket", "4.5in", "2in", "8in"},
	{"scatter", "1.5mm,0.06,0.4in,0.7deg,0.15deg", "", ""},
	{"units", "in", "", ""},
	{"cue2", "", "", ""},
	{"cue3", "", "", ""},
	{"cue4", "", "", ""},
	{"cue5", "", "", ""},
	{"cue6", "", "", ""},
}

func TestDefaultsAreFixedForEver(t *testing.T) {
	def := scenario.Default()
	require.Len(t, scenario.Keys(), len(golden))
	for i, g := range golden {
		k := &scenario.Keys()[i]
		assert.Equal(t, g.name, k.Name)
		assert.Equal(t, g.value, k.Value(&def), g.name)
		assert.NotEmpty(t, k.Label, g.name)
		assert.NotEmpty(t, k.Meaning, g.name)
		assert.Equal(t, k, scenario.Find(g.name))
		assert.Equal(t, g.most != "", k.IsNumber(), g.name)
		if k.IsNumber() {
			assert.Equal(t, g.least, unit.Exact(k.Min, k.Quantity, k.Unit), g.name)
			assert.Equal(t, g.most, unit.Exact(k.Max, k.Quantity, k.Unit), g.name)
		}
	}
	assert.Nil(t, scenario.Find("nosuch"))
	assert.Equal(t, "v=1", def.Format())
	empty, problems := scenario.Parse("")
	assert.Empty(t, problems)
	assert.Equal(t, def, empty)
}

// The pool ball is that of the World Pool-Billiard Association. The rest is common
// practice, no source.
func TestTheDefaultShot(t *testing.T) {
	def := scenario.Default()
	s := def.Shot()
	assert.Equal(t, 1.125*unit.Inch, s.Ball.Radius)
	assert.Equal(t, 170*unit.Gram, s.Ball.Mass)
	assert.Equal(t, 0.2, s.Cloth.Slide)
	assert.Equal(t, 0.01, s.Cloth.Roll)
	assert.Equal(t, unit.SpinRate(10), s.Cloth.SpinDecay)
	assert.Equal(t, 0.5, s.Cloth.Rebound)
	assert.Equal(t, 10.6*unit.Millimetre, s.Cue.Tip.Dome)
	assert.Equal(t, 13*unit.Millimetre, s.Cue.Tip.Width)
	assert.Equal(t, 0.75, s.Cue.Tip.Restitution)
	assert.Equal(t, 0.6, s.Cue.Tip.Friction)
	assert.Equal(t, 12*unit.Inch, s.Cue.Pivot)
	assert.Equal(t, 0.5, s.Cue.PivotSpin)
	assert.Equal(t, 540*unit.Gram, s.Cue.Mass)
	assert.Equal(t, 0.4, s.Contact.Side)
	assert.Zero(t, s.Contact.Height)
	assert.Equal(t, 3*unit.Degree, s.Elevation)
	assert.Equal(t, 12*unit.Inch, s.Hands.Bridge)
	assert.Equal(t, 30*unit.Inch, s.Hands.Grip)
	assert.Equal(t, 1.0, s.Hands.Back)
	assert.Zero(t, s.Hands.Front)
	assert.Equal(t, 7*unit.MilePerHour, s.Speed)
	assert.False(t, s.ByStroke)
	assert.Equal(t, 36*unit.Inch, s.Dist)
	assert.Equal(t, 30*unit.Inch, s.Gate.Dist)
	assert.Equal(t, 2.75*unit.Inch, s.Gate.Gap)
	assert.Equal(t, 100*unit.Inch, def.GearTable().Length)
}

// printable is what a label may contain: characters with a meaning in links, letters of
// one to four bytes, spaces.
var printable = []rune("abcXYZ 0189&=#%+,.;:?!/()[]'\"<>\\^~_-–é½ßжあ漢😀")

func randomName(rng *rand.Rand) string {
	runes := make([]rune, rng.IntN(61))
	for i := range runes {
		runes[i] = printable[rng.IntN(len(printable))]
	}
	name, _ := typed.Line(string(runes), 60)
	return name
}

// randomScenario returns any scenario that a link could describe, fitted to its table.
func randomScenario(t *testing.T, rng *rand.Rand) scenario.Scenario {
	t.Helper()
	s := scenario.Default()
	number := func(k *scenario.Key) float64 {
		v := k.Min + (k.Max-k.Min)*rng.Float64()
		switch rng.IntN(6) {
		case 0:
			v = k.Min
		case 1:
			v = k.Max
		case 2: // as people type it
			typed, err := unit.Parse(unit.Round(v, k.Quantity, k.Unit, 1)+k.Unit, k.Quantity, "")
			require.NoError(t, err)
			v = max(k.Min, min(k.Max, typed))
		}
		return v
	}
	for i := range scenario.Keys() {
		k := &scenario.Keys()[i]
		switch {
		case rng.IntN(3) == 0:
			continue
		case k.IsNumber():
			v := number(k)
			require.Nil(t, k.Set(&s, unit.Exact(v, k.Quantity, k.Unit), ""), k.Name)
			got, set := k.Number(&s)
			require.True(t, set)
			require.Equal(t, v, got)
		case len(k.Choices) > 0:
			require.Nil(t, k.Set(&s, k.Choices[rng.IntN(len(k.Choices))].Name, ""))
		case k.Name == "name":
			s.Name = randomName(rng)
		case k.Name == "scatter":
			s.Scatter = margin.Scatter{
				Tip: unit.Length(0.02 * rng.Float64()), Speed: rng.Float64(), Bridge: unit.Length(0.25 * rng.Float64()),
				Elev: unit.Angle(0.3 * rng.Float64()), Aim: unit.Angle(0.15 * rng.Float64()),
			}
		default:
			s.More[i%len(s.More)] = scenario.CueSpec{
				Pivot: unit.Length(number(scenario.Find("pivot"))), PivotSpin: number(scenario.Find("pivotspin")),
				Mass: unit.Mass(number(scenario.Find("cuemass"))), Tip: unit.Length(number(scenario.Find("tip"))),
				Bounce: number(scenario.Find("bounce")), Name: randomName(rng),
			}
		}
	}
	s.Fit()
	return s
}

func TestRoundTripsAreExact(t *testing.T) {
	rng := rand.New(rand.NewPCG(41, 42))
	for range 3000 {
		s := randomScenario(t, rng)
		link := s.Format()
		back, problems := scenario.Parse(link)
		require.Empty(t, problems, link)
		require.Equal(t, s, back, link)
		require.Equal(t, link, back.Format(), "one text for one scenario")
		require.NotContains(t, link, " ")
		require.NotContains(t, link, "#")
		require.Less(t, len(link), 16<<10)
	}
}

func TestOrderDoesNotMatter(t *testing.T) {
	rng := rand.New(rand.NewPCG(43, 44))
	for range 500 {
		s := randomScenario(t, rng)
		pairs := strings.Split(s.Format(), "&")
		rng.Shuffle(len(pairs), func(i, j int) { pairs[i], pairs[j] = pairs[j], pairs[i] })
		back, problems := scenario.Parse(strings.Join(pairs, "&"))
		require.Empty(t, problems)
		require.Equal(t, s, back)
	}
}

func TestOverrides(t *testing.T) {
	s, problems := scenario.Parse("ball=snooker&cloth=worn&diam=52mm&mass=150g&slide=0.25&roll=0.02&spindown=9rad/s2&hop=0.3")
	require.Empty(t, problems)
	one := s.Shot()
	assert.InDelta(t, 0.026, float64(one.Ball.Radius), 1e-17)
	assert.InDelta(t, 0.15, float64(one.Ball.Mass), 1e-16)
	assert.Equal(t, 0.25, one.Cloth.Slide)
	assert.Equal(t, 0.02, one.Cloth.Roll)
	assert.Equal(t, unit.SpinRate(9), one.Cloth.SpinDecay)
	assert.Equal(t, 0.3, one.Cloth.Rebound)

	k := scenario.Find("slide")
	require.Nil(t, k.Set(&s, " ", ""), "an empty text unsets it")
	v, set := k.Number(&s)
	assert.False(t, set)
	assert.Equal(t, 0.23, v, "and the named cloth holds again")
	assert.NotContains(t, s.Format(), "slide")

	s, problems = scenario.Parse("ball=pool&diam=2.25in")
	require.Empty(t, problems)
	assert.Contains(t, s.Format(), "diam=2.25in", "set to what the name says is still set")
	s, problems = scenario.Parse("diam=")
	assert.Empty(t, problems)
	assert.Equal(t, scenario.Default(), s)
}

func TestSpeedOrStroke(t *testing.T) {
	s, problems := scenario.Parse("stroke=7mph")
	require.Empty(t, problems)
	assert.True(t, s.ByStroke)
	assert.Equal(t, 7*unit.MilePerHour, s.Speed)
	assert.Equal(t, "v=1&stroke=7mph", s.Format(), "though 7 mph is the default of the other")

	for text, byStroke := range map[string]bool{"speed=5mph&stroke=6mph": false, "stroke=5mph&speed=6mph": true} {
		s, problems = scenario.Parse(text)
		require.Len(t, problems, 1, text)
		assert.Contains(t, problems[0].Error(), "the first counts")
		assert.Equal(t, byStroke, s.ByStroke)
		assert.Equal(t, 5*unit.MilePerHour, s.Speed)
	}
}

func TestFit(t *testing.T) {
	s, problems := scenario.Parse("table=7ft&dist=90in&gate=80in&gap=50in&object=76in")
	require.Len(t, problems, 4)
	assert.EqualError(t, problems[0], "dist: “90.0 in” can't be used; this table has room for 75.8 in; 36.0 in kept")
	assert.Equal(t, []string{"dist", "gate", "gap", "object"}, []string{problems[0].Key, problems[1].Key, problems[2].Key, problems[3].Key})
	def := scenario.Default()
	assert.Equal(t, def.Dist, s.Dist)
	assert.Equal(t, def.Gate, s.Gate)
	assert.Equal(t, def.Gap, s.Gap)
	assert.Equal(t, def.Object, s.Object)
	assert.Empty(t, s.Fit(), "once is enough")

	// The order of the keys makes no difference: the table may come last.
	other, _ := scenario.Parse("object=76in&gap=50in&gate=80in&dist=90in&table=7ft")
	assert.Equal(t, s, other)
	// Room on the default table: 100 by 50 in, balls of 2.25 in.
	_, problems = scenario.Parse("dist=97.74in&gate=97.74in&object=97.74in&gap=45.49in")
	assert.Empty(t, problems)
	_, problems = scenario.Parse("dist=97.76in&gate=97.76in&object=97.76in&gap=45.51in")
	assert.Len(t, problems, 4)
}

func TestPresetsWithTheMostEnglishThatCanBePlayed(t *testing.T) {
	found := 0
	for _, p := range scenario.Presets {
		if !p.MostSide {
			continue
		}
		found++
		user := scenario.Default()
		opened, _ := scenario.Parse(p.Link)
		on, _ := p.On(&user)
		assert.Equal(t, opened.Side, on.Side, "its link is the one of a player who has stated nothing")
		user.Scatter.Tip *= 2
		clumsy, _ := p.On(&user)
		assert.Less(t, clumsy.Side, on.Side)
		user.Scatter.Tip = 19 * unit.Millimetre
		none, _ := p.On(&user)
		assert.Equal(t, opened.Side, none.Side, "none can be played: the link's own is kept")
	}
	assert.Equal(t, 1, found)
}

func TestPresets(t *testing.T) {
	r := map[string]shot.Reading{}
	for _, p := range scenario.Presets {
		assert.NotEmpty(t, p.Note)
		s, problems := scenario.Parse(p.Link)
		require.Empty(t, problems, p.Label)
		assert.Equal(t, p.Link, s.Format(), p.Label)
		one := s.Shot()
		var res shot.Result
		shot.Play(&one, &res)
		require.NoError(t, res.Launched, p.Label)
		require.NoError(t, res.Reading.Arrival.Err(), p.Label)
		require.NoError(t, res.Reading.Verdict.Err(), p.Label)
		require.NoError(t, res.Reading.ClearLeft.Err(), p.Label)
		r[p.Label] = res.Reading
	}
	require.Len(t, r, len(scenario.Presets), "labels are unique")

	// Each preset does what its note says.
	assert.Greater(t, r["Bridge too short"].Arrival.Value, r["Starting shot"].Arrival.Value)
	assert.Greater(t, r["Bridge too short"].Heading.Value, r["Bridge too short"].Squirt.Value)
	assert.Less(t, r["Bridge too long"].Heading.Value, r["Bridge too long"].Squirt.Value)
	assert.Negative(t, float64(r["Bridge too long"].Arrival.Value))
	assert.Zero(t, r["Parallel shift"].Heading.Value)
	assert.Greater(t, r["Soft, butt raised"].Swerve.Value, r["Soft, butt raised"].Squirt.Value)
	assert.Negative(t, float64(r["Draw with left english"].Squirt.Value))
	assert.Less(t, r["Lower-squirt cue"].Squirt.Value, r["Starting shot"].Squirt.Value)
	assert.Equal(t, shot.Clean, r["Hop past the edge"].Verdict.Value)
}

// sane checks what holds for every scenario that Parse returns, whatever it read.
func sane(t *testing.T, s *scenario.Scenario) {
	t.Helper()
	for i := range scenario.Keys() {
		k := &scenario.Keys()[i]
		if !k.IsNumber() {
			continue
		}
		v, set := k.Number(s)
		slack := 1e-12 * (k.Max - k.Min)
		if set && !(v >= k.Min-slack && v <= k.Max+slack) || math.IsNaN(v) {
			t.Fatalf("%s is %v", k.Name, v)
		}
	}
	back, problems := scenario.Parse(s.Format())
	require.Empty(t, problems, s.Format())
	require.Equal(t, *s, back)
}

func TestPut(t *testing.T) {
	s := scenario.Default()
	scenario.Find("bridge").Put(&s, float64(9*unit.Inch))
	assert.Equal(t, 9*unit.Inch, s.Bridge)
	scenario.Find("bridge").Put(&s, 9)
	assert.Equal(t, 40*unit.Inch, s.Bridge, "no further than is allowed")
	scenario.Find("stroke").Put(&s, 3)
	assert.True(t, s.ByStroke)
	assert.True(t, scenario.Find("stroke").IsSpeed())
	assert.False(t, scenario.Find("bridge").IsSpeed())
	scenario.Find("slide").Put(&s, 0.3)
	assert.Equal(t, scenario.Own{Set: true, Value: 0.3}, s.Own.Slide)
}

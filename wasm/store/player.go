package store

import (
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"pivotbench/core/player"
	"pivotbench/core/sitting"
	"pivotbench/core/typed"
	"pivotbench/core/unit"
	"pivotbench/wasm/codec"
)

// A Player is the record of a player. Its numbers are figures (see FigureText): empty
// where only the habit of the trade is known.
type Player struct {
	Name   string
	Hand   string // one of HandWords
	Bridge string
	Grip   string
	Elev   string
	// What he calls slow, medium and firm: the speed, and his own word for it, which is
	// empty for the usual one.
	Slow, Medium, Firm             string
	SlowName, MediumName, FirmName string
	// One standard deviation of what he does not repeat exactly.
	Tip, Speed, Wander, Aim string
	// What his strokes have told.
	Spread, Bias, Gain string

	Cue    string // the name of his cue; empty when he has none
	Notes  string
	When   string // date and time of the last change
	Fitted string // date and time of the last fit; empty when there was none
}

// A namedText is one of a record's texts, with its key in files and links.
type namedText struct {
	key string
	at  *string
}

// texts lists the record's texts in the order in which they are written.
func (p *Player) texts() []namedText {
	out := append([]namedText{{"name", &p.Name}, {"hand", &p.Hand}}, p.figures()...)
	return append(out, namedText{"slowname", &p.SlowName}, namedText{"mediumname", &p.MediumName}, namedText{"firmname", &p.FirmName},
		namedText{"cue", &p.Cue}, namedText{"notes", &p.Notes}, namedText{"when", &p.When}, namedText{"fitted", &p.Fitted})
}

// figures lists the texts of the figures.
func (p *Player) figures() []namedText {
	return []namedText{
		{"bridge", &p.Bridge}, {"grip", &p.Grip}, {"elev", &p.Elev}, {"slow", &p.Slow}, {"medium", &p.Medium}, {"firm", &p.Firm},
		{"tip", &p.Tip}, {"speed", &p.Speed}, {"wander", &p.Wander}, {"aim", &p.Aim},
		{"spread", &p.Spread}, {"bias", &p.Bias}, {"gain", &p.Gain},
	}
}

func (p *Player) fields(f codec.Fields) {
	for _, t := range p.texts() {
		switch t.key {
		case "name", "hand", "when": // as every record has
			f.Text(t.key, t.at)
		default:
			f.TextIfAny(t.key, t.at)
		}
	}
}

// Texts returns the texts of the record, always in the same order.
func (p *Player) Texts() []*string {
	var out []*string
	for _, t := range p.texts() {
		out = append(out, t.at)
	}
	return out
}

// HandWords maps each player.Hand to its word in a record.
var HandWords = []string{player.RightHanded: "right", player.LeftHanded: "left"}

// The standard deviations of numbers that were typed without an interval: read off a tape
// or guessed by a careful eye. Common practice, no source; what a sitting allows for.
const (
	typedGrip   = 1 * unit.Inch
	typedSpread = 0.05 * unit.Degree
)

// Player converts the record for computation, and describes everything that is wrong with
// it. wrong is nil for a valid record.
func (p *Player) Player() (out player.Player, wrong []string) {
	out = player.New(p.Name)
	out.Cue, out.Notes, out.When, out.Fitted = p.Cue, p.Notes, p.When, p.Fitted
	if i := slices.Index(HandWords, p.Hand); i >= 0 {
		out.Hand = player.Hand(i)
	} else {
		wrong = append(wrong, "hand “"+clip(p.Hand)+"”, allowed: "+strings.Join(HandWords, ", "))
	}
	fault := func(key string, err error) {
		if err != nil {
			wrong = append(wrong, key+": "+err.Error())
		}
	}
	length := func(key, text string, at *player.Figure[unit.Length], sd unit.Length) {
		var err error
		*at, err = figureFrom(text, unit.LengthKind, *at, sd)
		fault(key, err)
	}
	angle := func(key, text string, at *player.Figure[unit.Angle], sd unit.Angle) {
		var err error
		*at, err = figureFrom(text, unit.AngleKind, *at, sd)
		fault(key, err)
	}
	ratio := func(key, text string, at *player.Figure[float64], sd float64) {
		var err error
		*at, err = figureFrom(text, unit.Ratio, *at, sd)
		fault(key, err)
	}
	length("bridge", p.Bridge, &out.Bridge, sitting.Habit.Bridge)
	length("grip", p.Grip, &out.Grip, typedGrip)
	angle("elev", p.Elev, &out.Elevation, sitting.Habit.Elevation)
	for i, pace := range []struct{ key, text, name string }{{"slow", p.Slow, p.SlowName}, {"medium", p.Medium, p.MediumName}, {"firm", p.Firm, p.FirmName}} {
		at := &out.Paces[i]
		if pace.name != "" {
			at.Name = pace.name
		}
		speed, _ := unit.Parse(pace.text, unit.SpeedKind, "")
		var err error
		at.Speed, err = figureFrom(pace.text, unit.SpeedKind, at.Speed, unit.Speed(speed*sitting.Habit.Speed))
		fault(pace.key, err)
	}
	length("tip", p.Tip, &out.Scatter.Tip, 0.2*unit.Millimetre)
	ratio("speed", p.Speed, &out.Scatter.Speed, 0.01)
	length("wander", p.Wander, &out.Scatter.Bridge, 0.1*unit.Inch)
	angle("aim", p.Aim, &out.Scatter.Aim, typedSpread)
	angle("spread", p.Spread, &out.Spread, typedSpread)
	angle("bias", p.Bias, &out.Bias, typedSpread)
	ratio("gain", p.Gain, &out.Gain, 0.1)
	if wrong == nil {
		if err := out.Check(); err != nil {
			wrong = append(wrong, err.Error())
		}
	}
	return out, wrong
}

// Learned returns the record with what the player's strokes have told, as of a moment.
func (p Player) Learned(from *player.Player, when string) Player {
	p.Spread = learnedText(from.Spread, unit.Degree, "deg")
	p.Bias = learnedText(from.Bias, unit.Degree, "deg")
	p.Gain = learnedText(from.Gain, 1, "")
	p.When, p.Fitted = when, when
	return p
}

// Clean returns the record with its texts normalized for storage.
func (p Player) Clean() Player {
	p.Name = strings.Join(strings.Fields(clean(p.Name)), " ")
	for _, at := range []*string{&p.Cue, &p.SlowName, &p.MediumName, &p.FirmName, &p.When, &p.Fitted} {
		*at = clean(*at)
	}
	for _, t := range p.figures() {
		*t.at = clean(*t.at)
	}
	p.Notes, _ = typed.Lines(p.Notes, len(p.Notes))
	return p
}

// Faults describes everything that is wrong with a record. It returns nil for a valid
// record.
func (p *Player) Faults() []string {
	_, out := p.Player()
	for _, n := range []struct{ key, name string }{{"name", p.Name}, {"cue", p.Cue}, {"slowname", p.SlowName}, {"mediumname", p.MediumName}, {"firmname", p.FirmName}} {
		out = append(out, NameFaults(n.key, n.name)...)
	}
	if n := utf8.RuneCountInString(p.Notes); n > longNote {
		out = append(out, "notes: "+strconv.Itoa(n)+" characters, allowed: up to "+strconv.Itoa(longNote))
	}
	return out
}

// PlayerAt returns the index of the player of a name, or -1. Case and extra spaces don't
// count.
func (k Records) PlayerAt(name string) int {
	return slices.IndexFunc(k.Players, func(p Player) bool { return player.Key(p.Name) == player.Key(name) })
}

// onePerName returns the list with one record for each name: the one that was changed last,
// in the place of the first.
func onePerName(list []Player) []Player {
	var out []Player
	for _, p := range list {
		i := Records{Players: out}.PlayerAt(p.Name)
		switch {
		case i < 0:
			out = append(out, p)
		case Earlier(out[i].When, p.When) < 0:
			out[i] = p
		}
	}
	return out
}

// PlayersIn returns the names of the players whom other records have too, and otherwise.
func (k Records) PlayersIn(other Records) []string {
	var out []string
	for _, p := range k.Players {
		if i := other.PlayerAt(p.Name); i >= 0 && other.Players[i] != p {
			out = append(out, p.Name)
		}
	}
	return out
}

// A Turn is a stroke of a player, to fit him from. Its shot has the shares that he felt.
type Turn struct {
	Player string // his name
	Stroke
}

func (t *Turn) fields(f codec.Fields) {
	f.Text("player", &t.Player)
	t.Stroke.fields(f)
}

// Clean returns the turn with its texts normalized for storage.
func (t Turn) Clean() Turn {
	t.Player, t.Stroke = strings.Join(strings.Fields(clean(t.Player)), " "), t.Stroke.Clean()
	return t
}

// Faults describes everything that is wrong with a turn. It returns nil for a valid turn.
func (t *Turn) Faults() []string {
	out := t.Stroke.Faults()
	if player.Key(t.Player) == "" {
		out = append(out, player.ErrName.Error())
	}
	return append(out, NameFaults("player", t.Player)...)
}

// TurnsOf returns the strokes of a player.
func (k Records) TurnsOf(name string) []Turn { return k.turns(name, true) }

// TurnsNotOf returns the strokes of all other players.
func (k Records) TurnsNotOf(name string) []Turn { return k.turns(name, false) }

func (k Records) turns(name string, his bool) []Turn {
	var out []Turn
	for _, t := range k.Turns {
		if (player.Key(t.Player) == player.Key(name)) == his {
			out = append(out, t)
		}
	}
	return out
}

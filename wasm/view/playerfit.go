package view

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"pivotbench/core/player"
	"pivotbench/core/scenario"
	"pivotbench/core/sitting"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/store"
)

// A PlayerFit is what the strokes of the chosen player tell. It is immutable; AddWhile
// returns a new one.
type PlayerFit struct {
	Record store.Player
	Fit    *player.Fit
	Noted  []store.Turn // the strokes added so far
	Taken  []int        // indices in Noted of the strokes in Fit, in its order

	sittings []int // of the strokes in Noted, and of those to come that were known at the start

	of     string            // the conditions that it is made for
	scene  scenario.Scenario // with his cue
	who    player.Player
	known  bool // whether his cue was measured
	sheet  player.Sheet
	choice player.Choice
}

// PlayerConditions returns what a fit depends on beside the strokes, as text. It is empty
// when nobody is chosen.
func PlayerConditions(m *app.Model) string {
	p, ok := m.Chosen()
	if !ok {
		return ""
	}
	p.Spread, p.Bias, p.Gain, p.When, p.Fitted, p.Notes = "", "", "", "", "", ""
	table := store.TableOf(&m.Scene, "", "")
	cue := playersCue(m, &p)
	known := store.GearLink(&m.Scene) // the cue is the current one
	if cue != nil {
		known = unit.Exact(cue.Known.Log, unit.Ratio, "") + " " + unit.Exact(cue.Known.Spread, unit.Ratio, "")
	}
	text := store.Records{Players: []store.Player{p}}.Encode()
	return strings.Join([]string{text, table.Link, known, m.Scene.Units, unit.Exact(math.Abs(m.Scene.Side), unit.Ratio, ""), strconv.FormatBool(m.Look.Object), store.Length(float64(m.Scene.Gate)) + " " + store.Length(float64(m.Scene.Gap)), app.FormatSetUp(m.SetUp)}, "\n")
}

// playersCue returns the measured cue of a player, or nil.
func playersCue(m *app.Model, p *store.Player) *ListedCue {
	if p.Cue == "" {
		return nil
	}
	listed := ListCues(m.Kept.Cues)
	i := slices.IndexFunc(listed, func(c ListedCue) bool { return c.Key == store.CueKey(p.Cue) && c.Err == nil })
	if i < 0 {
		return nil
	}
	return &listed[i]
}

// NewPlayerFit returns the fit of the chosen player without strokes. The ball, the table
// and the english are those of the current shot. The error says why there is none.
func NewPlayerFit(m *app.Model) (*PlayerFit, error) {
	p, ok := m.Chosen()
	if !ok {
		return nil, player.ErrName
	}
	who, _ := p.Player() // what is kept can be read
	f := &PlayerFit{Record: p, of: PlayerConditions(m), scene: m.Scene, who: who, sittings: sittingsOf(m.Kept.TurnsOf(p.Name))}
	var known *stat.Estimate[unit.Length]
	if cue := playersCue(m, &p); cue != nil {
		f.scene = m.Scene.With(cue.On(&m.Scene))
		f.scene.TipWidth, f.scene.Chalk = cue.Gear.TipWidth, cue.Gear.Chalk
		pivot := cue.Known.Pivot(f.scene.GearBall(), gearCue(&f.scene).Tip, f.scene.PivotSpin)
		known, f.known = &pivot, true
	}
	side := math.Abs(f.scene.Side)
	if side == 0 {
		side = scenario.Default().Side
	}
	on := f.scene.Shot()
	on.Contact.Side, on.Contact.Height = side, 0
	fit, err := player.Start(&who, &on, known, m.SetUp)
	if err != nil {
		return nil, err
	}
	f.Fit = fit
	step := 12 * unit.Inch
	if f.scene.Units == "cm" {
		step = 30 * unit.Centimetre
	}
	table := f.scene.GearTable()
	for _, n := range []unit.Length{2, 3, 4, 5} {
		if n*step < table.Length {
			f.sheet.Dists = append(f.sheet.Dists, n*step)
		}
	}
	for _, pace := range who.Paces {
		f.sheet.Speeds = append(f.sheet.Speeds, pace.Speed.Best())
	}
	f.sheet.Side, f.sheet.Pocket = side, m.Look.Object
	last := len(f.sheet.Speeds) - 1
	f.choice = player.Choice{
		Kind: sitting.ByMark, Lines: []unit.Length{2 * step, 4 * step}, Speeds: []unit.Speed{f.sheet.Speeds[0], f.sheet.Speeds[last]},
		Shares: player.Shares, Side: side, Read: sitting.ByEye, Across: table.Width,
	}
	return f, nil
}

// Begins reports whether the fit is of the model's chosen player under its conditions,
// and his strokes begin with those of the fit.
func (f *PlayerFit) Begins(m *app.Model, turns []store.Turn) bool {
	n := len(f.Noted)
	return f.of == PlayerConditions(m) && n <= len(turns) && slices.Equal(f.Noted, turns[:n]) && slices.Equal(f.sittings[:n], sittingsOf(turns)[:n])
}

// sittingsOf returns the sitting of each stroke, as sitting.Stroke has it. Once there are as
// many as a fit tells apart, those that follow count as the last one.
func sittingsOf(turns []store.Turn) []int {
	var moments []string
	for i := range turns {
		moments = append(moments, turns[i].When)
	}
	out := store.Sittings(moments)
	for i := range out {
		out[i] = min(out[i], sitting.MostSittings-1)
	}
	return out
}

// AddWhile returns the fit with another stroke. An impossible stroke, for example from an
// imported file, is added to Noted alone. ok is false when on returned false; the fit is
// then as it was.
func (f *PlayerFit) AddWhile(t store.Turn, on func() bool) (_ *PlayerFit, ok bool) {
	next := *f
	next.Noted = append(slices.Clip(f.Noted), t)
	if n := len(f.Noted); n == len(f.sittings) {
		next.sittings = append(slices.Clip(f.sittings), sittingsOf(next.Noted)[n])
	}
	stroke, err := t.Stroke.Stroke(0, f.scene.PivotSpin)
	if err != nil {
		return &next, true
	}
	stroke.Sitting = next.sittings[len(f.Noted)]
	fit, err := f.Fit.AddWhile(stroke, on)
	if err == sitting.ErrStopped {
		return f, false
	}
	if err == nil {
		next.Fit, next.Taken = fit, append(slices.Clip(f.Taken), len(f.Noted))
	}
	return &next, true
}

// Misfit says what is odd about his strokes as a whole. It is empty when nothing is, or
// when on returned false.
func (f *PlayerFit) Misfit(on func() bool) string {
	what, which := f.Fit.MisfitWhile(on)
	for i, n := range which {
		which[i] = f.Taken[n]
	}
	return misfitWords(what, which)
}

// Learned returns the player with what his strokes have told.
func (f *PlayerFit) Learned() player.Player { return f.Fit.Learned(f.who) }

// shot returns a proposed stroke as a scenario.
func (f *PlayerFit) shot(p player.Proposal) scenario.Scenario {
	s, sh := f.scene, p.Of(f.Fit)
	s.Name, s.Height, s.ByStroke = f.Record.Cue, 0, false
	s.Bridge, s.Grip, s.Elev, s.Speed, s.Dist = sh.Hands.Bridge, sh.Hands.Grip, sh.Elevation, sh.Speed, sh.Dist
	s.Side, s.Back, s.Front = p.Side, sh.Hands.Back, sh.Hands.Front
	return s
}

// Link returns a proposed stroke as a link.
func (f *PlayerFit) Link(p player.Proposal) string {
	s := f.shot(p)
	return s.Format()
}

// Marked returns a proposed stroke as it was played, with the mark of its ball and the
// reading error.
func (f *PlayerFit) Marked(p player.Proposal, mark, read, when string) store.Stroke {
	return store.Stroke{Cue: f.Record.Cue, Link: f.Link(p), Mark: mark, At: store.Length(float64(p.Line)), Read: read, When: when}
}

// AtGate returns a proposed stroke as it was played, with what its ball hit first.
func (f *PlayerFit) AtGate(p player.Proposal, see, when string) store.Stroke {
	return store.Stroke{Cue: f.Record.Cue, Link: f.Link(p), See: see, When: when}
}

// Sets returns the settings that put the player's hands, medium speed and errors on the
// current shot, so that the room for error and the choice of a cue are this player's.
func (f *PlayerFit) Sets() []app.Setting {
	who := f.Learned()
	s := f.scene
	pace := who.Paces[len(who.Paces)/2].Speed.Best()
	sh := f.Fit.Shot(s.Dist, pace, f.sheet.Side, 1)
	sh.Cue.Pivot = unit.Length(f.Fit.Pivot().Median)
	sets := []app.Setting{
		set(&s, "bridge", float64(who.Bridge.Best())), set(&s, "grip", float64(who.Grip.Best())),
		set(&s, "elev", float64(who.Elevation.Best())), set(&s, "speed", float64(pace)),
	}
	errs, err := who.Errors(&sh, s.Scatter)
	if err != nil {
		return sets // the ball does not arrive: whatever errors there were stay
	}
	return append(sets, set(&s, "scatter.tip", float64(errs.Tip)), set(&s, "scatter.speed", errs.Speed),
		set(&s, "scatter.bridge", float64(errs.Bridge)), set(&s, "scatter.aim", float64(errs.Aim)))
}

// A PlayerFinding is what the strokes of a player tell, in words.
type PlayerFinding struct {
	Head      string
	Facts     []Fact
	Proposals []player.Proposal // the best first
	Card      PlayerCard
}

// mostPlayed is more strokes than anyone plays to be fitted, and mostProposed how many
// proposals a user may leaf through.
const mostPlayed, mostProposed = 30, 8

// Finding returns what the strokes tell, the card, and which stroke to play next, to be
// seen at the gate or by a mark.
func (f *PlayerFit) Finding(kind sitting.Kind, day string) PlayerFinding {
	var out PlayerFinding
	choice := f.choice
	choice.Kind = kind
	o := f.Fit.Outlook(&f.sheet, &choice)
	out.Proposals = o.Next()
	out.Proposals = out.Proposals[:min(len(out.Proposals), mostProposed)]
	more, ok := o.Enough(mostPlayed)
	switch {
	case len(out.Proposals) == 0:
		out.Head = "No stroke at these speeds can be seen on this table: give faster speeds, or another gate"
	case f.Fit.N() == 0:
		out.Head = "No strokes yet: six to ten make a card"
	case ok && more == 0:
		out.Head = "Enough: more strokes would not change the card"
	case ok:
		out.Head = "About " + phrase.Count(more, "more stroke", "more strokes") + " until the card stays as it is"
	default:
		out.Head = "More than " + strconv.Itoa(mostPlayed) + " strokes to go: measure the cue, the elevation and the speeds first"
	}
	if f.Fit.N() > 0 {
		out.Facts = f.facts()
	}
	out.Card = f.Own(day)
	return out
}

// strokesWords counts the strokes, and the sittings if there are several.
func (f *PlayerFit) strokesWords() string {
	var played [sitting.MostSittings]bool
	n := 0
	for _, i := range f.Taken {
		if at := f.sittings[i]; !played[at] {
			played[at] = true
			n++
		}
	}
	words := strconv.Itoa(f.Fit.N())
	if n > 1 {
		words += " in " + strconv.Itoa(n) + " sittings"
	}
	return words
}

// facts are what the strokes tell beside the card.
func (f *PlayerFit) facts() []Fact {
	long := scenario.DisplayOf(unit.LengthKind, f.scene.Units)
	angle := scenario.Display{Quantity: unit.AngleKind, Unit: "°", Decimals: 2}
	times := scenario.Display{Quantity: unit.Ratio, Decimals: 1}
	row := func(name string, e stat.Summary[float64], d scenario.Display) Fact {
		return Fact{name, d.Format(e.Median) + " (90 %: " + d.Number(e.From) + " to " + d.Number(e.To) + ")"}
	}
	pivot := phrase.KeyName("pivot")
	if !f.known {
		pivot += ", from these strokes"
	}
	out := []Fact{
		{"strokes", f.strokesWords()},
		row(pivot, f.Fit.Pivot(), long),
		row("aim spread", f.Fit.Spread(), angle),
		row("aim bias", f.Fit.Bias(), angle),
		row("front hand moves, as a multiple of what it feels", f.Fit.Gain(), times),
	}
	if left := len(f.Noted) - len(f.Taken); left > 0 {
		out = append(out, Fact{"left out, not possible", phrase.Count(left, "stroke", "strokes")})
	}
	return out
}

package view

import (
	"slices"
	"strconv"

	"pivotbench/core/margin"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/sitting"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/store"
)

// precision is the half-width of the 90 % interval, as a share of the pivot length,
// at which a cue is measured well enough.
const precision = 0.1

// A Fact is a name and its value.
type Fact struct{ Name, Value string }

// A Finding is the result of the strokes recorded so far for a cue, in words.
type Finding struct {
	Head    string
	Facts   []Fact
	Next    string        // the suggested next stroke, or that there are enough
	More    string        // how many more strokes it takes; empty when that is not known, or none
	Sets    []app.Setting // settings for the next stroke; empty when none is suggested
	Line    unit.Length   // line at which to mark the next stroke; 0 when the gate is used
	Pivot   unit.Length   // median pivot length; 0 when the cue is not measured
	Others  []Fact        // comparison with the other cues of the sitting
	Exact   Estimate      // the pivot length for scripts
	Limit   string        // the range of bridges that the gate can't tell apart; may be empty
	Strokes int           // of this cue, in all sittings
	Since   string        // when the first stroke after a change of the cue was recorded; empty without one
}

// noStrokes is the head of a finding about a cue without strokes.
const noStrokes = "No strokes yet"

// Pending is the finding that stands in the place of one that is being worked out. done
// and of say how many strokes are worked out, and of how many.
func Pending(m *app.Model, done, of int) Finding {
	const many = 200 // strokes that take a slow phone more than a moment
	f := Finding{Head: "Working out the pivot length", Next: "Working out the next stroke…"}
	measured := func(k store.Stroke) bool { return store.CueKey(k.Cue) == store.CueKey(m.Measuring) }
	switch {
	case !slices.ContainsFunc(m.Kept.Strokes, measured):
		f.Head = noStrokes
	case of >= many:
		// In tens of per cent, as a screen reader speaks each change.
		f.Head += ": " + phrase.Percent(float64(done*10/of)/10) + " of " + phrase.Count(of, "stroke", "strokes")
	}
	if f.Exact.Why = f.Head; f.Head != noStrokes {
		f.Head += "…"
	}
	return f
}

// An Estimate is the measured pivot length for scripts: numbers in metres with full
// precision, or the reason why there is none.
type Estimate struct{ Value, From, To, Why string }

// Weigh returns what a sitting, together with others, says of the cue that is being
// measured, and suggests the next stroke.
func Weigh(m *app.Model, t *Sitting) Finding {
	f, _ := WeighWhile(m, t, func() bool { return true })
	return f
}

// WeighWhile is Weigh in steps: see sitting.Posterior.AddWhile. ok is false when on
// returned false.
func WeighWhile(m *app.Model, t *Sitting, on func() bool) (f Finding, ok bool) {
	s, cue := &m.Scene, t.Cue(m.Measuring)
	f = Finding{Head: noStrokes, Exact: Estimate{Why: "no strokes yet"}}
	all := together(t.of(m.Measuring, true), t.reference)
	if all.Strokes > 0 {
		f.weighed(s, t, cue, &all)
		f.Others = compared(t, cue)
	}
	f.Strokes, f.Since = all.Strokes, all.Since
	sh, c := s.Shot(), choices(m)
	p := t.next(m, cue)
	look, ok := p.OutlookWhile(cue, &sh, &c, on)
	if !ok {
		return f, false
	}
	more, reachable := look.Strokes(precision, mostStrokes)
	next, ok := p.NextWhile(cue, &sh, &c, on)
	if !ok {
		return f, false
	}
	switch {
	case f.Pivot > 0 && (more == 0 || all.Pivot.Within(precision)):
		f.Head = "Good enough: " + f.Head
		f.Next = "The 90 % interval is within " + phrase.Percent(precision) + " of the middle. More strokes still narrow it."
	case len(next) == 0:
		f.Next = "At this speed the ball does not reach the gate or the line: play faster, or move them closer."
	default:
		f.suggest(s, &next[0])
		if all.Strokes >= few {
			f.More = forecast(more, reachable, look)
			f.Next += " " + f.More
		}
	}
	return f, true
}

// few is the number of strokes that a useful forecast needs. mostStrokes is more
// than anyone plays in a sitting.
const few, mostStrokes = 3, 60

func forecast(more int, reachable bool, look *sitting.Outlook) string {
	if reachable {
		return "About " + phrase.Count(more, "more stroke", "more strokes") + " to ±" + phrase.Percent(precision) + "."
	}
	return "With this set-up it stays at ±" + phrase.Percent(look.After(mostStrokes)) + ", however many strokes you play."
}

// weighed fills in the results for a cue that has strokes.
func (f *Finding) weighed(s *scenario.Scenario, t *Sitting, cue int, all *Together) {
	long := scenario.DisplayOf(unit.LengthKind, s.Units)
	angle := scenario.Display{Quantity: unit.AngleKind, Unit: "°", Decimals: 2}
	gram := scenario.Display{Quantity: unit.MassKind, Unit: "g", Decimals: 1}
	p, pivot := t.Post, all.Pivot
	own := p.Strokes(cue) > 0
	alone := own && all.Sittings == 1
	if all.Used == 0 && own {
		pivot = p.Pivot(cue)
	}
	switch {
	case all.Used > 0:
		f.Pivot = unit.Length(pivot.Median)
		exact := func(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
		f.Exact = Estimate{Value: exact(pivot.Median), From: exact(pivot.From), To: exact(pivot.To)}
		f.Head = "pivot length " + long.Format(pivot.Median) + ", probably " + between(long, pivot.Interval)
	case !alone:
		f.Head = "Not measured yet: this cue needs more strokes in one sitting"
	case p.Leans(cue) == sitting.ShortEdge:
		f.Head = "Not measured yet: it may squirt more than any cue Pivotbench knows"
	default:
		f.Head = "Not measured yet: longer than " + long.Format(pivot.From) + "; no upper limit yet"
	}
	if f.Pivot == 0 {
		f.Exact = Estimate{Why: f.Head}
	}
	row := func(name string, e stat.Estimate[float64], d scenario.Display) {
		f.Facts = append(f.Facts, Fact{name, d.Format(e.Median) + " (90 %: " + d.Number(e.From) + " to " + d.Number(e.To) + ")"})
	}
	if from, to, ok := cleanBridges(s, f.Pivot); ok {
		f.Limit = "With this cue every bridge from " + long.Number(float64(from)) + " to " + long.Format(float64(to)) +
			" passes this gate clean, if the stroke is perfect. A single clean pass tells you only that."
	}
	f.Facts = append(f.Facts, Fact{"strokes", strokesWords(all)})
	if all.Used > 0 || own {
		f.Facts = append(f.Facts, Fact{"90 % interval", between(long, pivot.Interval)}, Fact{"50 % range", between(long, pivot.Half)})
	}
	squirt := "squirt at " + unit.Round(s.PivotSpin, unit.Ratio, "", 2) + " R"
	switch {
	case alone:
		row(squirt, p.Squirt(cue).Estimate, angle)
		row("end mass", p.EndMass(cue).Estimate, gram)
	case all.Used > 0:
		row(squirt, stat.Transform(all.Mass.Squirt(s.GearBall(), s.PivotSpin), func(v unit.Angle) float64 { return float64(v) }), angle)
		row("end mass", stat.Transform(all.Mass.Estimate(), func(v unit.Mass) float64 { return float64(v) }), gram)
	}
	if e := p.Pivot(cue); own && !alone && e.To < narrow*e.From {
		row("pivot length by this sitting alone", p.Pivot(cue).Estimate, long)
	}
	if p.N() > 0 {
		row("your aim spread", p.Scatter().Estimate, angle)
		row("your aim bias", p.AimBias().Estimate, angle)
	}
}

// strokesWords returns how many strokes a cue has, and in how many sittings.
func strokesWords(all *Together) string {
	said := strconv.Itoa(all.Strokes)
	if all.Sittings == 1 {
		return said
	}
	said += " in " + strconv.Itoa(all.Sittings) + " sittings"
	if all.Used > 0 && all.Used < all.Sittings {
		said += "; " + phrase.Count(all.Used, "counts", "count")
	}
	return said
}

// SinceWords says that a cue has changed. since is the day of the first stroke after that.
func SinceWords(since string) string {
	if since == "" {
		return ""
	}
	return "This cue changed: its strokes from " + since + " on do not agree with the older ones, which no longer count. A new tip, ferrule or shaft can do that, and so can a mistake."
}

// cleanBridges returns the shortest and the longest bridge with which a perfect
// back-hand stroke passes the gate clean. ok is false when there is no gate, no pivot
// length or no such bridge.
func cleanBridges(s *scenario.Scenario, pivot unit.Length) (from, to unit.Length, ok bool) {
	if s.Gate <= 0 || s.Gap <= 0 || pivot <= 0 {
		return 0, 0, false
	}
	sh, res := s.Shot(), new(shot.Result)
	sh.Cue.Pivot, sh.Hands.Back, sh.Hands.Front = pivot, 1, 0
	const step = 0.1 * unit.Inch
	for bridge := 5 * unit.Inch; bridge <= 30*unit.Inch; bridge += step {
		sh.Hands.Bridge = bridge
		shot.Play(&sh, res)
		if res.Reading.Verdict.Value != shot.Clean {
			continue
		}
		if !ok {
			from, ok = bridge, true
		}
		to = bridge
	}
	return from, to, ok
}

// between returns an interval in words, such as "12.2 to 13.9 in".
func between(d scenario.Display, i stat.Interval[float64]) string {
	return d.Number(i.From) + " to " + d.Format(i.To)
}

// choices returns the strokes that can be suggested to the player: at the shot's
// speed, with english that does not risk a miscue, with bridges in whole steps, with
// parallel or back-hand english, and observed at the gate or marked at the line of
// the gate or the target. At the table the user has chosen which of these.
func choices(m *app.Model) sitting.Choice {
	s := &m.Scene
	sh := s.Shot()
	c := sitting.Choice{
		Kinds: []sitting.Kind{sitting.ByMark}, Hands: []sitting.Hands{sitting.BackHand, sitting.Parallel},
		Speeds: []unit.Speed{sh.Speed}, Read: sitting.ByEye,
	}
	if s.Gate > 0 && s.Gap > 0 {
		c.Kinds = append(c.Kinds, sitting.ByGate)
		c.Lines = append(c.Lines, s.Gate)
	}
	if !slices.Contains(c.Lines, s.Dist) {
		c.Lines = append(c.Lines, s.Dist)
	}
	if m.Table.On {
		c.Kinds, c.Lines = []sitting.Kind{sitting.ByGate}, nil
		if m.Table.ByMark {
			c.Kinds, c.Lines = []sitting.Kind{sitting.ByMark}, []unit.Length{m.MarkLine()}
		}
	}
	step, first, last := unit.Inch, 6, 20
	if s.Units == "cm" {
		step, first, last = 2.5*unit.Centimetre, 6, 20
	}
	for n := first; n <= last; n++ {
		c.Bridges = append(c.Bridges, unit.Length(n)*step)
	}
	most, err := margin.PlayableSide(&sh, s.Scatter.Tip)
	if err != nil || most < leastSide {
		most = leastSide
	}
	for _, side := range []float64{0.3, 0.4, 0.5} {
		if side <= most {
			c.Sides = append(c.Sides, side)
		}
	}
	if c.Sides == nil {
		c.Sides = []float64{most}
	}
	if sides := tableSides(s); m.Table.On && sides != nil {
		c.Sides = sides
	}
	return c
}

// leastSide is the least english, in ball radii, that gives useful information.
const leastSide = 0.2

// suggest fills in a suggestion as words and settings.
func (f *Finding) suggest(s *scenario.Scenario, next *sitting.Suggestion) {
	played := *s
	played.Side = next.Side
	english := phrase.EnglishInFull(&played)
	f.Sets = []app.Setting{set(s, "side", next.Side), {Key: "front", Text: "0"}}
	if next.Hands == sitting.Parallel {
		f.Next = "Next: cue parallel to the aim line, " + english + "."
		f.Sets = append(f.Sets, app.Setting{Key: "back", Text: "0"})
	} else {
		f.Next = "Next: " + phrase.Brief(phrase.Length(s, next.Bridge)) + " bridge, back hand, " + english + "."
		f.Sets = append(f.Sets, set(s, "bridge", float64(next.Bridge)), app.Setting{Key: "back", Text: "1"})
	}
	if next.Kind == sitting.ByMark {
		f.Line = next.Line
		f.Next += " Mark where the ball crosses the line at " + phrase.Brief(phrase.Length(s, next.Line)) + "."
	} else {
		f.Next += " Tap what it hits first."
	}
}

// set returns the setting of a key to a value in SI units.
func set(s *scenario.Scenario, key string, v float64) app.Setting {
	return app.Setting{Key: key, Text: scenario.Find(key).Written(v, s.Units)}
}

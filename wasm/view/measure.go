package view

import (
	"math"
	"strconv"

	"pivotbench/core/scenario"
	"pivotbench/core/stat"
	"pivotbench/core/trial"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
)

// The bridge lengths a player can be asked for.
const (
	leastBridge = 5 * unit.Inch
	mostBridge  = 30 * unit.Inch
)

// precision is the half-width of the 90 % interval, as a share of the median,
// that is good enough.
const precision = 0.1

// A Fact is a name and what it comes to.
type Fact struct{ Name, Value string }

// A Finding is what the tries so far say, in words.
type Finding struct {
	Head  string
	Facts []Fact
	Next  string        // the next try and why; or that it is enough
	Sets  []app.Setting // the next try, for the controls; empty: none is suggested
	Limit string        // what the gate can't tell
	Flaws []string      // what about the set-up keeps its tries from telling much
	Pivot unit.Length   // the median, to be put in use; 0: no tries yet
}

// Weigh puts a posterior into words and chooses the next try.
func Weigh(s *scenario.Scenario, p *trial.Posterior) Finding {
	sh := s.Shot()
	next := settable(s, p, p.Next(&sh, s.Scatter.Tip, leastBridge, mostBridge))
	f := Finding{Head: "No tries yet", Flaws: flaws(s, p)}
	if p.N() > 0 {
		f.weighed(s, p)
	}
	more := p.MoreTries(next, precision)
	switch {
	case p.N() > 0 && more == 0:
		f.Head = "Good enough: " + f.Head
		f.Next = "The 90 % interval is within " + phrase.Percent(precision) + " of the middle. Further tries still narrow it."
	case next.Bits < 0.02:
		f.Next = "With this set-up hardly any try tells more: see what would help below."
	default:
		f.Sets = nextSets(s, next)
		f.Next = "Next: bridge " + phrase.Brief(phrase.Length(s, next.Bridge)) + ", english to the " + side(next.Right)
		if next.Side != math.Abs(s.Side) {
			f.Next += " by " + unit.Round(next.Side, unit.Ratio, "", 2) + " R"
		}
		if next.Gap != s.Gap {
			f.Next += ", gap " + scenario.Find("gap").Display(s.Units).Format(float64(next.Gap))
		}
		f.Next += ", which should tell most (" + unit.Round(next.Bits, unit.Ratio, "", 2) + " bit)."
		const few, many = 3, 60 // tries before a forecast is worth anything, and more than anybody makes
		switch {
		case p.N() < few:
		case more <= many:
			f.Next += " About " + strconv.Itoa(more) + " more for ± " + phrase.Percent(precision) + "."
		case more < math.MaxInt:
			f.Next += " More than " + strconv.Itoa(many) + " more for ± " + phrase.Percent(precision) + ": see below what would help."
		default:
			f.Next += " With this set-up it stays at ± " + phrase.Percent(next.Floor) + " at the best, since the elevation is known only to a degree or so."
		}
	}
	return f
}

func side(right bool) string {
	if right {
		return "right"
	}
	return "left"
}

// settable is a suggestion as a person can set it, and what that tells: its
// bridge, its english and its gap are whole steps.
func settable(s *scenario.Scenario, p *trial.Posterior, next trial.Suggestion) trial.Suggestion {
	next.Bridge = unit.Length(scenario.Find("bridge").Snapped(float64(next.Bridge), s.Units, pullSteps))
	if next.Side != math.Abs(s.Side) {
		next.Side = scenario.Find("side").Stepped(next.Side, s.Units, math.Round)
	}
	if next.Gap != s.Gap { // no tighter than was found, and no wider than it is
		next.Gap = min(s.Gap, unit.Length(scenario.Find("gap").Stepped(float64(next.Gap), s.Units, math.Ceil)))
	}
	sh := s.Shot()
	return p.Retold(&sh, next)
}

// pullSteps are the steps of the bridge between suggestions: half an inch, or
// half a centimetre, is as near as it matters.
const pullSteps = 5

// nextSets is a suggestion as controls: pure back-hand english.
func nextSets(s *scenario.Scenario, next trial.Suggestion) []app.Setting {
	offset := next.Side
	if !next.Right {
		offset = -offset
	}
	return []app.Setting{
		set(s, "bridge", float64(next.Bridge)), set(s, "side", offset),
		{Key: "back", Text: "1"}, {Key: "front", Text: "0"}, set(s, "gap", float64(next.Gap)),
	}
}

// set is a key's value in SI as a setting.
func set(s *scenario.Scenario, key string, v float64) app.Setting {
	return app.Setting{Key: key, Text: scenario.Find(key).Written(v, s.Units)}
}

// weighed fills in what the tries say.
func (f *Finding) weighed(s *scenario.Scenario, p *trial.Posterior) {
	pivot := p.Pivot()
	f.Pivot = unit.Length(pivot.Median)
	long := scenario.DisplayOf(unit.LengthKind, s.Units)
	angle := scenario.Display{Quantity: unit.AngleKind, Unit: "°", Decimals: 2}
	gram := scenario.Display{Quantity: unit.MassKind, Unit: "g", Decimals: 1}
	f.Head = "pivot " + long.Format(pivot.Median) + ", " + phrase.Within(s, unit.Length(pivot.From), unit.Length(pivot.To))
	row := func(name string, e stat.Summary[float64], d scenario.Display) {
		f.Facts = append(f.Facts, Fact{name, d.Format(e.Median) + " (90 %: " + d.Number(e.From) + " to " + d.Number(e.To) + ")"})
	}
	f.Facts = append(f.Facts, Fact{"tries", strconv.Itoa(p.N())})
	f.Facts = append(f.Facts, Fact{"as likely as not", long.Number(pivot.Half.From) + " to " + long.Format(pivot.Half.To)})
	row("squirt at "+unit.Round(s.PivotSpin, unit.Ratio, "", 2)+" R", p.Squirt(), angle)
	row("end mass", p.EndMass(), gram)
	row("the shooter's scatter", p.Scatter(), angle)
	row("the shooter's aim error", p.AimError(), angle)
	sh := s.Shot()
	if from, to, ok := trial.PassRange(&sh, f.Pivot, leastBridge, mostBridge); ok {
		f.Limit = "With such a cue every bridge from " + long.Number(float64(from)) + " to " + long.Format(float64(to)) +
			" passes this gate clean off a perfect stroke: one clean pass says no more than that."
	}
}

// flaws say what about the set-up keeps its tries from telling much.
func flaws(s *scenario.Scenario, p *trial.Posterior) []string {
	sh := s.Shot()
	var out []string
	for _, f := range p.Flaws(&sh, leastBridge, mostBridge) {
		switch f.Fault {
		case trial.WideGap:
			out = append(out, "The gap is wide: for a cue as it is known by now, bridges as far apart as "+phrase.Percent(f.Size)+" of its pivot length all pass clean.")
		case trial.Swerving:
			out = append(out, "Swerve hides squirt at this speed and elevation: with the elevation known to a degree, the pivot length stays at ± "+phrase.Percent(f.Size)+" however many tries are made.")
		case trial.LittleSide:
			out = append(out, "So little english hardly tells: a pivot length a tenth longer moves the ball by "+phrase.Percent(f.Size)+" of a stroke's own scatter.")
		}
	}
	return out
}

// Doubt says why a try of the log, counted from zero, does not help; empty: it
// does. A try that was not taken can't have been.
func Doubt(try int, taken bool, wrong float64) string {
	name := "Try " + strconv.Itoa(try+1)
	switch {
	case !taken:
		return name + " is left out: no ball of that speed comes to that gate."
	case wrong > 0.5:
		return name + " contradicts the others: more likely than not (" + phrase.Percent(wrong) + ") it was noted down wrongly. It is counted as such; correct it if you know better."
	}
	return ""
}

// Help says which change of the set-up would help most, and what it takes.
func Help(s *scenario.Scenario, p *trial.Posterior) (string, []app.Setting) {
	sh := s.Shot()
	change, _ := p.Improve(&sh, s.Scatter.Tip, leastBridge, mostBridge)
	if change == trial.NoChange {
		return "No single change of gap, english, speed, elevation or distance would help much.", nil
	}
	changed := sh
	change.Apply(&changed, s.Scatter.Tip)
	key, value := "", 0.0
	switch change {
	case trial.NarrowGap:
		key, value = "gap", float64(changed.Gate.Gap)
	case trial.MoreSide:
		key, value = "side", math.Copysign(changed.Contact.Side, s.Side)
	case trial.Faster:
		key, value = "speed", float64(changed.Speed)
		if s.ByStroke {
			key = "stroke"
		}
	case trial.LevelCue:
		key, value = "elev", float64(changed.Elevation)
	case trial.FartherGate:
		key, value = "gate", float64(changed.Gate.Dist)
	}
	k := scenario.Find(key)
	value = k.Stepped(value, s.Units, math.Round)
	round := *s
	k.Put(&round, value)
	other := round.Shot()
	factor := p.Narrower(&sh, &other, leastBridge, mostBridge)
	d := k.Display(s.Units)
	what := map[trial.Change]string{
		trial.NarrowGap: "a narrower gap", trial.MoreSide: "more english", trial.Faster: "a faster stroke",
		trial.LevelCue: "a more level cue", trial.FartherGate: "a gate further away",
	}[change]
	return "What would help most: " + what + ", " + d.Format(value) + "; after twenty more tries the interval would be " + unit.Round(factor, unit.Ratio, "", 1) + " times narrower.",
		[]app.Setting{set(s, key, value)}
}

package show

import (
	"pivotbench/core/contact"
	"pivotbench/core/gear"
	"pivotbench/core/hop"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
	"pivotbench/wasm/words"
)

// A HopRow is a cue and what the same stroke with it comes to.
type HopRow struct{ Name, Speed, Squirt, Rises, Lands, Clears string }

// A HopCues compares cues on a hop.
type HopCues struct {
	Head string
	Rows []HopRow
	Note string
	Why  string // there is nothing to compare
}

// Table is the comparison as figures: what matters most comes first.
func (h HopCues) Table() Table {
	t := Table{Columns: []string{"ball", "clears", "rises", "lands", "squirts"}}
	for _, r := range h.Rows {
		t.Rows = append(t.Rows, Row{r.Name, []string{r.Speed, r.Clears, r.Rises, r.Lands, r.Squirt}})
	}
	return t
}

// lightTip is the restitution of the light example's tip.
const lightTip = 0.87

// exampleCues are invented, to show what mass, end and tip do to a hop.
func exampleCues(bench gear.Cue) (heavyEnd, light gear.Cue) {
	heavyEnd, light = bench, bench
	heavyEnd.Pivot *= 2.0 / 3
	light.Mass, light.Tip.Restitution = 280*unit.Gram, lightTip
	return heavyEnd, light
}

// CompareHops plays the stroke with the bench's cue, two examples and the
// scenario's further cues, at the same speed of the hand; the light one also
// with the same work.
func CompareHops(s *scenario.Scenario, res *shot.Result) HopCues {
	if res.Launched != nil {
		return HopCues{Why: res.Launched.Error()}
	}
	sh, hand := s.Shot(), res.Reading.CueSpeed.Value
	out := HopCues{Head: "The same hand: every cue at " + pace(s, hand)}
	add := func(name string, cue gear.Cue, speed unit.Speed) {
		out.Rows = append(out.Rows, hopRow(s, &sh, name, cue, speed))
	}
	heavyEnd, light := exampleCues(sh.Cue)
	add("this cue", sh.Cue, hand)
	add("example, heavier end: pivot "+words.Length(s, heavyEnd.Pivot), heavyEnd, hand)
	name := "example, light with a hard tip: " + scenario.DisplayOf(unit.MassKind, s.Units).Format(float64(light.Mass)) + ", " + unit.Round(lightTip, unit.Ratio, "", 2)
	add(name, light, hand)
	worked := hop.SameWork(hand, sh.Cue.Mass, light.Mass)
	add("the same, given the same work: "+pace(s, worked), light, worked)
	for _, c := range s.More {
		if c.Pivot == 0 {
			continue
		}
		if name = c.Name; name == "" {
			name = "further cue"
		}
		cue := sh.Cue
		cue.Pivot, cue.PivotSpin, cue.Mass, cue.Tip.Dome, cue.Tip.Restitution = c.Pivot, c.PivotSpin, c.Mass, c.Tip, c.Bounce
		add(name, cue, hand)
	}
	out.Note = hopNote(s, &sh)
	return out
}

func hopRow(s *scenario.Scenario, sh *shot.Shot, name string, cue gear.Cue, speed unit.Speed) HopRow {
	try := hop.With(sh, cue, speed)
	if try.Err != nil {
		return HopRow{Name: name, Clears: try.Err.Error()}
	}
	row := HopRow{Name: name, Speed: pace(s, try.BallSpeed), Squirt: words.Turned(-try.Squirt), Rises: "–", Lands: "–"}
	if try.Rise > 0 {
		row.Rises, row.Lands = words.Small(s, float64(try.Rise)), words.Length(s, try.Reach)
	}
	switch room := min(try.Passage.Left, try.Passage.Right); {
	case try.Gate != nil:
		row.Clears = "–"
	case room < 0:
		row.Clears = "touches"
	case try.Passage.Verdict == contact.Short:
		row.Clears = "short"
	default:
		row.Clears = "by " + words.Small(s, float64(room))
	}
	return row
}

// hopNote says what mass and tip do, and how far a harder tip makes up for
// less mass.
func hopNote(s *scenario.Scenario, sh *shot.Shot) string {
	note := "At the same speed of the hand a harder tip gives the ball more and a lighter cue less. "
	limit := hop.Lightest(sh.Ball, sh.Cue, lightTip)
	grams := scenario.DisplayOf(unit.MassKind, s.Units)
	if limit < sh.Cue.Mass {
		note += "A tip of " + unit.Round(lightTip, unit.Ratio, "", 2) + " makes up for a lighter cue down to " + grams.Format(float64(limit)) + ". "
	}
	return note + "Given the same work a lighter cue is faster, and the ball too, down to a cue as light as the ball; an arm has weight of its own, so the truth lies between."
}

package view

import (
	"pivotbench/core/gear"
	"pivotbench/core/hop"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
	"pivotbench/wasm/phrase"
)

// A HopRow is a cue and the result of the stroke with it.
type HopRow struct{ Name, Speed, Squirt, Rises, Lands, Clears string }

// HopCues is a comparison of cues for a hop.
type HopCues struct {
	Head string
	Rows []HopRow
	Note string
	Why  string // why there is no comparison; empty when there is one
}

// Table returns the comparison as a table, with the most important column first.
func (h HopCues) Table() Table {
	t := Table{Columns: []string{phrase.ReadingName("ball-speed"), "clears", "rises", "lands", phrase.ReadingName("squirt")}}
	for _, r := range h.Rows {
		t.Rows = append(t.Rows, Row{r.Name, []string{r.Speed, r.Clears, r.Rises, r.Lands, r.Squirt}})
	}
	return t
}

// Values of the example cues, which are invented: an ordinary and a low-deflection
// shaft, and a light cue with a hard tip. Pivot lengths and masses are common
// practice, no source.
const (
	ordinaryPivot = 9.5 * unit.Inch
	lowPivot      = 19 * unit.Inch
	lightMass     = 280 * unit.Gram
	lightTip      = 0.87 // restitution
	// english is the tip offset, in ball radii, for which squirt is given when the
	// shot has no english.
	english = 0.4
)

// CompareHops simulates the stroke with the current cue, three example cues and the
// scenario's further cues, all with the same elevation, contact and hand speed. It
// also simulates the light cue with the same work done by the hand.
func CompareHops(s *scenario.Scenario, contacts *Contacts) HopCues {
	sh := s.Shot()
	_, _, hand, err := sh.Stroke()
	if err != nil {
		return HopCues{Why: err.Error()}
	}
	out := HopCues{Head: "Every cue with the same elevation and tip position, at a cue speed of " + pace(s, hand)}
	add := func(name string, cue gear.Cue, ratios []float64, speed unit.Speed) {
		out.Rows = append(out.Rows, hopRow(s, &sh, name, cue, ratios, speed))
	}
	usual := func(cue gear.Cue) []float64 { return hop.Spaced(hop.Usual(cue.Tip).Ratios(), hop.Enough) }
	add(CurrentCue, sh.Cue, contacts.ratios(), hand)
	shaft := func(name string, pivot unit.Length) {
		cue := sh.Cue
		cue.Pivot, cue.PivotSpin = pivot, 0.5
		add("example, "+name+" shaft: "+phrase.KeyName("pivot")+" "+phrase.Length(s, pivot), cue, contacts.ratios(), hand)
	}
	shaft("ordinary", ordinaryPivot)
	shaft("low-deflection", lowPivot)
	light := sh.Cue
	light.Mass, light.Tip.Restitution = lightMass, lightTip
	add("example, light with a hard tip: "+scenario.DisplayOf(unit.MassKind, s.Units).Format(float64(lightMass))+", "+phrase.KeyName("bounce")+" "+unit.Round(lightTip, unit.Ratio, "", 2), light, usual(light), hand)
	worked := hop.SameWork(hand, sh.Cue.Mass, light.Mass)
	add("the same with the same effort: "+pace(s, worked), light, usual(light), worked)
	for i, c := range s.More {
		if c.Pivot == 0 {
			continue
		}
		name := c.Name
		if name == "" {
			name = phrase.CueName(c.Name, i+1)
		}
		cue := sh.Cue
		cue.Pivot, cue.PivotSpin, cue.Mass, cue.Tip.Dome, cue.Tip.Restitution = c.Pivot, c.PivotSpin, c.Mass, c.Tip, c.Bounce
		add(name, cue, usual(cue), hand)
	}
	out.Note = "A hard tip lets go before the table pushes back, so the ball hops much higher. A lighter cue with the same tip lets go sooner too, but sends the ball off slower: it may hop higher or lower. The Reference says when. The shaft matters little to a hop, but a low-deflection one squirts less."
	if s.Side == 0 {
		out.Note += " This shot has no english, so squirt is given for right english, " + unit.Round(english, unit.Ratio, "", 2) + " R, with a level cue."
	}
	return out
}

func hopRow(s *scenario.Scenario, sh *shot.Shot, name string, cue gear.Cue, ratios []float64, speed unit.Speed) HopRow {
	try := hop.With(sh, ratios, cue, speed)
	if try.Err != nil {
		return HopRow{Name: name, Clears: try.Err.Error()}
	}
	squirt := phrase.Turned(-try.Squirt)
	if s.Side == 0 {
		squirt = phrase.Turned(-squirtOf(sh.Ball, cue))
	}
	small := func(r stat.Interval[unit.Length]) string {
		return phrase.Range(phrase.Small(s, float64(r.From)), phrase.Small(s, float64(r.To)))
	}
	row := HopRow{Name: name, Speed: pace(s, try.BallSpeed), Squirt: squirt, Rises: "–", Lands: "–"}
	if try.Rise.To > 0 {
		row.Rises, row.Lands = small(try.Rise), phrase.Range(phrase.Length(s, try.Reach.From), phrase.Length(s, try.Reach.To))
	}
	switch {
	case try.Gate != nil:
		row.Clears = "–"
	case try.Room.To < 0:
		row.Clears = "touches"
	case try.Room.From < 0:
		row.Clears = "may touch"
	case try.Short:
		row.Clears = "short"
	default:
		row.Clears = "by " + small(try.Room)
	}
	return row
}

// squirtOf returns a cue's squirt with a tip offset of english at centre height and
// a level cue.
func squirtOf(ball gear.Ball, cue gear.Cue) unit.Angle {
	k, err := strike.MassRatio(ball, cue)
	if err != nil {
		return 0 // an impossible cue has been rejected earlier
	}
	return strike.Deflection(english, k)
}

package store

import (
	"errors"
	"slices"
	"strings"

	"pivotbench/core/scenario"
	"pivotbench/core/sitting"
	"pivotbench/core/typed"
	"pivotbench/core/unit"
	"pivotbench/wasm/codec"
)

// A Stroke is one shot of a sitting: as it was meant, the cue it was played with,
// and what was seen of it.
type Stroke struct {
	Cue  string // the name of the cue; empty: one without a name
	Link string // the shot as it was meant
	See  string // at a gate: left, clean or right; empty: it was marked
	Mark string // else where the ball's centre came to the line, sideways, with its unit; right is positive
	At   string // how far down the table that line is, with its unit
	Read string // one standard deviation of the mark's reading, with its unit
	When string // the device's date and time, for people
}

func (k *Stroke) fields(f codec.Fields) {
	f.Text("cue", &k.Cue)
	f.Text("link", &k.Link)
	f.TextIfAny("see", &k.See)
	f.TextIfAny("mark", &k.Mark)
	f.TextIfAny("at", &k.At)
	f.TextIfAny("read", &k.Read)
	f.Text("when", &k.When)
}

// tryFields are those of a try, which is what versions 1 and 2 of the file call
// a stroke at a gate with a cue whose name they don't know.
func tryFields(k *Stroke, f codec.Fields) {
	f.Text("link", &k.Link)
	f.Text("outcome", &k.See)
	f.Text("when", &k.When)
}

// Outcomes are the words for what is seen at a gate, by sitting.Gate.
var Outcomes = []string{sitting.Left: "left", sitting.Clean: "clean", sitting.Right: "right"}

// Clean returns the stroke with its texts as they are kept and read.
func (k Stroke) Clean() Stroke {
	for _, at := range []*string{&k.Cue, &k.Mark, &k.At, &k.Read} {
		*at = clean(*at)
	}
	k.When, _ = typed.Lines(k.When, len(k.When))
	return k
}

// Faults returns what is wrong with a stroke, in words.
func (k *Stroke) Faults() []string {
	scene, problems := scenario.Parse(k.Link)
	_, wrong := k.sight(&scene)
	return slices.Concat(inWords(problems), NameFaults("cue", k.Cue), wrong)
}

// Stroke returns the stroke as the computation takes it: cue is its place among
// the sitting's cues, and reference the contact offset at which the pivot length
// is told. An error says what is wrong with it.
func (k Stroke) Stroke(cue int, reference float64) (sitting.Stroke, error) {
	s, _ := scenario.Parse(k.Link)
	s.PivotSpin = reference
	seen, wrong := k.sight(&s)
	if wrong != nil {
		return sitting.Stroke{}, errors.New(strings.Join(wrong, "; "))
	}
	return sitting.Stroke{Cue: cue, Shot: s.Shot(), Seen: seen}, nil
}

// sight returns what was seen of a stroke, or what is wrong with it.
func (k *Stroke) sight(s *scenario.Scenario) (seen sitting.Sight, wrong []string) {
	switch {
	case k.See == "" && k.Mark == "":
		return nil, []string{"it does not say what was seen: " + strings.Join(Outcomes, ", ") + " at a gate, or where the ball was marked, such as -1.9in"}
	case k.See != "" && k.Mark != "":
		return nil, []string{"seen at a gate as “" + clip(k.See) + "” and marked at “" + clip(k.Mark) + "”: a stroke has one of these"}
	case k.See != "" && (k.At != "" || k.Read != ""):
		return nil, []string{"seen at a gate as “" + clip(k.See) + "”, but with the line “" + clip(k.At) + "” and the reading error “" + clip(k.Read) + "” of a mark: leave them out"}
	case k.See != "":
		gate := slices.Index(Outcomes, k.See)
		if gate < 0 {
			return nil, []string{"seen at a gate as “" + clip(k.See) + "”, allowed: " + strings.Join(Outcomes, ", ")}
		}
		return sitting.Gate(gate), nil
	}
	table := s.GearTable()
	shown := func(v unit.Length) string { return scenario.DisplayOf(unit.LengthKind, s.Units).Format(float64(v)) }
	read := func(what, text, allowed string, fits func(unit.Length) bool) unit.Length {
		v, err := unit.Parse(text, unit.LengthKind, "")
		if err != nil {
			wrong = append(wrong, what+": "+err.Error())
		} else if !fits(unit.Length(v)) {
			wrong = append(wrong, what+" “"+text+"”, allowed: "+allowed)
		}
		return unit.Length(v)
	}
	mark := sitting.Mark{Across: table.Width}
	mark.At = read("mark", k.Mark, "up to "+shown(table.Width)+" to either side, the width of the table",
		func(v unit.Length) bool { return unit.Abs(v) <= table.Width })
	mark.Line = read("distance of the line (at)", k.At, "more than 0 and up to "+shown(table.Length)+", the length of the table",
		func(v unit.Length) bool { return v > 0 && v <= table.Length })
	mark.Read = read("reading error (read)", k.Read, "more than 0 and up to "+shown(table.Width)+", the width of the table",
		func(v unit.Length) bool { return v > 0 && v <= table.Width })
	return mark, wrong
}

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

// A Stroke is one recorded shot of a sitting: the intended shot, the cue and what was
// seen. It was seen either at a gate (See) or as a mark on a line (Mark, At and Read); a
// film of it adds to the mark. Lengths carry their units.
type Stroke struct {
	Cue  string // name of the cue; empty means a cue without a name
	Link string // the intended shot, as a scenario
	See  string // what was seen at a gate: one of Outcomes; empty for a mark
	Mark string // sideways position of the ball's centre at the line, positive to the right; empty for a gate
	At   string // distance of the line down the table; empty for a gate
	Read string // standard deviation of the error in reading the mark; empty for a gate
	Film Film   // what a video shows beyond the mark
	When string // date and time on the device, for people
}

func (k *Stroke) fields(f codec.Fields) {
	f.Text("cue", &k.Cue)
	f.Text("link", &k.Link)
	f.TextIfAny("see", &k.See)
	f.TextIfAny("mark", &k.Mark)
	f.TextIfAny("at", &k.At)
	f.TextIfAny("read", &k.Read)
	codec.Record(f, "film", k.Film != (Film{}), &k.Film, (*Film).fields)
	f.Text("when", &k.When)
}

// tryFields lists the fields of a try. Versions 1 and 2 of the file have tries: strokes
// at a gate without the name of the cue.
func tryFields(k *Stroke, f codec.Fields) {
	f.Text("link", &k.Link)
	f.Text("outcome", &k.See)
	f.Text("when", &k.When)
}

// Outcomes maps each sitting.Gate to its word in a record.
var Outcomes = []string{sitting.Left: "left", sitting.Clean: "clean", sitting.Right: "right"}

// Clean returns the stroke with its texts normalized for storage.
func (k Stroke) Clean() Stroke {
	for _, at := range []*string{&k.Cue, &k.Mark, &k.At, &k.Read, &k.Film.Launch, &k.Film.Speed, &k.Film.Cov} {
		*at = clean(*at)
	}
	k.When, _ = typed.Lines(k.When, len(k.When))
	return k
}

// Across returns a stroke with left and right exchanged: with its mark on the other side
// of the aim line, or with the other blocker hit.
func (k Stroke) Across() Stroke {
	if gate := slices.Index(Outcomes, k.See); gate >= 0 {
		k.See = Outcomes[len(Outcomes)-1-gate]
		return k
	}
	if rest, negative := strings.CutPrefix(k.Mark, "-"); negative {
		k.Mark = rest
	} else {
		k.Mark = "-" + strings.TrimPrefix(k.Mark, "+")
	}
	return k
}

// Faults describes everything that is wrong with a stroke. It returns nil for a valid
// stroke.
func (k *Stroke) Faults() []string {
	scene, problems := scenario.Parse(k.Link)
	_, wrong := k.sight(&scene)
	return slices.Concat(inWords(problems), NameFaults("cue", k.Cue), wrong)
}

// Stroke converts the stroke for computation. cue is the index of its cue in the
// sitting, and reference is the tip offset, in ball radii, at which the pivot length is
// given. The error says what is wrong with the stroke.
func (k Stroke) Stroke(cue int, reference float64) (sitting.Stroke, error) {
	s, _ := scenario.Parse(k.Link)
	s.PivotSpin = reference
	seen, wrong := k.sight(&s)
	if wrong != nil {
		return sitting.Stroke{}, errors.New(strings.Join(wrong, "; "))
	}
	return sitting.Stroke{Cue: cue, Shot: s.Shot(), Seen: seen}, nil
}

// sight returns what was seen of a stroke, or describes what is wrong with it.
func (k *Stroke) sight(s *scenario.Scenario) (seen sitting.Sight, wrong []string) {
	switch {
	case k.See == "" && k.Mark == "":
		return nil, []string{"a stroke needs what the ball hit (see: " + strings.Join(Outcomes, ", ") + ") or a mark, such as -1.9in"}
	case k.See != "" && k.Mark != "":
		return nil, []string{"a stroke can't have both what the ball hit (see), “" + clip(k.See) + "”, and a mark, “" + clip(k.Mark) + "”"}
	case k.See != "" && (k.At != "" || k.Read != ""):
		return nil, []string{"a stroke at a gate, “" + clip(k.See) + "”, can't have the line “" + clip(k.At) + "” and the reading error “" + clip(k.Read) + "” of a mark: leave them out"}
	case k.See != "" && k.Film != (Film{}):
		return nil, []string{"a stroke at a gate, “" + clip(k.See) + "”, can't have a film: leave it out"}
	case k.See != "":
		gate := slices.Index(Outcomes, k.See)
		if gate < 0 {
			return nil, []string{"what the ball hit (see): “" + clip(k.See) + "”, allowed: " + strings.Join(Outcomes, ", ")}
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
	if wrong != nil || k.Film == (Film{}) {
		return mark, wrong
	}
	film, wrong := k.Film.sight(mark)
	if wrong != nil {
		return nil, wrong
	}
	return film, nil
}

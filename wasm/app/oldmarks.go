package app

import (
	"slices"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/store"
)

// TakeMarks makes strokes of the marks that an older version kept as text. They
// were played parallel; the shot is otherwise that on the bench, since it was not
// kept with them. Marks that can't be read stay as they are.
type TakeMarks struct{ When string }

func (e TakeMarks) update(m Model) Model {
	m = m.settled()
	old, units := m.Kept.Marks, m.Scene.Units
	line, err := unit.Parse(old.Rail, unit.LengthKind, units)
	if err != nil {
		return m.refused([]string{"the distance to the rail: " + err.Error()})
	}
	k := m.Kept
	k.Strokes, k.Marks = slices.Clip(k.Strokes), store.Marks{}
	for _, list := range []struct {
		cue, text string
		sign      float64
	}{{m.Measuring, old.Right, 1}, {m.Measuring, old.Left, -1}, {"other cue", old.OtherRight, 1}, {"other cue", old.OtherLeft, -1}} {
		if list.text == "" {
			continue
		}
		marks, err := store.ReadLengths(list.text, units)
		if err != nil {
			return m.refused([]string{"the marks “" + list.text + "”: " + err.Error()})
		}
		shot := parallel(m.Scene, list.sign)
		for _, at := range marks {
			stroke := store.Stroke{Cue: list.cue, Link: shot.Format(), Mark: store.Length(float64(at)), At: store.Length(line), Read: "3mm", When: e.When}.Clean()
			if faults := stroke.Faults(); faults != nil {
				return m.refused(faults)
			}
			k.Strokes = append(k.Strokes, stroke)
		}
	}
	return m.keep(k)
}

// parallel is a shot with its english to a side, put on with both hands together.
func parallel(s scenario.Scenario, sign float64) scenario.Scenario {
	if (s.Side < 0) != (sign < 0) {
		s.Side = -s.Side
	}
	s.Back, s.Front = 0, 0
	return s
}

package app

import (
	"slices"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/store"
)

// TakeMarks converts the marks that an older version kept as text into strokes. Their
// shot is the current one with parallel english, because the older version did not keep
// the shot. If any mark cannot be read, only the notices change.
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

// parallel returns the shot with parallel english on the side of sign, positive for
// right.
func parallel(s scenario.Scenario, sign float64) scenario.Scenario {
	if (s.Side < 0) != (sign < 0) {
		s.Side = -s.Side
	}
	s.Back, s.Front = 0, 0
	return s
}

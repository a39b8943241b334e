package store

import "pivotbench/wasm/codec"

// Marks holds the typed text of marks on a rail, as older versions kept them. A mark is
// the sideways position of the ball's centre, positive to the right. Right and Left are
// lists of marks for strokes with right and left english.
type Marks struct {
	Rail  string // distance the ball's centre travels to the cushion
	Right string
	Left  string

	// Marks of another cue with the same shot, for comparison.
	OtherRight string
	OtherLeft  string
}

func (m *Marks) fields(f codec.Fields) {
	f.Text("rail", &m.Rail)
	f.Text("right", &m.Right)
	f.Text("left", &m.Left)
	f.TextIfAny("otherRight", &m.OtherRight)
	f.TextIfAny("otherLeft", &m.OtherLeft)
}

// Clean returns the marks with their texts normalized for storage.
func (m Marks) Clean() Marks {
	for _, at := range []*string{&m.Rail, &m.Right, &m.Left, &m.OtherRight, &m.OtherLeft} {
		*at = clean(*at)
	}
	return m
}

// Other returns the other cue's marks.
func (m Marks) Other() Marks {
	return Marks{Rail: m.Rail, Right: m.OtherRight, Left: m.OtherLeft}
}

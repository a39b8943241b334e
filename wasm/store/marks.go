package store

import "pivotbench/wasm/codec"

// Marks are marks on a rail as they were typed: sideways places of the ball's
// centre, positive to the right, for either side of english.
type Marks struct {
	Rail  string // from the ball's centre to where it is at the cushion
	Right string
	Left  string

	// Those of another cue off the same shot, to be held against.
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

// Clean returns the marks with their texts as they are kept and read.
func (m Marks) Clean() Marks {
	for _, at := range []*string{&m.Rail, &m.Right, &m.Left, &m.OtherRight, &m.OtherLeft} {
		*at = clean(*at)
	}
	return m
}

// Other are the other cue's marks.
func (m Marks) Other() Marks {
	return Marks{Rail: m.Rail, Right: m.OtherRight, Left: m.OtherLeft}
}

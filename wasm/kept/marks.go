package kept

// Marks are marks on a rail as they were typed: sideways places of the ball's
// centre, positive to the right, for either side of english.
type Marks struct {
	Rail  string `json:"rail"` // from the ball's centre to where it is at the cushion
	Right string `json:"right"`
	Left  string `json:"left"`

	// Those of another cue off the same shot, to be held against.
	OtherRight string `json:"otherRight,omitempty"`
	OtherLeft  string `json:"otherLeft,omitempty"`
}

// Other are the other cue's marks.
func (m Marks) Other() Marks {
	return Marks{Rail: m.Rail, Right: m.OtherRight, Left: m.OtherLeft}
}

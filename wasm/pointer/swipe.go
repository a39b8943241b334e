package pointer

import "math"

// An intent is what a finger on a slider is meant to do.
type intent int

const (
	unsure    intent = iota
	sliding          // the slider follows it
	scrolling        // the page follows it, and the slider stays where it is
)

// sure is how far a finger moves, in CSS pixels, before its intent is known.
const sure = 8

// meant distinguishes a drag of a slider from a swipe over it by how far the finger has
// moved, in CSS pixels. Only a clearly sideways movement is a drag: at least twice as far
// sideways as up or down.
func meant(dx, dy float64) intent {
	switch side, up := math.Abs(dx), math.Abs(dy); {
	case side >= sure && side >= 2*up:
		return sliding
	case up >= sure:
		return scrolling
	}
	return unsure
}

// A track is the range of a slider, and its length in CSS pixels.
type track struct{ lo, hi, length float64 }

// moved returns the value of a slider after a finger moves dx pixels to the right,
// starting from another value. The finger need not be on the thumb: the slider moves as
// far as the finger does.
func (t track) moved(from, dx float64) float64 {
	if t.length <= 0 {
		return from
	}
	return min(max(from+dx/t.length*(t.hi-t.lo), t.lo), t.hi)
}

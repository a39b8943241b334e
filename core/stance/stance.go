// Package stance describes where the hands are: how dialling in sidespin with the back
// hand, the front hand or both turns and shifts the cue.
package stance

import (
	"errors"
	"math"

	"pivotbench/core/unit"
)

// Errors of a stance.
var (
	ErrTurn   = errors.New("the cue would turn past 90°: use smaller shares or a longer bridge")
	ErrNoSide = errors.New("a shot with no english has nothing to share between the hands")
)

// Hands is a player's stance. Lengths are measured in plan, whatever the elevation.
type Hands struct {
	Bridge unit.Length // L, from the face of the ball to the pivot point on the bridge hand
	Grip   unit.Length // G, from that pivot point back to the grip hand
	Back   float64     // b, share of the sidespin dialled in by the back hand, which pivots the cue about the bridge
	Front  float64     // f, share dialled in by the front hand, which pivots the cue about the grip
	// The rest, 1 − b − f, is a parallel shift. Any share may lie outside 0..1.
}

// Moved returns the stance when the front hand really moves gain times as far as the
// player feels it move. The back hand makes up the rest, since the tip ends where the
// player sees it. The front hand moves in proportion to its share, so its share is what
// is multiplied.
func (h Hands) Moved(gain float64) Hands {
	front := gain * h.Front
	h.Back += h.Front - front
	h.Front = front
	return h
}

// A Turn is how the cue and the hands move when sidespin is dialled in.
type Turn struct {
	Heading unit.Angle  // δ, positive to the right
	Bridge  unit.Length // how far the bridge hand moved to the right
	Grip    unit.Length // how far the grip hand moved to the right
}

// Apply dials in sidespin. axis is a, the signed distance from the ball's centre to the
// cue's axis, positive to the right; radius is the ball's radius.
//
//	sin δ = a [b/(L+R) + f/(L+R+G)]
//	X_b cos δ = a − (L+R) sin δ
//
// It returns ErrTurn if no heading has that sine.
func (h Hands) Apply(axis, radius unit.Length) (Turn, error) {
	reach := h.Bridge + radius
	sin := float64(axis) * (h.Back/float64(reach) + h.Front/float64(reach+h.Grip))
	if !(math.Abs(sin) < 1) {
		return Turn{}, ErrTurn
	}
	cos := math.Sqrt(1 - sin*sin)
	across := func(back unit.Length) unit.Length {
		return (axis - back*unit.Length(sin)) / unit.Length(cos)
	}
	return Turn{
		Heading: unit.Angle(math.Asin(sin)),
		Bridge:  across(reach),
		Grip:    across(reach + h.Grip),
	}, nil
}

// Wander returns the heading, positive to the right, when the tip strays during the
// stroke until the cue's axis passes the ball at another distance. t is the turn of the
// cue that was dialled in, at the start of the stroke. The bridge hand is planted where
// that has put it and the cue turns about it, whichever hand dialled:
//
//	axis = X_b cos δ + (L+R) sin δ
//
// It returns ErrTurn if no heading does that.
func (h Hands) Wander(t Turn, axis, radius unit.Length) (unit.Angle, error) {
	across, back := float64(t.Bridge), float64(h.Bridge+radius)
	sin := float64(axis) / math.Hypot(across, back)
	if !(math.Abs(sin) < 1) {
		return 0, ErrTurn
	}
	return unit.Angle(math.Asin(sin) - math.Atan2(across, back)), nil
}

// BackShare returns the back-hand share b that gives a heading when the front hand does
// the rest (f = 1 − b), at this bridge and grip. It may be below 0 or above 1. It returns
// ErrNoSide if axis is 0, and ErrTurn if the heading is 90° or more, which no share
// gives.
func (h Hands) BackShare(heading unit.Angle, axis, radius unit.Length) (float64, error) {
	if axis == 0 {
		return 0, ErrNoSide
	}
	if unit.Abs(heading) >= math.Pi/2 {
		return 0, ErrTurn
	}
	back := 1 / float64(h.Bridge+radius)
	front := 1 / float64(h.Bridge+radius+h.Grip)
	return (heading.Sin()/float64(axis) - front) / (back - front), nil
}

package stance_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/gear"
	"pivotbench/core/stance"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

const (
	radius = 1.125 * unit.Inch
	axis   = 0.4 * (radius + 10.6*unit.Millimetre)
)

func apply(t *testing.T, h stance.Hands, a unit.Length) stance.Turn {
	t.Helper()
	turn, err := h.Apply(a, radius)
	require.NoError(t, err)
	return turn
}

func TestEachHandAlone(t *testing.T) {
	h := stance.Hands{Bridge: 12 * unit.Inch, Grip: 30 * unit.Inch}

	h.Back, h.Front = 1, 0
	back := apply(t, h, axis)
	assert.InDelta(t, 0, float64(back.Bridge), 1e-16, "the bridge hand stays")
	assert.InDelta(t, float64(axis/(12*unit.Inch+radius)), back.Heading.Sin(), 1e-15)
	assert.Negative(t, float64(back.Grip), "the back hand goes left for right english")

	h.Back, h.Front = 0, 1
	front := apply(t, h, axis)
	assert.InDelta(t, 0, float64(front.Grip), 1e-16, "the grip hand stays")
	assert.Positive(t, float64(front.Bridge))
	assert.Positive(t, float64(front.Heading))
	assert.Less(t, front.Heading, back.Heading)

	h.Back, h.Front = 0, 0
	parallel := apply(t, h, axis)
	assert.Equal(t, stance.Turn{Bridge: axis, Grip: axis}, parallel)

	h.Back = 1
	left := apply(t, h, -axis)
	assert.Equal(t, back.Heading, -left.Heading, "left english is the mirror image")
}

// Whatever the shares, the cue through the two hands passes the ball's centre at the
// distance asked for and points along the heading.
func TestTheCuePassesThroughTheHands(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	refused := 0
	for range 10_000 {
		h := stance.Hands{
			Bridge: unit.Length(2+38*rng.Float64()) * unit.Inch, Grip: unit.Length(5+50*rng.Float64()) * unit.Inch,
			Back: 10*rng.Float64() - 5, Front: 10*rng.Float64() - 5,
		}
		a := (2*unit.Length(rng.Float64()) - 1) * 2 * axis
		turn, err := h.Apply(a, radius)
		if err != nil {
			require.ErrorIs(t, err, stance.ErrTurn)
			refused++
			continue
		}
		// From the grip point to the bridge point, in the plan.
		gripX, gripY := float64(turn.Grip), -float64(h.Bridge+h.Grip+radius)
		bridgeX, bridgeY := float64(turn.Bridge), -float64(h.Bridge+radius)
		dx, dy := bridgeX-gripX, bridgeY-gripY
		size := math.Hypot(dx, dy)
		require.InDelta(t, float64(turn.Heading), math.Atan2(dx, dy), 1e-12*size)
		// Signed distance from the centre to the line, positive to the right.
		require.InDelta(t, float64(a), (bridgeX*dy-bridgeY*dx)/size, 1e-12*size)
	}
	assert.Positive(t, refused)
	assert.Less(t, refused, 3000)
}

func TestBackShareIsTheInverse(t *testing.T) {
	rng := rand.New(rand.NewPCG(13, 14))
	for range 10_000 {
		h := stance.Hands{Bridge: unit.Length(6+20*rng.Float64()) * unit.Inch, Grip: unit.Length(5+50*rng.Float64()) * unit.Inch}
		h.Back = 4*rng.Float64() - 2
		h.Front = 1 - h.Back
		a := axis * unit.Length(math.Copysign(0.05+rng.Float64(), rng.Float64()-0.5))
		turn, err := h.Apply(a, radius)
		if err != nil {
			continue
		}
		share, err := h.BackShare(turn.Heading, a, radius)
		require.NoError(t, err)
		require.InDelta(t, h.Back, share, 1e-11)
	}
}

func TestRefusals(t *testing.T) {
	h := stance.Hands{Bridge: 2 * unit.Inch, Grip: 5 * unit.Inch, Back: 5, Front: 5}
	_, err := h.Apply(axis*2, radius)
	assert.ErrorIs(t, err, stance.ErrTurn)
	_, err = h.Apply(-axis*2, radius)
	assert.ErrorIs(t, err, stance.ErrTurn)
	_, err = h.Apply(unit.Length(math.NaN()), radius)
	assert.ErrorIs(t, err, stance.ErrTurn)

	_, err = h.BackShare(0.05, 0, radius)
	assert.ErrorIs(t, err, stance.ErrNoSide)
	for _, heading := range []unit.Angle{90 * unit.Degree, 120 * unit.Degree, -180 * unit.Degree} {
		_, err = h.BackShare(heading, axis, radius)
		assert.ErrorIs(t, err, stance.ErrTurn, "no share turns the cue by %v", heading)
	}
}

// Common practice, no source: with back-hand english, a bridge that is too short for the
// cue sends the ball to the same side as the english, and one that is too long sends it
// to the other side.
func TestBridgeTooShortAndTooLong(t *testing.T) {
	ball := gear.Ball{Radius: radius, Mass: 170 * unit.Gram}
	cue := gear.Cue{
		Mass:  540 * unit.Gram,
		Tip:   gear.Tip{Dome: 10.6 * unit.Millimetre, Width: 13 * unit.Millimetre, Restitution: 0.75, Friction: 0.6},
		Pivot: 12 * unit.Inch, PivotSpin: 0.4,
	}
	for _, side := range []float64{0.4, -0.4} {
		hit, err := strike.Prepare(ball, cue, strike.Contact{Side: side})
		require.NoError(t, err)
		bearing := func(bridge unit.Length) float64 {
			h := stance.Hands{Bridge: bridge, Grip: 30 * unit.Inch, Back: 1}
			turn := apply(t, h, strike.AxisDistance(side, ball, cue.Tip))
			v := hit.At(strike.Line{Heading: turn.Heading}, 2).Vel
			return math.Atan2(v.X, v.Y)
		}
		assert.Positive(t, bearing(8*unit.Inch)*side, "too short: the same side")
		assert.Negative(t, bearing(20*unit.Inch)*side, "too long: the other side")
		assert.InDelta(t, 0, bearing(12*unit.Inch), 1e-15)
	}
}

func ExampleHands_Apply() {
	hands := stance.Hands{Bridge: 12 * unit.Inch, Grip: 30 * unit.Inch, Back: 1}
	turn, err := hands.Apply(15*unit.Millimetre, 1.125*unit.Inch)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("turned %.2f°, back hand moved %.1f mm\n", turn.Heading/unit.Degree, turn.Grip/unit.Millimetre)
	// Output: turned 2.58°, back hand moved -34.3 mm
}

func ExampleHands_BackShare() {
	hands := stance.Hands{Bridge: 12 * unit.Inch, Grip: 30 * unit.Inch}
	share, err := hands.BackShare(2*unit.Degree, 15*unit.Millimetre, 1.125*unit.Inch)
	fmt.Printf("%.2f %v\n", share, err)
	// Output: 0.68 <nil>
}

// No share gives a heading of 90° or more; some share gives any heading short of it.
func TestBackShareUpToARightAngle(t *testing.T) {
	h := stance.Hands{Bridge: 12 * unit.Inch, Grip: 30 * unit.Inch}
	for _, side := range []unit.Angle{1, -1} {
		_, err := h.BackShare(side*89.99*unit.Degree, 1*unit.Inch, 1.125*unit.Inch)
		assert.NoError(t, err)
		for _, far := range []unit.Angle{90, 90.01, 150} {
			_, err = h.BackShare(side*far*unit.Degree, 1*unit.Inch, 1.125*unit.Inch)
			assert.ErrorIs(t, err, stance.ErrTurn, "%v", far)
		}
	}
}

// A turn of exactly 90° is refused: the bridge hand would have to be infinitely far away.
func TestApplyUpToARightAngle(t *testing.T) {
	h := stance.Hands{Bridge: 3, Grip: 5, Back: 1}
	_, err := h.Apply(4, 1)
	assert.ErrorIs(t, err, stance.ErrTurn)
	turn, err := h.Apply(3.999, 1)
	require.NoError(t, err)
	assert.InDelta(t, math.Asin(3.999/4), float64(turn.Heading), 1e-9)
}

// The front hand moves in proportion to its share: the bridge hand of a stance whose
// front hand moves twice as far as it feels is twice as far to the side, measured square
// to the cue.
func TestTheFrontHandMovesByItsShare(t *testing.T) {
	h := stance.Hands{Bridge: 10 * unit.Inch, Grip: 30 * unit.Inch, Back: 0.7, Front: 0.3}
	const axis, radius = 0.6 * unit.Inch, 1.125 * unit.Inch
	across := func(h stance.Hands) float64 {
		turn, err := h.Apply(axis, radius)
		require.NoError(t, err)
		return float64(turn.Bridge) * turn.Heading.Cos()
	}
	assert.InEpsilon(t, 2*across(h), across(h.Moved(2)), 1e-12)
	assert.Equal(t, h, h.Moved(1))
	assert.InDelta(t, 1, h.Moved(2).Back+h.Moved(2).Front, 1e-15)
	alone := stance.Hands{Bridge: 10 * unit.Inch, Grip: 30 * unit.Inch, Back: 1}
	assert.Equal(t, alone, alone.Moved(2), "without the front hand there is nothing to move")
}

// A cue that wanders still passes through the planted bridge hand, and at the new distance
// from the ball's centre: the distance of the origin from a line through a point, from
// analytic geometry. With the back hand alone that is what dialling does.
func TestWanderTurnsAboutThePlantedBridge(t *testing.T) {
	const axis, strayed, radius = 0.6 * unit.Inch, 0.7 * unit.Inch, 1.125 * unit.Inch
	for _, h := range []stance.Hands{
		{Bridge: 10 * unit.Inch, Grip: 30 * unit.Inch, Back: 1},
		{Bridge: 10 * unit.Inch, Grip: 30 * unit.Inch, Front: 1},
		{Bridge: 10 * unit.Inch, Grip: 30 * unit.Inch},
	} {
		turn, err := h.Apply(axis, radius)
		require.NoError(t, err)
		for _, a := range []unit.Length{axis, strayed, -strayed} {
			heading, err := h.Wander(turn, a, radius)
			require.NoError(t, err)
			x, y := float64(turn.Bridge), -float64(h.Bridge+radius)
			// Right of the line through (x, y) along (sin δ, cos δ).
			assert.InDelta(t, float64(a), x*heading.Cos()-y*heading.Sin(), 1e-12)
		}
		same, err := h.Wander(turn, axis, radius)
		require.NoError(t, err)
		assert.InDelta(t, float64(turn.Heading), float64(same), 1e-12)
	}
	h := stance.Hands{Bridge: 10 * unit.Inch, Grip: 30 * unit.Inch, Back: 1}
	turn, _ := h.Apply(axis, radius)
	want, _ := h.Apply(strayed, radius)
	got, err := h.Wander(turn, strayed, radius)
	require.NoError(t, err)
	assert.InDelta(t, float64(want.Heading), float64(got), 1e-12)
	_, err = h.Wander(turn, 20*unit.Inch, radius)
	assert.Equal(t, stance.ErrTurn, err)
}

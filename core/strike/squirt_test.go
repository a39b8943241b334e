package strike_test

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/gear"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

func ratio(t *testing.T, c gear.Cue) float64 {
	t.Helper()
	k, err := strike.MassRatio(ball, c)
	require.NoError(t, err)
	return k
}

func TestPivotAndMassRatioAreInverse(t *testing.T) {
	for pivot := 5.0; pivot <= 60; pivot += 0.5 {
		for spin := 0.1; spin <= 0.6; spin += 0.05 {
			c := cue(unit.Length(pivot)*unit.Inch, tip)
			c.PivotSpin = spin
			k := ratio(t, c)
			assert.InDelta(t, float64(c.Pivot), float64(strike.NaturalPivot(spin, k, ball, tip)), 1e-13)
			assert.Equal(t, strike.NaturalPivot(spin, k, ball, tip), strike.NaturalPivot(-spin, k, ball, tip))
		}
	}
}

// By definition, a cue pivoted about a bridge at the natural pivot length turns by
// exactly the squirt.
func TestTurnEqualsSquirtAtTheNaturalPivot(t *testing.T) {
	k := ratio(t, cue(12*unit.Inch, tip))
	for rho := 0.05; rho < 0.9; rho += 0.05 {
		reach := float64(strike.NaturalPivot(rho, k, ball, tip) + ball.Radius)
		turn := math.Asin(float64(strike.AxisDistance(rho, ball, tip)) / reach)
		assert.InDelta(t, float64(strike.Deflection(rho, k)), turn, 1e-15)
	}
}

// The bridges are those that SciPy's root finder gives for the hit written as a linear
// system. testdata/strike/straight.json holds them, with the script beside it.
func TestStraightBridgeAgreesWithARootFinder(t *testing.T) {
	text, err := os.ReadFile("../../testdata/strike/straight.json")
	require.NoError(t, err)
	var data struct {
		Cases []struct {
			Side, Height float64
			Elevation    unit.Angle
			BallMass     unit.Mass   `json:"ball_mass"`
			EndMass      unit.Mass   `json:"end_mass"`
			Radius       unit.Length `json:"R"`
			Dome, Bridge unit.Length
		}
	}
	require.NoError(t, json.Unmarshal(text, &data))
	require.Len(t, data.Cases, 60)
	for i, c := range data.Cases {
		at := strike.Contact{Side: c.Side, Height: c.Height}
		got, err := strike.StraightBridge(at, c.Elevation, float64(c.BallMass/c.EndMass), gear.Ball{Radius: c.Radius, Mass: c.BallMass}, gear.Tip{Dome: c.Dome})
		require.NoError(t, err)
		assert.InDelta(t, float64(c.Bridge), float64(got), 1e-11, "case %d", i)
	}
}

// For a level cue without height this is exactly the natural pivot length of the side, so
// old links to such shots show the same value.
func TestStraightBridgeOfALevelCueIsItsNaturalPivot(t *testing.T) {
	for _, k := range []float64{6, 15, 40} {
		for side := -0.6; side <= 0.6; side += 0.01 {
			got, err := strike.StraightBridge(strike.Contact{Side: side}, 0, k, ball, tip)
			require.NoError(t, err)
			require.Equal(t, strike.NaturalPivot(math.Abs(side), k, ball, tip), got)
		}
	}
}

// Height lengthens it and a raised butt shortens it, by these amounts.
func TestStraightBridgeMovesWithHeightAndElevation(t *testing.T) {
	k := ratio(t, cue(12*unit.Inch, tip))
	of := func(at strike.Contact, elevation unit.Angle) float64 {
		length, err := strike.StraightBridge(at, elevation*unit.Degree, k, ball, tip)
		require.NoError(t, err)
		return float64(length)
	}
	plain := of(strike.Contact{Side: 0.35}, 0)
	assert.InEpsilon(t, 0.06, of(strike.Contact{Side: 0.35, Height: -0.35}, 0)/plain-1, 0.15)
	assert.InEpsilon(t, 0.17, plain/of(strike.Contact{Side: 0.35}, 30)-1, 0.05)
	assert.Greater(t, of(strike.Contact{Side: 0.35, Height: -0.35}, 10), of(strike.Contact{Side: 0.35, Height: 0.35}, 10), "draw squirts less in plan than follow")
	assert.InDelta(t, of(strike.Contact{Side: 1e-9, Height: 0.3}, 20), of(strike.Contact{Height: 0.3}, 20), 1e-9, "the limit for a vanishing side")
}

func TestStraightBridgeRefuses(t *testing.T) {
	for want, c := range map[error]struct {
		at        strike.Contact
		elevation unit.Angle
	}{
		strike.ErrOffBall:  {strike.Contact{Side: 0.8, Height: 0.8}, 0},
		strike.ErrNoBridge: {strike.Contact{Side: 0.1, Height: 0.5}, 89 * unit.Degree},
	} {
		_, err := strike.StraightBridge(c.at, c.elevation, 15, ball, tip)
		assert.ErrorIs(t, err, want)
	}
	_, err := strike.StraightBridge(strike.Contact{Side: 0.5}, 89.9*unit.Degree, 15, ball, tip)
	assert.ErrorIs(t, err, strike.ErrNoBridge, "inside the ball")
}

func TestNaturalPivotFallsAtSmallerOffsets(t *testing.T) {
	for _, k := range []float64{10, 25, 60} {
		least := strike.NaturalPivot(0, k, ball, tip)
		assert.InDelta(t, float64((ball.Radius+tip.Dome)*unit.Length((k+3.5)/2.5)-ball.Radius), float64(least), 1e-15)
		for _, small := range []float64{1e-4, 1e-7, 1e-10, 1e-100, math.SmallestNonzeroFloat64} {
			assert.InDelta(t, float64(least), float64(strike.NaturalPivot(small, k, ball, tip)), 1e-7, "%v", small)
		}
		last := least
		for rho := 0.05; rho < 0.9; rho += 0.05 {
			now := strike.NaturalPivot(rho, k, ball, tip)
			assert.Greater(t, now, last)
			last = now
		}
	}
}

// Common practice, no source: the natural pivot length is about 9 to 10 in for a plain
// maple shaft and about 19 in for the lowest-deflection shafts, and maple squirts about
// twice as much.
func TestMapleSquirtsTwiceAsMuch(t *testing.T) {
	maple, low := ratio(t, cue(9.5*unit.Inch, tip)), ratio(t, cue(19*unit.Inch, tip))
	for _, rho := range []float64{0.2, 0.4, 0.5} {
		assert.InDelta(t, 2, float64(strike.Deflection(rho, maple)/strike.Deflection(rho, low)), 0.2)
	}
}

// Shepard 2001: the end mass is between a few grams and a few tens of grams.
func TestEndMassIsAFewGrams(t *testing.T) {
	for _, pivot := range []unit.Length{9.5, 13, 19} {
		grams := float64(ball.Mass/unit.Gram) / ratio(t, cue(pivot*unit.Inch, tip))
		assert.Greater(t, grams, 2.0)
		assert.Less(t, grams, 15.0)
	}
}

func TestNoEndMassNoSquirt(t *testing.T) {
	assert.Zero(t, strike.Deflection(0.5, math.Inf(1)))
	assert.InDelta(t, math.Asin(0.5), float64(strike.Slip(0.5, math.Inf(1))), 1e-15)
	assert.InDelta(t, math.Atan(0.6)-math.Asin(0.5), float64(strike.MiscueMargin(0.5, math.Inf(1), tip)), 1e-15)
}

func TestAxisDistanceCarriesTheSign(t *testing.T) {
	assert.InDelta(t, 0.4*(0.028575+0.0106), float64(strike.AxisDistance(0.4, ball, tip)), 1e-17)
	assert.Equal(t, -strike.AxisDistance(0.4, ball, tip), strike.AxisDistance(-0.4, ball, tip))
}

func TestPrepareRefuses(t *testing.T) {
	good := cue(12*unit.Inch, tip)
	for _, c := range []struct {
		name string
		cue  gear.Cue
		at   strike.Contact
		want error
	}{
		{"edge of the ball", cue(12*unit.Inch, wide), strike.Contact{Side: 1}, strike.ErrOffBall},
		{"off the ball", cue(12*unit.Inch, wide), strike.Contact{Side: -0.8, Height: 0.8}, strike.ErrOffBall},
		{"nowhere", good, strike.Contact{Side: math.NaN()}, strike.ErrOffBall},
		{"off the tip", good, strike.Contact{Side: 0.62}, strike.ErrOffTip},
		{"off the tip, low", good, strike.Contact{Side: 0.45, Height: -0.45}, strike.ErrOffTip},
		{"miscue", good, strike.Contact{Side: 0.6}, strike.ErrMiscue},
		{"short pivot", cue(1*unit.Inch, tip), strike.Contact{}, strike.ErrPivot},
		{"pivot inside the ball", cue(-ball.Radius, tip), strike.Contact{}, strike.ErrPivot},
		{"pivot inside the offset", cue(-0.5*ball.Radius, tip), strike.Contact{}, strike.ErrPivot},
		{"pivot unknown", cue(unit.Length(math.NaN()), tip), strike.Contact{}, strike.ErrPivot},
	} {
		_, err := strike.Prepare(ball, c.cue, c.at)
		assert.ErrorIs(t, err, c.want, c.name)
	}
	for _, spin := range []float64{0, -0.5, 1, 1.5, math.NaN()} {
		c := good
		c.PivotSpin = spin
		_, err := strike.MassRatio(ball, c)
		assert.ErrorIs(t, err, strike.ErrPivot, "measured at %v", spin)
	}
}

// The margin is zero at the largest offset that grips, found by bisection.
func TestMostOffset(t *testing.T) {
	gripping := wide
	gripping.Friction = 0.6
	for _, pivot := range []unit.Length{7, 12, 40} {
		c := cue(pivot*unit.Inch, gripping)
		k := ratio(t, c)
		most := strike.MostOffset(k, gripping)
		assert.InDelta(t, limit(c), most, 1e-14)
		assert.InDelta(t, 0, float64(strike.MiscueMargin(most, k, gripping)), 1e-15)
	}
	assert.InDelta(t, math.Sin(math.Atan(0.6)), strike.MostOffset(math.Inf(1), gripping), 1e-15, "no end mass")
}

func ExampleNaturalPivot() {
	ball := gear.Balls[0].Is
	tip := gear.Tip{Dome: 10.6 * unit.Millimetre, Width: 13 * unit.Millimetre}
	k, err := strike.MassRatio(ball, gear.Cue{Tip: tip, Pivot: 12 * unit.Inch, PivotSpin: 0.5})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, rho := range []float64{0, 0.25, 0.5} {
		fmt.Printf("%.2f R: %.2f in\n", rho, strike.NaturalPivot(rho, k, ball, tip)/unit.Inch)
	}
	// Output:
	// 0.00 R: 10.61 in
	// 0.25 R: 10.90 in
	// 0.50 R: 12.00 in
}

// As the butt is raised there is a straight bridge until squirt reaches a right angle,
// which no turn of the cue can offset. The dome is large, since otherwise the bridge
// would already lie inside the ball.
func TestStraightBridgeEndsWhereSquirtIsARightAngle(t *testing.T) {
	blunt := gear.Tip{Dome: 60 * unit.Millimetre, Width: 200 * unit.Millimetre, Restitution: 0.75, Friction: 100}
	stick := cue(16*unit.Inch, blunt)
	k := ratio(t, stick)
	for _, at := range []strike.Contact{{Side: 0.5, Height: 0.3}, {Side: -0.5, Height: 0.5}, {Side: 0.6, Height: 0.1}} {
		hit, err := strike.Prepare(ball, stick, at)
		require.NoError(t, err)
		low, high := 45*unit.Degree, 90*unit.Degree
		for range 50 {
			mid := (low + high) / 2
			if _, err := strike.StraightBridge(at, mid, k, ball, blunt); err == nil {
				low = mid
			} else {
				assert.ErrorIs(t, err, strike.ErrNoBridge)
				high = mid
			}
		}
		assert.InDelta(t, math.Pi/2, math.Abs(float64(hit.Squirt(low))), 1e-9, "%v", at)
	}
}

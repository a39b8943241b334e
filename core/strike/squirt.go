// Package strike is the cue meeting the ball: how far the ball leaves the
// cue's line (squirt), how fast, with what spin, and when the tip slips.
//
// The model: the tip grips the ball at one point. While it does, the ball's
// turning face carries the last few grams of the cue, the end mass, sideways,
// and the ball gets the opposite kick. Squirt does not depend on speed, and
// the end mass resists upward as it does sideways.
//
// Source: Shepard, Everything you always wanted to know about cue ball squirt
// (2001); Kim, New Physics: Sae Mulli 72 (2022) 208; Cross, Am. J. Phys. 76
// (2008) 205.
package strike

import (
	"errors"
	"math"

	"pivotbench/core/gear"
	"pivotbench/core/unit"
)

// What can make a hit impossible.
var (
	ErrOffBall = errors.New("the contact is not on the ball: the offset must be less than one ball radius")
	ErrOffTip  = errors.New("the contact is beyond the edge of the tip: use less offset, a wider tip or a smaller dome")
	ErrMiscue  = errors.New("the tip slips off the ball, a miscue: use less offset")
	ErrPivot   = errors.New("no cue can have this pivot length: it asks for an end mass heavier than the ball can turn")

	// ErrNoBridge is a heading that no pivot about a bridge gives.
	ErrNoBridge = errors.New("the cue would have to turn further than any bridge allows")
)

// Deflection is α, the angle between the cue's line and the ball's, in space:
//
//	tan α = (5/2) ρ c / (1 + k + (5/2) c²),  c = √(1 − ρ²)
//
// rho is the contact offset in ball radii, 0 to 1; k is ball mass over end
// mass (+Inf: no end mass, no squirt).
func Deflection(rho, k float64) unit.Angle {
	return unit.Angle(math.Atan(tanDeflection(rho, k)))
}

func tanDeflection(rho, k float64) float64 {
	c2 := 1 - rho*rho
	return 2.5 * rho * math.Sqrt(c2) / (1 + k + 2.5*c2)
}

// Slip is β − α, the angle between the push on the ball and the line from the
// contact to the ball's centre. The tip grips while its tangent is no more
// than the tip's friction. It also sets the spin: |ω|R/|v| = (5/2) sin(β − α),
// so the most spin per speed before a miscue is the same for every cue.
func Slip(rho, k float64) unit.Angle {
	return unit.Angle(math.Asin(rho)) - Deflection(rho, k)
}

// MiscueMargin is the angle left before the hit slips; negative, it slips.
func MiscueMargin(rho, k float64, tip gear.Tip) unit.Angle {
	return unit.Angle(math.Atan(tip.Friction)) - Slip(rho, k)
}

// MostOffset is the offset beyond which the hit slips, in ball radii. From
// β − α = atan μ, with x = tan β and tan α = (5/2)x/((1 + k)(1 + x²) + 5/2),
// the factor 1 + x² cancels and leaves
//
//	tan β = μ (k + 7/2)/(k + 1)
//
// so an end mass lets the tip grip a little further out; not that it gives
// more spin (see Slip).
func MostOffset(k float64, tip gear.Tip) float64 {
	x := tip.Friction * (k + 3.5) / (k + 1)
	if math.IsInf(k, 1) {
		x = tip.Friction
	}
	return x / math.Sqrt(1+x*x)
}

// LastOffset is the offset beyond which a tip can't play, in ball radii: it slips,
// or its edge meets the ball first.
func LastOffset(k float64, tip gear.Tip) float64 {
	return min(MostOffset(k, tip), float64(tip.Width/2/tip.Dome))
}

// AxisDistance is a = ρ(R + r), how far from the ball's centre the axis of a
// cue passes that touches at offset rho: the dome meets the ball short of the
// axis. It carries the sign of rho.
func AxisDistance(rho float64, ball gear.Ball, tip gear.Tip) unit.Length {
	return unit.Length(rho) * (ball.Radius + tip.Dome)
}

// NaturalPivot is the bridge length, from the face of the ball, at which a
// turn of a level cue about the bridge to sidespin rho is cancelled by squirt:
//
//	sin α(ρ) = ρ (R + r) / (L + R)
//
// It falls a little at smaller offsets; rho = 0 gives its limit,
// (R + r)(k + 7/2)/(5/2) − R. Only the size of rho, less than 1, counts.
func NaturalPivot(rho, k float64, ball gear.Ball, tip gear.Tip) unit.Length {
	length, _ := bridge(Contact{Side: rho}, 0, k, ball, tip)
	return length
}

// StraightBridge is the bridge length, from the face of the ball, off which
// back-hand english alone launches the ball straight, in plan: the natural pivot
// length at a contact and an elevation. With s and h the contact's side and
// height, r the dome and t = tan α, the cue turns by sin δ = s (R + r)/(L + R)
// and squirt is tan(squirt) = (s/ρ) t / (cos θ − (h/ρ) t sin θ), so they are equal
// where
//
//	L + R = (R + r) √((ρ cos θ/t − h sin θ)² + s²)
//
// For a level cue and no height it is NaturalPivot. A raised butt shortens it;
// height lengthens it at the same side, of a level cue. At no side it is the limit.
// Errors: ErrOffBall, ErrNoBridge.
func StraightBridge(at Contact, elevation unit.Angle, k float64, ball gear.Ball, tip gear.Tip) (unit.Length, error) {
	if !(at.Offset() < 1) {
		return 0, ErrOffBall
	}
	length, ahead := bridge(at, elevation, k, ball, tip)
	if !(ahead && length > 0) {
		return 0, ErrNoBridge
	}
	return length, nil
}

// bridge also reports whether squirt is less than a right angle, as a turn of
// the cue has to be.
func bridge(at Contact, elevation unit.Angle, k float64, ball gear.Ball, tip gear.Tip) (length unit.Length, ahead bool) {
	rho := at.Offset()
	c := math.Sqrt(1 - rho*rho)
	// Times (5/2)c, and t/ρ without its ρ, so that no offset is no special case.
	along := (1+k+2.5*c*c)*elevation.Cos() - 2.5*at.Height*c*elevation.Sin()
	perSin := math.Hypot(along, 2.5*at.Side*c) / (2.5 * c)
	return (ball.Radius+tip.Dome)*unit.Length(perSin) - ball.Radius, along > 0
}

// MassRatio is k, ball mass over end mass, of the cue whose natural pivot
// length at its reference offset is known: the inverse of NaturalPivot.
// ErrPivot when no positive k gives that length.
func MassRatio(ball gear.Ball, cue gear.Cue) (float64, error) {
	rho := cue.PivotSpin
	sin := float64(AxisDistance(rho, ball, cue.Tip) / (cue.Pivot + ball.Radius))
	if !(sin > 0 && sin < 1) {
		return 0, ErrPivot
	}
	c2 := 1 - rho*rho
	k := 2.5*rho*math.Sqrt(c2)*math.Sqrt(1-sin*sin)/sin - 1 - 2.5*c2
	if !(k > 0) {
		return 0, ErrPivot
	}
	return k, nil
}

// Package strike models the impact of cue and ball: how far the ball leaves the cue's
// line (squirt), its speed and spin, and when the tip slips.
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

// Errors for hits that cannot be played.
var (
	ErrOffBall = errors.New("the tip misses the ball: the offset must be less than one ball radius")
	ErrOffTip  = errors.New("the edge of the tip hits first: use less offset, a wider tip or a smaller dome")
	ErrMiscue  = errors.New("the tip slips off the ball, a miscue: use less offset")
	ErrPivot   = errors.New("no cue can have this pivot length: its end mass would be too heavy")

	// ErrNoBridge means that no pivot about a bridge produces the heading.
	ErrNoBridge = errors.New("the cue would have to turn further than any bridge allows")
)

// Deflection returns α, the angle in space between the cue's direction and the ball's
// velocity:
//
//	tan α = (5/2) ρ c / (1 + k + (5/2) c²),  c = √(1 − ρ²)
//
// rho is the contact offset in ball radii, from 0 to 1. k is the ball mass divided by the
// end mass; +Inf means no end mass and no squirt.
func Deflection(rho, k float64) unit.Angle {
	return unit.Angle(math.Atan(tanDeflection(rho, k)))
}

func tanDeflection(rho, k float64) float64 {
	c2 := 1 - rho*rho
	return 2.5 * rho * math.Sqrt(c2) / (1 + k + 2.5*c2)
}

// Slip returns β − α, the angle between the impulse on the ball and the line from the
// contact to the ball's centre. The tip grips while the tangent of this angle is at most
// the tip's coefficient of friction. The angle also determines the spin, |ω|R/|v| = (5/2)
// sin(β − α), so the most spin per speed before a miscue is the same for every cue.
func Slip(rho, k float64) unit.Angle {
	return unit.Angle(math.Asin(rho)) - Deflection(rho, k)
}

// MiscueMargin returns the friction angle of the tip minus the slip angle. The hit is a
// miscue if it is negative.
func MiscueMargin(rho, k float64, tip gear.Tip) unit.Angle {
	return unit.Angle(math.Atan(tip.Friction)) - Slip(rho, k)
}

// MostOffset returns the offset beyond which the tip slips, in ball radii. Put x = tan β
// and tan α = (5/2)x/((1 + k)(1 + x²) + 5/2) into β − α = atan μ: the factor 1 + x²
// cancels and leaves
//
//	tan β = μ (k + 7/2)/(k + 1)
//
// A heavier end mass lets the tip grip a little further out, but gives no more spin (see
// Slip).
func MostOffset(k float64, tip gear.Tip) float64 {
	x := tip.Friction * (k + 3.5) / (k + 1)
	if math.IsInf(k, 1) {
		x = tip.Friction
	}
	return x / math.Sqrt(1+x*x)
}

// LastOffset returns the largest offset that the tip can play, in ball radii: beyond it
// the tip slips or its edge would touch the ball first.
func LastOffset(k float64, tip gear.Tip) float64 {
	return min(MostOffset(k, tip), float64(tip.Width/2/tip.Dome))
}

// AxisDistance returns a = ρ(R + r), the distance from the ball's centre to the axis of a
// cue that touches at offset rho. It exceeds ρR because the tip is a dome. It has the
// sign of rho.
func AxisDistance(rho float64, ball gear.Ball, tip gear.Tip) unit.Length {
	return unit.Length(rho) * (ball.Radius + tip.Dome)
}

// NaturalPivot returns the bridge length, from the face of the ball, at which squirt
// cancels the turn of a level cue that is pivoted about the bridge to sidespin rho:
//
//	sin α(ρ) = ρ (R + r) / (L + R)
//
// It falls a little at smaller offsets. At rho = 0 it is the limit (R + r)(k + 7/2)/(5/2)
// − R. The sign of rho does not matter; its size must be less than 1.
func NaturalPivot(rho, k float64, ball gear.Ball, tip gear.Tip) unit.Length {
	length, _ := bridge(Contact{Side: rho}, 0, k, ball, tip)
	return length
}

// StraightBridge returns the bridge length, from the face of the ball, at which pure
// back-hand english launches the ball straight ahead in plan: the natural pivot length
// for a contact and an elevation. With s and h the side and height of the contact, r the
// dome radius and t = tan α, the cue turns by sin δ = s (R + r)/(L + R), and squirt is
// tan(squirt) = (s/ρ) t / (cos θ − (h/ρ) t sin θ). The two are equal where
// where
//
//	L + R = (R + r) √((ρ cos θ/t − h sin θ)² + s²)
//
// For a level cue and no height this is NaturalPivot. Raising the butt shortens it. With
// a level cue, height at the same side lengthens it. Without side it is the limit for a
// vanishing side. Errors: ErrOffBall, ErrNoBridge.
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

// bridge returns that length, and whether squirt is less than a right angle, as the turn
// of a cue has to be.
func bridge(at Contact, elevation unit.Angle, k float64, ball gear.Ball, tip gear.Tip) (length unit.Length, ahead bool) {
	rho := at.Offset()
	c := math.Sqrt(1 - rho*rho)
	// Everything is multiplied by (5/2)c, and t/ρ stands for t, so that ρ = 0 needs no
	// special case.
	along := (1+k+2.5*c*c)*elevation.Cos() - 2.5*at.Height*c*elevation.Sin()
	perSin := math.Hypot(along, 2.5*at.Side*c) / (2.5 * c)
	return (ball.Radius+tip.Dome)*unit.Length(perSin) - ball.Radius, along > 0
}

// MassRatio returns k, the ball mass divided by the end mass, for a cue whose natural
// pivot length at its reference offset is known. It is the inverse of NaturalPivot. It
// returns ErrPivot if no positive k gives that length.
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

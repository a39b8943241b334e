// Package unit has the quantities that the bench computes with: float64 types in SI, so
// that a length cannot be added to an angle by mistake, and constants for the units that
// people use at a table.
//
//	bridge := 9.5 * unit.Inch
//	pace := unit.Speed(3.1) // m/s
package unit

import "math"

// Abs returns the absolute value of a quantity.
func Abs[T ~float64](x T) T { return T(math.Abs(float64(x))) }

// Length is a length in metres.
type Length float64

// Lengths. The inch is exact by the international agreement of 1959.
const (
	Metre      Length = 1
	Centimetre Length = 0.01
	Millimetre Length = 0.001
	Inch       Length = 0.0254
	Foot       Length = 0.3048
)

// Angle is an angle in radians. In plan it is positive to the shooter's right.
type Angle float64

// Angles.
const (
	Radian Angle = 1
	Degree Angle = math.Pi / 180
)

// Speed is a speed in metres per second.
type Speed float64

// Speeds. The mile is the international mile of 1609.344 m.
const (
	MetrePerSecond   Speed = 1
	MilePerHour      Speed = 0.44704
	KilometrePerHour Speed = 1.0 / 3.6
	FootPerSecond    Speed = 0.3048
)

// Mass is a mass in kilograms.
type Mass float64

// Masses. The ounce is the avoirdupois ounce of 28.349523125 g.
const (
	Kilogram Mass = 1
	Gram     Mass = 0.001
	Ounce    Mass = 0.028349523125
)

// Span is a length of time in seconds.
type Span float64

// Spans.
const (
	Second      Span = 1
	Millisecond Span = 0.001
)

// SpinRate is an angular acceleration in radians per second squared.
type SpinRate float64

// RadianPerSecond2 is one radian per second squared.
const RadianPerSecond2 SpinRate = 1

// Gravity is standard gravity in m/s² (3rd General Conference on Weights and
// Measures, 1901).
const Gravity = 9.80665

// Sin returns the sine of the angle.
func (a Angle) Sin() float64 { return math.Sin(float64(a)) }

// Cos returns the cosine of the angle.
func (a Angle) Cos() float64 { return math.Cos(float64(a)) }

// Tan returns the tangent of the angle.
func (a Angle) Tan() float64 { return math.Tan(float64(a)) }

// Normalized returns the angle that differs from a by whole turns and lies above −π and
// at most at π.
func (a Angle) Normalized() Angle {
	r := Angle(math.Remainder(float64(a), 2*math.Pi))
	if r == -math.Pi {
		return math.Pi
	}
	return r
}

// Package vec has the three-component vectors of the bench: x to the
// shooter's right, y down the table along the aim line, z up. A few
// operations on a value type; the general-purpose vector packages bring fmt and big
// numbers into a program that a phone has to download.
package vec

import "math"

// V is a vector.
type V struct{ X, Y, Z float64 }

// Add is the sum.
func (a V) Add(b V) V { return V{a.X + b.X, a.Y + b.Y, a.Z + b.Z} }

// Sub is the difference a − b.
func (a V) Sub(b V) V { return V{a.X - b.X, a.Y - b.Y, a.Z - b.Z} }

// Mul is a times the number s.
func (a V) Mul(s float64) V { return V{a.X * s, a.Y * s, a.Z * s} }

// Dot is the scalar product.
func (a V) Dot(b V) float64 { return a.X*b.X + a.Y*b.Y + a.Z*b.Z }

// Cross is the vector product.
func (a V) Cross(b V) V {
	return V{a.Y*b.Z - a.Z*b.Y, a.Z*b.X - a.X*b.Z, a.X*b.Y - a.Y*b.X}
}

// Norm is the length.
func (a V) Norm() float64 { return math.Sqrt(a.Dot(a)) }

// Turn is the vector turned about the upright, to the right by an angle in
// radians.
func (a V) Turn(angle float64) V {
	sin, cos := math.Sincos(angle)
	return V{a.X*cos + a.Y*sin, a.Y*cos - a.X*sin, a.Z}
}

// Plan is the part in the plane of the table.
func (a V) Plan() V { return V{a.X, a.Y, 0} }

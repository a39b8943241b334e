// Package vec has three-component vectors: x to the shooter's right, y down the table
// along the aim line, z up. They are written here because the general-purpose vector
// packages bring fmt and math/big into a program that a phone has to download.
package vec

import "math"

// V is a vector.
type V struct{ X, Y, Z float64 }

// Add returns the sum.
func (a V) Add(b V) V { return V{a.X + b.X, a.Y + b.Y, a.Z + b.Z} }

// Sub returns the difference a − b.
func (a V) Sub(b V) V { return V{a.X - b.X, a.Y - b.Y, a.Z - b.Z} }

// Mul returns the vector times the number s.
func (a V) Mul(s float64) V { return V{a.X * s, a.Y * s, a.Z * s} }

// Dot returns the scalar product.
func (a V) Dot(b V) float64 { return a.X*b.X + a.Y*b.Y + a.Z*b.Z }

// Cross returns the vector product.
func (a V) Cross(b V) V {
	return V{a.Y*b.Z - a.Z*b.Y, a.Z*b.X - a.X*b.Z, a.X*b.Y - a.Y*b.X}
}

// Norm returns the length.
func (a V) Norm() float64 { return math.Sqrt(a.Dot(a)) }

// Turn returns the vector turned about the vertical, to the right (clockwise from above),
// by an angle in radians.
func (a V) Turn(angle float64) V {
	sin, cos := math.Sincos(angle)
	return V{a.X*cos + a.Y*sin, a.Y*cos - a.X*sin, a.Z}
}

// Plan returns the projection onto the plane of the table.
func (a V) Plan() V { return V{a.X, a.Y, 0} }

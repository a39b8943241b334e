package film

import (
	"math"

	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// A camera is a pinhole with square pixels, its axis through the middle of the picture,
// and one coefficient of radial distortion.
//
// Source: Hartley and Zisserman, Multiple View Geometry in Computer Vision, 6.1 and 7.4;
// Zhang, A flexible new technique for camera calibration, IEEE Trans. PAMI 22 (2000)
// 1330 (from memory).
type camera struct {
	width, height float64
	is            view
}

// A view holds the parameters of a camera in the order of the constants below.
type view [viewSize]float64

const (
	logFocal = iota // logarithm of the focal length in pixels
	bend            // displacement at the picture's corner as a share of its distance from the middle
	turnX           // rotation vector from world to camera, whose axes are right, down, ahead
	turnY
	turnZ
	eyeX // position in metres
	eyeY
	eyeZ
	viewSize
)

// An ellipse is the outline of a ball in a picture.
type ellipse struct {
	Point
	long, short float64 // semi-axes
	cos, sin    float64 // direction of the long one
}

// rotation returns the rows of the matrix of a rotation vector (Rodrigues's formula).
func rotation(x, y, z float64) (m [3]vec.V) {
	angle := math.Sqrt(x*x + y*y + z*z)
	if angle < 1e-12 {
		return [3]vec.V{{X: 1}, {Y: 1}, {Z: 1}}
	}
	x, y, z = x/angle, y/angle, z/angle
	s, c := math.Sincos(angle)
	k := 1 - c
	return [3]vec.V{
		{X: c + x*x*k, Y: x*y*k - z*s, Z: x*z*k + y*s},
		{X: y*x*k + z*s, Y: c + y*y*k, Z: y*z*k - x*s},
		{X: z*x*k - y*s, Y: z*y*k + x*s, Z: c + z*z*k},
	}
}

// rotationVector is the inverse of rotation. It goes by way of the quaternion, whose largest
// component is found first (Shepperd, J. Guidance and Control 1 (1978) 223).
func rotationVector(m [3]vec.V) (x, y, z float64) {
	var q [4]float64 // cosine of half the angle, and sine times the axis
	trace := m[0].X + m[1].Y + m[2].Z
	switch {
	case trace >= max(m[0].X, m[1].Y, m[2].Z):
		q = [4]float64{1 + trace, m[2].Y - m[1].Z, m[0].Z - m[2].X, m[1].X - m[0].Y}
	case m[0].X >= max(m[1].Y, m[2].Z):
		q = [4]float64{m[2].Y - m[1].Z, 1 + 2*m[0].X - trace, m[0].Y + m[1].X, m[0].Z + m[2].X}
	case m[1].Y >= m[2].Z:
		q = [4]float64{m[0].Z - m[2].X, m[0].Y + m[1].X, 1 + 2*m[1].Y - trace, m[1].Z + m[2].Y}
	default:
		q = [4]float64{m[1].X - m[0].Y, m[0].Z + m[2].X, m[1].Z + m[2].Y, 1 + 2*m[2].Z - trace}
	}
	sin := math.Sqrt(q[1]*q[1] + q[2]*q[2] + q[3]*q[3])
	if sin == 0 {
		return 0, 0, 0
	}
	k := 2 * math.Atan2(sin, q[0]) / sin
	return k * q[1], k * q[2], k * q[3]
}

// A lens is a camera with its rotation worked out.
type lens struct {
	focal, bend, corner2 float64
	midX, midY           float64
	rows                 [3]vec.V
	eye                  vec.V
}

func (c *camera) lens() lens {
	v := &c.is
	return lens{
		focal: math.Exp(v[logFocal]), bend: v[bend], corner2: (c.width*c.width + c.height*c.height) / 4,
		midX: c.width / 2, midY: c.height / 2,
		rows: rotation(v[turnX], v[turnY], v[turnZ]), eye: vec.V{X: v[eyeX], Y: v[eyeY], Z: v[eyeZ]},
	}
}

// seen returns a point in the camera's axes.
func (l *lens) seen(p vec.V) vec.V {
	d := p.Sub(l.eye)
	return vec.V{X: l.rows[0].Dot(d), Y: l.rows[1].Dot(d), Z: l.rows[2].Dot(d)}
}

// bent returns where a point of the undistorted picture, relative to its middle, appears.
func (l *lens) bent(x, y float64) Point {
	k := 1 + l.bend*(x*x+y*y)/l.corner2
	return Point{l.midX + k*x, l.midY + k*y}
}

// point returns where a point appears; ok is false if it is not in front of the camera.
func (l *lens) point(p vec.V) (at Point, ok bool) {
	s := l.seen(p)
	if s.Z < 0.01 {
		return Point{}, false
	}
	return l.bent(l.focal*s.X/s.Z, l.focal*s.Y/s.Z), true
}

// ball returns the outline of a ball; ok is false if it is not in front of the camera.
// The cone from the eye C that touches the ball cuts the picture in an ellipse with
// centre (C_x, C_y) C_z/(C_z² − R²) and semi-axes R/√(C_z² − R²) and that times
// √((|C|² − R²)/(C_z² − R²)), the long one towards the middle of the picture. Follows
// from (C·x)² = (|C|² − R²)|x|² with x = (u, v, 1).
func (l *lens) ball(centre vec.V, radius float64) (e ellipse, ok bool) {
	s := l.seen(centre)
	deep := s.Z*s.Z - radius*radius
	if s.Z < 2*radius {
		return e, false
	}
	f := l.focal * s.Z / deep
	x, y := f*s.X, f*s.Y
	e.Point = l.bent(x, y)
	e.cos, e.sin = 1, 0
	r2 := x*x + y*y
	if r2 > 0 {
		r := math.Sqrt(r2)
		e.cos, e.sin = x/r, y/r
	}
	k := l.bend * r2 / l.corner2
	e.short = l.focal * radius / math.Sqrt(deep)
	e.long = e.short * math.Sqrt((s.Dot(s)-radius*radius)/deep) * (1 + 3*k)
	e.short *= 1 + k
	return e, true
}

// straight undoes bent.
func (l *lens) straight(p Point) (x, y float64) {
	x0, y0 := p.X-l.midX, p.Y-l.midY
	x, y = x0, y0
	for range 8 {
		k := 1 + l.bend*(x*x+y*y)/l.corner2
		x, y = x0/k, y0/k
	}
	return x, y
}

// plane returns the point at height z that appears at p; ok is false if the ray does not
// come down to it in front of the camera.
func (l *lens) plane(p Point, z float64) (at vec.V, ok bool) {
	x, y := l.straight(p)
	ray := l.rows[0].Mul(x / l.focal).Add(l.rows[1].Mul(y / l.focal)).Add(l.rows[2])
	t := (z - l.eye.Z) / ray.Z
	if !(t > 0) || math.IsInf(t, 0) {
		return vec.V{}, false
	}
	return l.eye.Add(ray.Mul(t)), true
}

// centre returns the place of the resting ball whose outline has its centre at p.
func (l *lens) centre(p Point, radius float64) (at vec.V, ok bool) {
	aim := p
	for range 3 {
		if at, ok = l.plane(aim, 0); !ok {
			return at, false
		}
		e, front := l.ball(at, radius)
		if !front {
			return at, false
		}
		aim.X += p.X - e.X
		aim.Y += p.Y - e.Y
	}
	return l.plane(aim, 0)
}

func (p Place) vec() vec.V { return vec.V{X: float64(p.X), Y: float64(p.Y)} }

func place(v vec.V) Place { return Place{unit.Length(v.X), unit.Length(v.Y)} }

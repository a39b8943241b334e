// Package filmtest renders films of strokes for tests: a perspective camera with
// distortion and shake, cloth, balls with shading and shadows, a cue and a hand, motion
// blur, noise and a coarse codec. It shares no code with package film, whose checks it
// serves.
package filmtest

import (
	"math"
	"math/rand/v2"

	"pivotbench/core/film"
	"pivotbench/core/motion"
	"pivotbench/core/vec"
)

// A Camera looks at a point from an eye.
type Camera struct {
	Width, Height int
	Focal         float64 // in pixels
	Eye, Look     vec.V   // in metres, in the axes of package film
	Roll          float64 // clockwise turn of the camera, radians
	Bend          float64 // radial displacement at the picture's corner, as a share
	Rate          float64 // frames a second
	Exposure      float64 // seconds
	Readout       float64 // seconds from the exposure of the top row to that of the bottom row
	Shake         float64 // standard deviation of its wander, in pixels
	Noise         float64 // standard deviation of a pixel's luma
	Coarse        float64 // step by which the codec quantizes; 0: no codec
}

// A Ball is a ball with its luma in full light.
type Ball struct {
	At   vec.V
	Luma float64
}

// A Scene is a table with a stroke on it. The ball at the origin is struck at Start and
// follows Path until it meets another ball.
type Scene struct {
	Camera
	Radius   float64
	Cue      float64 // luma of the cue ball
	Dots     bool    // it has dots
	Balls    []Ball  // all others
	Cloth    float64 // luma of the cloth
	Lamps    [2]vec.V
	Shadow   float64 // share of the light that a ball takes from its shadow, of both lamps
	Path     motion.Path
	Start    float64
	Length   float64 // seconds of film
	Hand     bool    // hand and cue are seen
	Arm      float64 // when an arm crosses the picture; 0: never
	Seed     uint64
	Restart  float64 // when the ball, put back, is struck again; 0: never
	Back     vec.V   // where it was put back; its spot is the origin
	Knock    float64 // when somebody knocks the camera; 0: never
	Constant bool    // the light does not flicker
}

// A Film renders the frames of a scene, in order.
type Film struct {
	s        *Scene
	rng      *rand.Rand
	basis    [3]vec.V
	back     [3][]float32 // what stands still when 0, 1 or 2 balls move, with a margin of pad pixels
	resting  []Ball       // those that never move
	plane    []float32
	coded    []float32
	noise    []float32
	out      []byte
	wander   [2]float64
	dots     []vec.V
	painted  []vec.V // places of the moving balls that are painted already
	hit      int     // ball that is hit, or -1
	hitAt    float64 // when, after the start
	after    [2]vec.V
	hitPlace vec.V
	frame    int
}

// pad is how far the picture can wander.
const pad = 16

// New prepares the rendering of a scene.
func New(s *Scene) *Film {
	f := &Film{s: s, rng: rand.New(rand.NewPCG(s.Seed, 77)), hit: -1}
	f.basis = axes(s)
	f.noise = make([]float32, 1<<16)
	for i := range f.noise {
		f.noise[i] = float32(f.rng.NormFloat64() * s.Noise)
	}
	if s.Dots {
		for _, d := range []vec.V{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}, {Z: 1}, {Z: -1}} {
			f.dots = append(f.dots, d.Turn(0.5))
		}
	}
	f.meet()
	f.still()
	n := s.Width * s.Height
	f.plane, f.out = make([]float32, n), make([]byte, n)
	return f
}

// Frames returns the number of frames.
func (f *Film) Frames() int { return int(f.s.Length * f.s.Rate) }

// Contact returns when the ball meets another one, counted from the stroke, or +Inf.
func (f *Film) Contact() float64 {
	if f.hit < 0 {
		return math.Inf(1)
	}
	return f.hitAt
}

// Next renders the next frame into a buffer that the frame after it uses again, and
// returns it with its time.
func (f *Film) Next() (film.Picture, float64) {
	s := f.s
	t := float64(f.frame) / s.Rate
	f.frame++
	f.sway(t)
	flicker := 1.0
	if !s.Constant {
		flicker = 1 + 0.006*math.Sin(2*math.Pi*t*7.3)
	}
	moving := f.movers(t)
	f.ground(f.back[len(moving)], float32(flicker))
	f.painted = f.painted[:0]
	// The cue lies behind the ball or before it, as the camera sees them.
	before := s.Eye.Y < 0
	if s.Hand && !before {
		f.hand(t)
	}
	for _, m := range moving {
		f.ball(m, t)
	}
	if s.Hand && before {
		f.hand(t)
	}
	if s.Arm > 0 {
		f.arm(t)
	}
	f.finish()
	return film.Picture{Width: s.Width, Height: s.Height, Stride: s.Width, Luma: f.out}, t
}

// sway moves the camera: a wander that is drawn back, and a knock.
func (f *Film) sway(t float64) {
	for i := range f.wander {
		f.wander[i] = 0.9*f.wander[i] + math.Sqrt(1-0.81)*f.s.Shake*f.rng.NormFloat64()
	}
	if k := f.s.Knock; k > 0 && t >= k && t < k+1/f.s.Rate {
		f.wander[0] += 14
	}
	if k := f.s.Knock; k > 0 && t >= k {
		f.wander[0] = math.Max(f.wander[0], 11)
	}
	for i := range f.wander {
		f.wander[i] = min(max(f.wander[i], -pad+2), pad-2)
	}
}

// ray returns the direction in which a pixel looks. x and y are pixels of the picture
// without its wander.
func (f *Film) ray(x, y float64) vec.V {
	s := f.s
	dx, dy := x-float64(s.Width)/2, y-float64(s.Height)/2
	corner := math.Hypot(float64(s.Width), float64(s.Height)) / 2
	// Undo r' = r (1 + bend (r/corner)²) by Newton's method.
	far := math.Sqrt(dx*dx+dy*dy) / corner
	r := far
	for range 3 {
		r -= (r*(1+s.Bend*r*r) - far) / (1 + 3*s.Bend*r*r)
	}
	k := 1.0
	if far > 0 {
		k = r / far
	}
	d := f.basis[0].Mul(k * dx / s.Focal).Add(f.basis[1].Mul(k * dy / s.Focal)).Add(f.basis[2])
	return d.Mul(1 / d.Norm())
}

// Pixel returns where a point appears, without the camera's wander.
func (f *Film) Pixel(p vec.V) (x, y, deep float64) {
	s := f.s
	d := p.Sub(s.Eye)
	deep = f.basis[2].Dot(d)
	x, y = s.Focal*f.basis[0].Dot(d)/deep, s.Focal*f.basis[1].Dot(d)/deep
	corner := math.Hypot(float64(s.Width), float64(s.Height)) / 2
	k := 1 + s.Bend*(x*x+y*y)/(corner*corner)
	return float64(s.Width)/2 + k*x, float64(s.Height)/2 + k*y, deep
}

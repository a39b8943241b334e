package filmtest

import (
	"math"
	"math/rand/v2"

	"pivotbench/core/film"
	"pivotbench/core/gear"
	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/stance"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// A Take is a scene with what is true of it and what a person knows about it.
type Take struct {
	Scene  Scene
	Balls  []film.Ball // where a tape has them, with no marks
	Launch float64     // plan angle in radians
	Speed  float64     // m/s
	Shot   shot.Shot   // as meant
}

// Random returns a stroke filmed from a random stand, in a picture of the given size.
func Random(r *rand.Rand, width, height int) Take {
	between := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	const radius = 0.028575
	var k Take
	s := &k.Scene
	s.Radius, s.Seed = radius, r.Uint64()
	s.Width, s.Height = width, height

	// The layout: target and a gate before it; their places are off by a tape's error.
	dist := between(0.75, 1.2)
	gate, gap := dist-between(0.12, 0.2), between(0.066, 0.09)
	off := func() float64 { return float64(film.ByTape) * r.NormFloat64() }
	add := func(role film.Role, x, y, luma float64) {
		k.Balls = append(k.Balls, film.Ball{Role: role, At: film.Place{X: unit.Length(x), Y: unit.Length(y)}})
		if role == film.Cue {
			return
		}
		y += off()
		if role != film.Target {
			x += off()
		}
		s.Balls = append(s.Balls, Ball{vec.V{X: x, Y: y}, luma})
	}
	s.Cloth = between(60, 120)
	luma := func() float64 {
		for {
			if v := between(20, 230); math.Abs(v-s.Cloth) > 40 {
				return v
			}
		}
	}
	add(film.Cue, 0, 0, 0)
	add(film.Target, 0, dist, luma())
	add(film.Left, -gap/2-radius, gate, luma())
	add(film.Right, gap/2+radius, gate, luma())
	for range r.IntN(4) {
		side := math.Copysign(between(0.3, 0.55), r.Float64()-0.5)
		s.Balls = append(s.Balls, Ball{vec.V{X: side, Y: between(-0.3, 1.4)}, between(20, 230)})
	}
	s.Cue = between(190, 235)
	s.Dots = r.IntN(4) == 0
	s.Lamps = [2]vec.V{{X: between(-0.5, 0.5), Y: between(-0.3, 0.5), Z: between(0.8, 1.5)}, {X: between(-0.5, 0.5), Y: between(0.7, 1.6), Z: between(0.8, 1.5)}}
	s.Shadow = between(0.2, 0.6)

	// The camera: on a chair or a tripod beside the table or at its foot, seeing all the balls.
	angle := between(-2.5, 2.5)
	rise := between(0.35, 1.0)
	far := between(0.5, 1.2) * dist
	mid := vec.V{X: between(-0.05, 0.05), Y: dist * between(0.45, 0.6)}
	sin, cos := math.Sincos(angle)
	sr, cr := math.Sincos(rise)
	s.Focal = between(0.7, 0.9) * float64(max(width, height))
	s.Bend = between(-0.01, 0.01)
	s.Roll = 0.04 * r.NormFloat64()
	s.Look = mid
	f := Film{s: s}
	for {
		s.Eye = mid.Add(vec.V{X: far * cr * sin, Y: far * cr * cos, Z: far * sr})
		f.basis = axes(s)
		if f.clear() {
			break
		}
		if far *= 1.05; far > 3 { // from here it will not be: look from elsewhere
			sin, cos = math.Sincos(between(-2.5, 2.5))
			sr, cr = math.Sincos(between(0.35, 1.0))
			far = 0.5 * dist
		}
	}
	s.Rate = []float64{30, 60, 60, 60, 120}[r.IntN(5)]
	s.Exposure = between(0.15, 0.6) / s.Rate
	s.Shake = between(0, 1)
	s.Noise = between(1, 4)
	s.Coarse = between(4, 16)
	s.Hand = r.IntN(5) > 0

	// The stroke: some english, some elevation, nearly aimed.
	cloth := gear.Cloth{Slide: 0.2 * (1 + 0.15*r.NormFloat64()), Roll: between(0.007, 0.015), SpinDecay: 10, Rebound: 0.5}
	k.Shot = shot.Shot{
		Ball:  gear.Ball{Radius: radius, Mass: 0.17},
		Cue:   gear.Cue{Mass: 0.54, Tip: gear.Tip{Dome: 0.0106, Width: 0.013, Restitution: 0.75, Friction: 0.6}, Pivot: 0.3, PivotSpin: 0.5},
		Cloth: gear.Cloth{Slide: 0.2, Roll: 0.011, SpinDecay: 10, Rebound: 0.5},
		Contact: strike.Contact{
			Side:   []float64{0, 0.3, -0.3, 0.45, -0.45}[r.IntN(5)],
			Height: []float64{0, 0, 0.2, -0.2}[r.IntN(4)],
		},
		Elevation: unit.Angle(between(1, 6)) * unit.Degree,
		Hands:     stance.Hands{Bridge: 0.3, Grip: 0.7, Back: 1},
		Dist:      unit.Length(dist),
	}
	set, raise := k.Shot.Contact, k.Shot.Elevation
	top := 5.5
	if s.Rate < 60 {
		top = 2.5
	}
	for {
		at := strike.Contact{Side: set.Side + 0.03*r.NormFloat64(), Height: set.Height + 0.05*r.NormFloat64()}
		hit, err := strike.Prepare(k.Shot.Ball, k.Shot.Cue, at)
		if err != nil {
			continue
		}
		up := raise + unit.Angle(r.NormFloat64())*unit.Degree
		heading := unit.Angle(0.02*r.NormFloat64()) + hit.Squirt(up)
		k.Shot.Speed = unit.Speed(between(1, top))
		l := hit.At(strike.Line{Heading: heading, Elevation: max(0.2*unit.Degree, up)}, hit.CueSpeed(k.Shot.Speed))
		s.Path = motion.Run(l.Vel, l.Spin, radius, cloth)
		break
	}
	start, _ := s.Path.At(0)
	k.Launch, k.Speed = float64(motion.Bearing(start.Vel)), start.Vel.Norm()
	s.Start = between(0.5, 0.9)
	s.Length = s.Start + math.Min(1.1, between(1.1, 1.4)*dist/k.Speed+0.2)
	if r.IntN(3) == 0 {
		s.Arm = between(0.05, s.Start-0.4)
	}
	return k
}

// axes returns the axes of a scene's camera.
func axes(s *Scene) [3]vec.V {
	ahead := s.Look.Sub(s.Eye)
	ahead = ahead.Mul(1 / ahead.Norm())
	right := ahead.Cross(vec.V{Z: 1})
	right = right.Mul(1 / right.Norm())
	down := ahead.Cross(right)
	sin, cos := math.Sincos(s.Roll)
	return [3]vec.V{right.Mul(cos).Add(down.Mul(sin)), down.Mul(cos).Sub(right.Mul(sin)), ahead}
}

// clear reports whether the cue ball, target and blockers are well in the picture, and none
// hides part of another.
func (f *Film) clear() bool {
	var seen [][3]float64
	for _, b := range append([]Ball{{}}, f.s.Balls[:3]...) {
		x, y, deep := f.Pixel(b.At)
		r := f.s.Focal * f.s.Radius / deep
		margin := 1.5*r + 6
		if deep < 0.1 || x < margin || y < margin || x > float64(f.s.Width)-margin || y > float64(f.s.Height)-margin {
			return false
		}
		for _, o := range seen {
			if math.Hypot(x-o[0], y-o[1]) < 1.1*(r+o[2]) {
				return false
			}
		}
		seen = append(seen, [3]float64{x, y, r})
	}
	return true
}

package instrument

import (
	"errors"
	"math"
	"slices"
	"strconv"

	"pivotbench/core/gear"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// Errors of timings.
var (
	ErrOrder   = errors.New("the stop came before the start: time it again")
	ErrTooFast = errors.New("no stroke is that fast (over 40 mph): check the time, and the unit of the distance")
	ErrLength  = errors.New("the distance must be more than 0 and at most 20 m")
	ErrTopspin = errors.New("topspin must be −1.5 to 1.5 times that of a rolling ball")
	ErrCloth   = errors.New("sliding friction and rolling resistance of the cloth must be more than 0")
	ErrNone    = errors.New("no readings yet: time a shot first")
)

// fastest is faster than any stroke, and longest longer than any table.
const (
	fastest = 40 * unit.MilePerHour
	longest = 20 * unit.Metre
)

// A TooShortError is a time that is too short for two presses.
type TooShortError struct{ Least unit.Span }

func (e *TooShortError) Error() string {
	return "the two taps were too close together: leave at least " + seconds(e.Least)
}

// A StopsError is a ball that stops before the mark. The slowest ball that gets
// there takes Longest.
type StopsError struct{ Longest unit.Span }

func (e *StopsError) Error() string {
	return "the ball would have stopped before the mark: the slowest that gets there takes " + seconds(e.Longest)
}

func seconds(t unit.Span) string { return strconv.FormatFloat(float64(t), 'f', 2, 64) + " s" }

// A Run is a ball timed from the hit to a mark, in a straight line on a level table.
type Run struct {
	Dist    unit.Length // that the ball's centre travels, from rest to the mark
	Time    unit.Span
	Press   unit.Span // standard deviation of the start and of the stop: Thumb or Sound
	Topspin float64   // Rω/v as the tip lets go: 0 a stun hit, 1 rolling at once, negative for draw
	Cloth   gear.Cloth
}

// motion holds the constants of a run at launch speed v: it slides for slide·v
// over far·v², then rolls on at keep·v, slowed by slow.
type motion struct{ slide, far, keep, slow float64 }

// motion follows from Coriolis (1835): sliding ends after 2|u|/(7 μ_s g), u the
// slip, at v − (2/7)u.
func (r *Run) motion() motion {
	u, sliding := 1-r.Topspin, r.Cloth.Slide*unit.Gravity
	t := 2 * math.Abs(u) / (7 * sliding)
	return motion{slide: t, far: t * (1 - u/7), keep: 1 - 2*u/7, slow: r.Cloth.Roll * unit.Gravity}
}

// Speed returns the speed of the ball as the tip lets go. Errors: ErrOrder,
// *TooShortError, *StopsError, ErrTooFast, and those of an incomplete run:
// ErrLength, ErrTopspin, ErrCloth.
func (r *Run) Speed() (unit.Speed, error) {
	if err := r.check(); err != nil {
		return 0, err
	}
	if most := r.slowest(); r.Time > most {
		return 0, &StopsError{most}
	}
	v, _ := r.solve()
	if v > float64(fastest) {
		return 0, ErrTooFast
	}
	return unit.Speed(v), nil
}

// slowest returns the time of the slowest ball that gets to the mark, if the cloth
// rolls more easily than the bench's by two standard deviations.
func (r *Run) slowest() unit.Span {
	easy := *r
	easy.Cloth.Roll *= 1 - 2*clothSet
	m := easy.motion()
	v := math.Sqrt(float64(r.Dist) / (m.far + m.keep*m.keep/(2*m.slow)))
	return unit.Span(v * (m.slide + m.keep/m.slow))
}

// solve returns the launch speed v, and the standard deviation of 1/v from the two
// presses. A late press is like a mark further on, by as much as the ball moves
// meanwhile.
//
// Sliding, D = vT ∓ μ_s g T²/2. Rolling at the mark, with t = slide·v the time of
// the slide, D = far·v² + keep·v (T − t) − μ_r g (T − t)²/2, which is
//
//	a v² + b v − e = 0,  a = far − keep·slide − μ_r g slide²/2,
//	b = T (keep + μ_r g slide),  e = D + μ_r g T²/2
func (r *Run) solve() (v, press float64) {
	d, t := float64(r.Dist), float64(r.Time)
	m := r.motion()
	friction := math.Copysign(r.Cloth.Slide*unit.Gravity, 1-r.Topspin)
	v = d/t + friction*t/2
	there, perLength := v-friction*t, 1/t // speed at the mark, and dv/dD
	if m.slide*v < t {
		a := m.far - m.keep*m.slide - m.slow*m.slide*m.slide/2
		b := t * (m.keep + m.slow*m.slide)
		e := d + m.slow*t*t/2
		v = 2 * e / (b + math.Sqrt(b*b+4*a*e))
		there, perLength = m.keep*v-m.slow*(t-m.slide*v), 1/(2*a*v+b)
	}
	return v, math.Abs(perLength*there) * math.Sqrt2 * float64(r.Press) / (v * v)
}

func (r *Run) check() error {
	switch least := 2 * r.Press; {
	case !(r.Dist > 0 && r.Dist <= longest):
		return ErrLength
	case !(math.Abs(r.Topspin) <= 1.5):
		return ErrTopspin
	case !(r.Cloth.Slide > 0 && r.Cloth.Roll > 0):
		return ErrCloth
	case !(r.Time > 0):
		return ErrOrder
	case r.Time < least:
		return &TooShortError{least}
	}
	return nil
}

// slowness returns the mean of 1/v, which is nearly proportional to the times that
// were read.
func slowness(runs []Run) float64 {
	sum := 0.0
	for i := range runs {
		v, _ := runs[i].solve()
		sum += 1 / v
	}
	return sum / float64(len(runs))
}

// with returns a copy of runs with each one changed.
func with(runs []Run, change func(*Run)) []Run {
	runs = slices.Clone(runs)
	for i := range runs {
		change(&runs[i])
	}
	return runs
}

// The givens of runs, each off by a number of its standard deviations.
func tapeOff(off float64) func(*Run) {
	return func(r *Run) { r.Dist += unit.Length(off) * tape }
}

func rollOff(off float64) func(*Run) {
	return func(r *Run) { r.Cloth.Roll *= 1 + off*clothSet }
}

func slideOff(off float64) func(*Run) {
	return func(r *Run) { r.Cloth.Slide *= 1 + off*clothSet }
}

// tipOff is a tip that meets the ball higher: a share of the radius adds 5/2 of
// that share to the topspin.
func tipOff(off float64, radius unit.Length) func(*Run) {
	return func(r *Run) { r.Topspin += spinOff(off, radius) }
}

func spinOff(off float64, radius unit.Length) float64 {
	return off * 2.5 * float64(tipSeen/radius)
}

// Speed returns the speed of several runs of one kind of stroke, pooled as 1/v.
// Its interval allows for the presses, the tape, the cloth and the height of the
// tip; radius is the ball's, and matters to that height. The first run that is
// impossible is an error.
func Speed(runs []Run, radius unit.Length) (stat.Estimate[unit.Speed], error) {
	if len(runs) == 0 {
		return stat.Estimate[unit.Speed]{}, ErrNone
	}
	readings := make([]reading, len(runs))
	for i := range runs {
		if _, err := runs[i].Speed(); err != nil {
			return stat.Estimate[unit.Speed]{}, err
		}
		v, press := runs[i].solve()
		readings[i] = reading{1 / v, press}
	}
	slow := pool(readings,
		func(off float64) float64 { return slowness(with(runs, tapeOff(off))) },
		func(off float64) float64 { return slowness(with(runs, rollOff(off))) },
		func(off float64) float64 { return slowness(with(runs, slideOff(off))) },
		func(off float64) float64 { return slowness(with(runs, tipOff(off, radius))) })
	return stat.Transform(slow, func(slowness float64) unit.Speed {
		return unit.Speed(1 / max(slowness, 1/float64(fastest)))
	}), nil
}

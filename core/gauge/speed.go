package gauge

import (
	"errors"
	"math"
	"strconv"

	"pivotbench/core/gear"
	"pivotbench/core/unit"
)

// What keeps a time from being a speed.
var (
	ErrOrder   = errors.New("the stop comes before the start")
	ErrTooFast = errors.New("no stroke is that fast, over 40 mph: the time is too short for the length, or the length is in another unit")
	ErrLength  = errors.New("a length is needed, more than nothing and at most 20 m")
	ErrTopspin = errors.New("topspin is −1.5 to 1.5 times that of a rolling ball")
	ErrCloth   = errors.New("the cloth needs a sliding and a rolling friction, both more than nothing")
	ErrNone    = errors.New("there are no readings yet")
)

// fastest is beyond all strokes, and longest beyond all tables.
const (
	fastest = 40 * unit.MilePerHour
	longest = 20 * unit.Metre
)

// A TooShortError is a time that no pair of presses can have between them.
type TooShortError struct{ Least unit.Span }

func (e *TooShortError) Error() string {
	return "too short to be real: such a pair can't be told apart under " + seconds(e.Least)
}

// A StopsError is a ball that would have stopped before the mark. The slowest
// that gets there takes Longest.
type StopsError struct{ Longest unit.Span }

func (e *StopsError) Error() string {
	return "the ball would have stopped before the mark: the slowest that gets there takes " + seconds(e.Longest)
}

func seconds(t unit.Span) string { return strconv.FormatFloat(float64(t), 'f', 2, 64) + " s" }

// A Run is a ball timed from the hit to a mark, over a straight level way.
type Run struct {
	Dist    unit.Length // of the ball's centre, from rest to the mark
	Time    unit.Span
	Press   unit.Span // one standard deviation of start and of stop: Thumb or Sound
	Topspin float64   // Rω/v as the tip lets go: 0 a stun hit, 1 rolling at once, negative for draw
	Cloth   gear.Cloth
}

// motion are the constants of a run at launch speed v: it slides for slide·v
// over far·v², then rolls from keep·v at slow.
type motion struct{ slide, far, keep, slow float64 }

// motion follows from Coriolis (1835): sliding ends after 2|u|/(7 μ_s g), u the
// slip, at v − (2/7)u.
func (r *Run) motion() motion {
	u, sliding := 1-r.Topspin, r.Cloth.Slide*unit.Gravity
	t := 2 * math.Abs(u) / (7 * sliding)
	return motion{slide: t, far: t * (1 - u/7), keep: 1 - 2*u/7, slow: r.Cloth.Roll * unit.Gravity}
}

// Speed is that of the ball as the tip lets go. Errors: ErrOrder,
// *TooShortError, *StopsError, ErrTooFast and what the setting is short of.
//
// Sliding, D = vT ∓ μ_s g T²/2. Rolling at the mark, with t = slide·v the
// slide's time and D = far·v² + keep·v (T − t) − μ_r g (T − t)²/2, which is
//
//	a v² + b v − e = 0,  a = far − keep·slide − μ_r g slide²/2,
//	b = T (keep + μ_r g slide),  e = D + μ_r g T²/2
func (r *Run) Speed() (unit.Speed, error) {
	v, _, _, err := r.solve()
	return unit.Speed(v), err
}

// solve also gives the standard deviations of v, as shares of it, that the two
// presses and the tape make. A late press is a mark further on, by as much as
// the ball goes meanwhile.
func (r *Run) solve() (v, press, length float64, err error) {
	if err := r.check(); err != nil {
		return 0, 0, 0, err
	}
	d, t := float64(r.Dist), float64(r.Time)
	m := r.motion()
	if v := math.Sqrt(d / (m.far + m.keep*m.keep/(2*m.slow))); t > v*(m.slide+m.keep/m.slow) {
		return 0, 0, 0, &StopsError{unit.Span(v * (m.slide + m.keep/m.slow))}
	}
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
	if v > float64(fastest) {
		return 0, 0, 0, ErrTooFast
	}
	return v, perLength * there * math.Sqrt2 * float64(r.Press) / v, perLength * float64(tape) / v, nil
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

// Speed is what several runs come to. They are pooled as 1/v, which goes nearly
// straight with the time that was read. A run that can't be is an error: the
// first of them.
func Speed(runs []Run) (Estimate[unit.Speed], error) {
	if len(runs) == 0 {
		return Estimate[unit.Speed]{}, ErrNone
	}
	readings, shared := make([]reading, len(runs)), 0.0
	for i := range runs {
		v, press, length, err := runs[i].solve()
		if err != nil {
			return Estimate[unit.Speed]{}, err
		}
		readings[i] = reading{1 / v, press / v}
		shared += length / v / float64(len(runs))
	}
	mean, half := pool(readings, shared)
	most := max(mean-half, 1/float64(fastest))
	return Estimate[unit.Speed]{unit.Speed(1 / mean), unit.Speed(1 / (mean + half)), unit.Speed(1 / most), len(runs)}, nil
}

package gauge

import (
	"errors"
	"math"

	"pivotbench/core/unit"
)

// What keeps a rolling ball from telling its cloth.
var (
	ErrResistance = errors.New("no cloth rolls like that, at 0.001 to 0.1 of gravity: check the lengths, their unit and the times")
	ErrMarks      = errors.New("the third mark is beyond the second, and reached after it")
	ErrNoSlowing  = errors.New("the second length was no slower than the first: the ball has to lose speed that can be seen; take longer lengths or a slower ball")
)

// checkResistance keeps what can't be a cloth out.
func checkResistance(r float64) (float64, error) {
	if !(r >= 0.001 && r <= 0.1) {
		return 0, ErrResistance
	}
	return r, nil
}

// A Rest is a ball timed from a mark, which it passes rolling, to where it
// comes to rest.
type Rest struct {
	Length unit.Length
	Time   unit.Span
}

// Resistance is the cloth's rolling resistance, deceleration over gravity:
//
//	μ_r = 2L/(g t²)
//
// Errors: ErrLength, ErrOrder, *TooShortError, ErrResistance.
func (r Rest) Resistance() (float64, error) {
	const least = 2 * settling
	switch {
	case !(r.Length > 0 && r.Length <= longest):
		return 0, ErrLength
	case !(r.Time > 0):
		return 0, ErrOrder
	case r.Time < least:
		return 0, &TooShortError{least}
	}
	return checkResistance(2 * float64(r.Length) / (unit.Gravity * float64(r.Time*r.Time)))
}

// RestAverage is what several such balls come to, each with its own length.
func RestAverage(runs []Rest) (Estimate[float64], error) {
	if len(runs) == 0 {
		return Estimate[float64]{}, ErrNone
	}
	readings := make([]reading, len(runs))
	for i, r := range runs {
		at, err := r.Resistance()
		if err != nil {
			return Estimate[float64]{}, err
		}
		time := math.Hypot(float64(Thumb), float64(settling))
		readings[i] = reading{math.Log(at), math.Hypot(float64(tape/r.Length), 2*time/float64(r.Time))}
	}
	return ratios[float64](readings, 0), nil
}

// Marks is a rolling ball timed past three marks: the lengths and the times are
// those from the first to the second and from the first to the third.
type Marks struct {
	Second, Third         unit.Length
	SecondTime, ThirdTime unit.Span
	Press                 unit.Span // one standard deviation of each of the three presses
}

// Resistance is the cloth's rolling resistance. With d = vt − at²/2 for both,
//
//	a = 2 (d₁/t₁ − d₂/t₂)/(t₂ − t₁),  μ_r = a/g
//
// Errors: ErrLength, ErrOrder, *TooShortError, ErrMarks, ErrNoSlowing,
// ErrResistance.
func (m Marks) Resistance() (float64, error) {
	switch least := 2 * m.Press; {
	case !(m.Second > 0 && m.Third <= longest):
		return 0, ErrLength
	case !(m.SecondTime > 0):
		return 0, ErrOrder
	case !(m.Third > m.Second && m.ThirdTime > m.SecondTime):
		return 0, ErrMarks
	case m.SecondTime < least || m.ThirdTime-m.SecondTime < least:
		return 0, &TooShortError{least}
	}
	a := m.slowing()
	if !(a > 0) {
		return 0, ErrNoSlowing
	}
	if first := float64(m.Second)/float64(m.SecondTime) + a*float64(m.SecondTime)/2; first < a*float64(m.ThirdTime) {
		return 0, &StopsError{unit.Span(first / a)}
	}
	return checkResistance(a / unit.Gravity)
}

// slowing is a, in m/s².
func (m Marks) slowing() float64 {
	d1, d2, t1, t2 := float64(m.Second), float64(m.Third), float64(m.SecondTime), float64(m.ThirdTime)
	return 2 * (d1/t1 - d2/t2) / (t2 - t1)
}

// sds are the standard deviations of the resistance that the three presses
// make, and the tape. The first press is in both times.
func (m Marks) sds() (press, length float64) {
	d1, d2, t1, t2 := float64(m.Second), float64(m.Third), float64(m.SecondTime), float64(m.ThirdTime)
	first := (m.slowing() - 2*d1/(t1*t1)) / (t2 - t1)  // da/dt₁
	second := (2*d2/(t2*t2) - m.slowing()) / (t2 - t1) // da/dt₂
	press = math.Hypot(math.Hypot(first, second), first+second) * float64(m.Press) / unit.Gravity
	length = 2 / (t2 - t1) * math.Hypot(1/t1, 1/t2) * float64(tape) / unit.Gravity
	return press, length
}

// MarksAverage is what several such balls come to. Its interval does not go
// below nothing.
func MarksAverage(runs []Marks) (Estimate[float64], error) {
	if len(runs) == 0 {
		return Estimate[float64]{}, ErrNone
	}
	readings, shared := make([]reading, len(runs)), 0.0
	for i, r := range runs {
		at, err := r.Resistance()
		if err != nil {
			return Estimate[float64]{}, err
		}
		press, length := r.sds()
		readings[i] = reading{at, press}
		shared += length / float64(len(runs))
	}
	mean, half := pool(readings, shared)
	return Estimate[float64]{mean, max(0, mean-half), mean + half, len(runs)}, nil
}

package instrument

import (
	"errors"
	"math"

	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// Errors of readings of a rolling ball.
var (
	ErrResistance = errors.New("no cloth rolls like that: check the distances, their unit and the times")
	ErrMarks      = errors.New("the third mark must be beyond the second, and reached later")
	ErrNoSlowing  = errors.New("the ball did not slow down between the marks: use longer distances or a slower ball")
)

// Every cloth's rolling resistance is between these.
const (
	smoothest = 0.001
	roughest  = 0.1
)

// checkResistance refuses a rolling resistance that no cloth has.
func checkResistance(r float64) (float64, error) {
	if !(r >= smoothest && r <= roughest) {
		return 0, ErrResistance
	}
	return r, nil
}

// A Rest is a ball timed from a mark, which it passes rolling, until it comes to
// rest.
type Rest struct {
	Length unit.Length
	Time   unit.Span
}

// Resistance returns the cloth's rolling resistance, deceleration over gravity:
//
//	μ_r = 2L/(g t²)
//
// Errors: ErrLength, ErrOrder, *TooShortError, ErrResistance.
func (r Rest) Resistance() (float64, error) {
	const least = 2 * restSeen
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

// RestAverage returns the rolling resistance from several such balls, each with its
// own length. They are pooled as 1/√μ_r, which is proportional to the time read.
func RestAverage(runs []Rest) (stat.Estimate[float64], error) {
	if len(runs) == 0 {
		return stat.Estimate[float64]{}, ErrNone
	}
	readings := make([]reading, len(runs))
	for i, r := range runs {
		at, err := r.Resistance()
		if err != nil {
			return stat.Estimate[float64]{}, err
		}
		time := math.Hypot(float64(Thumb), float64(restSeen))
		share := math.Hypot(float64(tape/(2*r.Length)), time/float64(r.Time))
		readings[i] = reading{1 / math.Sqrt(at), share / math.Sqrt(at)}
	}
	return stat.Transform(pool(readings), func(ease float64) float64 {
		ease = max(ease, 1/math.Sqrt(roughest))
		return 1 / (ease * ease)
	}), nil
}

// Marks is a rolling ball timed past three marks: the lengths and times are from
// the first to the second and from the first to the third.
type Marks struct {
	Second, Third         unit.Length
	SecondTime, ThirdTime unit.Span
	Press                 unit.Span // standard deviation of each of the three presses
}

// Check returns why no rolling ball makes such marks and times, however much its
// presses are off, or nil. The errors of the presses may well make a ball seem to
// gain speed. Its reading counts all the same, since the average of only those
// that seem to slow down is too high. Errors: ErrLength, ErrOrder, *TooShortError,
// ErrMarks, ErrNoSlowing, *StopsError, ErrResistance.
func (m Marks) Check() error {
	if err := m.readable(); err != nil {
		return err
	}
	off := beyond * m.press(m.slowing()) / m.weight()
	return m.plausible(m.slowing()+off, m.slowing()-off)
}

// beyond is a number of standard deviations that no press is off by.
const beyond = 5

// Resistance returns the cloth's rolling resistance from one ball. With d = vt − at²/2
// for both,
//
//	a = 2 (d₁/t₁ − d₂/t₂)/(t₂ − t₁),  μ_r = a/g
//
// Errors: those of Check.
func (m Marks) Resistance() (float64, error) {
	if err := m.readable(); err != nil {
		return 0, err
	}
	a := m.slowing()
	return a / unit.Gravity, m.plausible(a, a)
}

// readable returns why the marks give no deceleration, or nil.
func (m Marks) readable() error {
	switch least := 2 * m.Press; {
	case !(m.Second > 0 && m.Third <= longest):
		return ErrLength
	case !(m.SecondTime > 0):
		return ErrOrder
	case !(m.Third > m.Second && m.ThirdTime > m.SecondTime):
		return ErrMarks
	case m.SecondTime < least || m.ThirdTime-m.SecondTime < least:
		return &TooShortError{least}
	}
	return nil
}

// plausible returns why no cloth slows a ball by at most most and at least least,
// or nil.
func (m Marks) plausible(most, least float64) error {
	if !(most > 0) {
		return ErrNoSlowing
	}
	if first := float64(m.Second)/float64(m.SecondTime) + least*float64(m.SecondTime)/2; first < least*float64(m.ThirdTime) {
		return &StopsError{unit.Span(first / least)}
	}
	if most < smoothest*unit.Gravity || least > roughest*unit.Gravity {
		return ErrResistance
	}
	return nil
}

// slowing returns the deceleration a in m/s², which is lost()/weight() by d₁t₂ −
// d₂t₁ = a t₁t₂(t₂ − t₁)/2. Products of the errors of the times do not appear on
// the left, so over many balls the errors average out there. In a they do not.
func (m Marks) slowing() float64 { return m.lost() / m.weight() }

func (m Marks) lost() float64 {
	return float64(m.Second)*float64(m.ThirdTime) - float64(m.Third)*float64(m.SecondTime)
}

func (m Marks) weight() float64 {
	t1, t2 := float64(m.SecondTime), float64(m.ThirdTime)
	return t1 * t2 * (t2 - t1) / 2
}

// press returns the standard deviation of lost() − a weight() from the three
// presses. The first press is in both times.
func (m Marks) press(a float64) float64 {
	t1, t2 := float64(m.SecondTime), float64(m.ThirdTime)
	second := -float64(m.Third) - a*t2*(t2-2*t1)/2
	third := float64(m.Second) - a*t1*(2*t2-t1)/2
	return math.Hypot(math.Hypot(second, third), second+third) * float64(m.Press)
}

// MarksAverage returns the rolling resistance from several such balls, including
// those that seem to gain speed. Neither it nor its interval goes beyond what a
// cloth may have. Errors: those of Check for any ball, ErrNone, and ErrNoSlowing
// and ErrResistance for all balls together.
func MarksAverage(runs []Marks) (stat.Estimate[float64], error) {
	if len(runs) == 0 {
		return stat.Estimate[float64]{}, ErrNone
	}
	n := float64(len(runs))
	var lost, weight, length float64 // means
	for _, m := range runs {
		if err := m.Check(); err != nil {
			return stat.Estimate[float64]{}, err
		}
		lost += m.lost() / n
		weight += m.weight() / n
		length += float64(tape) * math.Hypot(float64(m.SecondTime), float64(m.ThirdTime)) / n
	}
	mean := lost / weight / unit.Gravity
	// The errors of the presses depend a little on the slowing itself, so each end
	// of the interval is worked out with the errors for the slowing at that end.
	average := func(resistance float64) stat.Estimate[float64] {
		a, readings := max(0, resistance)*unit.Gravity, make([]reading, len(runs))
		for i, m := range runs {
			readings[i] = reading{(a + (m.lost()-a*m.weight())/weight) / unit.Gravity, m.press(a) / (weight * unit.Gravity)}
		}
		return pool(readings, steady(mean, length/(weight*unit.Gravity)))
	}
	e := average(mean)
	for range 2 {
		e.From, e.To = average(e.From).From, average(e.To).To
	}
	switch {
	case e.To < smoothest:
		return stat.Estimate[float64]{}, ErrNoSlowing
	case e.From > roughest:
		return stat.Estimate[float64]{}, ErrResistance
	}
	return stat.Transform(e, func(r float64) float64 { return min(max(r, smoothest), roughest) }), nil
}

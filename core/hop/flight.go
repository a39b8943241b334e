package hop

import (
	"pivotbench/core/motion"
	"pivotbench/core/unit"
)

// A Flight is one segment in the air: a parabola in a vertical plane. No cloth acts on
// the ball, and sidespin does not bend it.
type Flight struct {
	Number int          // 1 for the first
	From   motion.State // as it leaves the cloth
	Land   motion.State // as it lands, before the cloth acts on it
	Begin  unit.Span
	Length unit.Span
}

// Rise returns the greatest height of the ball's centre above its resting height,
// v_z²/2g.
func (f *Flight) Rise() unit.Length {
	up := f.From.Vel.Z
	return unit.Length(up * up / (2 * unit.Gravity))
}

// Reach returns the distance in plan from the start of the path to the landing.
func (f *Flight) Reach() unit.Length { return unit.Length(f.Land.Pos.Plan().Norm()) }

// Flights returns the flights of a path that rise at least so high, in order.
func Flights(p *motion.Path, least unit.Length) []Flight {
	var out []Flight
	number := 0
	for i := range p.Segments() {
		s := &p.Segments()[i]
		if s.Phase != motion.Fly {
			continue
		}
		number++
		if f := flight(s, number); f.Rise() >= least {
			out = append(out, f)
		}
	}
	return out
}

// flight returns a segment in the air as a Flight.
func flight(s *motion.Segment, number int) Flight {
	t := float64(s.Length)
	land := motion.State{
		Pos:  s.From.Pos.Add(s.From.Vel.Mul(t)).Add(s.Acc.Mul(t * t / 2)).Plan(),
		Vel:  s.From.Vel.Add(s.Acc.Mul(t)),
		Spin: s.From.Spin,
	}
	return Flight{Number: number, From: s.From, Land: land, Begin: s.Begin, Length: s.Length}
}

// Over returns the flight that carries a ball across the line at y. It returns ErrRolls
// if the ball is on the cloth there, and motion.ErrStops if it never gets there.
func Over(p *motion.Path, y unit.Length) (Flight, error) {
	when, err := p.AtLine(y)
	if err != nil {
		return Flight{}, err
	}
	number := 0
	for i := range p.Segments() {
		s := &p.Segments()[i]
		if s.Phase != motion.Fly {
			break
		}
		number++
		if when <= s.Begin+s.Length {
			return flight(s, number), nil
		}
	}
	return Flight{}, ErrRolls
}

package shot

import (
	"errors"

	"pivotbench/core/contact"
	"pivotbench/core/motion"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// Errors of pocketing.
var (
	ErrObjectStops = errors.New("the object ball stops before the pocket")
	ErrNoAim       = errors.New("no aim sends the object ball to the pocket with this cut and spin")
)

// An Object is the ball to be pocketed. It lies where a cue ball that arrives at
// the target sends it along the line of centres to the middle of the pocket.
type Object struct {
	Cut     unit.Angle  // from the aim line to the line to the pocket, positive to the right
	Dist    unit.Length // from its centre to the middle of the pocket
	Opening unit.Length // clear width of the pocket's mouth
}

// ObjectAt returns the object ball's centre.
func (s *Shot) ObjectAt() vec.V {
	apart := 2 * float64(s.Ball.Radius)
	return vec.V{X: apart * s.Object.Cut.Sin(), Y: float64(s.Dist) + apart*s.Object.Cut.Cos()}
}

// Forgiven returns how far from the middle of the pocket the object ball's centre
// may pass and still drop without touching: half the opening less a radius. It is
// 0 if the pocket is no wider than the ball.
func (s *Shot) Forgiven() unit.Length { return max(0, s.Object.Opening/2-s.Ball.Radius) }

// A Pot is what happens to the object ball in a shot.
type Pot struct {
	When   unit.Span  // time of the contact
	Line   unit.Angle // angle of the line of centres in plan, positive to the right
	Throw  unit.Angle
	Object motion.Path  // from the object ball's centre
	Cue    motion.State // the cue ball after the contact; positions are relative to its own start
	Miss   unit.Length  // where the object ball passes the pocket, positive to the right of its middle
	Missed error        // why Miss is not set although the balls met
}

// In reports whether the object ball drops.
func (p *Pot) In(s *Shot) bool {
	return p.Missed == nil && unit.Abs(p.Miss) <= s.Forgiven()
}

// Sink follows a path to the object ball and the object ball to the pocket. An
// error says why the balls do not meet.
func (s *Shot) Sink(p *motion.Path, pot *Pot) error {
	centre := s.ObjectAt()
	when, err := contact.Meet(p, centre, s.Ball.Radius)
	if err != nil {
		return err
	}
	cue, _ := p.At(when)
	line := motion.Bearing(centre.Sub(cue.Pos))
	pot.When, pot.Line = when, line
	after, err := s.collide(cue, line)
	if err != nil {
		return err
	}
	pot.Throw = after.Throw
	pot.Object.Follow(after.Object, s.Ball.Radius, s.Cloth)
	pot.Cue = after.Cue
	pot.Cue.Pos = cue.Pos
	off, err := s.offLine(&pot.Object)
	pot.Miss, pot.Missed = s.Object.Dist*unit.Length(off.Sin()), err
	return nil
}

func (s *Shot) collide(cue motion.State, line unit.Angle) (contact.Impact, error) {
	normal, err := contact.Normal(line, cue.Pos.Z, s.Ball.Radius)
	if err != nil {
		return contact.Impact{}, err
	}
	return contact.Collide(cue, normal, s.Ball.Radius)
}

// offLine returns the plan angle between an object ball's path and the middle of
// the pocket, at the pocket's distance.
func (s *Shot) offLine(object *motion.Path) (unit.Angle, error) {
	when, err := object.AtCircle(s.Object.Dist)
	if err != nil {
		return 0, ErrObjectStops
	}
	there, _ := object.At(when)
	return (motion.Bearing(there.Pos) - s.Object.Cut).Normalized(), nil
}

// A PocketAim is the aim that pockets the object ball, throw included.
type PocketAim struct {
	Heading unit.Angle // of the cue
	Line    unit.Angle // angle of the line of centres in plan
	Throw   unit.Angle
	Point   vec.V // where the cue ball's centre must be at the contact
}

// ToPocket returns the aim that pockets the object ball, from a shot played with
// any heading: the path is the same, turned. Only the line of centres is searched
// for. Throw depends on it so weakly that the secant method takes a few steps.
func (s *Shot) ToPocket(res *Result) (PocketAim, error) {
	if res.Launched != nil {
		return PocketAim{}, res.Launched
	}
	line := s.Object.Cut
	aim, off, err := s.tryLine(res, line)
	if err != nil {
		return PocketAim{}, err
	}
	next := line - off
	for range 40 {
		if unit.Abs(off) < 1e-13 {
			return aim, nil
		}
		var offNext unit.Angle
		if aim, offNext, err = s.tryLine(res, next); err != nil {
			return PocketAim{}, err
		}
		slope := float64((offNext - off) / (next - line))
		if !(slope > 0.2 && slope < 5) {
			slope = 1
		}
		line, off, next = next, offNext, next-offNext/unit.Angle(slope)
	}
	return PocketAim{}, ErrNoAim
}

// tryLine returns the aim for a line of centres, and how far off the middle of the
// pocket it sends the object ball.
func (s *Shot) tryLine(res *Result, line unit.Angle) (aim PocketAim, off unit.Angle, err error) {
	point, cue, err := s.touch(&res.Path, line)
	if err != nil {
		return aim, 0, err
	}
	turn := motion.Bearing(point) - motion.Bearing(cue.Pos)
	cue.Vel, cue.Spin = cue.Vel.Turn(float64(turn)), cue.Spin.Turn(float64(turn))
	after, err := s.collide(cue, line)
	if err != nil {
		return aim, 0, err
	}
	var object motion.Path
	object.Follow(after.Object, s.Ball.Radius, s.Cloth)
	off, err = s.offLine(&object)
	return PocketAim{Heading: (res.Reading.Heading.Value + turn).Normalized(), Line: line, Throw: after.Throw, Point: point}, off, err
}

// touch returns where the cue ball's centre is, in plan, as it touches the object
// ball along a line of centres, and the cue ball at that distance on the path as
// played. A ball in the air touches higher up, and so nearer in plan; height and
// distance are found together by bisection.
func (s *Shot) touch(p *motion.Path, line unit.Angle) (point vec.V, cue motion.State, err error) {
	apart := 2 * float64(s.Ball.Radius)
	reach := func(rise float64) error {
		normal, _ := contact.Normal(line, rise, s.Ball.Radius) // every rise tried is low enough to touch
		point = s.ObjectAt().Sub(normal.Plan().Mul(apart))
		when, err := p.AtCircle(unit.Length(point.Norm()))
		cue, _ = p.At(when)
		return err
	}
	if err = reach(0); err != nil || cue.Pos.Z == 0 {
		return point, cue, err
	}
	low, high := 0.0, apart
	for range 50 {
		rise := (low + high) / 2
		if reach(rise) == nil && cue.Pos.Z > rise { // if it never gets that far, it touches earlier and lower down
			low = rise
		} else {
			high = rise
		}
	}
	err = reach(low)
	return point, cue, err // contact.Normal reports a ball that is too high to touch
}

// StanceFor returns how a player's hands give a heading: the back-hand share at
// the present bridge and grip, with the front hand doing the rest, and the bridge
// at which the back hand does it alone.
func (s *Shot) StanceFor(heading unit.Angle) (share Answer[float64], pivot Answer[unit.Length]) {
	b, err := s.Hands.BackShare(heading, s.Axis(), s.Ball.Radius)
	return answer(b, err), s.effectivePivot(heading)
}

// ParallelShift returns how far to the side of the target to aim with the cue kept
// parallel to that aim: the heading needed, as an offset at the target. It is
// positive to the right.
func (s *Shot) ParallelShift(heading unit.Angle) unit.Length {
	return s.Dist * unit.Length(heading.Sin())
}

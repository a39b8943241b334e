// Package shot plays a whole shot: it takes gear, hands and stroke, and returns the
// readings.
package shot

import (
	"pivotbench/core/contact"
	"pivotbench/core/gear"
	"pivotbench/core/motion"
	"pivotbench/core/stance"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// A Shot is everything that decides where the cue ball goes.
type Shot struct {
	Ball      gear.Ball
	Cue       gear.Cue
	Cloth     gear.Cloth
	Contact   strike.Contact
	Elevation unit.Angle
	Hands     stance.Hands
	Speed     unit.Speed  // of the ball as the tip lets go, or of the cue
	ByStroke  bool        // Speed is the cue's, not the ball's
	Dist      unit.Length // from the cue ball's centre to the target
	Gate      gear.Gate
	Object    Object
	AimOff    unit.Angle // error of the player's aim, added to the heading
}

// Axis returns a, the sideways distance at which the cue's axis passes the ball's
// centre.
func (s *Shot) Axis() unit.Length {
	return strike.AxisDistance(s.Contact.Side, s.Ball, s.Cue.Tip)
}

// Line returns the line of the cue, for a shot that has been played.
func (s *Shot) Line(res *Result) strike.Line {
	return strike.Line{Heading: res.Turn.Heading, Elevation: s.Elevation}
}

// A Result is a shot that has been played. Path is meaningful only if Launched is
// nil.
type Result struct {
	Reading  Reading
	Turn     stance.Turn   // how the hands turn the cue; valid when Reading.Heading has no error
	Launch   strike.Launch // the ball as the tip lets go
	Path     motion.Path
	Launched error // why the ball was not sent
}

// Play plays a shot into res and reuses only the memory of Path. A reading that cannot be
// given has its reason as an error; none is NaN.
func Play(s *Shot, res *Result) {
	res.Reading, res.Launch, res.Launched = Reading{}, strike.Launch{}, nil
	r := &res.Reading
	turn, err := s.Hands.Apply(s.Axis(), s.Ball.Radius)
	turn.Heading += s.AimOff
	res.Turn = turn
	r.Heading = answer(turn.Heading, err)
	cueAlone(r, s)
	hit, err := strike.Prepare(s.Ball, s.Cue, s.Contact)
	if err != nil {
		res.Launched = err
		r.refuse(struck, err)
		if err == strike.ErrMiscue {
			r.Verdict = Answered(Miscue)
		}
		return
	}
	ball, cue := s.speeds(&hit)
	r.BallSpeed, r.CueSpeed = Answered(ball), Answered(cue)
	r.SpinRatio = Answered(hit.SpinRatio())
	squirt := hit.Squirt(s.Elevation)
	r.Squirt = Answered(squirt)
	if err := r.Heading.Err(); err != nil {
		res.Launched = err
		r.refuse(away, err)
		return
	}

	r.Launch = Answered(turn.Heading - squirt)
	res.Launch = hit.At(s.Line(res), cue)
	s.follow(&res.Path, res.Launch)
	start, _ := res.Path.At(res.Path.RollStart())
	r.SlideEnd = Answered(unit.Length(start.Pos.Plan().Norm()))
	s.target(res)
	s.gate(res)
}

// Send makes p the path of a shot, without its readings, for callers that send
// thousands. An error says why the ball is not sent.
func (s *Shot) Send(p *motion.Path) error {
	hit, line, cue, err := s.Stroke()
	if err != nil {
		return err
	}
	s.follow(p, hit.At(line, cue))
	return nil
}

// Stroke returns the hit, the line of the cue and its speed, just before impact.
// An error says why the ball is not sent.
func (s *Shot) Stroke() (hit strike.Hit, line strike.Line, cue unit.Speed, err error) {
	if hit, err = strike.Prepare(s.Ball, s.Cue, s.Contact); err != nil {
		return hit, line, 0, err
	}
	turn, err := s.Hands.Apply(s.Axis(), s.Ball.Radius)
	if err != nil {
		return hit, line, 0, err
	}
	_, cue = s.speeds(&hit)
	return hit, strike.Line{Heading: turn.Heading + s.AimOff, Elevation: s.Elevation}, cue, nil
}

func (s *Shot) follow(p *motion.Path, l strike.Launch) {
	p.Follow(motion.State{Vel: l.Vel, Spin: l.Spin}, s.Ball.Radius, s.Cloth)
}

// cueAlone sets the readings that depend on the cue and the contact, not on the
// stroke.
func cueAlone(r *Reading, s *Shot) {
	rho := s.Contact.Offset()
	err := s.Contact.Check(s.Cue.Tip)
	k, kErr := strike.MassRatio(s.Ball, s.Cue)
	if err == nil {
		err = kErr
	}
	if err != nil {
		r.MiscueMargin = Refused[unit.Angle](err)
	} else {
		r.MiscueMargin = Answered(strike.MiscueMargin(rho, k, s.Cue.Tip))
	}
	if kErr != nil {
		r.EndMass = Refused[unit.Mass](kErr)
		r.PivotNatural = Refused[unit.Length](kErr)
		return
	}
	r.EndMass = Answered(s.Ball.Mass / unit.Mass(k))
	r.PivotNatural = answer(strike.StraightBridge(s.Contact, s.Elevation, k, s.Ball, s.Cue.Tip))
}

// speeds returns the ball's and the cue's speed, whichever is given.
func (s *Shot) speeds(hit *strike.Hit) (ball, cue unit.Speed) {
	if s.ByStroke {
		return hit.BallSpeed(s.Speed), s.Speed
	}
	return s.Speed, hit.CueSpeed(s.Speed)
}

// target sets the readings of where the path goes and of what would send it to the
// target. The path for another heading is this path turned, so the heading needed is this
// one minus the bearing at which the path crosses the target's circle.
func (s *Shot) target(res *Result) {
	r := &res.Reading
	when, err := res.Path.AtCircle(s.Dist)
	if err != nil {
		r.refuse(target, err)
		return
	}
	there, _ := res.Path.At(when)
	bearing := motion.Bearing(there.Pos)
	r.Arrival = Answered(unit.Length(there.Pos.X))
	r.Swerve = Answered((bearing - r.Launch.Value).Normalized())
	aim := (r.Heading.Value - bearing).Normalized()
	r.Aim = Answered(aim)
	r.ShareBack, r.PivotEffective = s.StanceFor(aim)
	impact, err := s.collide(there, s.Object.Cut)
	r.Throw = answer(impact.Throw, err)
}

// effectivePivot returns the bridge length at which pure back-hand english gives a
// heading: a/sin(heading) − R.
func (s *Shot) effectivePivot(heading unit.Angle) Answer[unit.Length] {
	axis := s.Axis()
	switch sin := unit.Length(heading.Sin()); {
	case axis == 0:
		return Refused[unit.Length](stance.ErrNoSide)
	case heading.Cos() <= 0:
		return Refused[unit.Length](strike.ErrNoBridge)
	case sin == 0 || (axis < 0) != (sin < 0):
		return Refused[unit.Length](ErrOtherSide)
	case axis/sin <= s.Ball.Radius:
		return Refused[unit.Length](strike.ErrNoBridge)
	default:
		return Answered(axis/sin - s.Ball.Radius)
	}
}

// gate sets the readings at the blockers.
func (s *Shot) gate(res *Result) {
	r := &res.Reading
	pass, err := contact.Pass(&res.Path, s.Gate, s.Ball.Radius)
	r.ClearLeft, r.ClearRight = answer(pass.Left, err), answer(pass.Right, err)
	r.Verdict = answer(verdicts[pass.Outcome], err)
}

var verdicts = [...]Verdict{
	contact.Clean: Clean, contact.Left: TouchesLeft, contact.Right: TouchesRight, contact.Short: StopsShort,
}

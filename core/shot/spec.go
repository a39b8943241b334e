package shot

import "pivotbench/core/unit"

// A Spec describes one reading for whoever shows, documents or tests it.
type Spec struct {
	Name    string // as pages and scripts know it
	Label   string // for people
	Kind    unit.Kind
	Meaning string
	Get     func(*Reading) (float64, error)
	need
}

// A stage is how far a shot has to get for a reading to exist.
type stage int

// The stages. A shot that fails at one stage has no readings of that stage or later ones,
// except that a ball may pass the gate without reaching the target.
const (
	still  stage = iota // cue, contact and hands, before the stroke
	struck              // the tip grips the ball
	away                // the ball is sent on its way
	target              // it reaches the target's distance
	gate                // it reaches the blockers, or there are none
)

// A need is the stage that one reading needs, and how to refuse that reading.
type need struct {
	stage  stage
	refuse func(*Reading, error)
}

func needs[T ~float64 | ~string](from stage, pick func(*Reading) *Answer[T]) need {
	return need{from, func(r *Reading, err error) { *pick(r) = Refused[T](err) }}
}

// others are the needs of the readings that have no Spec.
var others = []need{
	needs(target, func(r *Reading) *Answer[unit.Angle] { return &r.Aim }),
	needs(gate, func(r *Reading) *Answer[Verdict] { return &r.Verdict }),
}

// refuse gives one reason to all readings that need a stage or a later one.
func (r *Reading) refuse(from stage, err error) {
	for i := range Specs {
		Specs[i].refuseFrom(from, r, err)
	}
	for _, n := range others {
		n.refuseFrom(from, r, err)
	}
}

func (n need) refuseFrom(from stage, r *Reading, err error) {
	if n.stage >= from {
		n.refuse(r, err)
	}
}

// spec describes the reading that pick finds.
func spec[T ~float64](name, label string, kind unit.Kind, from stage, meaning string, pick func(*Reading) *Answer[T]) Spec {
	get := func(r *Reading) (float64, error) {
		a := pick(r)
		return float64(a.Value), a.Err()
	}
	return Spec{name, label, kind, meaning, get, needs(from, pick)}
}

// Small reports whether the reading is a length so short that it is shown with more
// decimals than a bridge or a distance.
func (s *Spec) Small() bool {
	return s.Name == "arrival" || s.Name == "clear-left" || s.Name == "clear-right"
}

// Specs are all readings that are numbers. The verdict is a word and has no Spec.
var Specs = []Spec{
	spec("squirt", "Squirt", unit.AngleKind, struck, "angle between the cue's line and the way the ball starts; positive with right english",
		func(r *Reading) *Answer[unit.Angle] { return &r.Squirt }),
	spec("heading", "Cue angle", unit.AngleKind, still, "angle of the cue to the aim line, seen from above",
		func(r *Reading) *Answer[unit.Angle] { return &r.Heading }),
	spec("launch", "Launch angle", unit.AngleKind, away, "angle of the ball to the aim line as it leaves the tip",
		func(r *Reading) *Answer[unit.Angle] { return &r.Launch }),
	spec("swerve", "Swerve", unit.AngleKind, target, "angle between the ball's launch and the straight line to where it passes the target",
		func(r *Reading) *Answer[unit.Angle] { return &r.Swerve }),
	spec("arrival", "Arrives", unit.LengthKind, target, "how far to the side of the aim line the ball passes the target",
		func(r *Reading) *Answer[unit.Length] { return &r.Arrival }),
	spec("clear-left", "Room at left blocker", unit.LengthKind, gate, "least room between the ball and the left blocker; negative: they touch",
		func(r *Reading) *Answer[unit.Length] { return &r.ClearLeft }),
	spec("clear-right", "Room at right blocker", unit.LengthKind, gate, "least room between the ball and the right blocker; negative: they touch",
		func(r *Reading) *Answer[unit.Length] { return &r.ClearRight }),
	spec("pivot-natural", "Natural pivot at this offset", unit.LengthKind, still, "bridge at which back-hand english alone starts the ball straight, with this tip position and elevation; swerve comes later",
		func(r *Reading) *Answer[unit.Length] { return &r.PivotNatural }),
	spec("pivot-effective", "Bridge for this shot", unit.LengthKind, target, "bridge at which back-hand english alone sends the ball to the target, swerve included",
		func(r *Reading) *Answer[unit.Length] { return &r.PivotEffective }),
	spec("share-back", "Back-hand share", unit.Ratio, target, "share of the english put on with the back hand, the rest with the front hand, that sends the ball to the target",
		func(r *Reading) *Answer[float64] { return &r.ShareBack }),
	spec("cue-speed", "Cue speed", unit.SpeedKind, struck, "speed of the cue as it hits the ball",
		func(r *Reading) *Answer[unit.Speed] { return &r.CueSpeed }),
	spec("ball-speed", "Ball speed", unit.SpeedKind, struck, "speed of the ball as it leaves the tip",
		func(r *Reading) *Answer[unit.Speed] { return &r.BallSpeed }),
	spec("spin-ratio", "Spin-to-speed ratio", unit.Ratio, struck, "surface speed of the spin divided by the speed of the ball, as it leaves the tip",
		func(r *Reading) *Answer[float64] { return &r.SpinRatio }),
	spec("slide-end", "Starts to roll at", unit.LengthKind, away, "distance from the start at which the ball stops sliding and rolls",
		func(r *Reading) *Answer[unit.Length] { return &r.SlideEnd }),
	spec("throw", "Throw", unit.AngleKind, target, "angle by which the object ball leaves the line of centres if the cue ball hits it at the target",
		func(r *Reading) *Answer[unit.Angle] { return &r.Throw }),
	spec("end-mass", "End mass", unit.MassKind, still, "mass at the end of the cue that the ball pushes aside",
		func(r *Reading) *Answer[unit.Mass] { return &r.EndMass }),
	spec("miscue-margin", "Miscue margin", unit.AngleKind, still, "angle left before the tip slips; negative: it slips",
		func(r *Reading) *Answer[unit.Angle] { return &r.MiscueMargin }),
}

package shot

import (
	"errors"
	"math"

	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// Questions a shot can't answer.
var (
	ErrOtherSide = errors.New("the cue would have to turn to the other side: no bridge length does that with the back hand")
	ErrInside    = errors.New("the cue would have to turn further than any bridge allows")
)

// An Answer is a value, or the reason there is none.
type Answer[T ~float64 | ~string] struct {
	Value T
	Err   error
}

func answer[T ~float64 | ~string](v T, err error) Answer[T] {
	if err != nil {
		return refuse[T](err)
	}
	return Answer[T]{Value: v}
}

func refuse[T ~float64 | ~string](err error) Answer[T] { return Answer[T]{Err: err} }

// turned brings an angle to within half a turn of straight ahead.
func turned(a unit.Angle) unit.Angle {
	return unit.Angle(math.Remainder(float64(a), 2*math.Pi))
}

// A Verdict says in a word what becomes of the shot at the gate.
type Verdict string

// The verdicts.
const (
	Clean        Verdict = "clean"
	TouchesLeft  Verdict = "left"
	TouchesRight Verdict = "right"
	StopsShort   Verdict = "short"
	Miscue       Verdict = "miscue"
)

// A Reading is all the bench tells of a shot. Path readings are those of the
// unobstructed path; the verdict and the clearances say what the blockers
// make of it. Angles and sideways offsets are positive to the right.
type Reading struct {
	Squirt         Answer[unit.Angle]  // heading less launch: the sign of the side
	Heading        Answer[unit.Angle]  // of the cue, against the aim line
	Launch         Answer[unit.Angle]  // plan angle of the ball as the tip lets go
	Swerve         Answer[unit.Angle]  // bearing at the target's distance less launch
	Arrival        Answer[unit.Length] // sideways offset on the circle of radius Dist
	Aim            Answer[unit.Angle]  // the heading that sends the ball to the target
	ClearLeft      Answer[unit.Length] // clearance at the left blocker; negative: it is touched
	ClearRight     Answer[unit.Length]
	Verdict        Answer[Verdict]
	PivotNatural   Answer[unit.Length] // of the cue at this side offset
	PivotEffective Answer[unit.Length] // the bridge at which back-hand english alone is aimed right
	ShareBack      Answer[float64]     // back-hand share that is aimed right, front hand the rest
	CueSpeed       Answer[unit.Speed]
	BallSpeed      Answer[unit.Speed] // as the tip lets go
	SpinRatio      Answer[float64]    // |ω|R/|v| as the tip lets go
	SlideEnd       Answer[unit.Length]
	Throw          Answer[unit.Angle]
	EndMass        Answer[unit.Mass]
	MiscueMargin   Answer[unit.Angle] // left before the hit slips; negative: it does
}

// refuseHit answers for a hit that does not come off.
func (r *Reading) refuseHit(err error) {
	r.BallSpeed, r.CueSpeed = refuse[unit.Speed](err), refuse[unit.Speed](err)
	r.SpinRatio, r.Squirt = refuse[float64](err), refuse[unit.Angle](err)
	r.refuseWay(err)
	if err == strike.ErrMiscue {
		r.Verdict = answer(Miscue, nil)
	}
}

// refuseWay answers for a ball that is not sent on its way.
func (r *Reading) refuseWay(err error) {
	r.Throw = refuse[unit.Angle](err)
	r.Launch, r.Swerve, r.Aim = refuse[unit.Angle](err), refuse[unit.Angle](err), refuse[unit.Angle](err)
	r.Arrival, r.SlideEnd, r.PivotEffective = refuse[unit.Length](err), refuse[unit.Length](err), refuse[unit.Length](err)
	r.ClearLeft, r.ClearRight = refuse[unit.Length](err), refuse[unit.Length](err)
	r.ShareBack, r.Verdict = refuse[float64](err), refuse[Verdict](err)
}

// A Spec describes one reading for whoever shows, documents or tests it.
type Spec struct {
	Name    string // as pages and scripts know it
	Label   string // for people
	Kind    unit.Kind
	Meaning string
	Get     func(*Reading) (float64, error)
}

// Small reports whether the reading is a length so short that people want it
// finer than a bridge or a distance.
func (s *Spec) Small() bool {
	return s.Name == "arrival" || s.Name == "clear-left" || s.Name == "clear-right"
}

func get[T ~float64](pick func(*Reading) Answer[T]) func(*Reading) (float64, error) {
	return func(r *Reading) (float64, error) {
		a := pick(r)
		return float64(a.Value), a.Err
	}
}

// Specs are the readings that are numbers; the verdict is a word.
var Specs = []Spec{
	{"squirt", "Squirt", unit.AngleKind, "angle by which the ball leaves the cue's line; it has the sign of the side",
		get(func(r *Reading) Answer[unit.Angle] { return r.Squirt })},
	{"heading", "Cue turned", unit.AngleKind, "angle of the cue from the aim line, in plan",
		get(func(r *Reading) Answer[unit.Angle] { return r.Heading })},
	{"launch", "Launch", unit.AngleKind, "angle of the ball from the aim line as the tip lets go",
		get(func(r *Reading) Answer[unit.Angle] { return r.Launch })},
	{"swerve", "Swerve", unit.AngleKind, "bearing of the ball at the target's distance, less launch",
		get(func(r *Reading) Answer[unit.Angle] { return r.Swerve })},
	{"arrival", "Arrives", unit.LengthKind, "sideways distance from the aim line at the target's distance",
		get(func(r *Reading) Answer[unit.Length] { return r.Arrival })},
	{"clear-left", "Clear of L", unit.LengthKind, "least clearance from the left blocker; negative: it is touched",
		get(func(r *Reading) Answer[unit.Length] { return r.ClearLeft })},
	{"clear-right", "Clear of R", unit.LengthKind, "least clearance from the right blocker; negative: it is touched",
		get(func(r *Reading) Answer[unit.Length] { return r.ClearRight })},
	{"pivot-natural", "Natural pivot", unit.LengthKind, "bridge length at which a turn to this offset is cancelled by squirt",
		get(func(r *Reading) Answer[unit.Length] { return r.PivotNatural })},
	{"pivot-effective", "Pivot for this shot", unit.LengthKind, "bridge length at which back-hand english alone sends this shot to the target, swerve included",
		get(func(r *Reading) Answer[unit.Length] { return r.PivotEffective })},
	{"share-back", "Back-hand share", unit.Ratio, "share of the sidespin by the back hand, the front hand doing the rest, that sends this shot to the target",
		get(func(r *Reading) Answer[float64] { return r.ShareBack })},
	{"cue-speed", "Cue speed", unit.SpeedKind, "speed of the cue as it meets the ball",
		get(func(r *Reading) Answer[unit.Speed] { return r.CueSpeed })},
	{"ball-speed", "Ball speed", unit.SpeedKind, "speed of the ball as the tip lets go",
		get(func(r *Reading) Answer[unit.Speed] { return r.BallSpeed })},
	{"spin-ratio", "Spin to speed", unit.Ratio, "surface speed of the spin over the ball's speed as the tip lets go",
		get(func(r *Reading) Answer[float64] { return r.SpinRatio })},
	{"slide-end", "Rolls after", unit.LengthKind, "distance from the start where rolling begins",
		get(func(r *Reading) Answer[unit.Length] { return r.SlideEnd })},
	{"throw", "Throw", unit.AngleKind, "angle by which the object ball leaves the line of centres, were it met at the target along the cut",
		get(func(r *Reading) Answer[unit.Angle] { return r.Throw })},
	{"end-mass", "End mass", unit.MassKind, "mass at the cue's end that the ball carries sideways",
		get(func(r *Reading) Answer[unit.Mass] { return r.EndMass })},
	{"miscue-margin", "Grip left", unit.AngleKind, "angle left before the tip slips; negative: it does",
		get(func(r *Reading) Answer[unit.Angle] { return r.MiscueMargin })},
}

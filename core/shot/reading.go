package shot

import (
	"errors"

	"pivotbench/core/unit"
)

// ErrOtherSide is the error of a shot that no bridge length sends to the target.
var ErrOtherSide = errors.New("no bridge works with the back hand alone: the cue would have to turn the other way")

// A Verdict is the word for what the shot does at the gate.
type Verdict string

// The verdicts.
const (
	Clean        Verdict = "clean"
	TouchesLeft  Verdict = "left"
	TouchesRight Verdict = "right"
	StopsShort   Verdict = "short"
	Miscue       Verdict = "miscue"
)

// A Reading is everything the bench shows about a shot. Path readings are those of
// the unobstructed path; the verdict and the clearances are those at the blockers.
// Angles and sideways offsets are positive to the right.
type Reading struct {
	Squirt         Answer[unit.Angle]  // heading minus launch; it has the sign of the side
	Heading        Answer[unit.Angle]  // of the cue, from the aim line
	Launch         Answer[unit.Angle]  // plan angle of the ball as the tip lets go
	Swerve         Answer[unit.Angle]  // bearing at the target's distance minus launch
	Arrival        Answer[unit.Length] // sideways offset on the circle of radius Dist
	Aim            Answer[unit.Angle]  // the heading that sends the ball to the target
	ClearLeft      Answer[unit.Length] // clearance at the left blocker; negative if the ball touches it
	ClearRight     Answer[unit.Length]
	Verdict        Answer[Verdict]
	PivotNatural   Answer[unit.Length] // bridge length at which pure back-hand english launches the ball straight
	PivotEffective Answer[unit.Length] // bridge length at which pure back-hand english sends the ball to the target
	ShareBack      Answer[float64]     // back-hand share that sends the ball to the target, the front hand doing the rest
	CueSpeed       Answer[unit.Speed]
	BallSpeed      Answer[unit.Speed] // as the tip lets go
	SpinRatio      Answer[float64]    // |ω|R/|v| as the tip lets go
	SlideEnd       Answer[unit.Length]
	Throw          Answer[unit.Angle]
	EndMass        Answer[unit.Mass]
	MiscueMargin   Answer[unit.Angle] // angle left before the tip slips; negative if it slips
}

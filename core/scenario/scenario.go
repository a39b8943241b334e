// Package scenario holds the state of the bench as one value that is named, validated and
// can be sent as a link. Everything that the table and the readings show follows from it.
//
// Its text form is the fragment of a link: key=value joined by &, each value with its
// unit. A key at its default is left out.
//
//	v=1&pivot=9.5in&side=0.45&bridge=12in&speed=7mph
//
// The same text is the message from page to canvas, a preset and a test case.
package scenario

import (
	"pivotbench/core/gear"
	"pivotbench/core/margin"
	"pivotbench/core/shot"
	"pivotbench/core/stance"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// A Scenario is comparable with ==. Its zero value is not useful; start from Default.
type Scenario struct {
	Name               string
	Table, Ball, Cloth string // named standards of package gear
	Own                Overrides
	Pivot              unit.Length // natural pivot length of the cue at PivotSpin
	PivotSpin          float64
	CueMass            unit.Mass
	Tip, TipWidth      unit.Length // dome radius, and diameter
	Bounce, Chalk      float64     // tip restitution and friction
	Side, Height       float64     // contact offset in ball radii
	Elev               unit.Angle
	Speed              unit.Speed
	ByStroke           bool // Speed is the cue's, not the ball's
	Bridge, Grip       unit.Length
	Back, Front        float64
	Dist, Gate, Gap    unit.Length // target, blockers (0 for none), clear width
	Object             unit.Length // object ball to pocket
	Cut                unit.Angle
	Pocket             unit.Length
	Scatter            margin.Scatter
	Units              string     // in or cm
	More               [5]CueSpec // further cues to compare; Pivot 0 for none
}

// Overrides replace single values of the named ball and cloth.
type Overrides struct {
	Diam                            Own
	Mass                            Own
	Slide, Roll, SpinDecay, Rebound Own
}

// An Own is a value in SI that may be unset.
type Own struct {
	Set   bool
	Value float64
}

func (o Own) or(named float64) float64 {
	if o.Set {
		return o.Value
	}
	return named
}

// A CueSpec is what a link says about one of the further cues.
type CueSpec struct {
	Pivot     unit.Length
	PivotSpin float64
	Mass      unit.Mass
	Tip       unit.Length
	Bounce    float64
	Name      string
}

// With returns the scenario with a further cue as the current cue. Tip width and friction
// stay, since further cues have none.
func (s *Scenario) With(c CueSpec) Scenario {
	at := *s
	at.Pivot, at.PivotSpin, at.CueMass = c.Pivot, c.PivotSpin, c.Mass
	at.Tip, at.Bounce, at.Name = c.Tip, c.Bounce, c.Name
	return at
}

// OnBench returns the current cue as a further cue.
func (s *Scenario) OnBench() CueSpec {
	return CueSpec{Pivot: s.Pivot, PivotSpin: s.PivotSpin, Mass: s.CueMass, Tip: s.Tip, Bounce: s.Bounce, Name: s.Name}
}

// GearBall returns the cue ball: the named one with its overrides.
func (s *Scenario) GearBall() gear.Ball {
	named, _ := gear.Find(gear.Balls, s.Ball)
	return gear.Ball{
		Radius: unit.Length(s.Own.Diam.or(float64(2*named.Is.Radius))) / 2,
		Mass:   unit.Mass(s.Own.Mass.or(float64(named.Is.Mass))),
	}
}

// GearCloth returns the cloth: the named one with its overrides.
func (s *Scenario) GearCloth() gear.Cloth {
	named, _ := gear.Find(gear.Cloths, s.Cloth)
	return gear.Cloth{
		Slide:     s.Own.Slide.or(named.Is.Slide),
		Roll:      s.Own.Roll.or(named.Is.Roll),
		SpinDecay: unit.SpinRate(s.Own.SpinDecay.or(float64(named.Is.SpinDecay))),
		Rebound:   s.Own.Rebound.or(named.Is.Rebound),
	}
}

// GearTable returns the table.
func (s *Scenario) GearTable() gear.Table {
	named, _ := gear.Find(gear.Tables, s.Table)
	return named.Is
}

// Shot returns the shot to be played.
func (s *Scenario) Shot() shot.Shot {
	return shot.Shot{
		Ball: s.GearBall(),
		Cue: gear.Cue{
			Mass:  s.CueMass,
			Tip:   gear.Tip{Dome: s.Tip, Width: s.TipWidth, Restitution: s.Bounce, Friction: s.Chalk},
			Pivot: s.Pivot, PivotSpin: s.PivotSpin,
		},
		Cloth:     s.GearCloth(),
		Contact:   strike.Contact{Side: s.Side, Height: s.Height},
		Elevation: s.Elev,
		Hands:     stance.Hands{Bridge: s.Bridge, Grip: s.Grip, Back: s.Back, Front: s.Front},
		Speed:     s.Speed,
		ByStroke:  s.ByStroke,
		Dist:      s.Dist,
		Gate:      gear.Gate{Dist: s.Gate, Gap: s.Gap},
		Object:    shot.Object{Cut: s.Cut, Dist: s.Object, Opening: s.Pocket},
	}
}

// Package hop computes small hops over part of a ball: the height needed to pass, the
// strokes that give it, and where the ball lands.
//
// The tip drives the ball down into the bed, which throws it up. In a steep hit the tip
// is still in contact then, and the two contact times decide what is left of the hop
// (Struck). For a quick tip the result is that of the closed forms in packages strike and
// motion. Contact times are poorly known, so answers cover several ratios of them, from
// the least to the greatest.
package hop

import (
	"errors"
	"math"

	"pivotbench/core/contact"
	"pivotbench/core/gear"
	"pivotbench/core/motion"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// Reasons why a ball does not hop past.
var (
	ErrUpright = errors.New("the elevation must be less than 90°: an upright cue drives the ball straight down")
	ErrNoHop   = errors.New("the ball does not leave the cloth at this elevation")
	ErrFlat    = errors.New("no speed clears at this elevation: the ball leaves too flat")
	ErrRolls   = errors.New("the ball is on the cloth when it passes the blockers")
	ErrNone    = errors.New("nothing you can play clears the blockers")
)

// HeightOver returns how high above its resting height a ball's centre must be to pass
// over an equal ball at rest. aside is the distance between the centres in plan:
//
//	√(4R² − aside²)
//
// The centres of two touching balls are 2R apart, so this is Pythagoras. It is zero if
// the ball passes beside.
func HeightOver(aside, radius unit.Length) unit.Length {
	return unit.Length(math.Sqrt(math.Max(0, float64(4*radius*radius-aside*aside))))
}

// A Need is what it takes to pass one blocker, where the ball crosses the line of the
// blockers' centres.
type Need struct {
	Aside  unit.Length // distance across between the ball's centre and the blocker's; positive
	Height unit.Length // needed height of the ball's centre above its resting height; 0 if it passes beside
	Has    unit.Length // the height it has there
}

// Needs returns what a path needs at the left and at the right blocker, at the place
// where it crosses their line. Errors: motion.ErrStops if it never gets there, and those
// of contact.Pass.
//
// A ball that rises or falls steeply may still touch a little before or after that line:
// contact.Pass decides.
func Needs(p *motion.Path, gate gear.Gate, radius unit.Length) (left, right Need, err error) {
	if _, err = contact.Pass(p, gate, radius); err != nil {
		return left, right, err
	}
	when, err := p.AtLine(gate.Dist)
	if err != nil {
		return left, right, err
	}
	ball, _ := p.At(when)
	need := func(post vec.V) Need {
		aside := unit.Length(math.Abs(ball.Pos.X - post.X))
		return Need{Aside: aside, Height: HeightOver(aside, radius), Has: unit.Length(ball.Pos.Z)}
	}
	l, r := contact.Posts(gate, radius)
	return need(l), need(r), nil
}

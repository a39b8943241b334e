// Package hop is small hops over part of a ball: the height it takes to pass,
// the strokes that give it, and where the ball comes down.
//
// The tip drives the ball down into the bed, which throws it up. In a steep hit
// the tip is still there then, and how long each is in touch decides what is
// left of the hop (Struck); where the tip is quick it is the closed forms of
// packages strike and motion. Contact times are poorly known, so answers are over
// several ratios of them, from the least to the most.
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

// What keeps a ball from hopping past.
var (
	ErrUpright = errors.New("the elevation must be from 0° to less than 90°: an upright cue drives the ball straight down")
	ErrNoHop   = errors.New("the ball does not leave the cloth at this elevation")
	ErrFlat    = errors.New("the ball leaves too flat to pass over: no speed clears at this elevation")
	ErrRolls   = errors.New("the ball is on the cloth as it passes the blockers")
	ErrNone    = errors.New("nothing in reach clears the blockers")
)

// HeightOver is how high above its resting height a ball's centre must be to
// pass over an equal ball at rest, the centres being so far apart in plan:
//
//	√(4R² − aside²)
//
// Two balls touch with their centres 2R apart, so this is Pythagoras; zero
// where it passes beside.
func HeightOver(aside, radius unit.Length) unit.Length {
	return unit.Length(math.Sqrt(math.Max(0, float64(4*radius*radius-aside*aside))))
}

// A Need is what it takes to pass one blocker, where the ball crosses the
// line of the blockers' centres.
type Need struct {
	Aside  unit.Length // across, between the ball's centre and the blocker's; positive
	Height unit.Length // of the ball's centre above its resting height; 0: it passes beside
	Has    unit.Length // the height it has there
}

// Needs are what a path needs at the left and at the right blocker, for the
// place where it does cross. motion.ErrStops when it never gets there, else
// the errors of contact.Pass.
//
// A ball that rises or falls steeply may still touch a little before or after
// that line: contact.Pass has the last word.
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

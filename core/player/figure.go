// Package player fits the aim to a person: his own bridge and grip, his speeds, the
// height of his butt, his spread, and what his hands do when he thinks that they share
// the english in some proportion.
//
// A few strokes at his own bridge with his own cue give one posterior (core/sitting),
// and that gives his card: for each distance and speed the share of the english that
// his back hand has to put on, as he feels it, with its interval.
//
// A felt share is not the real one. Common practice, no source, has a cue with a
// natural pivot length of 9.5 in at 100 % back hand, and one of 19 in at 70 %, for one
// player, one bridge and one medium shot. The geometry of core/stance can't give both:
// where the first takes 100 %, the second takes 53 % at most, and 15 to 40 % with
// usual hands and swerve. So the fit has one unknown more, the front hand's gain: how
// far it really moves divided by how far it feels to move (stance.Hands.Moved).
package player

import "pivotbench/core/stat"

// A Figure is one of a player's numbers, Usual or Measured. What is taken for granted
// and what was measured are different types, so neither passes for the other.
type Figure[T ~float64] interface {
	// Best returns the value to compute with.
	Best() T
	// SD returns the standard deviation of its error.
	SD() T
	figure()
}

// Usual is a habit of the trade: what most players do. It stands in until the player's
// own number is measured.
type Usual[T ~float64] struct{ Value, Spread T }

// Best returns the value.
func (u Usual[T]) Best() T { return u.Value }

// SD returns the standard deviation between players.
func (u Usual[T]) SD() T { return u.Spread }

func (Usual[T]) figure() {}

// Measured is the player's own number, from an instrument or from his strokes.
type Measured[T ~float64] struct{ stat.Estimate[T] }

// Best returns the median.
func (m Measured[T]) Best() T { return m.Median }

// SD returns the standard deviation of a Normal distribution with that interval.
func (m Measured[T]) SD() T { return (m.To - m.From) / T(2*stat.Reach90) }

func (Measured[T]) figure() {}

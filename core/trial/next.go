package trial

import (
	"math"

	"pivotbench/core/margin"
	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// A Suggestion is the try with the most expected information about the pivot
// length.
type Suggestion struct {
	Bridge unit.Length
	Right  bool        // english to the right
	Side   float64     // how much of it, in ball radii, 0 or more
	Gap    unit.Length // between the blockers
	Bits   float64     // expected information, in bits

	// Floor is the 90 % interval that no number of tries with this set-up removes,
	// since the elevation is known only so well: its half width as a share of the
	// pivot length.
	Floor float64

	rate float64 // of outlook
}

// tightest is how much wider than the ball a gate is at least: in a closer one the
// error of setting it up is larger.
const tightest = 0.25 * unit.Inch

// worth is how many times more a try must tell before it is worth setting the gate
// up again.
const worth = 1.1

// Next returns the most informative try with the set-up otherwise as it is: the
// bridge length, among those the player can reach, the english and its side, and
// the gap, no wider than the present one. The english is the most that is playable
// for a player whose tip lands with a standard deviation of tip. It is all dialled
// in with the back hand.
func (p *Posterior) Next(s *shot.Shot, tip, least, most unit.Length) Suggestion {
	narrow := min(s.Gate.Gap, 2*s.Ball.Radius+tightest)
	gaps := [...]unit.Length{s.Gate.Gap, (s.Gate.Gap + narrow) / 2, narrow}
	at := *s
	at.Contact.Side = p.english(s, tip)
	n := p.plan(&at)
	var best Suggestion
	for _, gap := range gaps {
		if found := n.best(gap, least, most); best.Gap == 0 || found.Bits > worth*best.Bits {
			best = found
		}
	}
	at.Gate.Gap = best.Gap
	view := p.outlook(&at, least, most)
	best.Floor, best.rate = stat.Reach90*math.Sqrt(view.floor), view.rate
	return best
}

// english returns how much english to use, 0 or more: squirt grows with it faster
// than anything that hides squirt, as long as the tip grips (margin.PlayableSide).
// Where no english can be played, or none is set up and so no side is meant, it is
// what is set up.
func (p *Posterior) english(s *shot.Shot, tip unit.Length) float64 {
	at := *s
	at.Cue.Pivot = unit.Length(p.Pivot().Median)
	side, err := margin.PlayableSide(&at, tip)
	if s.Contact.Side == 0 || side == 0 || err != nil {
		return math.Abs(s.Contact.Side)
	}
	return side
}

// A plan is all that a suggestion needs: what is known, and the direction of the
// ball off the cue when english to the right is dialled in without turning.
// Turning the cue turns the whole path, and english to the left mirrors it.
type plan struct {
	*pool
	shot    *shot.Shot
	bearing [poolPivots][poolElevs]float64
}

func (p *Posterior) plan(s *shot.Shot) *plan {
	n := &plan{pool: p.pooled(), shot: s}
	var path motion.Path
	for l := range n.bearing {
		for e := range n.bearing[l] {
			n.bearing[l][e] = p.bearing(s, unit.Length(n.pivot[l]), unit.Angle(n.elev[e]), &path)
		}
	}
	return n
}

// best returns the most informative try through a gap, out of a ladder of bridge
// lengths.
func (n *plan) best(gap, least, most unit.Length) Suggestion {
	const rungs = 20
	found := Suggestion{Bridge: least, Side: n.shot.Contact.Side, Gap: gap}
	ratio := math.Pow(float64(most/least), 1.0/(rungs-1))
	for i := range rungs {
		n.weigh(&found, least*unit.Length(math.Pow(ratio, float64(i))))
	}
	mid := found.Bridge
	for _, f := range []float64{-0.5, 0.5} { // between the neighbours of the best
		n.weigh(&found, min(max(mid*unit.Length(math.Pow(ratio, f)), least), most))
	}
	return found
}

// weigh replaces the best so far by a bridge length if a try from there, with
// english to either side, is more informative.
func (n *plan) weigh(best *Suggestion, bridge unit.Length) {
	heading := turn(n.shot, bridge)
	half := corridor(best.Gap, n.shot.Ball.Radius)
	var at [poolPivots][poolElevs]float64
	for _, side := range []float64{1, -1} {
		for l := range at {
			for e, b := range n.bearing[l] {
				at[l][e] = never
				if b != never {
					way := side*(heading+b) + float64(n.shot.AimOff)
					at[l][e] = float64(n.shot.Gate.Dist) * math.Tan(way)
				}
			}
		}
		if bits := n.information(&at, n.shot.Gate.Dist, half); bits > best.Bits {
			best.Bridge, best.Right, best.Bits = bridge, side > 0, bits
		}
	}
}

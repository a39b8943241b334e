package trial

import (
	"math"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// An outlook is what a set-up can give in the long run. Variances are of the
// logarithm of the pivot length.
type outlook struct {
	now   float64 // the variance now
	floor float64 // the variance that no number of tries removes: that of the elevation's error
	rate  float64 // what a well placed try adds to the inverse of the rest of the variance
	slope float64 // derivative of the path's bearing, in radians, by the logarithm of the pivot length
}

// after returns the variance after so many more tries.
func (o outlook) after(tries float64) float64 {
	return o.floor + 1/(1/math.Max(o.now-o.floor, 1e-9)+tries*o.rate)
}

// outlook looks ahead from the median pivot length and scatter. It compares how
// the bearing of the path follows the pivot length with how it follows the
// elevation, since that is how far the two can be told apart.
func (p *Posterior) outlook(s *shot.Shot, least, most unit.Length) outlook {
	const step = 0.05
	pivot, scatter := p.Pivot(), p.Scatter().Median
	sd := 0.0
	for e, w := range p.byElev {
		sd += w * p.elev[e] * p.elev[e]
	}
	sd = math.Sqrt(sd)
	var path motion.Path
	bearing := func(longer, raised float64) float64 {
		return p.bearing(s, unit.Length(pivot.Median*math.Exp(longer)), unit.Angle(raised), &path)
	}
	slope := (bearing(step, 0) - bearing(-step, 0)) / (2 * step)
	tilt := (bearing(0, sd) - bearing(0, -sd)) / 2
	wide := math.Log(pivot.To/pivot.From) / (2 * stat.Reach90)
	o := outlook{now: wide * wide, floor: wide * wide, slope: slope}
	if slope != 0 && !math.IsNaN(slope) && !math.IsNaN(tilt) && !math.IsInf(tilt, 0) {
		half := corridor(s.Gate.Gap, s.Ball.Radius) / (float64(s.Gate.Dist) * scatter)
		straight := bearing(0, 0)
		from, to := straight+turn(s, most), straight+turn(s, least)
		o.floor = (tilt / slope) * (tilt / slope)
		o.rate = fisher(half, from/scatter, to/scatter) * (slope / scatter) * (slope / scatter)
	}
	return o
}

// turn returns the heading of the cue at a bridge length when english to the right
// is dialled in with the back hand alone.
func turn(s *shot.Shot, bridge unit.Length) float64 {
	hands := s.Hands
	hands.Bridge, hands.Back, hands.Front = bridge, 1, 0
	turn, err := hands.Apply(unit.Abs(s.Axis()), s.Ball.Radius)
	if err != nil {
		return math.Pi / 2
	}
	return float64(turn.Heading)
}

// fisher returns the Fisher information of a try's outcome about where the ball
// goes, through a corridor of this half width, for the best place to send the ball
// to. Places are in units of the scatter.
func fisher(half, from, to float64) float64 {
	const places = 40
	from, to = math.Max(from, -half-2), math.Min(to, half+2)
	best := 0.0
	for i := range places + 1 {
		x := from + (to-from)*float64(i)/places
		var sum float64
		for o := range outcomes {
			from, to := o.span(half)
			change := (1 - Misrecorded) * (stat.NormalDensity(to-x) - stat.NormalDensity(from-x))
			sum += change * change / noted(stat.QuickNormal(to-x)-stat.QuickNormal(from-x))
		}
		best = math.Max(best, sum)
	}
	return best
}

// bearing returns the plan angle at which a ball comes to the gate's distance when
// english to the right is dialled in without turning the cue, or never. Turning
// the cue turns the whole path, and english to the left mirrors it.
func (p *Posterior) bearing(s *shot.Shot, pivot unit.Length, raised unit.Angle, path *motion.Path) float64 {
	at := *s
	at.Contact.Side = math.Abs(s.Contact.Side)
	at.Hands.Back, at.Hands.Front, at.AimOff = 0, 0, 0
	at.Cue.Pivot = pivot
	if spin := p.Reference(); spin != 0 {
		at.Cue.PivotSpin = spin
	}
	at.Cue.Tip.Friction = math.Inf(1) // as in crossing
	at.Elevation = off(s.Elevation, raised)
	if at.Send(path) != nil {
		return never
	}
	when, err := path.AtCircle(s.Gate.Dist)
	if err != nil {
		return never
	}
	there, _ := path.At(when)
	return float64(motion.Bearing(there.Pos))
}

// MoreTries returns about how many more tries it takes until the 90 % interval of
// the pivot length ends within a share of its median on either side, such as 0.1.
// It is 0 if that is so already, and math.MaxInt if it can't be with this set-up.
func (p *Posterior) MoreTries(next Suggestion, within float64) int {
	pivot := p.Pivot()
	if pivot.Within(within) {
		return 0
	}
	square := func(x float64) float64 { return x * x / (stat.Reach90 * stat.Reach90) }
	now := square(math.Log(pivot.To/pivot.From)/2) - square(next.Floor)
	goal := square(within) - square(next.Floor)
	if goal <= 0 || next.rate <= 0 {
		return math.MaxInt
	}
	return max(1, int(math.Ceil((1/goal-1/math.Max(now, goal))/next.rate)))
}

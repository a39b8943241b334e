package player

import (
	"errors"
	"math"
	"slices"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/sitting"
	"pivotbench/core/stance"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// ErrHands is the error of a shot that no mix of the two hands sends to the target.
var ErrHands = errors.New("no mix of the two hands does this: change the bridge, or aim in parallel")

// The felt shares that a player can be asked for. At −100 % the back hand takes off as
// much english as was meant and the front hand puts on twice as much. Common practice,
// no source.
const leastShare, mostShare = -1, 2

// A Cell is the aim of one player for one distance and one speed. Shares are of the
// english, put on with the back hand while the front hand puts on the rest.
type Cell struct {
	Dist  unit.Length
	Speed unit.Speed
	Err   error // why there is no aim; the fields below are then not set

	Share  stat.Estimate[float64]     // as he feels it
	Real   stat.Estimate[float64]     // as his hands really move
	Hands  error                      // ErrHands when no share does it
	Shift  stat.Estimate[unit.Length] // the same in parallel aim: how far beside the target, positive to the right
	Squirt stat.Estimate[unit.Angle]
	Swerve stat.Estimate[unit.Angle]
	Off    unit.Angle // standard deviation of the cue's angle when he plays the median share
}

// A Sheet is what a card is asked for.
type Sheet struct {
	Dists  []unit.Length
	Speeds []unit.Speed
	Side   float64 // in ball radii, positive to the right
	Pocket bool    // pocket the object ball, throw included, rather than send the cue ball to the target
}

// Card returns the cells of a player's card, one row for each distance.
func (f *Fit) Card(sheet *Sheet) [][]Cell {
	rows := make([][]Cell, len(sheet.Dists))
	for _, v := range sheet.Speeds {
		for i, a := range f.aims(sheet, v) {
			rows[i] = append(rows[i], a.Cell)
		}
	}
	return rows
}

// aims is a cell with the draws behind it.
type aims struct {
	Cell
	off   []float64 // of each draw, how much more than needed is the real share at the median felt share; NaN without an aim
	slope float64   // how far a whole real share turns the cue, in radians
}

// aims computes the cells of one speed from the draws: for each draw, the aim that its
// cue, elevation, bridge, offset, speed and cloth need, and the share that its hands feel
// then. The ball's path is the same for all distances.
func (f *Fit) aims(sheet *Sheet, speed unit.Speed) []aims {
	meant := f.Shot(0, speed, sheet.Side, 1)
	meant.Cue.Pivot = median(f.testers)
	out := make([]aims, len(sheet.Dists))
	lists := make([]needed, len(sheet.Dists))
	for d, dist := range sheet.Dists {
		out[d].Dist, out[d].Speed = dist, speed
		lists[d].all = make([]float64, len(f.testers))
		out[d].Err = f.playable(&meant)
	}
	if len(out) == 0 || out[0].Err != nil {
		return out
	}
	var res shot.Result
	for i := range f.testers {
		t := &f.testers[i]
		s := t.Real(meant, f.setUp)
		shot.Play(&s, &res)
		for d, dist := range sheet.Dists {
			lists[d].all[i] = math.NaN()
			s.Dist = dist
			if err := lists[d].take(i, t, &s, &res, sheet.Pocket); err != nil {
				out[d].Err = err
			}
		}
	}
	for d := range out {
		lists[d].sum(&out[d], f.testers, &meant)
	}
	return out
}

// playable returns why a player can't play a shot at all: without english there is nothing
// to share, and too much of it miscues.
func (f *Fit) playable(s *shot.Shot) error {
	if s.Axis() == 0 {
		return stance.ErrNoSide
	}
	var path motion.Path
	return s.Send(&path)
}

// needed is what the draws need at one distance.
type needed struct {
	all                               []float64 // the real share of each draw, or NaN
	felt, real, shift, squirt, swerve []float64 // of those that have an aim
}

// take adds what draw i needs, from its shot played with any heading. The error says why
// it has no aim.
func (n *needed) take(i int, t *sitting.Tester, s *shot.Shot, res *shot.Result, pocket bool) error {
	if res.Launched != nil {
		return res.Launched
	}
	bearing, err := bearing(&res.Path, s.Dist)
	if err != nil {
		return err
	}
	aim := res.Reading.Heading.Value - bearing
	if pocket {
		to, err := s.ToPocket(res)
		if err != nil {
			return err
		}
		aim = to.Heading
	}
	share, err := s.Hands.BackShare(aim, s.Axis(), s.Ball.Radius)
	if err == nil {
		n.all[i] = share
		n.real, n.felt = append(n.real, share), append(n.felt, 1-(1-share)/math.Exp(t.Front))
		n.shift = append(n.shift, float64(s.ParallelShift(aim)))
		n.squirt = append(n.squirt, float64(res.Reading.Squirt.Value))
		n.swerve = append(n.swerve, float64(bearing-res.Reading.Launch.Value))
	}
	return err
}

// bearing returns the plan angle at which a path crosses the circle of radius dist.
func bearing(p *motion.Path, dist unit.Length) (unit.Angle, error) {
	when, err := p.AtCircle(dist)
	if err != nil {
		return 0, err
	}
	there, _ := p.At(when)
	return motion.Bearing(there.Pos), nil
}

// sum fills in a cell, unless it is more likely than not that there is no aim.
func (n *needed) sum(out *aims, testers []sitting.Tester, meant *shot.Shot) {
	if 2*len(n.felt) < len(n.all) {
		return
	}
	out.Err = nil
	out.Share, out.Real = estimate[float64](n.felt), estimate[float64](n.real)
	out.Shift = estimate[unit.Length](n.shift)
	out.Squirt, out.Swerve = estimate[unit.Angle](n.squirt), estimate[unit.Angle](n.swerve)
	if out.Share.Median < leastShare || out.Share.Median > mostShare {
		out.Hands = ErrHands
	}
	reach := float64(meant.Hands.Bridge + meant.Ball.Radius)
	out.slope = math.Abs(float64(meant.Axis())) * (1/reach - 1/(reach+float64(meant.Hands.Grip)))
	out.off = n.all
	for i := range out.off {
		out.off[i] = 1 - math.Exp(testers[i].Front)*(1-out.Share.Median) - out.off[i]
	}
	_, variance := moments(out.off)
	out.Off = unit.Angle(out.slope * math.Sqrt(variance))
}

// estimate returns the estimate of equally probable values, which it sorts. One more value
// lies within the 90 % interval 90 % of the time: the ranks are those of definition 6 of
// Hyndman and Fan, Amer. Statist. 50 (1996) 361. Others make the interval of so few draws
// too narrow.
func estimate[T ~float64](values []float64) stat.Estimate[T] {
	slices.Sort(values)
	return stat.Summarize(func(p float64) T {
		at := p*float64(len(values)+1) - 1
		i := min(max(int(at), 0), len(values)-2)
		return T(values[i] + (at-float64(i))*(values[i+1]-values[i]))
	}).Estimate
}

// median returns the median pivot length of the draws.
func median(testers []sitting.Tester) unit.Length {
	all := make([]float64, len(testers))
	for i := range testers {
		all[i] = float64(testers[i].Pivot)
	}
	return estimate[unit.Length](all).Median
}

// moments returns the mean and the variance of the values that are numbers.
func moments(values []float64) (mean, variance float64) {
	n := 0.0
	for _, v := range values {
		if !math.IsNaN(v) {
			mean, variance, n = mean+v, variance+v*v, n+1
		}
	}
	mean /= n
	return mean, max(0, variance/n-mean*mean)
}

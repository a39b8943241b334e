package player

import (
	"errors"
	"math"
	"slices"

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
	for i, d := range sheet.Dists {
		for _, v := range sheet.Speeds {
			rows[i] = append(rows[i], f.aims(sheet, d, v).Cell)
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

// aims computes one cell from the draws: for each, the aim that its cue, elevation, bridge,
// offset, speed and cloth need, and the share that its hands feel then.
func (f *Fit) aims(sheet *Sheet, dist unit.Length, speed unit.Speed) aims {
	out := aims{Cell: Cell{Dist: dist, Speed: speed}}
	meant := f.Shot(dist, speed, sheet.Side, 1)
	meant.Cue.Pivot = median(f.testers)
	if meant.Axis() == 0 {
		out.Err = stance.ErrNoSide
		return out
	}
	var res shot.Result
	if shot.Play(&meant, &res); res.Launched != nil {
		out.Err = res.Launched
		return out
	}
	var felt, real, shift, squirt, swerve []float64
	needs := make([]float64, len(f.testers))
	for i := range f.testers {
		needs[i] = math.NaN()
		t := &f.testers[i]
		s := t.Real(meant, f.setUp)
		shot.Play(&s, &res)
		aim, err := heading(&s, &res, sheet.Pocket)
		if err != nil {
			out.Err = err
			continue
		}
		need, err := s.Hands.BackShare(aim, s.Axis(), s.Ball.Radius)
		if err != nil {
			out.Err = err
			continue
		}
		needs[i] = need
		real, felt = append(real, need), append(felt, 1-(1-need)/math.Exp(t.Front))
		shift = append(shift, float64(s.ParallelShift(aim)))
		squirt, swerve = append(squirt, float64(res.Reading.Squirt.Value)), append(swerve, float64(res.Reading.Swerve.Value))
	}
	if 2*len(felt) < len(f.testers) {
		return out // more likely than not there is no aim
	}
	out.Err = nil
	out.Share, out.Real = estimate[float64](felt), estimate[float64](real)
	out.Shift = estimate[unit.Length](shift)
	out.Squirt, out.Swerve = estimate[unit.Angle](squirt), estimate[unit.Angle](swerve)
	if out.Share.Median < leastShare || out.Share.Median > mostShare {
		out.Hands = ErrHands
	}
	reach := float64(meant.Hands.Bridge + meant.Ball.Radius)
	out.slope = math.Abs(float64(meant.Axis())) * (1/reach - 1/(reach+float64(meant.Hands.Grip)))
	out.off = needs
	for i := range needs {
		out.off[i] = 1 - math.Exp(f.testers[i].Front)*(1-out.Share.Median) - needs[i]
	}
	_, variance := moments(out.off)
	out.Off = unit.Angle(out.slope * math.Sqrt(variance))
	return out
}

// heading returns the heading that the cue needs, from a shot played with any heading.
func heading(s *shot.Shot, res *shot.Result, pocket bool) (unit.Angle, error) {
	if res.Launched != nil {
		return 0, res.Launched
	}
	if err := res.Reading.Aim.Err(); err != nil {
		return 0, err
	}
	if !pocket {
		return res.Reading.Aim.Value, nil
	}
	aim, err := s.ToPocket(res)
	return aim.Heading, err
}

// estimate returns the estimate of equally probable values, which it sorts.
func estimate[T ~float64](values []float64) stat.Estimate[T] {
	slices.Sort(values)
	return stat.Summarize(func(p float64) T {
		at := p*float64(len(values)) - 0.5
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

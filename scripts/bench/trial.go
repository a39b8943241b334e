package main

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"

	"golang.org/x/sync/errgroup"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/trial"
	"pivotbench/core/unit"
)

// Numbers of the simulated testers.
const (
	testers   = 60  // for each cue
	mostTries = 100 // after which they give up
	precise   = 0.1 // distance of the ends of the 90 % interval from the median, as a share of it

	shortBridge = 5 * unit.Inch
	longBridge  = 30 * unit.Inch
)

// A triesRow is the typical number of strokes needed to measure a cue. The testers are
// the same for each method of choosing the next stroke.
type triesRow struct {
	pivot             unit.Length
	scatter           string // of the testers
	ladder, suggested float64
	oneSide           float64 // by the inch, always with right english
}

// measureTries compares the suggested next strokes with a ladder of bridge lengths.
func measureTries(ctx context.Context, _ *sites, _ int, r *report) error {
	rows, err := triesNeeded(ctx)
	for _, row := range rows {
		ratio := row.suggested / row.ladder
		r.atMost(fmt.Sprintf("tries for a %g in pivot, %s", float64(row.pivot/unit.Inch), row.scatter),
			fmt.Sprintf("%.1f suggested, %.1f by the inch and to either side in turn: %.2f", row.suggested, row.ladder, ratio), ratio, 0.5, "")
		ratio = row.suggested / row.oneSide
		r.atMost(fmt.Sprintf("the same, %s", row.scatter),
			fmt.Sprintf("%.1f suggested, %.1f by the inch to one side (%d: given up): %.2f", row.suggested, row.oneSide, mostTries+1, ratio), ratio, 0.5, "")
	}
	return err
}

// triesNeeded lets simulated testers measure typical cues at the default gate with a firm
// stroke: pivot lengths of about 9.5, 13 and 19 in, common practice, no source. Scatter,
// aim error and elevation error are drawn from the priors.
func triesNeeded(ctx context.Context) ([]triesRow, error) {
	scene := scenario.Default()
	scene.Speed = 12 * unit.MilePerHour
	set := scene.Shot()
	var rows []triesRow
	for _, pivot := range []unit.Length{9.5 * unit.Inch, 13 * unit.Inch, 19 * unit.Inch} {
		who := make([]trial.Tester, testers)
		var ladder, oneSide, suggested [testers]float64
		group, ctx := errgroup.WithContext(ctx)
		group.SetLimit(runtime.GOMAXPROCS(0))
		for i := range who {
			who[i] = trial.Draw(rand.New(rand.NewPCG(uint64(i), 1)))
			who[i].Pivot = pivot
			group.Go(func() (err error) {
				for _, way := range []struct {
					n      *float64
					choose chooser
				}{{&ladder[i], inTurn}, {&oneSide[i], byTheInch}, {&suggested[i], bySuggestion}} {
					if *way.n, err = tries(ctx, who[i], set, way.choose, i); err != nil {
						return err
					}
				}
				return nil
			})
		}
		if err := group.Wait(); err != nil {
			return rows, err
		}
		row := func(name string, least, most unit.Angle) {
			var a, b, c []float64
			for i := range who {
				if who[i].Scatter >= least && who[i].Scatter < most {
					a, b, c = append(a, ladder[i]), append(b, suggested[i]), append(c, oneSide[i])
				}
			}
			rows = append(rows, triesRow{pivot, name, typical(a), typical(b), typical(c)})
		}
		const steady = 0.4 * unit.Degree
		row("all testers", 0, 90*unit.Degree)
		row("steady hands", 0, steady)
		row("the others", steady, 90*unit.Degree)
	}
	return rows, nil
}

// typical returns the geometric mean. A median would jump, since a steady hand takes ten
// strokes and a shaky one a hundred.
func typical(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += math.Log(x)
	}
	return math.Exp(sum / float64(len(v)))
}

// A chooser sets up the next stroke, given the last one and the present posterior.
type chooser func(s *shot.Shot, p *trial.Posterior, last trial.Outcome)

// tries returns how many strokes a tester makes until the pivot length is known
// precisely, or one more than mostTries if it is not by then.
func tries(ctx context.Context, who trial.Tester, set shot.Shot, choose chooser, seed int) (float64, error) {
	r := rand.New(rand.NewPCG(uint64(seed), 2))
	p, s, last := trial.Prior(), set, trial.Clean
	s.Hands.Bridge = 9 * unit.Inch
	for n := range mostTries {
		if err := ctx.Err(); err != nil {
			return 0, err
		}
		choose(&s, p, last)
		try, err := who.Try(s, r)
		if err != nil {
			return 0, err
		}
		if p, err = p.Add(try); err != nil {
			return 0, err
		}
		if p.Pivot().Within(precise) {
			return float64(n + 1), nil
		}
		last = try.Outcome
	}
	return mostTries + 1, nil
}

// byTheInch moves the bridge an inch back if the ball went to the side of the english, an
// inch forward if it went to the other side, and leaves it if the ball passed.
func byTheInch(s *shot.Shot, _ *trial.Posterior, last trial.Outcome) {
	if last != trial.Clean {
		step := unit.Inch
		if (last == trial.Right) != (s.Contact.Side > 0) {
			step = -step
		}
		s.Hands.Bridge = min(max(s.Hands.Bridge+step, shortBridge), longBridge)
	}
}

// inTurn does the same with english that changes sides at every stroke: an aim error can
// then be distinguished from squirt, which is impossible from one side.
func inTurn(s *shot.Shot, p *trial.Posterior, last trial.Outcome) {
	byTheInch(s, p, last)
	s.Contact.Side = -s.Contact.Side
}

func bySuggestion(s *shot.Shot, p *trial.Posterior, _ trial.Outcome) {
	usual := scenario.Default() // the widest gap and the least english that may be suggested
	s.Gate.Gap, s.Contact.Side = usual.Gap, usual.Side
	next := p.Next(s, usual.Scatter.Tip, shortBridge, longBridge)
	s.Hands.Bridge, s.Gate.Gap = next.Bridge, next.Gap
	if s.Contact.Side = next.Side; !next.Right {
		s.Contact.Side = -next.Side
	}
}

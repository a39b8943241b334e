package main

import (
	"context"
	"fmt"
	"math/rand/v2"
	"runtime"
	"slices"

	"golang.org/x/sync/errgroup"

	"pivotbench/core/scenario"
	"pivotbench/core/sitting"
	"pivotbench/core/unit"
)

// Simulated testers measure cues by marks, by a gate and by both, and give up after some
// strokes.
const (
	strokeTesters = 200
	mostStrokes   = 60
)

// measureStrokes measures how many strokes it takes to measure a cue when everything
// assumed is off by its stated error, and how often the intervals then contain the truth.
func measureStrokes(ctx context.Context, _ *sites, _ int, r *report) error {
	aims := map[string][]float64{"marks": {4, 6, 12}, "gate": {8, 12, 30}, "both": {4, 6, 12}}
	for _, way := range []struct {
		name  string
		kinds []sitting.Kind
	}{{"marks", []sitting.Kind{sitting.ByMark}}, {"gate", []sitting.Kind{sitting.ByGate}}, {"both", []sitting.Kind{sitting.ByGate, sitting.ByMark}}} {
		for i, pivot := range []unit.Length{9.5 * unit.Inch, 13 * unit.Inch, 19 * unit.Inch} {
			took, held, err := strokesNeeded(ctx, pivot, way.kinds)
			if err != nil {
				return err
			}
			slices.Sort(took)
			median := float64(took[len(took)/2])
			r.atMost(fmt.Sprintf("strokes for a %g in pivot, %s", float64(pivot/unit.Inch), way.name),
				fmt.Sprintf("%g (median), the 90 %% interval held the truth for %.0f %%", median, 100*held), median, aims[way.name][i], "")
		}
	}
	return nil
}

// strokesNeeded lets testers with a scatter of 0.2° follow the suggestions until the 90 %
// interval is within a tenth of the median. Aim bias and set-up errors are drawn from
// their priors.
func strokesNeeded(ctx context.Context, pivot unit.Length, kinds []sitting.Kind) (took []int, held float64, err error) {
	scene := scenario.Default()
	scene.Speed = 12 * unit.MilePerHour
	set := scene.Shot()
	choice := sitting.Choice{
		Kinds: kinds, Hands: []sitting.Hands{sitting.BackHand, sitting.Parallel}, Speeds: []unit.Speed{set.Speed},
		Lines: []unit.Length{30 * unit.Inch, 45 * unit.Inch}, Sides: []float64{set.Contact.Side}, Read: sitting.ByEye,
	}
	for b := shortBridge; b <= 24*unit.Inch; b += unit.Inch {
		choice.Bridges = append(choice.Bridges, b)
	}
	took = make([]int, strokeTesters)
	held90 := make([]bool, strokeTesters)
	group, ctx := errgroup.WithContext(ctx)
	group.SetLimit(runtime.GOMAXPROCS(0))
	for i := range took {
		group.Go(func() error {
			rng := rand.New(rand.NewPCG(uint64(i), 3))
			who := sitting.Draw(rng)
			who.Pivot, who.Scatter = pivot, 0.2*unit.Degree
			p := sitting.Prior(sitting.Habit)
			for took[i] < mostStrokes && (took[i] == 0 || !p.Pivot(0).Within(precise)) {
				if err := ctx.Err(); err != nil {
					return err
				}
				next := p.Next(0, &set, &choice)[0]
				shot := next.Of(set)
				stroke, err := who.AtGate(shot, sitting.Habit, rng)
				if next.Kind == sitting.ByMark {
					mark := sitting.Mark{Line: next.Line, Read: choice.Read, Across: scene.GearTable().Width}
					stroke, err = who.AtLine(shot, sitting.Habit, mark, rng)
				}
				if err == nil {
					p, err = p.Add(stroke)
				}
				if err != nil {
					return err
				}
				took[i]++
			}
			held90[i] = p.Pivot(0).Holds(float64(pivot))
			return nil
		})
	}
	err = group.Wait()
	for _, is := range held90 {
		if is {
			held += 1 / float64(strokeTesters)
		}
	}
	return took, held, err
}

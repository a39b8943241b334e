package oneshot

import (
	"math/rand/v2"
	"slices"
	"time"

	"pivotbench/core/scenario"
	"pivotbench/core/sitting"
	"pivotbench/core/unit"
)

// A SittingCost is what a stroke of a sitting takes, in nanoseconds.
type SittingCost struct {
	Update  float64 // the median of weighing one
	Slowest float64 // the slowest: now and then a cloud is drawn anew
	Step    float64 // the longest that weighing one takes without a break
	Next    float64 // the slowest of suggesting one
}

// MeasureSitting has a made-up tester play suggested strokes.
func MeasureSitting() SittingCost {
	const strokes = 24
	scene := scenario.Default()
	scene.Speed = 12 * unit.MilePerHour
	set := scene.Shot()
	choice := sitting.Choice{
		Kinds: []sitting.Kind{sitting.ByGate, sitting.ByMark}, Hands: []sitting.Hands{sitting.BackHand, sitting.Parallel},
		Speeds: []unit.Speed{12 * unit.MilePerHour, 15 * unit.MilePerHour},
		Lines:  []unit.Length{20 * unit.Inch, 30 * unit.Inch, 45 * unit.Inch, 60 * unit.Inch}, Sides: []float64{set.Contact.Side}, Read: sitting.ByEye,
	}
	for b := 5 * unit.Inch; b <= 24*unit.Inch; b += unit.Inch {
		choice.Bridges = append(choice.Bridges, b)
	}
	r := rand.New(rand.NewPCG(1, 1))
	who := sitting.Tester{Pivot: 13 * unit.Inch, Scatter: 0.3 * unit.Degree}
	p := sitting.Prior(sitting.Habit)
	var updates, steps, suggestions []float64
	for range strokes {
		start := time.Now()
		next := p.Next(0, &set, &choice)[0]
		suggestions = append(suggestions, float64(time.Since(start)))
		shot := next.Of(set)
		stroke, err := who.AtGate(shot, sitting.Habit, r)
		if next.Kind == sitting.ByMark {
			stroke, err = who.AtLine(shot, sitting.Habit, sitting.Mark{Line: next.Line, Read: choice.Read, Across: scene.GearTable().Width}, r)
		}
		if err != nil {
			continue // none of these is too short
		}
		start = time.Now()
		begin := start
		step := func() bool {
			now := time.Now()
			steps, begin = append(steps, float64(now.Sub(begin))), now
			return true
		}
		if q, err := p.AddWhile(stroke, step); err == nil {
			step()
			updates = append(updates, float64(time.Since(start)))
			p = q
		}
	}
	slices.Sort(updates)
	return SittingCost{updates[len(updates)/2], slices.Max(updates), slices.Max(steps), slices.Max(suggestions)}
}

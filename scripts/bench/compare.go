package main

import (
	"fmt"
	"math"
	"testing"

	"pivotbench/core/motion"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// tolerance is the relative tolerance of the integrator. For a position or a speed near
// zero, the absolute tolerance is a thousandth of it.
const tolerance = 1e-9

// compareShots compares the presets' paths with those of a general-purpose integrator.
func compareShots(runs int, r *report) error {
	shots, err := presets()
	if err != nil {
		return err
	}
	off, steps := stepped(shots)
	played := make([]shot.Result, len(shots))
	var path motion.Path
	s := newStepper()
	var whole, alone, integrated sample
	for range runs {
		whole = append(whole, each(len(shots), func(i int) { shot.Play(&shots[i], &played[i]) }))
		alone = append(alone, each(len(shots), func(i int) {
			l := &played[i].Launch
			path.Follow(motion.State{Vel: l.Vel, Spin: l.Spin}, shots[i].Ball.Radius, shots[i].Cloth)
		}))
		integrated = append(integrated, each(len(shots), func(i int) { s.follow(&shots[i], &played[i], func(float64, []float64) {}) }))
	}
	of := func(one sample) float64 { return one.median() / integrated.median() }
	r.note(fmt.Sprintf("paths of %d presets, integrated", len(shots)),
		fmt.Sprintf("%s in %.0f steps, by Dormand-Prince 5(4) at %g, written here", integrated.spread(" ns"), steps, tolerance))
	r.atMost("the same paths in closed form", fmt.Sprintf("%s, %.3f of it", alone.spread(" ns"), of(alone)), of(alone), 0.1, " of it")
	r.note("with all readings", fmt.Sprintf("%s, %.3f of it", whole.spread(" ns"), of(whole)))
	r.atMost("the two paths apart, at the most", fmt.Sprintf("%.1e m", off), off, 1e-7, " m")
	return nil
}

// presets returns the shots of the presets.
func presets() ([]shot.Shot, error) {
	var shots []shot.Shot
	for _, p := range scenario.Presets {
		scene, problems := scenario.Parse(p.Link)
		if len(problems) > 0 {
			return nil, fmt.Errorf("%s: %w", p.Label, problems[0])
		}
		shots = append(shots, scene.Shot())
	}
	return shots, nil
}

// stepped returns the greatest distance in metres between the two paths, at the
// integrator's steps, and the number of steps for a shot.
func stepped(shots []shot.Shot) (off, steps float64) {
	s := newStepper()
	for i := range shots {
		var res shot.Result
		shot.Play(&shots[i], &res)
		s.follow(&shots[i], &res, func(t float64, y []float64) {
			there, _ := res.Path.At(unit.Span(t))
			off = math.Max(off, there.Pos.Sub(vec.V{X: y[posX], Y: y[posY], Z: y[posZ]}).Norm())
			steps += 1 / float64(len(shots))
		})
	}
	return off, steps
}

// each returns how many nanoseconds each of n calls takes on average.
func each(n int, do func(i int)) float64 {
	b := testing.Benchmark(func(b *testing.B) {
		for b.Loop() {
			for i := range n {
				do(i)
			}
		}
	})
	return float64(b.T.Nanoseconds()) / float64(b.N) / float64(n)
}

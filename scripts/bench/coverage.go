package main

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"runtime"

	"golang.org/x/sync/errgroup"

	"pivotbench/core/scenario"
	"pivotbench/core/sitting"
	"pivotbench/core/unit"
)

// How many testers the coverage is measured with: the standard error of a share of
// nine in ten is then 0.9 %. And how many strokes each plays.
const coverTesters, coverStrokes = 1200, 6

// A crowd is a kind of testers, and how often the intervals should hold the truth
// about their cues.
type crowd struct {
	name   string
	errors sitting.SetUp
	flaw   func(*sitting.Tester, *rand.Rand)
	filmed bool       // every third stroke is on film
	nine   [2]float64 // of the 90 % interval
	half   [2]float64 // of the 50 % interval
}

// crowds are testers as the model has them, with one error of the set-up at a time
// and with all, and testers who are not as the model has them.
func crowds() []crowd {
	asSaid := func(*sitting.Tester, *rand.Rand) {}
	habit := sitting.Habit
	nine, half := [2]float64{0.87, 0.93}, [2]float64{0.46, 0.55}
	all := []crowd{
		{"as the model has them", habit, asSaid, false, nine, half},
		{"as the model has them, some on film", habit, asSaid, true, nine, half},
		{"no error of the set-up", sitting.SetUp{}, asSaid, false, nine, half},
		{"elevation alone", sitting.SetUp{Elevation: habit.Elevation}, asSaid, false, nine, half},
		{"bridge alone", sitting.SetUp{Bridge: habit.Bridge}, asSaid, false, nine, half},
		{"offset alone", sitting.SetUp{Offset: habit.Offset}, asSaid, false, nine, half},
		{"speed alone", sitting.SetUp{Speed: habit.Speed}, asSaid, false, nine, half},
		{"sliding friction alone", sitting.SetUp{Slide: habit.Slide}, asSaid, false, nine, half},
	}
	// Tukey's contaminated Normal distribution: one in ten scatters three times
	// as much (A survey of sampling from contaminated distributions, 1960).
	tails := func(who *sitting.Tester, _ *rand.Rand) { who.Tails = 0.1 }
	// From the first stroke to the last the aim moves as far as testers' aims
	// differ from each other.
	drift := func(who *sitting.Tester, r *rand.Rand) {
		who.Drift = sitting.AimSpread * unit.Angle(r.NormFloat64()) / (coverStrokes - 1)
	}
	// Twice as many wrong notes as the model has.
	wrong := func(who *sitting.Tester, _ *rand.Rand) { who.Wrong = 0.02 }
	mixture := func(who *sitting.Tester, r *rand.Rand) {
		tails(who, r)
		drift(who, r)
		wrong(who, r)
	}
	broken := [2]float64{0.85, 0.95}
	for _, c := range []crowd{{name: "heavy tails", flaw: tails}, {name: "drift", flaw: drift}, {name: "wrong notes", flaw: wrong}, {name: "all three", flaw: mixture}, {name: "all three, some on film", flaw: mixture, filmed: true}} {
		all = append(all, crowd{c.name, habit, c.flaw, c.filmed, broken, [2]float64{}})
	}
	return all
}

// measureCoverage tells how often the intervals hold the truth for testers of all kinds.
// It takes minutes, so it says on the standard error where it is.
func measureCoverage(ctx context.Context, _ *sites, _ int, r *report) error {
	for _, c := range crowds() {
		nine, half, err := c.cover(ctx)
		if err != nil {
			return err
		}
		fmt.Fprintf(os.Stderr, "intervals of 90 and 50 %%, %s: %.1f and %.1f %%\n", c.name, 100*nine, 100*half)
		r.within("90 % intervals, "+c.name, nine, c.nine)
		if c.half != [2]float64{} {
			r.within("50 % intervals, "+c.name, half, c.half)
		}
	}
	return nil
}

// cover plays testers of a crowd, drawn from the priors, and returns the share of
// 90 % and of 50 % intervals that hold the truth.
func (c *crowd) cover(ctx context.Context) (nine, half float64, err error) {
	scene := scenario.Default()
	scene.Speed = 12 * unit.MilePerHour
	set := scene.Shot()
	mark := sitting.Mark{Line: 30 * unit.Inch, Read: sitting.ByEye, Across: scene.GearTable().Width}
	held := make([][2]bool, coverTesters)
	group, ctx := errgroup.WithContext(ctx)
	group.SetLimit(runtime.GOMAXPROCS(0))
	for n := range held {
		group.Go(func() error {
			rng := rand.New(rand.NewPCG(uint64(n), 5))
			who := sitting.Draw(rng)
			c.flaw(&who, rng)
			p := sitting.Prior(c.errors)
			for i := range coverStrokes {
				if err := ctx.Err(); err != nil {
					return err
				}
				s := set
				s.Hands.Bridge = unit.Length(6+3*rng.IntN(6)) * unit.Inch
				if rng.IntN(3) == 0 {
					s.Hands.Back = 0
				}
				if i%2 == 1 {
					s.Contact.Side = -s.Contact.Side
				}
				now := who.After(i)
				stroke, err := now.AtGate(s, c.errors, rng)
				switch {
				case c.filmed && i%3 == 2:
					stroke, err = now.OnFilm(s, c.errors, filmOf(s.Speed, mark.Across), rng)
				case (n+i/2)%2 == 0:
					stroke, err = now.AtLine(s, c.errors, mark, rng)
				}
				if err != nil {
					return err
				}
				if p, err = p.Add(stroke); err != nil {
					return err
				}
			}
			e := p.Pivot(0)
			held[n] = [2]bool{e.Holds(float64(who.Pivot)), e.Half.Holds(float64(who.Pivot))}
			return nil
		})
	}
	if err := group.Wait(); err != nil {
		return 0, 0, fmt.Errorf("%s: %w", c.name, err)
	}
	nine, half = shares(held)
	return nine, half, nil
}

// shares returns the share of testers for whom the first is true, and the second.
func shares(of [][2]bool) (first, second float64) {
	for _, is := range of {
		if is[0] {
			first += 1 / float64(len(of))
		}
		if is[1] {
			second += 1 / float64(len(of))
		}
	}
	return first, second
}

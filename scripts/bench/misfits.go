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

// How many testers there are of each kind, and how many strokes each plays.
const misfitTesters, misfitStrokes = 300, 8

// An odd is a kind of testers whose strokes contradict each other.
type odd struct {
	name    string
	swapped int        // strokes recorded on the wrong side
	away    unit.Angle // how far from the rest half of the strokes land
	typical bool       // whether they scatter by 0.2° and their cue is of 12 in; else all is drawn from the priors
	named   func(sitting.Misfit) bool
}

// measureMisfits tells how often strokes are said to be on the wrong side, or in two
// places, for testers as the model has them and for those whose strokes are. It takes
// minutes, so it says on the standard error where it is.
func measureMisfits(ctx context.Context, _ *sites, _ int, r *report) error {
	// A single stroke may also be said to be recorded wrongly.
	sides := func(m sitting.Misfit) bool {
		return m == sitting.SomeSwapped || m == sitting.Swapped || m == sitting.OneOff
	}
	places := func(m sitting.Misfit) bool { return m == sitting.TwoPlaces }
	any := func(m sitting.Misfit) bool { return m == sitting.SomeSwapped || m == sitting.Swapped || places(m) }
	for _, o := range []odd{
		{"none, as the model has them: false alarms", 0, 0, false, any},
		{"1 of 8 on the wrong side, named", 1, 0, true, sides},
		{"2 of 8 on the wrong side, named", 2, 0, true, sides},
		{"4 of 8 on the wrong side, named", 4, 0, true, sides},
		{"4 of 8 land 1.5° away, named", 0, 1.5 * unit.Degree, true, places},
		{"4 of 8 land 3° away, named", 0, 3 * unit.Degree, true, places},
	} {
		share, right, err := o.share(ctx)
		if err != nil {
			return err
		}
		figure := fmt.Sprintf("%.1f %%", 100*share)
		if o.swapped > 0 {
			figure += fmt.Sprintf("; no other stroke was named for %.1f %%", 100*right)
		}
		fmt.Fprintln(os.Stderr, "strokes, "+o.name+": "+figure)
		if o.swapped == 0 && o.away == 0 {
			r.atMost("strokes, "+o.name, figure, 100*share, 2, " %")
		} else {
			r.note("strokes, "+o.name, figure)
		}
	}
	return nil
}

// share returns the share of testers whose strokes are named as odd, and of those for whom
// no stroke is named but one that is.
func (o *odd) share(ctx context.Context) (named, right float64, err error) {
	scene := scenario.Default()
	scene.Speed = 12 * unit.MilePerHour
	set := scene.Shot()
	set.Hands.Back = 0
	mark := sitting.Mark{Line: 30 * unit.Inch, Read: sitting.ByEye, Across: scene.GearTable().Width}
	results := make([][2]bool, misfitTesters)
	group, ctx := errgroup.WithContext(ctx)
	group.SetLimit(runtime.GOMAXPROCS(0))
	for n := range results {
		group.Go(func() error {
			rng := rand.New(rand.NewPCG(uint64(n), 17))
			who := sitting.Draw(rng)
			if o.typical {
				who.Pivot, who.Scatter = 12*unit.Inch, 0.2*unit.Degree
			}
			wrong, parallel := map[int]bool{}, []int{0, 1, 4, 5} // others hardly leave the aim line
			for _, i := range rng.Perm(len(parallel))[:o.swapped] {
				wrong[parallel[i]] = true
			}
			p := sitting.Prior(sitting.Habit)
			for i := range misfitStrokes {
				if err := ctx.Err(); err != nil {
					return err
				}
				s := set
				if o.away == 0 && i%4 > 1 { // off a bridge; and every other pair at the gate
					s.Hands.Back, s.Hands.Bridge = 1, unit.Length(7+3*rng.IntN(5))*unit.Inch
				}
				if o.away == 0 && i%2 == 1 {
					s.Contact.Side = -s.Contact.Side
				}
				played := s
				if i%2 == 0 {
					played.AimOff = o.away
				}
				stroke, err := who.AtLine(played, sitting.Habit, mark, rng)
				if o.away == 0 && (n+i/2)%2 == 0 {
					stroke, err = who.AtGate(played, sitting.Habit, rng)
				}
				if err != nil {
					return err
				}
				stroke.Shot = s
				if wrong[i] {
					switch seen := stroke.Seen.(type) {
					case sitting.Mark:
						seen.At = -seen.At
						stroke.Seen = seen
					case sitting.Gate:
						stroke.Seen = sitting.Right - seen
					}
				}
				if p, err = p.Add(stroke); err != nil {
					return err
				}
			}
			what, which := p.Fit()
			results[n] = [2]bool{o.named(what), o.named(what)}
			for _, i := range which {
				results[n][1] = results[n][1] && wrong[i]
			}
			return nil
		})
	}
	if err := group.Wait(); err != nil {
		return 0, 0, fmt.Errorf("%s: %w", o.name, err)
	}
	named, right = shares(results)
	return named, right, nil
}

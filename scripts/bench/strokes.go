package main

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"

	"golang.org/x/sync/errgroup"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/sitting"
	"pivotbench/core/unit"
)

// How many testers measure each cue, and when they give up.
const (
	strokeTesters = 200
	mostStrokes   = 60
)

// instruments is the set-up of a tester who has measured the elevation with a
// phone, and speed and cloth with their instruments: common practice, no source.
var instruments = sitting.SetUp{
	Elevation: 0.2 * unit.Degree, Bridge: sitting.Habit.Bridge, Offset: sitting.Habit.Offset, Speed: 0.05, Slide: 0.05,
}

var (
	byMarks = []sitting.Kind{sitting.ByMark}
	byGate  = []sitting.Kind{sitting.ByGate}
	byBoth  = []sitting.Kind{sitting.ByGate, sitting.ByMark}
)

// A way is how testers measure a cue.
type way struct {
	name   string
	kinds  []sitting.Kind
	setUp  sitting.SetUp
	choose strokeChooser
	told   bool      // what the cue is, which guides the choice and is no evidence
	aims   []float64 // median strokes for each cue; nil: there is none
}

// measureStrokes tells how many strokes it takes to measure a cue when all that is
// taken as given is off by its stated size, how often the intervals hold the truth
// by then, and how often they do for testers of all kinds.
func measureStrokes(ctx context.Context, _ *sites, _ int, r *report) error {
	pivots := []unit.Length{9.5 * unit.Inch, 13 * unit.Inch, 19 * unit.Inch}
	alone := make([]float64, len(pivots)) // with marks
	for i, w := range []way{
		{"marks", byMarks, sitting.Habit, suggestedStroke, false, []float64{4, 6, 12}},
		{"gate", byGate, sitting.Habit, suggestedStroke, false, []float64{8, 12, 30}},
		{"marks and gate", byBoth, sitting.Habit, suggestedStroke, false, nil},
		{"marks and gate, with instruments", byBoth, instruments, suggestedStroke, false, nil},
		{"marks, by the inch", byMarks, sitting.Habit, inchStroke, false, nil},
		{"gate, by the inch", byGate, sitting.Habit, inchStroke, false, nil},
		{"marks, by one who knows the cue", byMarks, sitting.Habit, suggestedStroke, true, nil},
		{"gate, by one who knows the cue", byGate, sitting.Habit, suggestedStroke, true, nil},
	} {
		for j, pivot := range pivots {
			took, held, err := strokesNeeded(ctx, pivot, &w)
			if err != nil {
				return err
			}
			mean := typical(took)
			slices.Sort(took)
			median := took[len(took)/2]
			what := fmt.Sprintf("strokes for a %g in pivot, %s", float64(pivot/unit.Inch), w.name)
			figure := fmt.Sprintf("median %g, mean %.1f; the interval held the truth for %.0f %%", median, mean, 100*held)
			switch {
			case w.aims != nil:
				r.atMost(what, figure, median, w.aims[j], "")
			case i == 2 || i == 3:
				r.atMost(what, figure, mean, alone[j], " (mean of marks)")
			default:
				r.note(what, figure)
			}
			if i == 0 {
				alone[j] = mean
			}
		}
	}
	return measureCoverage(ctx, r)
}

// strokesNeeded has testers with a scatter of 0.2° play until the 90 % interval is
// within a tenth of the median. Aim bias and set-up errors are drawn from their
// priors.
func strokesNeeded(ctx context.Context, pivot unit.Length, w *way) (took []float64, held float64, err error) {
	scene := scenario.Default()
	scene.Speed = 12 * unit.MilePerHour
	set := scene.Shot()
	// A firm and a hard stroke, marked on lines that a tape finds.
	choice := sitting.Choice{
		Kinds: w.kinds, Hands: []sitting.Hands{sitting.BackHand, sitting.Parallel},
		Speeds: []unit.Speed{12 * unit.MilePerHour, 15 * unit.MilePerHour},
		Lines:  []unit.Length{20 * unit.Inch, 30 * unit.Inch, 45 * unit.Inch, 60 * unit.Inch}, Sides: []float64{set.Contact.Side}, Read: sitting.ByEye,
	}
	for b := shortBridge; b <= 24*unit.Inch; b += unit.Inch {
		choice.Bridges = append(choice.Bridges, b)
	}
	took = make([]float64, strokeTesters)
	is := make([]bool, strokeTesters)
	group, ctx := errgroup.WithContext(ctx)
	group.SetLimit(runtime.GOMAXPROCS(0))
	for i := range took {
		group.Go(func() error {
			rng := rand.New(rand.NewPCG(uint64(i), 3))
			who := sitting.Draw(rng)
			who.Pivot, who.Scatter = pivot, 0.2*unit.Degree
			p, last := sitting.Prior(w.setUp), sitting.Stroke{Shot: set}
			last.Shot.Hands.Bridge = 9 * unit.Inch
			guide := p
			if w.told {
				strokes, err := told(set, pivot, scene.GearTable().Width)
				if err != nil {
					return err
				}
				guide, _ = sitting.Of(w.setUp, strokes)
			}
			for took[i] < mostStrokes && (took[i] == 0 || !p.Pivot(0).Within(precise)) {
				if err := ctx.Err(); err != nil {
					return err
				}
				next := w.choose(guide, &set, &choice, &last)
				s := next.Of(set)
				stroke, err := who.AtGate(s, w.setUp, rng)
				if next.Kind == sitting.ByMark {
					mark := sitting.Mark{Line: next.Line, Read: choice.Read, Across: scene.GearTable().Width}
					stroke, err = who.AtLine(s, w.setUp, mark, rng)
				}
				if err == nil {
					p, err = p.Add(stroke)
				}
				if err == nil && w.told {
					guide, err = guide.Add(stroke)
				} else {
					guide = p
				}
				if err != nil {
					return err
				}
				last = stroke
				took[i]++
			}
			is[i] = p.Pivot(0).Holds(float64(pivot))
			return nil
		})
	}
	err = group.Wait()
	for _, is := range is {
		if is {
			held += 1 / float64(strokeTesters)
		}
	}
	return took, held, err
}

// A strokeChooser chooses the next stroke from what is known by now and the last one.
type strokeChooser func(p *sitting.Posterior, s *shot.Shot, c *sitting.Choice, last *sitting.Stroke) sitting.Suggestion

func suggestedStroke(p *sitting.Posterior, s *shot.Shot, c *sitting.Choice, _ *sitting.Stroke) sitting.Suggestion {
	return p.Next(0, s, c)[0]
}

// plain is a stroke with the back hand alone off a bridge, with english to the other
// side than the last one.
func plain(s *shot.Shot, c *sitting.Choice, last *sitting.Stroke, bridge unit.Length) sitting.Suggestion {
	n := sitting.Suggestion{Kind: c.Kinds[0], Speed: s.Speed, Line: s.Gate.Dist, Side: c.Sides[0], Bridge: bridge}
	if last.Shot.Contact.Side > 0 {
		n.Side = -n.Side
	}
	return n
}

// inchStroke moves the bridge an inch back when the ball came to the side of the
// english, and an inch forward when it came to the other.
func inchStroke(_ *sitting.Posterior, s *shot.Shot, c *sitting.Choice, last *sitting.Stroke) sitting.Suggestion {
	way := 0.0 // to which side the ball came
	switch seen := last.Seen.(type) {
	case sitting.Mark:
		way = float64(seen.At)
	case sitting.Gate:
		way = float64(seen - sitting.Clean)
	}
	step := unit.Length(0)
	if way *= last.Shot.Contact.Side; way != 0 {
		step = unit.Inch * unit.Length(math.Copysign(1, way))
	}
	return plain(s, c, last, min(max(last.Shot.Hands.Bridge+step, shortBridge), longBridge))
}

// told are strokes that tell roughly what a cue is: a parallel one to either side,
// read to a fifth. Whoever is told them knows where to look, and measures as all
// others do.
func told(s shot.Shot, pivot, across unit.Length) (out []sitting.Stroke, err error) {
	s.Hands.Back = 0
	for range 2 {
		s.Contact.Side = -s.Contact.Side
		x, err := sitting.Tester{Pivot: pivot}.Play(s, sitting.SetUp{}, s.Gate.Dist)
		if err != nil {
			return nil, err
		}
		read := unit.Length(math.Abs(float64(x))) / 5
		out = append(out, sitting.Stroke{Shot: s, Seen: sitting.Mark{At: x, Line: s.Gate.Dist, Read: read, Across: across}})
	}
	return out, nil
}

// precise is the distance of the ends of the 90 % interval from the median, as a share of
// it, at which a cue counts as measured.
const precise = 0.1

// shortBridge and longBridge are the bridge lengths that a tester can be asked for.
const (
	shortBridge = 5 * unit.Inch
	longBridge  = 30 * unit.Inch
)

// typical returns the geometric mean. A median would jump, since a steady hand takes ten
// strokes and a shaky one a hundred.
func typical(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += math.Log(x)
	}
	return math.Exp(sum / float64(len(v)))
}

package main

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"runtime"
	"slices"

	"golang.org/x/sync/errgroup"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/sitting"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// How many testers measure each cue, and when they give up.
const (
	strokeTesters = 200
	mostStrokes   = 40
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
	filmed int       // one stroke in so many is filmed; 0: none
	aims   []float64 // median strokes for each cue; nil: there is none
	fewer  bool      // whether it should take fewer than marks alone
}

// ways returns the ways of measuring with their aims, then those to compare them with. For
// a film of a 13 in cue the aim is beyond what four strokes can tell: even if nothing but
// the scatter were unknown, Student's t with two degrees of freedom, which squirt and aim
// leave of four strokes, gives ±10.6 % in the median. One who knows the cue takes as many.
func ways() []way {
	plain := func(name string, kinds []sitting.Kind, aims []float64) way {
		return way{name: name, kinds: kinds, setUp: sitting.Habit, choose: suggestedStroke, aims: aims}
	}
	both, film, mixed := plain("marks and gate", byBoth, nil), plain("film", byMarks, []float64{4, 4, 7}), plain("marks, gate and film", byBoth, nil)
	measured := plain("marks and gate, with instruments", byBoth, nil)
	measured.setUp = instruments
	film.filmed, mixed.filmed = 1, 3
	both.fewer, mixed.fewer, measured.fewer = true, true, true
	all := []way{plain("marks", byMarks, []float64{4, 6, 12}), plain("gate", byGate, []float64{8, 12, 30}), both, measured, film, mixed}
	for _, kind := range all[:2] {
		inch := plain(kind.name+", by the inch", kind.kinds, nil)
		inch.choose = inchStroke
		all = append(all, inch)
	}
	for _, w := range []way{all[0], all[1], both, measured, film} {
		oracle := w
		oracle.name, oracle.told, oracle.aims, oracle.fewer = w.name+", by one who knows the cue", true, nil, false
		all = append(all, oracle)
	}
	return all
}

// measureStrokes tells how many strokes it takes to measure a cue when all that is
// taken as given is off by its stated size, and how often the intervals hold the truth
// by then. It takes minutes, so it says on the standard error where it is.
func measureStrokes(ctx context.Context, _ *sites, _ int, r *report) error {
	pivots := []unit.Length{9.5 * unit.Inch, 13 * unit.Inch, 19 * unit.Inch}
	alone := make([]float64, len(pivots)) // with marks
	for i, w := range ways() {
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
			if median == mostStrokes {
				figure = fmt.Sprintf("median over %d; the interval held the truth for %.0f %%", mostStrokes, 100*held)
			}
			fmt.Fprintln(os.Stderr, what+": "+figure)
			switch {
			case w.aims != nil:
				r.atMost(what, figure, median, w.aims[j], "")
			case w.fewer:
				r.atMost(what, figure, mean, alone[j], " (mean of marks)")
			default:
				r.note(what, figure)
			}
			if i == 0 {
				alone[j] = mean
			}
		}
	}
	return nil
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
	across := scene.GearTable().Width
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
				strokes, err := told(set, pivot, across)
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
				took[i]++
				filmed := w.filmed > 0 && int(took[i])%w.filmed == 0
				stroke, err := played(who, &set, w, &next, filmed, across, rng)
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

// played has a tester play a suggestion, filmed or seen in the way that it says.
func played(who sitting.Tester, set *shot.Shot, w *way, next *sitting.Suggestion, filmed bool, across unit.Length, rng *rand.Rand) (sitting.Stroke, error) {
	s := next.Of(*set)
	switch {
	case filmed:
		return who.OnFilm(s, w.setUp, filmOf(s.Speed, across), rng)
	case next.Kind == sitting.ByMark:
		return who.AtLine(s, w.setUp, sitting.Mark{Line: next.Line, Read: sitting.ByEye, Across: across}, rng)
	}
	return who.AtGate(s, w.setUp, rng)
}

// filmOf returns what a film of a stroke says of its errors: the heading is right to
// 0.15° and the speed to 3 % nine times out of ten, and the place at 30 in, which is
// read off the same track, to 3 mm. These are the aims for films, not a measurement.
func filmOf(speed unit.Speed, across unit.Length) sitting.Film {
	heading, place, pace := 0.15*float64(unit.Degree)/stat.Reach90, 0.003/stat.Reach90, 0.03*float64(speed)/stat.Reach90
	const together = 0.5 // the correlation of heading and place
	both := together * heading * place
	return sitting.Film{
		Lines: []unit.Length{30 * unit.Inch}, Across: across,
		Cov: [][]float64{{heading * heading, both, 0}, {both, place * place, 0}, {0, 0, pace * pace}},
	}
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

package main

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"runtime"
	"slices"

	"golang.org/x/sync/errgroup"

	"pivotbench/core/player"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/sitting"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// How many players are fitted of each kind, how many strokes each plays where the number
// is fixed, and when they give up where it is not. With 200 players the standard error of
// a share of nine in ten is 2.1 %, and less for the six cells of a card together.
const fitPlayers, fitStrokes, mostFitStrokes = 200, 8, 25

// A pupil is a kind of players.
type pupil struct {
	name  string
	habit bool        // whether felt shares differ from real ones
	pivot unit.Length // of the cue, with a scatter of 0.2°; 0: both drawn from the priors
	known bool        // whether the cue was measured before, to 5 %
	gate  bool        // whether their strokes are seen at the gate, not marked
	stop  bool        // whether they stop when more strokes would not change their card
}

func pupils() []pupil {
	out := []pupil{{name: "with a habit", habit: true}, {name: "without a habit"}, {name: "with a habit, at the gate", habit: true, gate: true}}
	for _, pivot := range []unit.Length{9.5, 13, 19} {
		for _, known := range []bool{false, true} {
			name := fmt.Sprintf("a cue of %g in", float64(pivot))
			if known {
				name += ", measured before"
			}
			out = append(out, pupil{name: name, habit: true, pivot: pivot * unit.Inch, known: known, stop: true})
		}
	}
	return out
}

// measurePlayers tells how often the intervals of a player's card hold the share that he
// feels is right, and how many strokes it takes until more would not change his card.
func measurePlayers(ctx context.Context, _ *sites, _ int, r *report) error {
	for _, p := range pupils() {
		cells, gains, took, err := p.fit(ctx)
		if err != nil {
			return err
		}
		fmt.Fprintf(os.Stderr, "players, %s: cells %.1f %%, gain %.1f %%, strokes %g\n", p.name, 100*cells, 100*gains, took)
		if p.stop {
			r.atMost("strokes for a player's card, "+p.name, fmt.Sprintf("median %g; the intervals held the truth for %.0f %%", took, 100*cells), took, 10, "")
			continue
		}
		r.within("90 % intervals of felt shares, players "+p.name, cells, [2]float64{0.87, 0.93})
		r.within("90 % intervals of the front hand's gain, players "+p.name, gains, [2]float64{0.85, 0.95})
	}
	return nil
}

// fit fits players of a kind. It returns the share of the cards' cells whose interval
// holds the truth, the same for the gain, and the median number of strokes.
func (p *pupil) fit(ctx context.Context) (cells, gains, took float64, err error) {
	type result struct{ held, all, gain, strokes float64 }
	results := make([]result, fitPlayers)
	group, ctx := errgroup.WithContext(ctx)
	group.SetLimit(runtime.GOMAXPROCS(0))
	for i := range results {
		group.Go(func() error {
			c := newClassroom(p, rand.New(rand.NewPCG(uint64(i), 7)))
			f, err := c.play(ctx, p.stop)
			if err != nil {
				return err
			}
			out := result{strokes: float64(f.N())}
			if f.Gain().Holds(math.Exp(c.who.Front)) {
				out.gain = 1
			}
			for _, row := range f.Card(&c.sheet) {
				for _, cell := range row {
					if cell.Err != nil || cell.Hands != nil {
						continue
					}
					out.all++
					if cell.Share.Holds(c.feels(f, cell.Dist, cell.Speed)) {
						out.held++
					}
				}
			}
			results[i] = out
			return nil
		})
	}
	err = group.Wait()
	var sum result
	strokes := make([]float64, fitPlayers)
	for i, one := range results {
		sum.held, sum.all, sum.gain = sum.held+one.held, sum.all+one.all, sum.gain+one.gain
		strokes[i] = one.strokes
	}
	slices.Sort(strokes)
	return sum.held / sum.all, sum.gain / fitPlayers, strokes[fitPlayers/2], err
}

// A classroom is one player at a table.
type classroom struct {
	p      player.Player
	who    sitting.Tester
	on     shot.Shot
	known  *stat.Estimate[unit.Length]
	sheet  player.Sheet
	choice player.Choice
	rng    *rand.Rand
}

func newClassroom(p *pupil, rng *rand.Rand) *classroom {
	scene := scenario.Default()
	near, far := 24*unit.Inch, 48*unit.Inch
	c := &classroom{p: player.New("Ann"), who: sitting.Draw(rng), on: scene.Shot(), rng: rng}
	slow, medium, firm := c.p.Paces[0].Speed.Best(), c.p.Paces[1].Speed.Best(), c.p.Paces[2].Speed.Best()
	c.sheet = player.Sheet{Dists: []unit.Length{near, far}, Speeds: []unit.Speed{slow, medium, firm}, Side: scene.Side}
	c.choice = player.Choice{
		Kind: sitting.ByMark, Lines: []unit.Length{near, far}, Speeds: []unit.Speed{slow, firm},
		Shares: player.Shares, Side: scene.Side, Read: sitting.ByEye, Across: scene.GearTable().Width,
	}
	if p.gate {
		c.choice.Kind = sitting.ByGate
	}
	if p.habit {
		c.who.Front = player.GainSpread * rng.NormFloat64()
	}
	if p.pivot != 0 {
		c.who.Pivot, c.who.Scatter = p.pivot, 0.2*unit.Degree
	}
	if p.known {
		const spread = 0.05
		found := c.who.Pivot * unit.Length(math.Exp(spread/stat.Reach90*rng.NormFloat64()))
		c.known = &stat.Estimate[unit.Length]{Median: found, Interval: stat.Interval[unit.Length]{From: found * (1 - spread), To: found * (1 + spread)}}
	}
	return c
}

// play plays what is proposed.
func (c *classroom) play(ctx context.Context, stop bool) (*player.Fit, error) {
	f, err := player.Start(&c.p, &c.on, c.known, sitting.Habit)
	most := fitStrokes
	if stop {
		most = mostFitStrokes
	}
	for err == nil && f.N() < most {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		o := f.Outlook(&c.sheet, &c.choice)
		if n, ok := o.Enough(0); stop && ok && n == 0 && f.N() > 0 {
			break
		}
		next := o.Next()
		if len(next) == 0 {
			return nil, errors.New("no stroke is proposed")
		}
		var k sitting.Stroke
		if k, err = c.stroke(next[0].Of(f), next[0].Line); err == nil {
			f, err = f.Add(k)
		}
	}
	return f, err
}

// stroke plays a stroke, which is marked at a line or seen at the gate.
func (c *classroom) stroke(s shot.Shot, line unit.Length) (sitting.Stroke, error) {
	u := c.p.SetUp(sitting.Habit)
	if c.choice.Kind == sitting.ByGate {
		return c.who.AtGate(s, u, c.rng)
	}
	return c.who.AtLine(s, u, sitting.Mark{Line: line, Read: c.choice.Read, Across: c.choice.Across}, c.rng)
}

// feels returns the share that the player feels when his ball, without scatter and aim
// bias, arrives at a target: by halving, since more back hand sends a ball with right
// english further right.
func (c *classroom) feels(f *player.Fit, dist unit.Length, speed unit.Speed) float64 {
	who := c.who
	who.Aim = 0
	lo, hi := -3.0, 4.0
	for range 50 {
		mid := (lo + hi) / 2
		x, err := who.Play(f.Shot(dist, speed, c.sheet.Side, mid), c.p.SetUp(sitting.Habit), dist)
		if err != nil && mid < 0 || err == nil && x < 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

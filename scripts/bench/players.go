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

	"pivotbench/core/cues"
	"pivotbench/core/player"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/sitting"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// How many players are fitted of each kind: a share of nine in ten cells of their cards is
// then known to 1.1 %, one standard error, or to 1.9 % where less will do. And how many
// strokes each plays where the number is fixed, and when they give up where it is not.
const (
	fitPlayers, fewerPlayers   = 600, 200
	fitStrokes, mostFitStrokes = 8, 25
)

// A pupil is a kind of players.
type pupil struct {
	name  string
	habit bool        // whether felt shares differ from real ones
	pivot unit.Length // of the cue, with a scatter of 0.2°; 0: both drawn from the priors
	known bool        // whether the cue was measured before, to 5 %
	gate  bool        // whether their strokes are seen at the gate, not marked
	film  bool        // whether every third of their strokes is on film
	stop  bool        // whether they stop when more strokes would not change their card
	days  int         // on how many days they play, each with a set-up of its own; 0: on one
	flaw  func(*classroom)
}

func pupils() []pupil {
	out := []pupil{
		{name: "with a habit", habit: true}, {name: "without a habit"}, {name: "with a habit, at the gate", habit: true, gate: true},
		{name: "with a habit, some strokes on film", habit: true, film: true},
		{name: "with a habit, on two days", habit: true, days: 2}, {name: "with a habit, on four days", habit: true, days: 4},
	}
	for _, pivot := range []unit.Length{9.5, 13, 19} {
		for _, known := range []bool{false, true} {
			name := fmt.Sprintf("a cue of %g in", float64(pivot))
			if known {
				name += ", measured before"
			}
			out = append(out, pupil{name: name, habit: true, pivot: pivot * unit.Inch, known: known, stop: true})
		}
	}
	for _, flaw := range flaws() {
		out = append(out, pupil{name: "with a habit, " + flaw.name, habit: true, flaw: flaw.on})
	}
	return out
}

// A flaw breaks the model mildly.
type flaw struct {
	name string
	on   func(*classroom)
}

func flaws() []flaw {
	return []flaw{
		// Tukey's contaminated Normal distribution, as in coverage.go.
		{"heavy tails", func(c *classroom) { c.who.Tails = 0.1 }},
		{"one stroke noted on the wrong side", func(c *classroom) { c.mirrored = c.rng.IntN(fitStrokes) }},
		{"all with the butt 1.5° higher than they say", func(c *classroom) {
			c.who.Errors[sitting.ElevationError] += float64(1.5 * unit.Degree / c.p.SetUp(sitting.Habit).Elevation)
		}},
		// A tape that is laid an inch off for all strokes: common practice, no source.
		{"all lines 1 in further than they say", func(c *classroom) { c.further = 1 * unit.Inch }},
		{"a drift", func(c *classroom) {
			c.who.Drift = sitting.AimSpread * unit.Angle(c.rng.NormFloat64()) / (fitStrokes - 1)
		}},
	}
}

// measurePlayers tells how often the intervals of a player's card hold the share that he
// feels is right, and how many strokes it takes until more would not change his card.
func measurePlayers(ctx context.Context, _ *sites, _ int, r *report) error {
	for _, p := range pupils() {
		cells, gains, spreads, took, err := p.fit(ctx)
		if err != nil {
			return err
		}
		fmt.Fprintf(os.Stderr, "players, %s: cells %.1f %%, gain %.1f %%, spread %.1f %%, strokes %g\n", p.name, 100*cells, 100*gains, 100*spreads, took)
		if p.stop {
			r.atMost("strokes for a player's card, "+p.name, fmt.Sprintf("median %g; the intervals held the truth for %.0f %%", took, 100*cells), took, 10, "")
			continue
		}
		aim := [2]float64{0.87, 0.93}
		switch {
		case p.flaw != nil:
			aim = [2]float64{0.85, 0.95}
		case p.days > 0: // the cells come out wide, which is the safe side
			aim = [2]float64{0.87, 0.99}
		}
		r.within("90 % intervals of felt shares, players "+p.name, cells, aim)
		r.within("90 % intervals of the front hand's gain, players "+p.name, gains, [2]float64{0.85, 0.95})
		if p.days > 0 {
			r.within("90 % intervals of the spread, players "+p.name, spreads, [2]float64{0.85, 0.95})
		}
	}
	return nil
}

// fit fits players of a kind. It returns the share of the cards' cells whose interval
// holds the truth, the same for the gain and the spread, and the median number of strokes.
func (p *pupil) fit(ctx context.Context) (cells, gains, spreads, took float64, err error) {
	type result struct{ held, all, gain, spread, strokes float64 }
	results := make([]result, fitPlayers)
	if p.stop || p.flaw != nil || p.days > 0 {
		results = results[:fewerPlayers]
	}
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
			if f.Spread().Holds(float64(c.who.Scatter)) {
				out.spread = 1
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
	strokes := make([]float64, len(results))
	for i, one := range results {
		sum.held, sum.all, sum.gain, sum.spread = sum.held+one.held, sum.all+one.all, sum.gain+one.gain, sum.spread+one.spread
		strokes[i] = one.strokes
	}
	slices.Sort(strokes)
	n := float64(len(results))
	return sum.held / sum.all, sum.gain / n, sum.spread / n, strokes[len(results)/2], err
}

// A classroom is one player at a table.
type classroom struct {
	p      player.Player
	who    sitting.Tester
	days   []sitting.Tester // who he is on each day; who is then their mean
	on     shot.Shot
	known  *stat.Estimate[unit.Length]
	sheet  player.Sheet
	choice player.Choice
	film   bool
	rng    *rand.Rand

	mirrored int         // the stroke that is noted on the wrong side, counted from 0; −1: none
	further  unit.Length // how much further the lines are than is said
}

func newClassroom(p *pupil, rng *rand.Rand) *classroom {
	scene := scenario.Default()
	near, far := 24*unit.Inch, 48*unit.Inch
	c := &classroom{p: player.New("Ann"), who: sitting.Draw(rng), on: scene.Shot(), film: p.film, rng: rng, mirrored: -1}
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
	if p.flaw != nil {
		p.flaw(c)
	}
	if p.days > 0 {
		c.playOn(p.days)
	}
	return c
}

// playOn has the player play on some days. Half the variance of each set-up error is the same
// every day.
func (c *classroom) playOn(days int) {
	habit, day := c.who.Errors, c.who
	c.who.Errors = [len(habit)]float64{}
	for range days {
		for e := range habit {
			day.Errors[e] = math.Sqrt(cues.Habit)*habit[e] + math.Sqrt(1-cues.Habit)*c.rng.NormFloat64()
			c.who.Errors[e] += day.Errors[e] / float64(days)
		}
		c.days = append(c.days, day)
	}
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
		var k sitting.Stroke
		err = errors.New("no stroke is proposed")
		for _, next := range o.Next() {
			k, err = c.stroke(f.N(), next.Of(f), next.Line)
			if err != sitting.ErrNoCrossing { // else his ball stops short, and he plays another
				break
			}
		}
		if err == nil {
			f, err = f.Add(k)
		}
	}
	return f, err
}

// stroke plays stroke n, which is marked at a line, seen at the gate or filmed.
func (c *classroom) stroke(n int, s shot.Shot, line unit.Length) (k sitting.Stroke, err error) {
	u, who := c.p.SetUp(sitting.Habit), c.who.After(n)
	if c.days != nil {
		day := n * len(c.days) / fitStrokes
		who = c.days[day]
		defer func() { k.Sitting = day }()
	}
	switch {
	case c.choice.Kind == sitting.ByGate:
		return who.AtGate(s, u, c.rng)
	case c.film && n%3 == 2:
		return who.OnFilm(s, u, filmOf(s.Speed, c.choice.Across), c.rng)
	}
	k, err = who.AtLine(s, u, sitting.Mark{Line: line + c.further, Read: c.choice.Read, Across: c.choice.Across}, c.rng)
	if m, ok := k.Seen.(sitting.Mark); ok {
		m.Line = line
		if n == c.mirrored {
			m.At = -m.At
		}
		k.Seen = m
	}
	return k, err
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

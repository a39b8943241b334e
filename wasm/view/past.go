package view

import (
	"math"
	"slices"

	"pivotbench/core/cues"
	"pivotbench/core/scenario"
	"pivotbench/core/sitting"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
)

// A Past is what is kept of a sitting that is not shown: its results, without the
// posterior, which is large.
type Past struct {
	noted     []store.Stroke
	places    []int     // indices of noted among all strokes
	doubts    []float64 // probability that each was recorded wrongly; not a number if it was left out
	setUp     sitting.SetUp
	reference float64
	cues      []measured
}

// A measured is what one sitting says of one cue.
type measured struct {
	key     string // see store.CueKey
	strokes int
	ok      bool // whether it counts
	mass    cues.EndMass
	pivot   stat.Summary[float64]
	link    string // its newest stroke's shot
	how     string
	sitting string // the sitting's name
	first   string // when its first stroke was recorded
	last    string // when its newest one was
}

// narrow is the ratio of the ends of a 90 % interval below which a sitting has measured a
// cue by itself: then all that is possible is at least twice as wide, and the answer is
// that of its strokes. Several wider ones, put together, would seem to know more than
// they do, since all of them lean on what is possible.
const narrow = 4

// measured returns what the sitting says of a cue that has strokes.
func (t *Sitting) measured(cue int) measured {
	out := measured{
		key: store.CueKey(t.Cues[cue]), strokes: t.Post.Strokes(cue), ok: t.Post.Leans(cue) == sitting.NoEdge,
		pivot: t.Post.Pivot(cue), how: "marks", sitting: t.Name(),
	}
	out.mass, _ = t.Post.Known(cue) // the cue has strokes
	for i := range out.mass.Shared {
		out.mass.Shared[i].Sitting = out.sitting
	}
	for i := range t.Noted {
		k := &t.Noted[i]
		if store.CueKey(k.Cue) != out.key {
			continue
		}
		out.link, out.last = k.Link, k.When
		if out.first == "" {
			out.first = k.When
		}
		if k.See != "" {
			out.how = "gate"
		}
	}
	return out
}

// past returns what is kept of the sitting. It is slow, and returns nil when on returns
// false.
func (t *Sitting) past(on func() bool) *Past {
	out := &Past{noted: t.Noted, setUp: t.setUp, reference: t.reference, doubts: make([]float64, len(t.Noted))}
	for i := range out.doubts {
		out.doubts[i] = math.NaN()
	}
	for i, at := range t.Taken {
		if !on() {
			return nil
		}
		out.doubts[at] = t.Post.Doubt(i)
	}
	for cue := range t.Cues {
		if t.Post.Strokes(cue) > 0 {
			out.cues = append(out.cues, t.measured(cue))
		}
	}
	return out
}

// is reports whether it is of these strokes.
func (p *Past) is(strokes []store.Stroke, u sitting.SetUp, reference float64) bool {
	return p.setUp == u && p.reference == reference && slices.Equal(p.noted, strokes)
}

// of returns what all sittings say of a cue, the oldest first. own tells whether the
// sitting that is shown is among them. Where there are several, those that say too little
// by themselves do not count.
func (t *Sitting) of(name string, own bool) (out []measured) {
	key := store.CueKey(name)
	for _, p := range t.Past {
		for _, m := range p.cues {
			if m.key == key {
				out = append(out, m)
			}
		}
	}
	if cue := t.Cue(name); own && t.Post.Strokes(cue) > 0 {
		out = append(out, t.measured(cue))
	}
	if len(out) > 1 || !own {
		for i := range out {
			out[i].ok = out[i].ok && out[i].pivot.To < narrow*out[i].pivot.From
		}
	}
	return out
}

// A Together is what all sittings say together of a cue.
type Together struct {
	Strokes, Sittings int // that it has, whether they count or not
	Used              int // sittings that count: those in which it was measured, since it changed
	Mass              cues.EndMass
	Pivot             stat.Summary[float64] // at the reference offset, in metres
	Since             string                // when the first stroke after a change was recorded; empty without a change
}

// together combines measurements of a cue. The error that sittings share does not shrink
// with their number. A sitting that says too little by itself does not count. reference is
// the offset of the pivot length.
func together(all []measured, reference float64) (out Together) {
	var good []measured
	var masses []cues.EndMass
	for _, m := range all {
		out.Strokes += m.strokes
		out.Sittings++
		if m.ok {
			good, masses = append(good, m), append(masses, m.mass)
		}
	}
	known, err := cues.Combine(masses)
	if err != nil {
		return out // none is measured
	}
	good = good[known.Since:]
	out.Used, out.Mass = len(good), known.EndMass
	if known.Since > 0 {
		out.Since = good[0].first
	}
	if len(good) == 1 {
		out.Pivot = good[0].pivot
		return out
	}
	scene, _ := scenario.Parse(good[len(good)-1].link)
	ball, tip := scene.GearBall(), gearCue(&scene).Tip
	metres := func(e cues.EndMass) stat.Estimate[float64] {
		return stat.Transform(e.Pivot(ball, tip, reference), func(v unit.Length) float64 { return float64(v) })
	}
	half := out.Mass
	half.Spread *= stat.Reach(0.5) / stat.Reach90
	out.Pivot = stat.Summary[float64]{Estimate: metres(out.Mass), Half: metres(half).Interval}
	return out
}

// Density returns how likely each pivot length of a cue is, as a share of the most likely
// one, and what it comes to; nil for a cue without strokes. The answer of several sittings
// is log-normal.
func (t *Sitting) Density(name string) (lengths, likely []float64, pivot *stat.Summary[float64]) {
	cue, known := t.Cue(name), t.of(name, true)
	lengths, likely = t.Post.Density(cue)
	all := together(known, t.reference)
	switch {
	case t.Post.Strokes(cue) > 0 && (len(known) == 1 || all.Used == 0):
		own := t.Post.Pivot(cue)
		return lengths, likely, &own
	case all.Used == 0:
		return lengths, likely, nil
	}
	spread := math.Log(all.Pivot.To/all.Pivot.From) / 2 / stat.Reach90
	for i, l := range lengths {
		likely[i] = stat.NormalDensity(math.Log(l/all.Pivot.Median)/spread) / stat.NormalDensity(0)
	}
	return lengths, likely, &all.Pivot
}

// next returns the posterior from which the next stroke of a cue is chosen: that of the
// sitting that goes on, with what other sittings say of the cue.
func (t *Sitting) next(m *app.Model, cue int) *sitting.Posterior {
	p, earlier := t.Post, t.of(m.Measuring, false)
	if t.fresh != nil {
		p, earlier = t.fresh, t.of(m.Measuring, true)
	}
	known := together(earlier, t.reference)
	if known.Used == 0 {
		return p
	}
	sh := m.Scene.Shot()
	return p.WithCue(cue, &sh, known.Mass.Pivot(sh.Ball, sh.Cue.Tip, sh.Cue.PivotSpin))
}

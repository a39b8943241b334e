package view

import (
	"math"
	"slices"

	"pivotbench/core/sitting"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
)

// A Log follows the recorded strokes, sitting by sitting. It works in steps, and keeps
// what is still right when strokes change. The zero value has no strokes.
type Log struct {
	Mistaken []store.Stroke // those recorded last whose marks fit far better on the other side

	swapped    []store.Stroke // those that fit far better with left and right exchanged, all told
	left       []store.Stroke // those that the user has left as they are
	shown      *Sitting
	past       []*Past
	fresh      *sitting.Posterior // that of a sitting without strokes
	freshSetUp sitting.SetUp
}

// Follow brings the log up to date, and returns the sitting that is shown. It calls on
// before every step, and gives up when on returns false: ok is then false.
func (l *Log) Follow(m *app.Model, on func() bool) (t *Sitting, ok bool) {
	all := m.Sittings()
	shown, reference := app.Shown(all), m.Scene.PivotSpin
	var past []*Past
	for i, s := range all {
		if i == shown || s.Strokes == nil {
			continue
		}
		p := l.pastOf(pick(m.Kept.Strokes, s.Strokes), s.SetUp, reference, on)
		if p == nil {
			return nil, false
		}
		with := *p
		with.places = s.Strokes
		past = append(past, &with)
	}
	s := all[shown]
	strokes := pick(m.Kept.Strokes, s.Strokes)
	if l.shown == nil || !l.shown.Begins(strokes, s.SetUp, reference) {
		l.shown = NewSitting(s.SetUp, reference)
	}
	if len(l.shown.Noted) == 0 {
		l.Mistaken = nil
	}
	for _, k := range strokes[len(l.shown.Noted):] {
		latest := k.When == strokes[len(strokes)-1].When // recorded together with the last one
		mistaken := latest && l.shown.Mistaken(k)
		next, ok := l.shown.AddWhile(k, on)
		if !ok {
			return nil, false
		}
		l.shown = next
		l.Mistaken = slices.DeleteFunc(l.Mistaken, func(other store.Stroke) bool { return other.When != k.When })
		if mistaken {
			l.Mistaken = append(l.Mistaken, k)
		}
	}
	l.past = past
	out := *l.shown
	out.Past, out.Places = past, s.Strokes
	if !s.On {
		on := all[slices.IndexFunc(all, func(t app.Sitting) bool { return t.On })]
		if l.fresh == nil || l.freshSetUp != on.SetUp {
			l.fresh, l.freshSetUp = sitting.Prior(on.SetUp), on.SetUp
		}
		out.fresh, out.setUp = l.fresh, on.SetUp
	}
	return &out, true
}

// Suspect takes over which strokes fit far better with left and right exchanged, as Fit
// finds.
func (l *Log) Suspect(swapped []store.Stroke) { l.swapped = swapped }

// Asked returns the strokes of a model that the user is to be asked about: whether they
// were on the other side.
func (l *Log) Asked(m *app.Model) (out []store.Stroke) {
	out = slices.Clone(l.swapped)
	for _, k := range l.Mistaken {
		if !slices.Contains(l.swapped, k) {
			out = append(out, k)
		}
	}
	return slices.DeleteFunc(out, func(k store.Stroke) bool {
		return !slices.Contains(m.Kept.Strokes, k) || slices.Contains(l.left, k)
	})
}

// Leave takes over that the user leaves those strokes as they are. They are not asked about
// again.
func (l *Log) Leave(m *app.Model) { l.left = append(l.left, l.Asked(m)...) }

// pastOf returns what is kept of a sitting, from before if it is known.
func (l *Log) pastOf(strokes []store.Stroke, u sitting.SetUp, reference float64, on func() bool) *Past {
	if i := slices.IndexFunc(l.past, func(p *Past) bool { return p.is(strokes, u, reference) }); i >= 0 {
		return l.past[i]
	}
	t := NewSitting(u, reference)
	if l.shown != nil && l.shown.Begins(strokes, u, reference) {
		t = l.shown
	}
	for _, k := range strokes[len(t.Noted):] {
		next, ok := t.AddWhile(k, on)
		if !ok {
			return nil
		}
		t = next
	}
	p := t.past(on)
	if p != nil {
		l.past = append(l.past, p) // kept even if Follow gives up later
	}
	return p
}

// pick returns the strokes with the given indices.
func pick(strokes []store.Stroke, at []int) []store.Stroke {
	out := make([]store.Stroke, len(at))
	for i, n := range at {
		out[i] = strokes[n]
	}
	return out
}

// PastDoubts says which strokes of other sittings count for little or nothing, and calls
// each with the index of every stroke of theirs and what it says.
func (t *Sitting) PastDoubts(each func(stroke int, words string)) {
	for _, p := range t.Past {
		for i, d := range p.doubts {
			each(p.places[i], Doubt(p.places[i], !math.IsNaN(d), d))
		}
	}
}

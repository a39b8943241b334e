package view

import (
	"slices"

	"pivotbench/core/sitting"
	"pivotbench/wasm/store"
)

// A Sitting is the combined result of the recorded strokes. It is immutable; Add
// returns a new one.
type Sitting struct {
	Cues  []string           // the names of its cues; a cue's number is its index
	Noted []store.Stroke     // the strokes added so far
	Taken []int              // indices in Noted of the strokes in Post, in its order
	Post  *sitting.Posterior // the posterior after the strokes in Taken
	Last  *sitting.Posterior // the posterior before the last of them; nil when there are none

	setUp     sitting.SetUp
	reference float64
}

// NewSitting returns a sitting without strokes. reference is the contact offset, in
// ball radii, that its pivot lengths refer to.
func NewSitting(u sitting.SetUp, reference float64) *Sitting {
	return &Sitting{Post: sitting.Prior(u), setUp: u, reference: reference}
}

// Begins reports whether a list of strokes begins with those of the sitting and the
// set-up and reference are the same. The sitting can then be extended with the rest.
func (t *Sitting) Begins(log []store.Stroke, u sitting.SetUp, reference float64) bool {
	return t.setUp == u && t.reference == reference && len(t.Noted) <= len(log) && slices.Equal(t.Noted, log[:len(t.Noted)])
}

// Add returns the sitting with another stroke. An impossible stroke, for example
// from an imported file, is added to Noted but not to Post.
func (t *Sitting) Add(k store.Stroke) *Sitting {
	next, _ := t.AddWhile(k, func() bool { return true })
	return next
}

// AddWhile is Add in steps: see sitting.Posterior.AddWhile. ok is false when on
// returned false, and the sitting is then as it was.
func (t *Sitting) AddWhile(k store.Stroke, on func() bool) (_ *Sitting, ok bool) {
	next := *t
	next.Noted = append(slices.Clip(t.Noted), k)
	cue := t.Cue(k.Cue)
	if cue == len(t.Cues) {
		next.Cues = append(slices.Clip(t.Cues), k.Cue)
	}
	stroke, err := k.Stroke(cue, t.reference)
	if err != nil {
		return &next, true
	}
	post, err := t.Post.AddWhile(stroke, on)
	if err == sitting.ErrStopped {
		return t, false
	}
	if err == nil {
		next.Last, next.Post = t.Post, post
		next.Taken = append(slices.Clip(t.Taken), len(t.Noted))
	}
	return &next, true
}

// Cue returns the number of the cue with a name. For a cue without strokes it
// returns the number that the cue would get.
func (t *Sitting) Cue(name string) int {
	same := func(other string) bool { return store.CueKey(other) == store.CueKey(name) }
	if i := slices.IndexFunc(t.Cues, same); i >= 0 {
		return i
	}
	return len(t.Cues)
}

// Name returns the name of the sitting in records: when its first stroke was recorded.
// It is empty when that is not known.
func (t *Sitting) Name() string {
	if len(t.Noted) == 0 {
		return ""
	}
	return t.Noted[0].When
}

// OtherSide reports whether the last stroke is a mark that contradicts the others
// but would fit on the other side of the aim line. flipped is the stroke with the
// mark on that side.
func (t *Sitting) OtherSide() (flipped store.Stroke, ok bool) {
	last := len(t.Noted) - 1
	const few = 3 // fewer strokes than this can't contradict each other
	if len(t.Taken) < few || t.Taken[len(t.Taken)-1] != last || t.Noted[last].Mark == "" {
		return store.Stroke{}, false
	}
	flipped = t.Noted[last]
	flipped.Mark = otherSign(flipped.Mark)
	stroke, err := flipped.Stroke(t.Cue(flipped.Cue), t.reference)
	if err != nil {
		return store.Stroke{}, false
	}
	other, err := t.Last.Add(stroke)
	if err != nil {
		return store.Stroke{}, false
	}
	n := len(t.Taken) - 1
	return flipped, t.Post.Doubt(n) > 0.5 && other.Doubt(n) < 0.2
}

// otherSign returns a length's text with its sign reversed.
func otherSign(text string) string {
	if text[0] == '-' {
		return text[1:]
	}
	return "-" + text
}

package view

import (
	"slices"

	"pivotbench/core/sitting"
	"pivotbench/wasm/store"
)

// A Sitting is what the strokes that are noted say together. It never changes; Add
// makes another.
type Sitting struct {
	Cues  []string           // the names of its cues; a cue's number is its place
	Noted []store.Stroke     // as far as they are weighed
	Taken []int              // of Noted, those that Post has, in its order
	Post  *sitting.Posterior // after them
	Last  *sitting.Posterior // before the last of them; nil: there is none

	setUp     sitting.SetUp
	reference float64
}

// NewSitting returns a sitting without strokes, whose pivot lengths are told at a
// contact offset in ball radii.
func NewSitting(u sitting.SetUp, reference float64) *Sitting {
	return &Sitting{Post: sitting.Prior(u), setUp: u, reference: reference}
}

// Begins reports whether a list of strokes begins with those of the sitting, so
// that it can go on from there.
func (t *Sitting) Begins(log []store.Stroke, u sitting.SetUp, reference float64) bool {
	return t.setUp == u && t.reference == reference && len(t.Noted) <= len(log) && slices.Equal(t.Noted, log[:len(t.Noted)])
}

// Add returns the sitting with another stroke. One that can't have been, as an
// imported file may have, is noted and left out.
func (t *Sitting) Add(k store.Stroke) *Sitting {
	next := *t
	next.Noted = append(slices.Clip(t.Noted), k)
	cue := t.Cue(k.Cue)
	if cue == len(t.Cues) {
		next.Cues = append(slices.Clip(t.Cues), k.Cue)
	}
	stroke, err := k.Stroke(cue, t.reference)
	if err != nil {
		return &next
	}
	post, err := t.Post.Add(stroke)
	if err != nil {
		return &next
	}
	next.Last, next.Post = t.Post, post
	next.Taken = append(slices.Clip(t.Taken), len(t.Noted))
	return &next
}

// Cue returns the number of the cue of a name; of one that has no stroke yet, the
// number that it would have.
func (t *Sitting) Cue(name string) int {
	same := func(other string) bool { return store.CueKey(other) == store.CueKey(name) }
	if i := slices.IndexFunc(t.Cues, same); i >= 0 {
		return i
	}
	return len(t.Cues)
}

// OtherSide reports whether the last stroke, a mark, contradicts the others, and
// would not if it lay on the other side of the aim line; flipped is that mark.
func (t *Sitting) OtherSide() (flipped store.Stroke, ok bool) {
	last := len(t.Noted) - 1
	const few = 3 // strokes that others can contradict
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

// otherSign returns a length's text with the other sign.
func otherSign(text string) string {
	if text[0] == '-' {
		return text[1:]
	}
	return "-" + text
}

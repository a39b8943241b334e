package view

import (
	"math"
	"slices"

	"pivotbench/core/sitting"
	"pivotbench/wasm/store"
)

// A Sitting is the combined result of the strokes of one sitting, and of what other
// sittings say of the same cues. It is immutable; Add returns a new one.
type Sitting struct {
	Cues   []string           // the names of its cues; a cue's number is its index
	Noted  []store.Stroke     // the strokes added so far
	Places []int              // indices of Noted among all recorded strokes; nil: the same
	Taken  []int              // indices in Noted of the strokes in Post, in its order
	Post   *sitting.Posterior // the posterior after the strokes in Taken
	Grown  []Grown            // comparisons of its cues, as they grew
	Past   []*Past            // the other sittings, the oldest first

	fresh     *sitting.Posterior // that of the next sitting, if the next stroke begins one
	setUp     sitting.SetUp      // of the next stroke
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
		next.Post = post
		next.Taken = append(slices.Clip(t.Taken), len(t.Noted))
		next.grow(cue)
	}
	return &next, true
}

// Place returns the index of one of Noted among all recorded strokes.
func (t *Sitting) Place(noted int) int {
	if t.Places == nil {
		return noted
	}
	return t.Places[noted]
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

// A Grown is how the answer to which of two cues squirts less has grown.
type Grown struct {
	A, B int       // numbers of the cues; A is less than B
	Less []float64 // probability that A squirts less, after each stroke of either since both had one
}

// grow adds to the answers that the newest stroke, of a cue, bears on.
func (t *Sitting) grow(cue int) {
	t.Grown = slices.Clone(t.Grown)
	for other := range t.Cues {
		if other == cue || t.Post.Strokes(other) == 0 {
			continue
		}
		a, b := min(cue, other), max(cue, other)
		i := slices.IndexFunc(t.Grown, func(g Grown) bool { return g.A == a && g.B == b })
		if i < 0 {
			i = len(t.Grown)
			t.Grown = append(t.Grown, Grown{A: a, B: b})
		}
		g := &t.Grown[i]
		g.Less = append(slices.Clip(g.Less), t.Post.Compare(a, b).Less)
	}
}

// farBetter is how many times more probable a mark must be on the other side of the aim
// line for the user to be asked about it.
const farBetter = 30

// Mistaken reports whether a marked stroke, if it were added, would fit far better with
// its mark on the other side of the aim line.
func (t *Sitting) Mistaken(k store.Stroke) bool {
	if k.Mark == "" || k.Film != (store.Film{}) { // a film does not confuse the sides
		return false
	}
	here, there := t.Add(k), t.Add(k.Across())
	return len(here.Taken) > len(t.Taken) && len(there.Taken) > len(t.Taken) &&
		there.Post.Evidence()-here.Post.Evidence() > math.Log(farBetter)
}

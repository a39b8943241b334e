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
	next, _ := t.AddWhile([]store.Stroke{k}, always)
	return next
}

// always never stops a computation that works in steps.
func always() bool { return true }

// AddWhile is Add for several strokes, in steps: see sitting.Posterior.AddAllWhile. When
// on returns false it stops: ok is then false, and the sitting has the strokes that were
// added so far.
func (t *Sitting) AddWhile(strokes []store.Stroke, on func() bool) (_ *Sitting, ok bool) {
	for len(strokes) > 0 {
		round := min(t.Post.Round(), len(strokes))
		next, ok := t.with(strokes[:round], on)
		if !ok {
			return t, false
		}
		next.grow(t)
		t, strokes = next, strokes[round:]
	}
	return t, true
}

// with is AddWhile without how the answers grow, all or none of the strokes.
func (t *Sitting) with(strokes []store.Stroke, on func() bool) (_ *Sitting, ok bool) {
	next := *t
	next.Noted, next.Cues, next.Taken = slices.Clip(t.Noted), slices.Clip(t.Cues), slices.Clip(t.Taken)
	var possible []sitting.Stroke
	var places []int // of the possible ones in Noted
	for _, k := range strokes {
		cue := next.Cue(k.Cue)
		if cue == len(next.Cues) {
			next.Cues = append(next.Cues, k.Cue)
		}
		if stroke, err := k.Stroke(cue, t.reference); err == nil {
			possible, places = append(possible, stroke), append(places, len(next.Noted))
		}
		next.Noted = append(next.Noted, k)
	}
	post, errs, ok := t.Post.AddAllWhile(possible, on)
	if !ok {
		return t, false
	}
	next.Post = post
	for i, place := range places {
		if errs == nil || errs[i] == nil {
			next.Taken = append(next.Taken, place)
		}
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
	A, B    int       // numbers of the cues; A is less than B
	Strokes []int     // numbers of strokes of either since both had one, growing
	Less    []float64 // probability that A squirts less, after so many
}

// grow adds to the answers that the strokes since an earlier moment bear on.
func (t *Sitting) grow(since *Sitting) {
	t.Grown = slices.Clone(t.Grown)
	for b := range t.Cues {
		for a := range b {
			has := map[int]bool{a: since.Post.Strokes(a) > 0, b: since.Post.Strokes(b) > 0}
			strokes := 0
			for _, at := range t.Taken[len(since.Taken):] {
				if cue := t.Cue(t.Noted[at].Cue); cue == a || cue == b {
					if has[cue] = true; has[a] && has[b] {
						strokes++
					}
				}
			}
			if strokes > 0 {
				t.growPair(a, b, strokes)
			}
		}
	}
}

// growPair adds to the answer for two cues after so many more strokes of either.
func (t *Sitting) growPair(a, b, strokes int) {
	i := slices.IndexFunc(t.Grown, func(g Grown) bool { return g.A == a && g.B == b })
	if i < 0 {
		i = len(t.Grown)
		t.Grown = append(t.Grown, Grown{A: a, B: b})
	}
	g := &t.Grown[i]
	if n := len(g.Strokes); n > 0 {
		strokes += g.Strokes[n-1]
	}
	g.Strokes = append(slices.Clip(g.Strokes), strokes)
	g.Less = append(slices.Clip(g.Less), t.Post.Compare(a, b).Less)
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
	here, _ := t.with([]store.Stroke{k}, always)
	there, _ := t.with([]store.Stroke{k.Across()}, always)
	return len(here.Taken) > len(t.Taken) && len(there.Taken) > len(t.Taken) &&
		there.Post.Evidence()-here.Post.Evidence() > math.Log(farBetter)
}

package view

import (
	"slices"
	"strconv"

	"pivotbench/core/cues"
	"pivotbench/core/stat"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/store"
)

// A SittingCue is a cue that strokes are noted for, with the number of its strokes.
type SittingCue struct {
	Name         string
	Words, Label string // on its button, and for screen readers
	On           bool   // whether it is the one that is measured
}

// SittingCues returns the cues of the sitting, in the order of their first stroke, and the
// measured cue.
func SittingCues(m *app.Model) []SittingCue {
	var cues []SittingCue
	count := map[string]int{}
	add := func(name string) {
		if !slices.ContainsFunc(cues, func(t SittingCue) bool { return store.CueKey(t.Name) == store.CueKey(name) }) {
			cues = append(cues, SittingCue{Name: name})
		}
	}
	for i := range m.Kept.Strokes {
		add(m.Kept.Strokes[i].Cue)
		count[store.CueKey(m.Kept.Strokes[i].Cue)]++
	}
	add(m.Measuring)
	for i := range cues {
		t := &cues[i]
		n := count[store.CueKey(t.Name)]
		t.On = store.CueKey(t.Name) == store.CueKey(m.Measuring)
		t.Words = unnamed(t.Name) + " (" + strconv.Itoa(n) + ")"
		t.Label = "Measure " + unnamed(t.Name) + ", " + phrase.Count(n, "stroke", "strokes")
	}
	return cues
}

// unnamed returns a cue's name, or what to call one without.
func unnamed(name string) string {
	if name == "" {
		return "unnamed"
	}
	return name
}

// RenamedWords says what renaming the measured cue did, from the models before and after
// it.
func RenamedWords(before, after *app.Model) string {
	to := store.CueKey(after.Measuring)
	had := slices.ContainsFunc(before.Kept.Strokes, func(k store.Stroke) bool { return store.CueKey(k.Cue) == to })
	if had && to != store.CueKey(before.Measuring) {
		return unnamed(before.Measuring) + " now counts as " + unnamed(after.Measuring) + ". Undo takes them apart"
	}
	return "renamed to " + unnamed(after.Measuring)
}

// A SureCurve is the probability, after some numbers of strokes, that the measured cue
// squirts less than another.
type SureCurve struct {
	Cue     int // number of the other cue
	Name    string
	Strokes []int // of either cue
	Less    []float64
}

// Surer returns how sure it has become, against every other cue of the sitting, that a
// cue squirts less.
func Surer(t *Sitting, cue int) (curves []SureCurve) {
	for _, g := range t.Grown {
		other, less := g.B, g.Less
		switch cue {
		case g.A:
		case g.B:
			other, less = g.A, make([]float64, len(g.Less))
			for i, v := range g.Less {
				less[i] = 1 - v
			}
		default:
			continue
		}
		curves = append(curves, SureCurve{other, unnamed(t.Cues[other]), g.Strokes, less})
	}
	return curves
}

// SurerWords describes the curves of Surer.
func SurerWords(t *Sitting, cue int) string {
	words := "How sure it has become that this cue squirts less"
	for _, c := range Surer(t, cue) {
		words += ", than " + c.Name + ": "
		for i, less := range c.Less {
			if i > 0 {
				words += ", "
			}
			words += surely(less)
		}
	}
	return words
}

// surely returns a probability in whole per cents, never certain.
func surely(chance float64) string { return phrase.Percent(max(min(chance, 0.99), 0.01)) }

// compared returns the comparisons of a cue with the others of its sitting. What both
// share in a sitting cancels.
func compared(t *Sitting, cue int) (out []Fact) {
	if cue == len(t.Cues) {
		return nil // it is not of this sitting
	}
	for other, name := range t.Cues {
		if other == cue || t.Post.Strokes(other) == 0 || t.Post.Strokes(cue) == 0 {
			continue
		}
		this, that := unnamed(t.Cues[cue]), unnamed(name)
		chance, ratio := t.less(cue, other)
		less := this
		if chance < 0.5 {
			less, chance = that, 1-chance
			ratio.Median, ratio.From, ratio.To = 1/ratio.Median, 1/ratio.To, 1/ratio.From
		}
		out = append(out, Fact{this + " or " + that, less + " squirts less: " + surely(chance) + " sure. Its end mass is " +
			phrase.Percent(1-ratio.Median) + " lower (90 %: " + phrase.Percent(1-ratio.To) + " to " + phrase.Percent(1-ratio.From) + ")."})
	}
	return out
}

// less returns the probability that one cue of the sitting squirts less than another, and
// the ratio of their end masses: from their joint distribution, or from all sittings where
// there are others with either.
func (t *Sitting) less(a, b int) (chance float64, ratio stat.Estimate[float64]) {
	one, two := t.of(t.Cues[a], true), t.of(t.Cues[b], true)
	all, both := together(one, t.reference), together(two, t.reference)
	if len(one)+len(two) == 2 || all.Used == 0 || both.Used == 0 {
		d := t.Post.Compare(a, b)
		return d.Less, d.Ratio.Estimate
	}
	return cues.Less(all.Mass, both.Mass), cues.Ratio(all.Mass, both.Mass)
}

package view

import (
	"strconv"
	"strings"

	"pivotbench/core/sitting"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/store"
)

// Fit describes the misfit of a sitting's strokes, and returns those that fit far better
// with left and right exchanged. words is empty when all of them fit. It is slow, and
// stops early when on returns false: see sitting.Posterior.FitWhile.
func Fit(t *Sitting, on func() bool) (words string, swapped []store.Stroke) {
	what, which := t.Post.FitWhile(on)
	for i, n := range which {
		noted := t.Taken[n]
		which[i] = t.Place(noted)
		if what == sitting.SomeSwapped {
			swapped = append(swapped, t.Noted[noted])
		}
	}
	return misfitWords(what, which), swapped
}

// misfitWords describes a misfit. which has the indices of its strokes in the list. It is
// empty when the strokes fit.
func misfitWords(what sitting.Misfit, which []int) string {
	named := strokesNamed(which)
	switch what {
	case sitting.Swapped:
		return "Left and right look swapped: the strokes fit far better the other way round."
	case sitting.SomeSwapped:
		return named + agree(which, " fits", " fit") + " far better with left and right exchanged. Check the side you noted, and the english."
	case sitting.TwoPlaces:
		return named + agree(which, " lands", " land") + " elsewhere than others of the same shot with the same cue. Check the cue, the bridge and the english."
	case sitting.OneOff:
		return named + agree(which, " does", " do") + " not fit the others and hardly" + agree(which, " counts", " count") + ". Correct what you noted wrongly."
	case sitting.Drifts:
		return "The strokes move to one side as they go on: check your aim line, or start over."
	}
	return ""
}

// agree returns the form of a verb that suits the number of strokes.
func agree(strokes []int, one, many string) string {
	if len(strokes) == 1 {
		return one
	}
	return many
}

// mostNamed is the number of strokes that a sentence names.
const mostNamed = 6

// strokesNamed names strokes of the list, counted from 0, such as "Strokes 2 and 5".
func strokesNamed(which []int) string {
	var numbers []string
	for i, n := range which {
		if i == mostNamed && len(which) > mostNamed+1 {
			numbers = append(numbers, strconv.Itoa(len(which)-mostNamed)+" more")
			break
		}
		numbers = append(numbers, strconv.Itoa(n+1))
	}
	switch last := len(numbers) - 1; last {
	case -1:
		return ""
	case 0:
		return "Stroke " + numbers[0]
	default:
		return "Strokes " + strings.Join(numbers[:last], ", ") + " and " + numbers[last]
	}
}

// Doubt says why a stroke of the list, counted from 0, counts for little or nothing.
// It is empty for a good stroke. taken is false for an impossible stroke, and wrong
// is the probability that the stroke was recorded wrongly.
func Doubt(stroke int, taken bool, wrong float64) string {
	name := "Stroke " + strconv.Itoa(stroke+1)
	switch {
	case !taken:
		return name + " is left out: no ball of that speed reaches that line."
	case wrong > 0.5:
		return name + " contradicts the others: it was probably noted wrongly (" + phrase.Percent(wrong) + "). It hardly counts until you correct it."
	}
	return ""
}

package store

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"pivotbench/core/player"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// A figure's text is empty for a habit of the trade, "10in" for a number that was typed,
// or "10in; 9.8in; 10.2in" for one that was measured, with its 90 % interval.

// figureFrom reads a figure. usual is what stands in for an empty text, and typed the
// standard deviation of a number without an interval. The error says what is wrong.
func figureFrom[T ~float64](text string, kind unit.Kind, usual player.Figure[T], typed T) (player.Figure[T], error) {
	if text == "" {
		return usual, nil
	}
	words := strings.Split(text, ";")
	var at [3]T
	for i, word := range words[:min(len(words), len(at))] {
		v, err := unit.Parse(strings.TrimSpace(word), kind, "")
		if err != nil {
			return usual, err
		}
		at[i] = T(v)
	}
	switch {
	case len(words) == 1:
		return player.Measured[T]{Estimate: stat.NormalEstimate(at[0], typed)}, nil
	case len(words) != len(at):
		return usual, errors.New("“" + clip(text) + "”: give one value, or the value and both ends of its 90 % interval, as in 10in; 9.8in; 10.2in")
	case !(at[1] < at[0] && at[0] < at[2]):
		return usual, errors.New("“" + clip(text) + "”: the interval must hold the value, and be wider than nothing")
	}
	return player.Measured[T]{Estimate: stat.Estimate[T]{Median: at[0], Interval: stat.Interval[T]{From: at[1], To: at[2]}}}, nil
}

// learnedText writes a figure that strokes have told, to four decimals of a unit with a
// name: finer than anybody needs, and short enough for a QR code. It is empty for a habit
// of the trade.
func learnedText[T ~float64](f player.Figure[T], unit T, name string) string {
	m, ok := f.(player.Measured[T])
	if !ok {
		return ""
	}
	text := func(v T) string {
		return strconv.FormatFloat(math.Round(1e4*float64(v/unit))/1e4+0, 'f', -1, 64) + name // + 0: not −0
	}
	return text(m.Median) + "; " + text(m.From) + "; " + text(m.To)
}

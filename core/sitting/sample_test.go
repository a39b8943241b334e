package sitting

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A sample is in order, comes from all over the sitting, and has about as many strokes of
// one side as of the other when the sides take turns, by one or by two.
func TestSample(t *testing.T) {
	short := Posterior{strokes: make([]weighed, 7)}
	assert.Equal(t, []int{0, 1, 2, 3, 4, 5, 6}, short.sample(100))
	for _, strokes := range []int{100, 101, 150, 200, 400, 1000, 5000} {
		long := Posterior{strokes: make([]weighed, strokes)}
		among := long.sample(100)
		assert.Len(t, among, 100)
		assert.Equal(t, among, slices.Compact(slices.Sorted(slices.Values(among))), strokes)
		assert.Less(t, among[0], strokes/50)
		assert.GreaterOrEqual(t, among[99], strokes-strokes/50-1)
		for _, turn := range []int{1, 2} {
			right := 0
			for _, i := range among {
				right += i / turn % 2
			}
			assert.InDelta(t, 50, right, 15, "%d strokes, turns of %d", strokes, turn)
		}
	}
}

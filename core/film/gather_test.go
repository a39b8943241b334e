package film

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/unit"
)

// looks returns what a reader sees of a ball that rolls for so many frames at 240 a second, and
// then nothing.
func looks(frames, rolls int) *Reader {
	k := &Stroke{stand: &Stand{radius: 0.028575}}
	for i := range frames {
		l := look{at: unit.Span(i) / 240}
		if i < rolls {
			crop := &window{Picture: Picture{Luma: make([]byte, 100)}}
			l.seen = []sighting{{blob: blob{Point: Point{X: float64(i)}}, place: Place{Y: unit.Length(0.3 * (l.at + 0.01))}, crop: crop}}
		}
		k.looked = append(k.looked, l)
	}
	return &Reader{stand: k.stand, stroke: k, last: unit.Span(frames) / 240}
}

// What is kept of a long film stays within bounds, and nothing is lost by it.
func TestMemoryIsBounded(t *testing.T) {
	t.Parallel()
	// A ball that still rolls has half of its frames left, from the first to the last.
	r := looks(mostLooks, mostLooks)
	r.spare(r.last)
	require.Len(t, r.stroke.looked, mostLooks/2)
	assert.Zero(t, r.stroke.looked[0].at)
	assert.Greater(t, r.stroke.looked[mostLooks/2-1].at, r.last-0.01)
	assert.Equal(t, 100*mostLooks/2, r.kept)

	// Of what came before any ball is seen the newer half is left.
	r = looks(mostLooks, 0)
	r.spare(r.last)
	require.Len(t, r.stroke.looked, mostLooks/2)
	assert.Greater(t, r.stroke.looked[0].at, r.last/2-0.01)

	// The stroke of a ball that is long gone is settled.
	r = looks(mostLooks, mostLooks/3)
	r.spare(r.last)
	assert.True(t, r.away)
	assert.Nil(t, r.stroke)
	require.Len(t, r.strokes, 1)
	assert.Greater(t, len(r.strokes[0].Frames), mostLooks/4)

	// So it goes if parts of frames take too much memory.
	r = looks(100, 0)
	r.spare(r.last)
	assert.Len(t, r.stroke.looked, 100)
	r.kept = crops
	r.spare(r.last)
	assert.Len(t, r.stroke.looked, 50)
	assert.Zero(t, r.kept)
}

package film

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/unit"
)

// worthOf returns as how many independent places those of a ball count that a camera above the
// table sees so many times on its way, with every so manyth frame used.
func worthOf(frames, every int, way float64) (sum float64) {
	k := &Stroke{stand: &Stand{radius: 0.028575}}
	k.stand.camera = camera{width: 1280, height: 720, is: view{logFocal: math.Log(900), turnX: math.Pi, eyeZ: 2}}
	l := k.stand.camera.lens()
	use := make([]bool, frames)
	for i := range frames {
		f := Frame{place: Place{Y: unit.Length(way * float64(i) / float64(frames-1))}}
		e, _ := l.ball(f.place.vec(), k.stand.radius)
		f.At, use[i] = e.Point, i%every == 0
		k.Frames = append(k.Frames, f)
	}
	for i, c := range k.crowding(use) {
		if use[i] {
			sum += 1 / (c * c)
		}
	}
	return sum
}

// More frames of the same way tell no more once they are closer than half a radius, and all of
// what they tell if they are far apart.
func TestCrowdedFrames(t *testing.T) {
	t.Parallel()
	assert.InDelta(t, 5, worthOf(5, 1, 0.5), 0.1)
	assert.InDelta(t, 3, worthOf(5, 2, 0.5), 0.1)
	dense := worthOf(200, 1, 0.3)
	assert.InEpsilon(t, dense, worthOf(400, 1, 0.3), 0.05)
	assert.InEpsilon(t, dense, worthOf(400, 4, 0.3), 0.05)
	// 0.3 m are 10.5 radii, and the correlation falls by e in half of one: n (1 - c) / (1 + c)
	// comes near the way over twice that.
	assert.InEpsilon(t, 10.5, dense, 0.05)
	// A ball that stands still is seen in one place.
	assert.Less(t, worthOf(50, 1, 0), 1.0)
}

// The time for the rows is bounded by that between frames, whether or not two of them have
// nearly the same time.
func TestTimeForTheRows(t *testing.T) {
	t.Parallel()
	k := &Stroke{}
	for i := range 12 {
		k.Frames = append(k.Frames, Frame{Time: unit.Span(i) / 120})
	}
	assert.InDelta(t, rowsShare/120, k.rowsError(1), 1e-9)
	k.Frames[7].Time = k.Frames[6].Time + 1e-4
	assert.InDelta(t, rowsShare/120, k.rowsError(1), 1e-9)
	for i := range k.Frames {
		k.Frames[i].Time *= 100
	}
	assert.InDelta(t, rowsMost, k.rowsError(1), 1e-9)
	assert.InDelta(t, 4*rowsMost, k.rowsError(4), 1e-9)
}

package pointer

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestOnlyAClearlySidewaysWayIsADrag(t *testing.T) {
	for _, c := range []struct {
		dx, dy float64
		want   intent
	}{
		{0, 0, unsure}, {7, 0, unsure}, {8, 0, sliding}, {-30, 15, sliding}, {30, 16, scrolling},
		{0, -8, scrolling}, {10, 10, scrolling}, {7, 7, unsure}, {2, 300, scrolling},
	} {
		assert.Equal(t, c.want, meant(c.dx, c.dy), "%v right, %v down", c.dx, c.dy)
	}
}

func TestASliderMovesAsFarAsTheFinger(t *testing.T) {
	bridge := track{lo: 2, hi: 40, length: 380}
	assert.InDelta(t, 13, bridge.moved(12, 10), 1e-12)
	assert.InDelta(t, 11, bridge.moved(12, -10), 1e-12)
	assert.Equal(t, 40., bridge.moved(12, 1000))
	assert.Equal(t, 2., bridge.moved(12, -1000))
	assert.Equal(t, 12., track{lo: 2, hi: 40}.moved(12, 10), "a slider out of sight")
}

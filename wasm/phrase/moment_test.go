package phrase

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/replay"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

func momentOf(t *testing.T, link string, at unit.Span) string {
	t.Helper()
	s, problems := scenario.Parse(link)
	require.Empty(t, problems)
	var res shot.Result
	sh := s.Shot()
	shot.Play(&sh, &res)
	line, err := replay.Of(&sh, &res, s.GearTable(), false)
	require.NoError(t, err)
	f := line.At(at)
	return Moment(&s, &f)
}

func TestAMomentInWords(t *testing.T) {
	assert.Equal(t, "−0.05 s: the cue moves forward", momentOf(t, "v=1", -9))
	assert.Equal(t, "0.00 s: the tip hits the ball", momentOf(t, "v=1", 0))
	assert.Regexp(t, `^0\.10 s, \d\.\d mph, slides, 1\d\.\d turns/s right: the tip hits the ball$`, momentOf(t, "v=1", 0.1))
	assert.Regexp(t, `turns/s left: `, momentOf(t, "v=1&side=-0.4", 0.1))
	assert.Regexp(t, `, no sidespin: `, momentOf(t, "v=1&side=0", 0.1))
	assert.Regexp(t, `^0\.10 s, \d\.\d\d m/s, flies, .*, \d+\.\d mm up: `, momentOf(t, "v=1&units=cm&elev=40deg&speed=14mph&gate=0in", 0.1))
	assert.Contains(t, momentOf(t, "v=1&bridge=7in", 9), ": the ball hits the right blocker, and the model stops here")
	assert.Contains(t, momentOf(t, "v=1&speed=1mph&side=0&elev=0deg&roll=0.05", 9), ", 0.0 mph, at rest, no sidespin: the cue ball stops")
}

func TestEveryEventHasWords(t *testing.T) {
	for k := replay.Forward; k <= replay.ObjectCushion; k++ {
		assert.NotEmpty(t, happening[k], k)
	}
}

package trial_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/core/trial"
	"pivotbench/core/unit"
)

// flaws are those of a link's set-up, for a cue nothing is known about.
func flaws(t *testing.T, link string) map[trial.Fault]float64 {
	t.Helper()
	scene, problems := scenario.Parse(link)
	require.Empty(t, problems)
	s := scene.Shot()
	out := map[trial.Fault]float64{}
	for _, f := range trial.Prior().Flaws(&s, 5*unit.Inch, 30*unit.Inch) {
		out[f.Fault] = f.Size
	}
	return out
}

func TestFlaws(t *testing.T) {
	assert.Empty(t, flaws(t, "v=1&speed=12mph&elev=2deg&gap=2.45in&side=0.5"), "a good set-up")

	wide := flaws(t, "v=1&speed=12mph&gap=2.9in")
	assert.Contains(t, wide, trial.WideGap)
	assert.Greater(t, flaws(t, "v=1&speed=12mph&gap=3.2in")[trial.WideGap], wide[trial.WideGap], "wider still")

	assert.Contains(t, flaws(t, "v=1&speed=3mph&elev=6deg&gap=2.45in"), trial.Swerving)
	assert.Contains(t, flaws(t, "v=1&speed=12mph&side=0.1&gap=2.45in"), trial.LittleSide)
	none := flaws(t, "v=1&speed=12mph&side=0")
	assert.Zero(t, none[trial.LittleSide])
	assert.Contains(t, none, trial.LittleSide)
	assert.NotContains(t, none, trial.Swerving, "without english there is nothing to hide")
}

package app_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/shot"
	"pivotbench/wasm/app"
)

// After aiming, the ball comes to the target, or the object ball to the middle
// of its pocket; the shot before stays beside, and can be undone.
func TestAimIt(t *testing.T) {
	before := app.Update(app.Start(), app.First{Link: "v=1&bridge=9in&cut=25deg"})
	assert.True(t, before.Look.Object, "a link with a cut means the object ball to be seen")

	m := app.Update(before, app.AimIt{})
	require.Empty(t, m.Notices)
	assert.InDelta(t, 0, float64(m.Play().Reading.Arrival.Value), 1e-9)
	assert.Equal(t, before.Scene, m.Earlier)
	assert.True(t, m.HasEarlier)
	assert.False(t, app.Update(m, app.Unfaint{}).HasEarlier)
	undone := app.Update(m, app.Undo{})
	assert.Equal(t, before.Scene, undone.Scene)
	assert.False(t, undone.HasEarlier)

	m = app.Update(before, app.AimIt{Pocket: true})
	sh, res := m.Scene.Shot(), m.Play()
	var pot shot.Pot
	require.NoError(t, sh.Sink(&res.Path, &pot))
	assert.InDelta(t, 0, float64(pot.Miss), 1e-9)
	assert.True(t, pot.In(&sh))
}

// A shot kept beside stays what it was while the one on the bench changes.
func TestBeside(t *testing.T) {
	m := app.Update(app.Update(app.Start(), app.Beside{}), app.Set{Key: "bridge", Text: "9in"})
	assert.True(t, m.HasEarlier)
	assert.Equal(t, app.Start().Scene, m.Earlier)
	assert.NotEqual(t, m.Earlier, m.Scene)
}

func TestAimItRefuses(t *testing.T) {
	for link, says := range map[string]string{
		"v=1&side=0.6":                       "slips",
		"v=1&side=0":                         "nothing to share",
		"v=1&speed=1mph&roll=0.05&dist=90in": "stops",
		"v=1&side=0.02&elev=40deg&height=0.3&grip=5in&bridge=40in": "back-hand share of",
	} {
		m := app.Update(app.Start(), app.First{Link: link})
		aimed := app.Update(m, app.AimIt{})
		if assert.NotEmpty(t, aimed.Notices, link) {
			assert.Contains(t, aimed.Notices[0], says, link)
		}
		assert.Equal(t, m.Scene, aimed.Scene, link)
	}
}

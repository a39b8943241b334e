package app_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/shot"
	"pivotbench/wasm/app"
)

// After aiming, the ball comes as near to the target as a whole per cent of the
// back hand takes it, or the object ball to the middle of its pocket; the shot
// before stays beside, and can be undone.
func TestAimIt(t *testing.T) {
	before := app.Update(app.Start(), app.First{Link: "v=1&bridge=9in&cut=25deg"})
	assert.True(t, before.Look.Object, "a link with a cut means the object ball to be seen")

	m := app.Update(before, app.AimIt{})
	require.Empty(t, m.Notices)
	nearest(t, m, func(m *app.Model) float64 { return float64(m.Play().Reading.Arrival.Value) })
	assert.Contains(t, m.Scene.Format(), "&back=0.61&front=0.39&")
	assert.Equal(t, before.Scene, m.Earlier)
	assert.True(t, m.HasEarlier)
	assert.False(t, app.Update(m, app.Unfaint{}).HasEarlier)
	undone := app.Update(m, app.Undo{})
	assert.Equal(t, before.Scene, undone.Scene)
	assert.False(t, undone.HasEarlier)

	m = app.Update(before, app.AimIt{Pocket: true})
	sh := m.Scene.Shot()
	sink := func(m *app.Model) (pot shot.Pot) {
		sh := m.Scene.Shot()
		require.NoError(t, sh.Sink(&m.Play().Path, &pot))
		return pot
	}
	nearest(t, m, func(m *app.Model) float64 { return float64(sink(m).Miss) })
	pot := sink(&m)
	assert.True(t, pot.In(&sh))
}

// nearest checks that no other whole per cent comes nearer.
func nearest(t *testing.T, m app.Model, off func(*app.Model) float64) {
	t.Helper()
	had := math.Abs(off(&m))
	for _, by := range []float64{-0.01, 0.01} {
		other := m
		other.Scene.Back, other.Scene.Front = m.Scene.Back+by, m.Scene.Front-by
		assert.Less(t, had, math.Abs(off(&other)))
	}
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

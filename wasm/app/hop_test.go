package app_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
)

func TestHopsAreNotedAndRemoved(t *testing.T) {
	m := app.Update(app.Start(), app.Open{Link: "v=1&elev=40deg"})
	m = app.Update(m, app.AddHop{Saw: "cleared", When: "now"})
	m = app.Update(m, app.AddHop{Saw: "rose", High: "2in"})
	require.Empty(t, m.Notices)
	assert.Equal(t, []store.Hop{{Link: m.Scene.Format(), Saw: "cleared", When: "now"}, {Link: m.Scene.Format(), Saw: "rose", High: "2in"}}, m.Kept.Hops)

	bad := app.Update(m, app.AddHop{Saw: "rose"})
	require.Len(t, bad.Notices, 1)
	assert.Contains(t, bad.Notices[0], "Not noted: type how far the ball rose")
	assert.Equal(t, m.Kept, bad.Kept)

	gone := app.Update(m, app.Drop[store.Hop]{Record: m.Kept.Hops[0]})
	require.Len(t, gone.Kept.Hops, 1)
	assert.Equal(t, "rose", gone.Kept.Hops[0].Saw)
	assert.Len(t, app.Update(gone, app.Undo{}).Kept.Hops, 2)
	missing := app.Update(gone, app.Drop[store.Hop]{Record: m.Kept.Hops[0]})
	assert.Equal(t, gone.Kept, missing.Kept)
	assert.NotEmpty(t, missing.Notices)
}

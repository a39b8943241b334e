package app_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/wasm/app"
)

// A canvas that is given what the page shows, shows it.
func TestMirror(t *testing.T) {
	page := app.Start()
	canvas := app.Start()
	for _, e := range []app.Event{
		app.Set{Key: "bridge", Text: "9in"},
		app.Settle{},
		app.Run{}, // of a shot the canvas has yet to see
		app.Tick{By: 0.25},
		app.Set{Key: "side", Text: "-0.3"}, // another shot is at rest
		app.Settle{},
		app.Beside{},
		app.Set{Key: "cut", Text: "20deg"},
		app.Show{Look: app.Look{Stretch: 10, Theme: "dark", Left: true, Object: true}},
		app.AddHop{Saw: "rose", High: "0in"},
		app.Set{Key: "bounce", Text: "0.9"}, // another tip: no hop was seen with it
		app.Seek{To: 0.5},
		app.Unfaint{},
	} {
		page = app.Update(page, e)
		canvas = app.Update(canvas, page.Mirrored())
		assert.Equal(t, page.Scene, canvas.Scene, "%#v", e)
		assert.Equal(t, page.Look, canvas.Look, "%#v", e)
		assert.Equal(t, page.Ratios, canvas.Ratios, "%#v", e)
		assert.Equal(t, page.HasEarlier, canvas.HasEarlier, "%#v", e)
		if page.HasEarlier {
			assert.Equal(t, page.Earlier, canvas.Earlier, "%#v", e)
		}
		assert.Equal(t, page.Frame(), canvas.Frame(), "%#v", e)
	}
	assert.True(t, canvas.Clock.On)
}

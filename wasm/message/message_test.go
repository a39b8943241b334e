package message_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/scenario"
	"pivotbench/core/stat"
	"pivotbench/wasm/app"
	"pivotbench/wasm/message"
)

// Every field of a message is read as it was sent.
func TestRoundTrips(t *testing.T) {
	shot := scenario.Default()
	shot.Name = "Tuesday & “co.” 100 %"
	for _, s := range []message.Scene{
		{},
		{Mirror: app.Mirror{Link: shot.Format(), Look: app.Look{Stretch: 10, Theme: "dark"}}},
		{Mirror: app.Mirror{Link: "v=1", Earlier: shot.Format(), Look: app.Look{Stretch: 1, Left: true, Band: true}}, Glide: true},
		{Mirror: app.Mirror{Link: "v=1", Ratios: stat.Interval[float64]{From: 1.25, To: 1.5}}},
		{Mirror: app.Mirror{Look: app.Look{Object: true}, Clock: app.Clock{On: true, Time: 0.3125}}},
		{Mirror: app.Mirror{Look: app.Look{Side: true}, Clock: app.Clock{On: true}}},
		{Mirror: app.Mirror{Link: "v=1", Marks: "0 -0.0483 0.7620;1 0.0250 0.7620"}},
	} {
		read, ok := message.ReadScene(s.Object())
		assert.True(t, ok)
		assert.Equal(t, s, read)
	}
	for _, d := range []app.Drag{
		{Phase: app.DragStart},
		{Phase: app.DragMove, Sets: []app.Setting{{Key: "bridge", Text: "9.5in"}}},
		{Phase: app.DragEnd, Sets: []app.Setting{{Key: "height", Text: "-0.1"}, {Key: "side", Text: "0.25"}}},
		{Phase: app.DragCancel},
	} {
		read, ok := message.ReadDrag(message.Drag{Drag: d}.Object())
		assert.True(t, ok)
		assert.Equal(t, d, read.Drag)
	}
	_, ok := message.ReadReady(message.Ready{}.Object())
	assert.True(t, ok)
	_, ok = message.ReadWant(message.Want{}.Object())
	assert.True(t, ok)
	failed, ok := message.ReadFailed(message.Failed{Reason: "no WebGL"}.Object())
	assert.True(t, ok)
	assert.Equal(t, "no WebGL", failed.Reason)
}

// A message is of one type, and junk is of none.
func TestOneType(t *testing.T) {
	for want, o := range map[string]message.Object{
		"scene":  message.Scene{}.Object(),
		"drag":   message.Drag{}.Object(),
		"ready":  message.Ready{}.Object(),
		"failed": message.Failed{}.Object(),
		"want":   message.Want{}.Object(),
		"none":   {"scene": 5.0, "drag": "start", "ready": 1.0, "failed": nil, "want": message.Object{}},
	} {
		var is []string
		if _, ok := message.ReadScene(o); ok {
			is = append(is, "scene")
		}
		if _, ok := message.ReadDrag(o); ok {
			is = append(is, "drag")
		}
		if _, ok := message.ReadReady(o); ok {
			is = append(is, "ready")
		}
		if _, ok := message.ReadFailed(o); ok {
			is = append(is, "failed")
		}
		if _, ok := message.ReadWant(o); ok {
			is = append(is, "want")
		}
		if want == "none" {
			assert.Empty(t, is)
		} else {
			assert.Equal(t, []string{want}, is)
		}
	}
	// A part of another type within a message counts as left out.
	read, ok := message.ReadScene(message.Object{"scene": "v=1", "earlier": 5.0, "time": "soon", "look": message.Object{"stretch": true, "theme": 1.0, "left": "yes"}})
	assert.True(t, ok)
	assert.Equal(t, message.Scene{Mirror: app.Mirror{Link: "v=1"}}, read)
	drag, ok := message.ReadDrag(message.Object{"drag": message.Object{"phase": "move", "set": message.Object{"side": 0.4, "bridge": "9in"}}})
	assert.True(t, ok)
	assert.Equal(t, []app.Setting{{Key: "bridge", Text: "9in"}}, drag.Sets)
}

// Impossible contact times count as left out.
func TestRatiosAreChecked(t *testing.T) {
	for _, o := range []message.Object{{"from": 0.0, "to": 2.0}, {"from": 3.0, "to": 2.0}, {"from": 1.0, "to": 1e9}, {"from": "1", "to": 2.0}} {
		s, ok := message.ReadScene(message.Object{"scene": "v=1", "ratios": o})
		assert.True(t, ok)
		assert.Zero(t, s.Ratios, "%v", o)
	}
}

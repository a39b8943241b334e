package app_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
)

// after is the model after events, from that of an empty link.
func after(events ...app.Event) app.Model {
	m := app.Start()
	for _, e := range events {
		m = app.Update(m, e)
	}
	return m
}

func link(m app.Model) string { return m.Scene.Format() }

// set is a control changed for good.
func set(key, text, bare string) app.Event { return app.Set{Key: key, Text: text, Bare: bare} }

func TestStartIsAnEmptyLink(t *testing.T) {
	m := app.Start()
	assert.Equal(t, scenario.Default(), m.Scene)
	assert.Equal(t, m.Scene, m.Settled)
	assert.Equal(t, app.Look{Stretch: 4, Theme: "system"}, m.Look)
}

func TestFirstLeavesNothingToUndo(t *testing.T) {
	m := after(app.First{Link: "#v=1&bridge=9in"})
	assert.Equal(t, "v=1&bridge=9in", link(m))
	assert.Equal(t, m.Scene, m.Settled)
	assert.Empty(t, m.Past)
}

func TestOpenCanBeUndone(t *testing.T) {
	m := after(app.First{Link: "v=1&bridge=9in"}, app.Open{Link: "v=1&side=0.2"})
	assert.Equal(t, "v=1&side=0.2", link(m), "a link is the whole scenario, not a change of the last")
	m = app.Update(m, app.Undo{})
	assert.Equal(t, "v=1&bridge=9in", link(m))
}

func TestOpenKeepsUnsettledWork(t *testing.T) {
	m := after(set("side", "0.3", ""), app.Open{Link: "v=1&bridge=9in"}, app.Undo{})
	assert.Equal(t, "v=1&side=0.3", link(m))
}

func TestOpenDuringADrag(t *testing.T) {
	m := after(drag(app.DragStart), drag(app.DragMove, "bridge", "9in"), app.Open{Link: "v=1&side=0.2"})
	assert.False(t, m.Dragging)
	assert.Equal(t, "v=1&side=0.2", link(m))
	assert.Equal(t, m.Scene, m.Settled)
	late := app.Update(m, drag(app.DragCancel))
	assert.Equal(t, "v=1&side=0.2", link(late), "the end of a drag that is over changes nothing")
	m = app.Update(m, app.Undo{})
	assert.Contains(t, []string{"v=1", "v=1&bridge=9in"}, link(m))
}

func TestOpenSaysWhatItRefused(t *testing.T) {
	m := after(app.Open{Link: "v=1&bridge=9in&side=7&colour=red"})
	require.Len(t, m.Notices, 2)
	assert.Contains(t, m.Notices[0], "side")
	assert.Contains(t, m.Notices[0], "“7”")
	assert.Contains(t, m.Notices[0], "0.80")
	assert.Contains(t, m.Notices[1], "colour")
	assert.Equal(t, "v=1&bridge=9in", link(m))
	assert.Empty(t, app.Update(m, app.Dismiss{}).Notices)
	assert.Empty(t, app.Update(m, app.Open{Link: "v=1"}).Notices, "the next link has its own")
}

func TestSet(t *testing.T) {
	m := after(set("bridge", "9 1/2", "in"))
	assert.Equal(t, 9.5*unit.Inch, m.Scene.Bridge)
	assert.Equal(t, scenario.Default(), m.Settled, "the gesture goes on until Settle")
	assert.Empty(t, m.Past)
	m = app.Update(m, app.Settle{})
	assert.Equal(t, m.Scene, m.Settled)
	assert.Len(t, m.Past, 1)
}

func TestSetRefused(t *testing.T) {
	m := after(set("bridge", "nonsense", "in"))
	assert.True(t, m.Refused)
	require.Len(t, m.Notices, 1)
	for _, part := range []string{"Bridge", "“nonsense”", "2.0 in to 40.0 in", "12.0 in kept"} {
		assert.Contains(t, m.Notices[0], part)
	}
	assert.Equal(t, scenario.Default(), m.Scene)
	m = app.Update(m, set("bridge", "10", "in"))
	assert.False(t, m.Refused)
	assert.Empty(t, m.Notices)
}

func TestDraftSaysNothingYet(t *testing.T) {
	m := after(app.Set{Key: "bridge", Text: "1", Bare: "in", Draft: true})
	assert.Empty(t, m.Notices)
	assert.False(t, m.Refused)
	assert.Equal(t, scenario.Default(), m.Scene, "1 in is too short: nothing changes until more is typed")
	m = app.Update(m, app.Set{Key: "bridge", Text: "11", Bare: "in", Draft: true})
	assert.Equal(t, 11*unit.Inch, m.Scene.Bridge)
}

func TestSetOfNoControl(t *testing.T) {
	m := after(set("colour", "red", ""))
	require.Len(t, m.Notices, 1)
	assert.Contains(t, m.Notices[0], "colour")
	assert.Equal(t, scenario.Default(), m.Scene)
}

func TestSetBringsBackWhatFallsOffTheTable(t *testing.T) {
	m := after(set("dist", "90", "in"), set("table", "7ft", ""))
	require.Len(t, m.Notices, 1)
	assert.Contains(t, m.Notices[0], "dist")
	table := m.Scene.GearTable().Length
	assert.Less(t, m.Scene.Dist, table)
	assert.Greater(t, m.Scene.Dist, table-3*unit.Inch, "as far out as there is room: a slider or a drag past the end stays there")
}

// drag is a drag event with pairs of key and text.
func drag(phase app.Phase, pairs ...string) app.Event {
	d := app.Drag{Phase: phase}
	for i := 0; i < len(pairs); i += 2 {
		d.Sets = append(d.Sets, app.Setting{Key: pairs[i], Text: pairs[i+1]})
	}
	return d
}

func TestADragIsOneStepBack(t *testing.T) {
	m := after(drag(app.DragStart, "bridge", "12in"), drag(app.DragMove, "bridge", "11in"), drag(app.DragMove, "bridge", "10in"))
	assert.True(t, m.Dragging)
	assert.Equal(t, 10*unit.Inch, m.Scene.Bridge)
	assert.Equal(t, scenario.Default(), m.Settled)
	assert.Equal(t, m, app.Update(m, app.Settle{}), "a pause within a drag does not end it")

	m = app.Update(m, drag(app.DragEnd, "bridge", "9in"))
	assert.False(t, m.Dragging)
	assert.Equal(t, "v=1&bridge=9in", m.Settled.Format())
	require.Len(t, m.Past, 1)
	assert.Equal(t, "v=1", link(app.Update(m, app.Undo{})))
}

func TestDragOfTwoKeys(t *testing.T) {
	m := after(drag(app.DragStart), drag(app.DragEnd, "side", "-0.2", "height", "0.1"))
	assert.Equal(t, "v=1&side=-0.2&height=0.1", link(m))
	assert.Equal(t, "v=1", link(app.Update(m, app.Undo{})))
}

func TestDragCancelled(t *testing.T) {
	m := after(set("side", "0.3", ""), drag(app.DragStart), drag(app.DragMove, "bridge", "9in"), drag(app.DragCancel))
	assert.False(t, m.Dragging)
	assert.Equal(t, "v=1&side=0.3", link(m), "as the drag began, with what was set before it")
	assert.Equal(t, "v=1", link(app.Update(m, app.Undo{})))
}

// Fine work reports another start from within the drag.
func TestASecondStartBelongsToTheSameDrag(t *testing.T) {
	m := after(drag(app.DragStart), drag(app.DragMove, "bridge", "9in"), drag(app.DragStart, "bridge", "9in"), drag(app.DragMove, "bridge", "9.05in"))
	cancelled := app.Update(m, drag(app.DragCancel))
	assert.Equal(t, "v=1", link(cancelled))
	ended := app.Update(m, drag(app.DragEnd, "bridge", "9.05in"))
	assert.Len(t, ended.Past, 1)
	assert.Equal(t, "v=1&bridge=9.05in", link(ended))
}

func TestADragWithoutChangeIsNoStep(t *testing.T) {
	m := after(drag(app.DragStart, "bridge", "12in"), drag(app.DragEnd, "bridge", "12in"))
	assert.Empty(t, m.Past)
}

func TestStrayDrags(t *testing.T) {
	for _, stray := range []app.Event{
		drag(app.DragCancel), drag(app.DragEnd), drag("wobble"),
		drag(app.DragMove, "colour", "red"), drag(app.DragEnd, "bridge", "nonsense"),
	} {
		m := after(stray)
		assert.Equal(t, "v=1", link(m), "%v", stray)
		assert.False(t, m.Dragging, "%v", stray)
	}
}

func TestUndoRedo(t *testing.T) {
	var links []string
	m := app.Start()
	for i := range 4 {
		links = append(links, link(m))
		m = app.Update(app.Update(m, set("bridge", fmt.Sprint(9+i), "in")), app.Settle{})
	}
	last := link(m)
	for i := len(links) - 1; i >= 0; i-- {
		m = app.Update(m, app.Undo{})
		assert.Equal(t, links[i], link(m))
		assert.Equal(t, m.Scene, m.Settled)
	}
	assert.Equal(t, m, app.Update(m, app.Undo{}), "nothing is left to undo")
	for _, want := range append(links[1:], last) {
		m = app.Update(m, app.Redo{})
		assert.Equal(t, want, link(m))
	}
	assert.Equal(t, m, app.Update(m, app.Redo{}), "nothing is left to redo")
}

func TestUndoTakesTheGestureUnderWay(t *testing.T) {
	m := after(set("bridge", "9", "in"), app.Undo{})
	assert.Equal(t, "v=1", link(m))
	assert.Equal(t, "v=1&bridge=9in", link(app.Update(m, app.Redo{})))
}

func TestANewGestureEndsRedo(t *testing.T) {
	m := after(set("bridge", "9", "in"), app.Settle{}, app.Undo{}, set("side", "0.1", ""), app.Settle{}, app.Redo{})
	assert.Equal(t, "v=1&side=0.1", link(m))
}

func TestUndoGoesBackTwoHundredSteps(t *testing.T) {
	m := app.Start()
	for i := range 205 {
		m = app.Update(app.Update(m, set("elev", fmt.Sprintf("%.1f", 10+float64(i)/10), "°")), app.Settle{})
	}
	for range 300 {
		m = app.Update(m, app.Undo{})
	}
	assert.Equal(t, "v=1&elev=10.4deg", link(m))
	assert.Len(t, m.Future, 200)
}

// A model that others still hold must not change under them.
func TestUpdateLeavesTheOldModelAlone(t *testing.T) {
	base := after(set("bridge", "9", "in"), app.Settle{}, set("bridge", "10", "in"), app.Settle{})
	one := app.Update(app.Update(base, set("side", "0.1", "")), app.Settle{})
	two := app.Update(app.Update(base, set("side", "0.2", "")), app.Settle{})
	undone := app.Update(base, app.Undo{})
	again := app.Update(app.Update(undone, set("side", "0.5", "")), app.Settle{})
	assert.Equal(t, "v=1&bridge=10in", one.Past[2].Scene.Format())
	assert.Equal(t, "v=1&bridge=10in", two.Past[2].Scene.Format())
	assert.Equal(t, "v=1&bridge=9in", again.Past[1].Scene.Format())
	assert.Equal(t, "v=1&bridge=9in", base.Past[1].Scene.Format())
}

func TestShow(t *testing.T) {
	look := app.Look{Stretch: 10, Theme: "dark", Left: true}
	m := after(app.Show{Look: look})
	assert.Equal(t, look, m.Look)
	for _, bad := range []app.Look{{Stretch: 3, Theme: "dark"}, {Stretch: 0, Theme: "light"}, {Stretch: 4, Theme: "pink"}, {Stretch: 4}} {
		assert.Equal(t, look, app.Update(m, app.Show{Look: bad}).Look, "%v", bad)
	}
	assert.Equal(t, look, app.Update(m, app.Open{Link: "v=1&side=0"}).Look, "no link changes the look")
	assert.False(t, strings.Contains(link(m), "dark"))
}

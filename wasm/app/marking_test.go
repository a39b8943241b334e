package app_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/unit"
	"pivotbench/wasm/app"
)

// did is a model after some events.
func did(m app.Model, events ...app.Event) app.Model {
	for _, e := range events {
		m = app.Update(m, e)
	}
	return m
}

func marking(text, line string) app.Event {
	return app.SetMarking{Marking: app.Marking{Text: text, Line: line}}
}

// Several marks typed at once are as many strokes and one step for undo.
func TestSeveralMarksAtOnce(t *testing.T) {
	m := did(app.Start(), app.OpenSection{Name: "measure"}, app.MeasureCue{Name: "House 4"}, marking("-1 31/32, -1 7/8", ""), app.NoteMarks{When: "now"})
	assert.Empty(t, m.Notices)
	var marks []string
	for _, k := range m.Kept.Strokes {
		marks = append(marks, k.Cue+" "+k.Mark+" "+k.At+" "+k.Read+" "+k.When)
	}
	assert.Equal(t, []string{"House 4 -1.96875in 30in 3mm now", "House 4 -1.875in 30in 3mm now"}, marks)
	assert.Empty(t, m.Marking.Text, "the field is free for the next")
	assert.Empty(t, did(m, app.Undo{}).Kept.Strokes)

	for text, wants := range map[string]string{"": "type where the ball", "1 oops": "oops", "-1, 200": "200in"} {
		refused := did(m, marking(text, ""), app.NoteMarks{})
		assert.Equal(t, m.Kept, refused.Kept, text)
		assert.Equal(t, text, refused.Marking.Text, "what was typed stays")
		if assert.NotEmpty(t, refused.Notices, text) {
			assert.Contains(t, refused.Notices[0], wants)
		}
	}
	assert.Contains(t, did(m, marking("1", "far"), app.NoteMarks{}).Notices[0], "the line: ")
	one := did(m, app.EditStroke{Stroke: m.Kept.Strokes[0]}, marking("1, 2", ""), app.NoteMarks{})
	assert.Contains(t, one.Notices[0], "type one mark")
	assert.Equal(t, m.Kept, one.Kept)
	one = did(one, marking("-2", "40"), app.NoteMarks{})
	assert.Equal(t, []string{"-2in", "40in"}, []string{one.Kept.Strokes[0].Mark, one.Kept.Strokes[0].At})
	assert.Len(t, one.Kept.Strokes, 2)
}

// Junk without end is cut, at a whole character.
func TestALongMark(t *testing.T) {
	m := did(app.Start(), marking(strings.Repeat("é1", 1<<20), ""))
	assert.Less(t, len(m.Marking.Text), 1001)
	assert.True(t, utf8.ValidString(m.Marking.Text))
	assert.NotEmpty(t, did(m, app.NoteMarks{}).Notices)
}

// A mark keeps its meaning when the units change, and is read in the present ones.
func TestAMarkInOtherUnits(t *testing.T) {
	m := did(app.Start(), marking("-1 7/8, 2", "30"), app.Set{Key: "units", Text: "cm"})
	assert.Equal(t, app.Marking{Text: "-4.7625, 5.08", Line: "76.2"}, m.Marking)
	assert.Equal(t, "half", did(app.Start(), marking("half", ""), app.Set{Key: "units", Text: "cm"}).Marking.Text)
	m = did(m, app.Set{Key: "units", Text: "in"})
	assert.Equal(t, app.Marking{Text: "-1.875, 2", Line: "30"}, m.Marking)
}

// A drag of the mark sets it and leaves the shot alone; a drag that is broken off puts
// it back.
func TestDraggingTheMark(t *testing.T) {
	place := func(phase app.Phase, text string) app.Event {
		return app.Drag{Phase: phase, Sets: []app.Setting{{Key: app.MarkKey, Text: text}}}
	}
	m := did(app.Start(), marking("2", ""), place(app.DragStart, "2"), place(app.DragMove, "-1.5"))
	assert.Equal(t, "-1.5", m.Marking.Text)
	assert.Equal(t, "2", did(m, app.Drag{Phase: app.DragCancel}).Marking.Text)
	m = did(m, place(app.DragEnd, "-1.6"))
	assert.Equal(t, "-1.6", m.Marking.Text)
	assert.Empty(t, m.Past)
	assert.Equal(t, app.Start().Scene, m.Scene)
	assert.Empty(t, m.Notices)
}

// The newest stroke is taken back with its shot and cue, and comes back by undo.
func TestTakeBack(t *testing.T) {
	start := did(app.Start(), app.MeasureCue{Name: "House 4"}, app.Set{Key: "bridge", Text: "9in"}, app.NoteStroke{Cue: "House 4", See: "left"})
	m := did(start, app.MeasureCue{Name: "Slender"}, app.Set{Key: "bridge", Text: "15in"}, app.Settle{}, app.TakeBack{})
	assert.Empty(t, m.Kept.Strokes)
	assert.Equal(t, "House 4", m.Measuring)
	assert.Equal(t, start.Scene, m.Scene)
	assert.Equal(t, m, did(m, app.TakeBack{}), "there are no more")
	assert.Equal(t, start.Kept, did(m, app.Undo{}).Kept)
}

// The stroke suggested after one that was noted goes and comes back with it.
func TestTakeNext(t *testing.T) {
	next := app.TakeNext{Sets: []app.Setting{{"bridge", "12in"}, {"side", "0.33"}}}
	start := did(app.Start(), app.AtTable{On: true}, app.MeasureCue{Name: "House 4"}, app.Set{Key: "bridge", Text: "9in"}, app.Settle{})
	m := did(start, app.NoteSeen{See: "left"}, next)
	assert.Equal(t, "House 4", m.Kept.Strokes[0].Cue)
	assert.Equal(t, 12*unit.Inch, m.Scene.Bridge)
	assert.Len(t, m.Past, 2)
	back := did(m, app.Undo{})
	assert.Equal(t, start.Scene, back.Scene)
	assert.Empty(t, back.Kept.Strokes)
	again := did(back, app.Redo{})
	assert.Equal(t, m.Scene, again.Scene)
	assert.Equal(t, m.Kept, again.Kept)

	for _, before := range [][]app.Event{nil, {app.NoteStroke{Cue: "House 4", See: "left"}, app.Set{Key: "bridge", Text: "10in"}, app.Settle{}}} {
		m := did(start, before...)
		assert.Equal(t, m.Scene, did(m, next, app.Undo{}).Scene, "a step of its own")
		assert.Equal(t, m.Kept, did(m, next, app.Undo{}).Kept)
	}
}

// Measuring at the table asks for the cue first, ends with its section, and outlasts a
// reload.
func TestAtTheTable(t *testing.T) {
	m := did(app.Start(), app.AtTable{On: true})
	assert.Equal(t, "measure", m.Section)
	assert.Equal(t, app.Table{On: true}, m.Table)
	m = did(m, app.MeasureCue{Name: "House 4"})
	assert.True(t, m.Table.Named)
	assert.False(t, did(m, app.AskCue{}).Table.Named)
	assert.True(t, did(m, app.AtTable{}, app.AtTable{On: true}).Table.Named, "it has a name already")
	assert.False(t, did(m, app.OpenSection{Name: "shot"}).Table.On)

	m = did(m, app.ReadBy{Mark: true}, app.SetMarking{Marking: app.Marking{Text: "-1 7/8", Line: "30", Read: "1mm"}})
	again := did(app.Start(), app.Return{Visit: app.ParseVisit(m.Visit("in", nil).Format())})
	assert.Equal(t, m.Table, again.Table)
	assert.Equal(t, m.Marking, again.Marking)
	elsewhere := m.Visit("in", nil)
	elsewhere.Section = "shot"
	assert.False(t, did(app.Start(), app.Return{Visit: elsewhere}).Table.On)
}

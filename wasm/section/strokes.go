//go:build js && wasm

package section

import (
	"slices"
	"strconv"
	"syscall/js"
	"time"

	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// strokes is the list of strokes as it is shown.
type strokes struct {
	ever     bool
	shown    []store.Stroke
	units    string
	first    int // index of the oldest stroke that has a row
	rows     []view.StrokeRow
	doubtful map[int]bool // by index; nil: not known of this list
}

// listenStrokes has strokes noted, corrected and deleted.
func (s *measure) listenStrokes() {
	dom.On("note", func(el js.Value) {
		s.note(app.NoteSeen{See: dom.Data(el, "outcome"), When: device.Moment()})
	})
	dom.On("add-mark", func(js.Value) { s.addMarks() })
	dom.Listen(dom.ByID("mark-text"), "keydown", func(e js.Value) {
		if e.Get("key").String() == "Enter" {
			e.Call("preventDefault")
			s.addMarks()
		}
	})
	for id, part := range map[string]func(*app.Marking) *string{
		"mark-text": func(k *app.Marking) *string { return &k.Text },
		"mark-line": func(k *app.Marking) *string { return &k.Line },
		"mark-read": func(k *app.Marking) *string { return &k.Read },
	} {
		dom.Listen(dom.ByID(id), "input", func(js.Value) {
			s.setMarking(func(k *app.Marking) { *part(k) = dom.Text(id) })
		})
	}
	dom.On("flip-mark", func(js.Value) {
		m := s.Model()
		s.weigher.fit = "" // it no longer holds
		s.Do(app.MoveAcross{Strokes: s.weigher.log.Asked(&m)})
	})
	dom.On("leave-mark", func(js.Value) {
		m := s.Model()
		s.weigher.log.Leave(&m)
		s.askSides(&m)
	})
	dom.On("old-marks-add", func(js.Value) { s.Do(app.TakeMarks{When: device.Moment()}) })
	dom.On("old-marks-drop", func(js.Value) { s.Do(app.SetMarks{}) })
	dom.On("edit-stroke", func(el js.Value) { s.edit(dom.Entry(s.strokes.shown, el)) })
	dom.On("leave-stroke", func(js.Value) { s.Do(app.LeaveStroke{}) })
	dom.On("delete-stroke", func(el js.Value) {
		s.Do(app.Drop[store.Stroke]{Record: dom.Entry(s.strokes.shown, el)})
	})
	dom.On("strokes-csv", func(js.Value) {
		device.Save("strokes.csv", "text/csv;charset=utf-8", store.StrokesCSV(s.Model().Kept.Strokes))
	})
	dom.On("older-strokes", func(js.Value) { s.strokes.older(s.Host) })
	dom.On("clear-strokes", func(js.Value) {
		s.Do(app.ClearStrokes{All: true})
		s.Say(view.StrokesCleared)
	})
	dom.Listen(dom.ByID("strokes"), "change", func(e js.Value) {
		was := dom.Entry(s.strokes.shown, e.Get("target"))
		now := was
		now.See = e.Get("target").Get("value").String()
		s.Do(app.ChangeStroke{Was: was, Stroke: now})
	})
}

// note performs an event that notes strokes, or puts one in place of the stroke that is
// being corrected, and says so.
func (s *measure) note(e app.Event) {
	before := s.Model()
	if before.Table.On && s.table.waiting {
		s.Say(view.WaitForTheNext)
		return
	}
	s.Do(e)
	after := s.Model()
	if words := view.NotedWords(&before, &after); words != "" {
		s.table.waiting = before.Table.On
		s.Say(words)
		s.showTable(&after)
	}
}

// addMarks notes a stroke for every mark that is typed or placed.
func (s *measure) addMarks() { s.note(app.NoteMarks{When: device.Moment()}) }

// setMarking changes the mark of the next stroke.
func (s *measure) setMarking(how func(*app.Marking)) {
	m := s.Model()
	k := m.Marking
	how(&k)
	s.Do(app.SetMarking{Marking: k})
}

// edit puts a stroke on the bench, to be corrected with the controls.
func (s *measure) edit(stroke store.Stroke) {
	s.Do(app.EditStroke{Stroke: stroke})
	m := s.Model()
	if !m.Correction.On {
		return
	}
	to := dom.Find(".outcomes button")
	if stroke.Mark != "" {
		to = dom.ByID("mark-text")
	}
	dom.Find(".outcomes").Call("scrollIntoView", map[string]any{"block": "center"})
	to.Call("focus", map[string]any{"preventScroll": true})
}

// show writes the list when it has changed, and reports whether it has.
func (t *strokes) show(m *app.Model) (changed bool) {
	if t.ever && slices.Equal(m.Kept.Strokes, t.shown) && t.units == m.Scene.Units {
		return false
	}
	t.first = view.FirstListed(t.first, len(t.shown), len(m.Kept.Strokes))
	t.ever, t.shown, t.units, t.doubtful = true, m.Kept.Strokes, m.Scene.Units, nil
	t.write(m)
	dom.Hide("strokes", len(t.shown) == 0)
	dom.Hide("no-strokes", len(t.shown) > 0)
	return true
}

// write writes the rows of the list, but for those at its end that stay as they are, since
// a new stroke is its first row.
func (t *strokes) write(m *app.Model) {
	rows := view.StrokeRows(m, t.first, len(t.shown))
	body, same := dom.Find("#strokes tbody"), view.SameAtEnd(t.rows, rows)
	for _, r := range t.rows[:len(t.rows)-same] {
		if r.Sitting != (view.SittingHead{}) {
			body.Get("firstChild").Call("remove")
		}
		body.Get("firstChild").Call("remove")
	}
	added := dom.Document.Call("createDocumentFragment")
	for _, r := range rows[:len(rows)-same] {
		putStroke(r, added)
	}
	body.Call("prepend", added)
	t.rows = rows
	dom.Doer("older-strokes").Set("hidden", t.first == 0)
}

// older lists the strokes that have no row yet, a few at a time, since a thousand rows take
// a phone seconds.
func (t *strokes) older(h Host) {
	dom.Doer("older-strokes").Set("hidden", true)
	go func() {
		for t.first > 0 {
			m := h.Model()
			if !slices.Equal(m.Kept.Strokes, t.shown) {
				return // show has yet to write the new list
			}
			first := view.Older(t.first)
			rows, added := view.StrokeRows(&m, first, t.first), dom.Document.Call("createDocumentFragment")
			for _, r := range rows {
				t.mark(r.Index, putStroke(r, added))
			}
			dom.Find("#strokes tbody").Call("append", added)
			t.first, t.rows = first, append(t.rows, rows...)
			time.Sleep(listRest)
		}
	}()
}

// listRest is the time between two parts of a long list, for the page's other work.
const listRest = 20 * time.Millisecond

// mark marks the row of a stroke that does not fit the others.
func (t *strokes) mark(stroke int, row js.Value) {
	row.Get("classList").Call("toggle", "doubtful", t.doubtful[stroke])
}

// markAll marks the rows of strokes that don't fit the others, given by their indices.
func (t *strokes) markAll(doubtful map[int]bool) {
	t.doubtful = doubtful
	dom.Each("#strokes tr[data-stroke]", func(row js.Value) {
		stroke, _ := strconv.Atoi(dom.Data(row, "stroke"))
		t.mark(stroke, row)
	})
}

// putStroke writes a row of the list, with the heading of its sitting before it, and
// returns the row.
func putStroke(r view.StrokeRow, body js.Value) js.Value {
	if r.Sitting != (view.SittingHead{}) {
		head := dom.Put("th", r.Sitting.Words(device.Day(r.Sitting.When)), dom.Put("tr", "", body))
		head.Call("setAttribute", "colspan", 6)
		head.Call("setAttribute", "scope", "rowgroup")
	}
	row := dom.Put("tr", "", body)
	row.Get("dataset").Set("stroke", r.Index)
	for _, text := range []string{r.Number, r.Cue, r.Hands, r.English} {
		dom.Put("td", text, row)
	}
	seen := dom.Put("td", r.Mark, row)
	if r.Mark == "" {
		pick := dom.Put("select", "", seen)
		pick.Call("setAttribute", "aria-label", r.ResultName())
		pick.Get("dataset").Set("index", r.Index)
		for _, o := range store.Outcomes {
			dom.Put("option", view.SeenWords(o), pick).Set("value", o)
		}
		pick.Set("value", r.See)
	}
	buttons := dom.Put("td", "", row)
	dom.PutButton(view.EditButton, r.EditName(), "edit-stroke", r.Index, buttons)
	dom.PutButton("×", r.DeleteName(), "delete-stroke", r.Index, buttons)
	return row
}

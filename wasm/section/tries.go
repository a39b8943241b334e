//go:build js && wasm

package section

import (
	"slices"
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// tries is the list of strokes as it is shown.
type tries struct {
	ever  bool
	shown []store.Try
}

// listenTries handles adding, editing and deleting of strokes.
func (s *measure) listenTries() {
	dom.On("note", func(el js.Value) { s.note(dom.Data(el, "outcome")) })
	dom.On("edit-try", func(el js.Value) { s.edit(dom.Entry(s.tries.shown, el)) })
	dom.On("leave-try", func(js.Value) { s.Do(app.LeaveTry{}) })
	dom.On("delete-try", func(el js.Value) {
		s.Do(app.Drop[store.Try]{Record: dom.Entry(s.tries.shown, el)})
	})
	dom.On("tries-csv", func(js.Value) {
		device.Save("tries.csv", "text/csv;charset=utf-8", store.TriesCSV(s.Model().Kept.Tries))
	})
	dom.On("clear-tries", func(js.Value) {
		s.Do(app.ClearTries{})
		s.Say("started anew; Undo brings the tries back")
	})
	dom.Listen(dom.ByID("tries"), "change", func(e js.Value) {
		try := dom.Entry(s.tries.shown, e.Get("target"))
		now := try
		now.Outcome = e.Get("target").Get("value").String()
		s.Do(app.ChangeTry{Was: try, Try: now})
	})
}

// note records the current shot as a stroke, or replaces the stroke that is being edited.
func (s *measure) note(outcome string) {
	before := s.Model()
	s.Do(app.Note{Outcome: outcome, When: device.Moment()})
	after := s.Model()
	if words := view.NotedWords(&before, &after); words != "" {
		s.Say(words)
	}
}

// edit loads a stroke into the controls to be edited.
func (s *measure) edit(try store.Try) {
	s.Do(app.EditTry{Try: try})
	if !s.Model().Correction.On {
		return
	}
	dom.Find(".outcomes").Call("scrollIntoView", map[string]any{"block": "center"})
	dom.Find(".outcomes button").Call("focus", map[string]any{"preventScroll": true})
}

// show writes the list if it has changed, and reports whether it has.
func (t *tries) show(m *app.Model) (changed bool) {
	if t.ever && slices.Equal(m.Kept.Tries, t.shown) {
		return false
	}
	t.ever, t.shown = true, m.Kept.Tries
	body := dom.Find("#tries tbody")
	body.Call("replaceChildren")
	for _, row := range view.TryRows(m) {
		putTry(row, body)
	}
	dom.Hide("tries", len(t.shown) == 0)
	return true
}

// putTry writes a row of the list.
func putTry(r view.TryRow, body js.Value) {
	row := dom.Put("tr", "", body)
	row.Get("dataset").Set("try", r.Index)
	for _, text := range []string{r.Number, r.Bridge, r.English, r.Speed} {
		dom.Put("td", text, row)
	}
	pick := dom.Put("select", "", dom.Put("td", "", row))
	pick.Call("setAttribute", "aria-label", "Result of try "+r.Number)
	pick.Get("dataset").Set("index", r.Index)
	for _, o := range store.Outcomes {
		dom.Put("option", o, pick)
	}
	pick.Set("value", r.Outcome)
	buttons := dom.Put("td", "", row)
	dom.PutButton("Edit", "Edit try "+r.Number, "edit-try", r.Index, buttons)
	dom.PutButton("×", "Delete try "+r.Number, "delete-try", r.Index, buttons)
}

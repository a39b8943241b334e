//go:build js && wasm

package section

import (
	"strconv"
	"syscall/js"

	"pivotbench/core/lesson"
	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// lessons is the Lessons section: shipped lessons, the user's own, and the open one.
type lessons struct {
	Host
	listed  int           // the change of the records that the list shows, plus one
	shown   view.Stop     // the stop of the open lesson that is shown
	formed  lesson.Lesson // the lesson in the form
	writing int           // the step whose caption was last in use
}

func (s *lessons) Listen(h Host) {
	s.Host = h
	s.listenForm()
	dom.On("lesson-open", func(el js.Value) {
		named := lesson.Shipped[dom.Index(el)]
		s.teach(app.Teach{Link: lesson.Link{Lesson: named.Lesson, Shipped: named.Name}})
	})
	dom.On("lesson-own", func(el js.Value) { s.teach(app.TeachOwn{Lesson: dom.Entry(h.Model().Kept.Lessons, el)}) })
	dom.On("lesson-close", func(js.Value) { h.Do(app.EndLesson{}) })
	dom.On("lesson-back", func(js.Value) { h.Do(app.Halt{At: h.Model().Lesson.At - 1}) })
	dom.On("lesson-on", func(js.Value) { h.Do(app.Halt{At: h.Model().Lesson.At + 1}) })
	dom.On("lesson-share", func(js.Value) { s.link(view.CopyAddress).share() })
	dom.On("lesson-copy", func(js.Value) { s.link(view.SaveAsFile).copy() })
	dom.On("lesson-code", func(js.Value) { s.link("").code() })
	dom.On("lesson-file", func(js.Value) {
		device.Save("lesson.json", "application/json", store.EncodeLesson(h.Model().Lesson.Lesson))
	})
	dom.On("lesson-keep", func(js.Value) {
		open := h.Model().Lesson
		s.teach(app.KeepLesson{Lesson: open.Lesson, At: open.At})
	})
	dom.On("lesson-new", func(js.Value) {
		s.teach(app.KeepLesson{Lesson: lesson.Lesson{Title: view.NewLesson, Steps: []lesson.Step{{Link: shotLink(h)}}}})
	})
	dom.On("lesson-drop", func(el js.Value) {
		h.Do(app.Drop[lesson.Lesson]{Record: dom.Entry(h.Model().Kept.Lessons, el)})
		h.Say(view.Deleted)
	})
	reply := func(done bool) func(js.Value) {
		return func(js.Value) {
			if v, err := strconv.ParseFloat(dom.Text("lesson-drag"), 64); err == nil {
				h.Do(app.Reply{Value: v, Done: done})
			}
		}
	}
	dom.Listen(dom.ByID("lesson-drag"), "input", reply(false))
	dom.Listen(dom.ByID("lesson-drag"), "change", reply(true))
}

// shotLink returns the link of the current shot.
func shotLink(h Host) string {
	m := h.Model()
	return m.Scene.Format()
}

// link returns the link of the open lesson, from its beginning.
func (s *lessons) link(otherwise string) link {
	open := s.Model().Lesson
	open.At = 0
	return link{Host: s.Host, title: open.Lesson.Title, fragment: open.Format(), otherwise: otherwise}
}

// teach opens a lesson.
func (s *lessons) teach(e app.Event) {
	s.Do(e)
	toLesson()
}

// toLesson moves the focus to the lesson that was opened.
func toLesson() { dom.ByID("lesson-title").Call("focus") }

func (s *lessons) Show(m app.Model) {
	s.showList(&m)
	now := view.StopOf(&m)
	if now != s.shown {
		s.shown = now
		showStop(&now)
	}
	if m.Own {
		s.showForm(&m)
	}
}

// showStop writes the current stop of the open lesson.
func showStop(stop *view.Stop) {
	dom.Hide("lesson", !stop.Open)
	dom.Hide("lesson-list", stop.Open)
	if !stop.Open {
		return
	}
	dom.Say("lesson-title", stop.Title)
	dom.Say("lesson-place", stop.Place)
	dom.Say("lesson-words", stop.Words)
	dom.Doer("lesson-back").Set("disabled", stop.First)
	dom.Doer("lesson-on").Set("disabled", stop.Last)
	dom.Set(dom.Doer("lesson-on"), "textContent", stop.OnLabel)
	dom.ByID("lesson-board").Set("href", BoardPage()+"#"+stop.Wall)
	dom.Doer("lesson-keep").Set("hidden", stop.Own)
	dom.Hide("lesson-form", !stop.Own)
	dom.Hide("lesson-reply", !stop.Asks)
	dom.Say("lesson-attempt", stop.Answer.Attempt)
	if !stop.Asks {
		return
	}
	dom.Say("lesson-control", stop.Answer.Label)
	dom.Say("lesson-value", stop.Answer.Shown)
	drag := dom.ByID("lesson-drag")
	drag.Set("min", stop.Answer.Min)
	drag.Set("max", stop.Answer.Max)
	drag.Set("step", stop.Answer.Step)
	drag.Set("value", stop.Answer.Value)
	dom.Set(drag, "ariaValueText", stop.Answer.Shown)
}

// BoardPage returns the address of the board's page: a file of its own, or the present
// file with a query.
func BoardPage() string { return dom.Data(dom.ByID("board"), "page") }

// showList writes the list of lessons.
func (s *lessons) showList(m *app.Model) {
	if s.listed == m.Changes+1 {
		return
	}
	if s.listed == 0 {
		for i := range lesson.Shipped {
			row := view.LessonRowOf(&lesson.Shipped[i].Lesson)
			putLesson("lessons-shipped", i, row, "lesson-open", row.OpenName(0))
		}
	}
	s.listed = m.Changes + 1
	dom.ByID("lessons-own").Call("replaceChildren")
	for i := range m.Kept.Lessons {
		row := view.LessonRowOf(&m.Kept.Lessons[i])
		item := putLesson("lessons-own", i, row, "lesson-own", row.OpenName(i+1))
		dom.PutButton("×", row.DeleteName(i+1), "lesson-drop", i, item)
	}
	dom.Hide("no-lessons", len(m.Kept.Lessons) > 0)
}

// putLesson writes a row of the list.
func putLesson(list string, i int, row view.LessonRow, action, name string) js.Value {
	item := dom.Put("li", "", dom.ByID(list))
	dom.Put("strong", row.Title, item)
	dom.Put("span", row.Steps, item)
	dom.PutButton(view.OpenButton, name, action, i, item)
	return item
}

//go:build js && wasm

package section

import (
	"slices"
	"strconv"
	"syscall/js"

	"pivotbench/core/lesson"
	"pivotbench/core/scenario"
	"pivotbench/core/typed"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/view"
)

// listenForm handles the editing of a user's own lesson.
func (s *lessons) listenForm() {
	for _, g := range view.Groups {
		for _, key := range g.Keys {
			if k := scenario.Find(key); k.IsNumber() {
				dom.Put("option", k.Label, dom.ByID("lesson-key")).Set("value", key)
			}
		}
	}
	dom.Listen(dom.ByID("lesson-form"), "change", s.typed)
	dom.Listen(dom.ByID("lesson-edits"), "focusin", func(e js.Value) { s.writing = dom.Index(e.Get("target")) })
	dom.On("insert-value", func(el js.Value) { s.insert("{" + dom.Data(el, "insert") + "}") })
	dom.On("lesson-add", func(js.Value) {
		s.edit(func(to *lesson.Lesson) { to.Steps = append(to.Steps, lesson.Step{Link: shotLink(s.Host)}) })
		s.focus("lesson-caption", len(s.formed.Steps)-1)
	})
	dom.On("step-show", func(el js.Value) { s.Do(app.Halt{At: dom.Index(el)}) })
	dom.On("step-shot", func(el js.Value) {
		s.edit(func(to *lesson.Lesson) { to.Steps[dom.Index(el)].Link = shotLink(s.Host) })
		s.Say(view.StepReplaced)
	})
	dom.On("step-up", func(el js.Value) { s.move(dom.Index(el), -1, "step-up") })
	dom.On("step-down", func(el js.Value) { s.move(dom.Index(el), 1, "step-down") })
	dom.On("step-drop", func(el js.Value) {
		s.edit(func(to *lesson.Lesson) { to.Steps = slices.Delete(to.Steps, dom.Index(el), dom.Index(el)+1) })
	})
}

// insert puts a value into the caption that was last in use, where its cursor is.
func (s *lessons) insert(value string) {
	last := len(s.formed.Steps) - 1
	area := dom.Find(`#lesson-edits [data-edit][data-index="` + strconv.Itoa(min(max(s.writing, 0), last)) + `"]`)
	if !area.Truthy() {
		return
	}
	area.Call("setRangeText", value, area.Get("selectionStart"), area.Get("selectionEnd"), "end")
	area.Call("dispatchEvent", js.Global().Get("Event").New("change", map[string]any{"bubbles": true}))
	area.Call("focus")
}

// edit saves the open lesson with a change.
func (s *lessons) edit(change func(*lesson.Lesson)) {
	to := s.formed
	to.Steps = slices.Clone(to.Steps)
	change(&to)
	s.Do(app.EditLesson{Lesson: to})
}

// move moves a step up or down, and the focus with it.
func (s *lessons) move(i, by int, action string) {
	to := i + by
	if to < 0 || to >= len(s.formed.Steps) {
		return
	}
	s.edit(func(made *lesson.Lesson) { made.Steps[i], made.Steps[to] = made.Steps[to], made.Steps[i] })
	s.focus(action, to)
}

// focus moves the focus to an element of a step in the form.
func (s *lessons) focus(name string, i int) {
	at := `"][data-index="` + strconv.Itoa(i) + `"]`
	if el := dom.Find(`#lesson-edits [data-do="` + name + at + `, #lesson-edits [data-edit="` + name + at); el.Truthy() {
		el.Call("focus")
	}
}

// typed applies a committed text of the form. The form then shows what is saved, so it
// need not be rewritten under the user's hands.
func (s *lessons) typed(e js.Value) {
	el := e.Get("target")
	text, cut := typed.Line(el.Get("value").String(), lesson.LongestWords)
	to := s.formed
	to.Steps = slices.Clone(to.Steps)
	switch dom.Data(el, "edit") {
	case "title":
		to.Title, cut = typed.Line(text, lesson.LongestTitle)
	case "lesson-caption":
		to.Steps[dom.Index(el)].Caption = text
	case "ask":
		to.Question.Text = text
	case "key":
		to.Question.Key = text
	case "goal":
		to.Question.Goal = lesson.Goal(text)
	default:
		return
	}
	if to.Question.Text == "" {
		to.Question = lesson.Question{}
	} else if to.Question.Key == "" {
		to.Question.Key = dom.Text("lesson-key")
		to.Question.Goal = lesson.Goal(dom.Text("lesson-goal"))
	}
	s.formed = to
	dom.Set(el, "value", text)
	if cut {
		s.Say(view.TextCut)
	}
	s.Do(app.EditLesson{Lesson: to})
}

// Follow says what is wrong with the question being written. Searching for an answer
// takes a moment.
func (s *lessons) Follow(m app.Model) {
	if m.Own {
		dom.Say("lesson-flaw", phrase.Flaw(&m.Lesson.Lesson, m.LessonUnits()))
	}
}

// showForm writes the open lesson into the form where it differs.
func (s *lessons) showForm(m *app.Model) {
	open := &m.Lesson.Lesson
	if open.Equal(&s.formed) && dom.ByID("lesson-edits").Get("childElementCount").Int() == len(open.Steps) {
		return
	}
	s.formed = *open
	dom.Set(dom.ByID("lesson-name"), "value", open.Title)
	dom.Set(dom.ByID("lesson-ask"), "value", open.Question.Text)
	if open.Question != (lesson.Question{}) {
		dom.ByID("lesson-key").Set("value", open.Question.Key)
		dom.ByID("lesson-goal").Set("value", string(open.Question.Goal))
	}
	list := dom.ByID("lesson-edits")
	list.Call("replaceChildren")
	for i, step := range open.Steps {
		putStep(i, step.Caption, list)
	}
}

// putStep writes the fields and buttons of a step.
func putStep(i int, caption string, list js.Value) {
	n := strconv.Itoa(i + 1)
	item := dom.Put("li", "", list)
	area := dom.Put("textarea", "", item)
	area.Set("className", "text")
	area.Set("rows", 3)
	area.Set("maxLength", lesson.LongestWords)
	area.Set("value", caption)
	area.Call("setAttribute", "aria-label", view.CaptionName(n))
	area.Get("dataset").Set("edit", "lesson-caption")
	area.Get("dataset").Set("index", i)
	bar := dom.PutBar(item)
	dom.PutButton(view.ShowButton, view.ShowName(n), "step-show", i, bar)
	dom.PutButton(view.ReplaceButton, view.ReplaceName(n), "step-shot", i, bar)
	dom.PutButton("↑", view.UpName(n), "step-up", i, bar)
	dom.PutButton("↓", view.DownName(n), "step-down", i, bar)
	dom.PutButton("×", view.DeleteStepName(n), "step-drop", i, bar)
}

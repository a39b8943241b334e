//go:build js && wasm

package main

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

// listenForm has the open one of one's own lessons edited.
func (l *teaching) listenForm() {
	for _, g := range view.Groups {
		for _, key := range g.Keys {
			if k := scenario.Find(key); k.IsNumber() {
				put("option", k.Label, byID("lesson-key")).Set("value", key)
			}
		}
	}
	dom.Listen(byID("lesson-form"), "change", l.typed)
	l.actions["lesson-add"] = func(js.Value) {
		l.edit(func(to *lesson.Lesson) {
			to.Steps = append(to.Steps, lesson.Step{Link: l.model.Scene.Format()})
		})
		l.focus("lesson-caption", len(l.formed.Steps)-1)
	}
	l.actions["step-show"] = func(el js.Value) { l.halt(index(el)) }
	l.actions["step-shot"] = func(el js.Value) {
		l.edit(func(to *lesson.Lesson) { to.Steps[index(el)].Link = l.model.Scene.Format() })
		say("the step has the shot on the bench; Undo brings the old one back")
	}
	l.actions["step-up"] = func(el js.Value) { l.move(index(el), -1, "step-up") }
	l.actions["step-down"] = func(el js.Value) { l.move(index(el), 1, "step-down") }
	l.actions["step-drop"] = func(el js.Value) {
		l.edit(func(to *lesson.Lesson) { to.Steps = slices.Delete(to.Steps, index(el), index(el)+1) })
	}
}

// edit keeps the open lesson with a change.
func (l *teaching) edit(change func(*lesson.Lesson)) {
	to := l.formed
	to.Steps = slices.Clone(to.Steps)
	change(&to)
	l.do(app.EditLesson{Lesson: to})
}

// move takes a step up or down, and the focus with it.
func (l *teaching) move(i, by int, action string) {
	to := i + by
	if to < 0 || to >= len(l.formed.Steps) {
		return
	}
	l.edit(func(made *lesson.Lesson) { made.Steps[i], made.Steps[to] = made.Steps[to], made.Steps[i] })
	l.focus(action, to)
}

// focus goes to what a step has in the form.
func (l *teaching) focus(name string, i int) {
	el := document.Call("querySelector", `#lesson-edits [data-do="`+name+`"][data-index="`+strconv.Itoa(i)+`"], #lesson-edits [data-edit="`+name+`"][data-index="`+strconv.Itoa(i)+`"]`)
	if el.Truthy() {
		el.Call("focus")
	}
}

// typed takes a text of the form once it is done. What stands in the form is
// then what is kept, so it need not be made anew under the user's hands.
func (l *teaching) typed(e js.Value) {
	el := e.Get("target")
	text, cut := typed.Line(el.Get("value").String(), lesson.LongestWords)
	to := l.formed
	to.Steps = slices.Clone(to.Steps)
	switch el.Get("dataset").Get("edit").String() {
	case "title":
		to.Title, cut = typed.Line(text, lesson.LongestTitle)
	case "lesson-caption":
		to.Steps[index(el)].Caption = text
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
		to.Question.Key = byID("lesson-key").Get("value").String()
		to.Question.Goal = lesson.Goal(byID("lesson-goal").Get("value").String())
	}
	l.formed = to
	if el.Get("value").String() != text {
		el.Set("value", text)
	}
	if cut {
		say("what did not fit was left out")
	}
	l.do(app.EditLesson{Lesson: to})
}

// follow says what is wrong with the question that is being written: an answer
// takes a moment to look for.
func (l *teaching) follow() {
	if l.model.Own {
		set(byID("lesson-flaw"), "textContent", phrase.Flaw(&l.model.Lesson.Lesson, l.model.LessonUnits()))
	}
}

// renderForm writes the open lesson into the form, where it differs.
func (l *teaching) renderForm() {
	open := &l.model.Lesson.Lesson
	if open.Equal(&l.formed) && byID("lesson-edits").Get("childElementCount").Int() == len(open.Steps) {
		return
	}
	l.formed = *open
	set(byID("lesson-name"), "value", open.Title)
	set(byID("lesson-ask"), "value", open.Question.Text)
	if open.Question != (lesson.Question{}) {
		byID("lesson-key").Set("value", open.Question.Key)
		byID("lesson-goal").Set("value", string(open.Question.Goal))
	}
	list := byID("lesson-edits")
	list.Call("replaceChildren")
	for i, s := range open.Steps {
		n := strconv.Itoa(i + 1)
		item := put("li", "", list)
		area := put("textarea", "", item)
		area.Set("className", "text")
		area.Set("rows", 3)
		area.Set("maxLength", lesson.LongestWords)
		area.Set("value", s.Caption)
		area.Call("setAttribute", "aria-label", "Caption of step "+n)
		area.Get("dataset").Set("edit", "lesson-caption")
		area.Get("dataset").Set("index", i)
		bar := put("div", "", item)
		bar.Set("className", "card-bar")
		putButton("Show", "Show step "+n, "step-show", i, bar)
		putButton("Take this shot", "Give step "+n+" the shot on the bench", "step-shot", i, bar)
		putButton("↑", "Move step "+n+" up", "step-up", i, bar)
		putButton("↓", "Move step "+n+" down", "step-down", i, bar)
		putButton("×", "Delete step "+n, "step-drop", i, bar)
	}
}

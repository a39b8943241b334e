//go:build js && wasm

package main

import (
	"strconv"
	"syscall/js"

	"pivotbench/core/lesson"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/store"
)

// teaching is the Lessons section: those that ship and one's own, and the one
// that is open.
type teaching struct {
	*page
	listed int           // the change of the records that the list shows, plus one
	said   stop          // whose words are shown
	formed lesson.Lesson // as it stands in the form
}

// A stop is what the words of an open lesson depend on.
type stop struct {
	at       int
	units    string
	revision int
}

func (l *teaching) listen() {
	l.listenForm()
	l.actions["lesson-open"] = func(el js.Value) {
		named := lesson.Shipped[index(el)]
		l.teach(app.Teach{Link: lesson.Link{Lesson: named.Lesson, Shipped: named.Name}})
	}
	l.actions["lesson-own"] = func(el js.Value) { l.teach(app.TeachOwn{Lesson: entry(l.model.Kept.Lessons, el)}) }
	l.actions["lesson-close"] = func(js.Value) { l.step(app.EndLesson{}) }
	l.actions["lesson-back"] = func(js.Value) { l.halt(l.model.Lesson.At - 1) }
	l.actions["lesson-on"] = func(js.Value) { l.halt(l.model.Lesson.At + 1) }
	l.actions["lesson-share"] = func(js.Value) {
		address, public := addressOf(l.lessonLink().Format())
		shareLink(l.model.Lesson.Lesson.Title, address, public)
	}
	l.actions["lesson-copy"] = func(js.Value) {
		address, public := addressOf(l.lessonLink().Format())
		copyLink(address, public, "save the lesson as a file")
	}
	l.actions["lesson-code"] = func(js.Value) {
		address, public := addressOf(l.lessonLink().Format())
		showCode(l.model.Lesson.Lesson.Title, address, public)
	}
	l.actions["lesson-file"] = func(js.Value) {
		save("lesson.json", "application/json", store.EncodeLesson(l.model.Lesson.Lesson))
	}
	l.actions["lesson-keep"] = func(js.Value) { l.teach(app.KeepLesson{Lesson: l.model.Lesson.Lesson, At: l.model.Lesson.At}) }
	l.actions["lesson-new"] = func(js.Value) {
		l.teach(app.KeepLesson{Lesson: lesson.Lesson{Title: "New lesson", Steps: []lesson.Step{{Link: l.model.Scene.Format()}}}})
	}
	l.actions["lesson-drop"] = func(el js.Value) {
		l.do(app.DropLesson{Lesson: entry(l.model.Kept.Lessons, el)})
		say("taken off the list; Undo brings it back")
	}
	drag := byID("lesson-drag")
	reply := func(done bool) {
		if v, err := strconv.ParseFloat(drag.Get("value").String(), 64); err == nil {
			l.do(app.Reply{Value: v, Done: done})
		}
	}
	dom.Listen(drag, "input", func(js.Value) { reply(false) })
	dom.Listen(drag, "change", func(js.Value) {
		reply(true)
		l.pushAddress()
	})
}

// offer opens the lesson of a link; it is on the list once it is kept.
func (l *teaching) offer(address string) {
	link, errs := lesson.ParseLink(address)
	l.teach(app.Teach{Link: link})
	l.open("lessons")
	var notices []string
	for _, err := range errs {
		notices = append(notices, phrase.Upper(err.Error())+".")
	}
	l.do(app.Tell{Notices: notices})
}

// teach opens a lesson.
func (l *teaching) teach(e app.Event) {
	l.said = stop{}
	l.gliding = true
	l.step(e)
	byID("lesson-title").Call("focus")
}

// halt goes to a stop of the open lesson.
func (l *teaching) halt(at int) {
	l.gliding = true
	l.step(app.Halt{At: at})
}

// lessonLink is that of the open lesson, from its beginning.
func (l *teaching) lessonLink() lesson.Link {
	link := l.model.Lesson
	link.At = 0
	return link
}

func (l *teaching) render(*shot.Result) {
	l.renderList()
	open := &l.model.Lesson.Lesson
	stops := open.Stops()
	byID("lesson").Set("hidden", stops == 0)
	byID("lesson-list").Set("hidden", stops > 0)
	if stops == 0 {
		return
	}
	now := stop{l.model.Lesson.At, l.model.LessonUnits(), l.model.Changes + 1}
	if l.said != now {
		l.said = now
		l.renderStop()
	}
	byID("lesson-form").Set("hidden", !l.model.Own)
	if l.model.Own {
		l.renderForm()
	}
	asks := open.Asks(l.model.Lesson.At)
	byID("lesson-reply").Set("hidden", !asks)
	if !asks {
		set(byID("lesson-attempt"), "textContent", "")
		return
	}
	v, _ := scenario.Find(open.Question.Key).Number(&l.model.Scene)
	byID("lesson-drag").Set("value", v)
	value := phrase.Value(&open.Question, &l.model.Scene, v)
	set(byID("lesson-value"), "textContent", value)
	set(byID("lesson-drag"), "ariaValueText", value)
	said, _ := phrase.Attempt(&open.Question, &l.model.Scene)
	set(byID("lesson-attempt"), "textContent", said)
}

// renderStop writes what is said at the stop, and where that is.
func (l *teaching) renderStop() {
	open, at := &l.model.Lesson.Lesson, l.model.Lesson.At
	stops := open.Stops()
	set(byID("lesson-title"), "textContent", open.Title)
	set(byID("lesson-place"), "textContent", strconv.Itoa(at+1)+" of "+strconv.Itoa(stops))
	set(byID("lesson-words"), "textContent", phrase.Stop(open, at, l.said.units))
	doer("lesson-back").Set("disabled", at == 0)
	on := doer("lesson-on")
	on.Set("disabled", at == stops-1)
	label := "Next ›"
	if open.Asks(at) {
		label = "Show the answer"
	}
	set(on, "textContent", label)
	wall := l.model.Lesson
	wall.Units = l.said.units
	byID("lesson-board").Set("href", boardPage()+"#"+wall.Format())
	doer("lesson-keep").Set("hidden", l.model.Own)
	if open.Asks(at) {
		k := scenario.Find(open.Question.Key)
		set(byID("lesson-control"), "textContent", k.Label)
		drag := byID("lesson-drag")
		drag.Set("min", k.Min)
		drag.Set("max", k.Max)
		drag.Set("step", k.Grain(l.model.Scene.Units))
	}
}

// renderList writes the lessons there are.
func (l *teaching) renderList() {
	if l.listed == l.model.Changes+1 {
		return
	}
	first := l.listed == 0
	l.listed = l.model.Changes + 1
	if first {
		for i, named := range lesson.Shipped {
			l.putLesson(byID("lessons-shipped"), i, &named.Lesson, "lesson-open")
		}
	}
	own := byID("lessons-own")
	own.Call("replaceChildren")
	for i := range l.model.Kept.Lessons {
		item := l.putLesson(own, i, &l.model.Kept.Lessons[i], "lesson-own")
		putButton("×", "Take "+titled(&l.model.Kept.Lessons[i])+" off the list", "lesson-drop", i, item)
	}
	byID("no-lessons").Set("hidden", len(l.model.Kept.Lessons) > 0)
}

func (l *teaching) putLesson(list js.Value, i int, it *lesson.Lesson, action string) js.Value {
	item := put("li", "", list)
	put("strong", titled(it), item)
	steps := phrase.Count(len(it.Steps), "step", "steps")
	if it.Question != (lesson.Question{}) {
		steps += " and a question"
	}
	put("span", steps, item)
	putButton("Open", "Open "+titled(it), action, i, item)
	return item
}

func titled(l *lesson.Lesson) string {
	if l.Title == "" {
		return "untitled"
	}
	return l.Title
}

//go:build js && wasm

package main

import (
	"slices"
	"strconv"
	"syscall/js"

	"pivotbench/core/scenario"
	"pivotbench/wasm/app"
	"pivotbench/wasm/kept"
	"pivotbench/wasm/show"
)

// none is the place in the log of no try.
const none = -1

// A log is the list of tries as it is shown.
type log struct {
	shown   bool
	tries   []kept.Try
	editing int    // the try being corrected, or none
	back    string // the shot that was on the bench before
}

// renderTries writes the list when it has changed.
func (m *measuring) renderTries() (changed bool) {
	tries := m.model.Kept.Tries
	if m.tries.shown && slices.Equal(tries, m.tries.tries) {
		return false
	}
	m.tries.shown, m.tries.tries, m.tries.editing = true, tries, none
	body := document.Call("querySelector", "#tries tbody")
	body.Call("replaceChildren")
	for i := len(tries) - 1; i >= 0; i-- {
		m.putTry(body, i, tries[i])
	}
	byID("tries").Set("hidden", len(tries) == 0)
	m.renderEditing()
	return true
}

// putTry writes a row of the list.
func (m *measuring) putTry(body js.Value, i int, l kept.Try) {
	s, _ := scenario.Parse(l.Link)
	s.Units = m.model.Scene.Units
	number := strconv.Itoa(i + 1)
	row := put("tr", "", body)
	row.Get("dataset").Set("try", i)
	put("td", number, row)
	put("td", scenario.Find("bridge").Shown(&s), row)
	put("td", scenario.Find("side").Shown(&s), row)
	put("td", scenario.Find("speed").Shown(&s), row)
	pick := put("select", "", put("td", "", row))
	pick.Call("setAttribute", "aria-label", "Result of try "+number)
	pick.Get("dataset").Set("index", i)
	for _, o := range kept.Outcomes {
		put("option", o, pick)
	}
	pick.Set("value", l.Outcome)
	buttons := put("td", "", row)
	putButton("Edit", "Edit try "+number, "edit-try", i, buttons)
	putButton("×", "Delete try "+number, "delete-try", i, buttons)
}

// note notes the try on the bench down, or puts it in place of the one that is
// being corrected.
func (m *measuring) note(outcome string) {
	at := m.tries.editing
	if at == none {
		m.do(app.AddTry{Outcome: outcome, When: moment()})
		if tries := m.model.Kept.Tries; len(m.model.Notices) == 0 && len(tries) > 0 {
			say(show.Noted(len(tries)-1, tries[len(tries)-1], m.model.Scene.Units))
		}
		return
	}
	back := m.tries.back
	m.do(app.CorrectTry{Index: at, Try: kept.Try{
		Link: m.model.Scene.Format(), Outcome: outcome, When: m.model.Kept.Tries[at].When,
	}})
	if len(m.model.Notices) == 0 {
		m.tries.editing = none
		m.step(app.Open{Link: back})
		m.renderEditing()
		say("try " + strconv.Itoa(at+1) + " corrected")
	}
}

// changeOutcome corrects a result in the list itself.
func (m *measuring) changeOutcome(pick js.Value) {
	i := index(pick)
	if i < 0 || i >= len(m.model.Kept.Tries) {
		return
	}
	try := m.model.Kept.Tries[i]
	try.Outcome = pick.Get("value").String()
	m.do(app.CorrectTry{Index: i, Try: try})
}

// edit puts a try on the bench, to be corrected with the controls.
func (m *measuring) edit(i int) {
	if m.tries.editing == none {
		m.tries.back = m.model.Scene.Format()
	}
	m.tries.editing = i
	m.step(app.Open{Link: m.model.Kept.Tries[i].Link})
	m.renderEditing()
	document.Call("querySelector", ".outcomes").Call("scrollIntoView", map[string]any{"block": "center"})
	document.Call("querySelector", ".outcomes button").Call("focus", map[string]any{"preventScroll": true})
}

// leave leaves the try that was to be corrected as it is.
func (m *measuring) leave() {
	m.tries.editing = none
	m.step(app.Open{Link: m.tries.back})
	m.renderEditing()
}

// renderEditing says which try the buttons are about.
func (m *measuring) renderEditing() {
	box := byID("editing")
	box.Set("hidden", m.tries.editing == none)
	set(box.Call("querySelector", "span"), "textContent",
		"Correcting try "+strconv.Itoa(m.tries.editing+1)+": set it below as it was played, then tap its result.")
}

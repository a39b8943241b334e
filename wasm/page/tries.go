//go:build js && wasm

package main

import (
	"slices"
	"strconv"
	"syscall/js"

	"pivotbench/core/scenario"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// A log is the list of tries as it is shown.
type log struct {
	shown bool
	tries []store.Try
}

// renderTries writes the list when it has changed.
func (m *measuring) renderTries() (changed bool) {
	tries := m.model.Kept.Tries
	if m.tries.shown && slices.Equal(tries, m.tries.tries) {
		return false
	}
	m.tries.shown, m.tries.tries = true, tries
	body := document.Call("querySelector", "#tries tbody")
	body.Call("replaceChildren")
	for i := len(tries) - 1; i >= 0; i-- {
		m.putTry(body, i, tries[i])
	}
	byID("tries").Set("hidden", len(tries) == 0)
	return true
}

// putTry writes a row of the list.
func (m *measuring) putTry(body js.Value, i int, l store.Try) {
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
	for _, o := range store.Outcomes {
		put("option", o, pick)
	}
	pick.Set("value", l.Outcome)
	buttons := put("td", "", row)
	putButton("Edit", "Edit try "+number, "edit-try", i, buttons)
	putButton("×", "Delete try "+number, "delete-try", i, buttons)
}

// note notes the try on the bench, or puts it in place of the one that is being
// corrected.
func (m *measuring) note(outcome string) {
	correcting := m.model.Correction.On
	before := m.model.Changes
	m.step(app.Note{Outcome: outcome, When: moment()})
	tries := m.model.Kept.Tries
	switch {
	case m.model.Changes == before:
	case correcting:
		say("corrected")
	default:
		say(view.Noted(len(tries)-1, tries[len(tries)-1], m.model.Scene.Units))
	}
}

// changeOutcome corrects a result in the list itself.
func (m *measuring) changeOutcome(pick js.Value) {
	try := entry(m.tries.tries, pick)
	now := try
	now.Outcome = pick.Get("value").String()
	m.do(app.ChangeTry{Was: try, Try: now})
}

// edit puts a try on the bench, to be corrected with the controls.
func (m *measuring) edit(try store.Try) {
	m.step(app.EditTry{Try: try})
	if !m.model.Correction.On {
		return
	}
	document.Call("querySelector", ".outcomes").Call("scrollIntoView", map[string]any{"block": "center"})
	document.Call("querySelector", ".outcomes button").Call("focus", map[string]any{"preventScroll": true})
}

// renderCorrection says which try the buttons are about.
func (m *measuring) renderCorrection() {
	c := m.model.Correction
	box := byID("editing")
	box.Set("hidden", !c.On)
	if c.On {
		set(box.Call("querySelector", "span"), "textContent", "Correcting try "+
			strconv.Itoa(slices.Index(m.model.Kept.Tries, c.Try)+1)+": set it below as it was played, then tap its result.")
	}
}

//go:build js && wasm

package section

import (
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/view"
)

// A form edits a record. The ids of its elements begin with its name: cue-form, and so on.
type form struct {
	name  string
	shown any // the state of the model that it shows; nil before the first
}

// listen calls save when the form is submitted.
func (f *form) listen(save func()) {
	dom.Listen(dom.ByID(f.name+"-form"), "submit", func(e js.Value) {
		e.Call("preventDefault")
		save()
		dom.HoldFocus()
	})
}

// open moves the focus to the form, which has just been opened.
func (f *form) open() {
	dom.InSight(dom.ByID(f.name + "-form"))
	dom.ByID(f.name + "-name-field").Call("focus")
}

// discard has the next show write the form anew, without what was typed.
func (f *form) discard() { f.shown = nil }

// show writes the form when the state of the model has changed. It leaves alone what is
// being typed.
func (f *form) show(state any, on bool, title string, fields []view.CueField) {
	if f.shown == state {
		return
	}
	f.shown = state
	dom.Hide(f.name+"-form", !on)
	dom.List(f.name+"-faults", nil)
	body := dom.ByID(f.name + "-fields")
	body.Call("replaceChildren")
	if !on {
		return
	}
	dom.Say(f.name+"-form-title", title)
	for _, field := range fields {
		f.put(field, body)
	}
}

// put writes a field with its label.
func (f *form) put(of view.CueField, parent js.Value) {
	row := dom.Put("div", "", parent)
	row.Set("className", "lines")
	label := dom.Put("label", of.LabelWords(), row)
	tag := "input"
	switch {
	case of.Choices != nil:
		tag = "select"
	case of.Long:
		tag = "textarea"
	}
	field := dom.Put(tag, "", row)
	if of.Number {
		field.Set("inputMode", "decimal")
		field.Get("dataset").Set("unit", of.Unit)
	}
	if of.Date {
		field.Set("type", "date") // shown and typed the way the device writes dates
	}
	for _, choice := range of.Choices {
		dom.Put("option", choice[1], field).Set("value", choice[0])
	}
	field.Set("className", "text")
	field.Set("id", f.name+"-"+of.Key+"-field")
	field.Get("dataset").Set("field", of.Key)
	field.Set("value", of.Text)
	label.Set("htmlFor", f.name+"-"+of.Key+"-field")
}

// typed returns the texts of the fields by key.
func (f *form) typed() map[string]string {
	typed := map[string]string{}
	dom.Each("#"+f.name+"-fields [data-field]", func(el js.Value) {
		typed[dom.Data(el, "field")] = el.Get("value").String()
	})
	return typed
}

// save saves a record by an event. If that leaves the form open, it says why there, where
// the user is, and not above the section.
func (f *form) save(h Host, e app.Event, open func(app.Model) bool) {
	h.Do(e)
	if m := h.Model(); open(m) {
		f.refuse(m.Notices)
		h.Do(app.Dismiss{})
	}
}

// refuse says what is wrong with what was typed. It reports whether anything is.
func (f *form) refuse(faults []string) bool {
	dom.List(f.name+"-faults", faults)
	return faults != nil
}

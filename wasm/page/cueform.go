//go:build js && wasm

package main

import (
	"strings"
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// listenForm has records edited, and typed in.
func (c *cues) listenForm() {
	c.actions["edit-cue"] = func(el js.Value) { c.openForm(app.OpenCueForm{Cue: entry(c.model.Kept.Cues, el)}) }
	c.actions["new-cue"] = func(js.Value) {
		c.openForm(app.OpenCueForm{Cue: store.CueRecord{At: "0.5", How: "typed", Link: store.GearLink(&c.model.Scene), When: moment()}, New: true})
	}
	c.actions["close-cue"] = func(js.Value) { c.do(app.CloseCueForm{}) }
	dom.Listen(byID("cue-form"), "submit", func(e js.Value) {
		e.Call("preventDefault")
		c.saveForm()
	})
}

// openForm opens the form, and has what is typed go there.
func (c *cues) openForm(e app.OpenCueForm) {
	c.form = app.CueForm{} // what was typed before is let go of
	c.do(e)
	if !c.model.CueForm.On {
		return
	}
	byID("cue-form").Call("scrollIntoView", map[string]any{"block": "nearest"})
	byID("cue-name-field").Call("focus")
}

// renderForm writes the form when another record is edited: what is being typed
// stays.
func (c *cues) renderForm() {
	now := c.model.CueForm
	if c.form == now {
		return
	}
	c.form = now
	byID("cue-form").Set("hidden", !now.On)
	byID("cue-faults").Call("replaceChildren")
	fields := byID("cue-fields")
	fields.Call("replaceChildren")
	if !now.On {
		return
	}
	title := "Edit the record"
	if now.New {
		title = "A new record"
	}
	set(byID("cue-form-title"), "textContent", title)
	for _, f := range view.CueForm(&now.Cue, now.Units) {
		putField(f, fields)
	}
}

// putField writes a field with its label.
func putField(f view.CueField, parent js.Value) {
	row := put("div", "", parent)
	row.Set("className", "lines")
	words := f.Label
	if f.Unit != "" {
		words += ", " + f.Unit
	}
	label := put("label", words, row)
	tag := "input"
	switch {
	case f.Choices != nil:
		tag = "select"
	case f.Long:
		tag = "textarea"
	}
	field := put(tag, "", row)
	if f.Number {
		field.Set("inputMode", "decimal")
		field.Get("dataset").Set("unit", f.Unit)
	}
	if f.Date {
		field.Set("type", "date") // shown and typed as the device writes dates
	}
	for _, choice := range f.Choices {
		put("option", choice[1], field).Set("value", choice[0])
	}
	field.Set("className", "text")
	field.Set("id", "cue-"+f.Key+"-field")
	field.Get("dataset").Set("field", f.Key)
	field.Set("value", f.Text)
	label.Set("htmlFor", "cue-"+f.Key+"-field")
}

// saveForm takes the form, or says what is wrong with it.
func (c *cues) saveForm() {
	typed := map[string]string{}
	each("#cue-fields [data-field]", func(el js.Value) {
		typed[el.Get("dataset").Get("field").String()] = el.Get("value").String()
	})
	cue, faults := view.ReadCueForm(c.model.CueForm.Cue, typed, c.model.CueForm.Units)
	list := byID("cue-faults")
	list.Call("replaceChildren")
	for _, f := range faults {
		put("li", f, list)
	}
	if faults == nil {
		c.do(app.SaveCueForm{Cue: cue})
		c.keyboard.hold()
	}
}

// listenOffer keeps a cue that a link brought, when it is wanted.
func (c *cues) listenOffer() {
	c.actions["keep-offer"] = func(js.Value) {
		byID("cue-offer").Set("hidden", true)
		c.saveCue(c.offered)
	}
	c.actions["drop-offer"] = func(js.Value) { byID("cue-offer").Set("hidden", true) }
}

// offer shows the cue that a link brings. Nothing is kept until it is wanted.
func (c *cues) offer(address string) {
	cue, err := store.ReadCue(address)
	if err != nil {
		c.do(app.Tell{Notices: strings.Split(err.Error(), "\n")})
		return
	}
	c.offered = cue
	name := cue.Name
	if name == "" {
		name = "a cue without a name"
	}
	set(byID("cue-offer-words"), "textContent", "The link brings "+name+": "+view.CueRecord(cue, c.model.Scene.Units)+".")
	byID("cue-offer").Set("hidden", false)
	c.open("cues")
}

//go:build js && wasm

package main

import (
	"strings"
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/kept"
	"pivotbench/wasm/show"
)

// listenForm has records edited, and typed in.
func (c *cues) listenForm() {
	c.actions["edit-cue"] = func(el js.Value) {
		i := index(el)
		c.openForm(i, c.model.Kept.Cues[i], "Edit the record")
	}
	c.actions["new-cue"] = func(js.Value) {
		c.openForm(-1, kept.Cue{At: "0.5", How: "typed", Link: kept.GearLink(&c.model.Scene), When: moment()}, "A new record")
	}
	c.actions["close-cue"] = func(js.Value) { byID("cue-form").Set("hidden", true) }
	dom.Listen(byID("cue-form"), "submit", func(e js.Value) {
		e.Call("preventDefault")
		c.saveForm()
	})
}

// openForm shows a record to be edited; -1: a new one.
func (c *cues) openForm(i int, cue kept.Cue, title string) {
	c.editing, c.edited = i, cue
	set(byID("cue-form-title"), "textContent", title)
	byID("cue-faults").Call("replaceChildren")
	fields := byID("cue-fields")
	fields.Call("replaceChildren")
	for _, f := range show.CueForm(&cue, c.model.Scene.Units) {
		putField(f, fields)
	}
	form := byID("cue-form")
	form.Set("hidden", false)
	form.Call("scrollIntoView", map[string]any{"block": "nearest"})
	byID("cue-name-field").Call("focus")
}

// putField writes a field with its label.
func putField(f show.CueField, parent js.Value) {
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
	cue, faults := show.ReadCueForm(c.edited, typed, c.model.Scene.Units)
	list := byID("cue-faults")
	list.Call("replaceChildren")
	for _, f := range faults {
		put("li", f, list)
	}
	if faults != nil {
		return
	}
	byID("cue-form").Set("hidden", true)
	c.keyboard.hold()
	if c.editing < 0 {
		c.saveCue(cue)
	} else {
		c.do(app.ChangeCue{Index: c.editing, Cue: cue})
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
	cue, err := kept.ReadCue(address)
	if err != nil {
		c.do(app.Tell{Notices: strings.Split(err.Error(), "\n")})
		return
	}
	c.offered = cue
	name := cue.Name
	if name == "" {
		name = "a cue without a name"
	}
	set(byID("cue-offer-words"), "textContent", "The link brings "+name+": "+show.CueRecord(cue, c.model.Scene.Units)+".")
	byID("cue-offer").Set("hidden", false)
	c.open("cues")
}

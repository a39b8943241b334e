//go:build js && wasm

package section

import (
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// listenForm handles adding and editing of records.
func (c *cues) listenForm() {
	dom.On("edit-cue", func(el js.Value) {
		c.openForm(app.OpenCueForm{Cue: dom.Entry(c.Model().Kept.Cues, el)})
	})
	dom.On("new-cue", func(js.Value) {
		m := c.Model()
		c.openForm(app.OpenCueForm{Cue: store.CueRecord{At: "0.5", How: "typed", Link: store.GearLink(&m.Scene), When: device.Moment()}, New: true})
	})
	dom.On("close-cue", func(js.Value) { c.Do(app.CloseCueForm{}) })
	dom.Listen(dom.ByID("cue-form"), "submit", func(e js.Value) {
		e.Call("preventDefault")
		c.saveForm()
		dom.HoldFocus()
	})
}

// openForm opens the form and moves the focus there.
func (c *cues) openForm(e app.OpenCueForm) {
	c.form = app.CueForm{} // discards what was typed before
	c.Do(e)
	if c.Model().CueForm.On {
		dom.InSight(dom.ByID("cue-form"))
		dom.ByID("cue-name-field").Call("focus")
	}
}

// showForm writes the form when another record is edited. It leaves alone what is being
// typed.
func (c *cues) showForm(m *app.Model) {
	now := m.CueForm
	if c.form == now {
		return
	}
	c.form = now
	dom.Hide("cue-form", !now.On)
	dom.List("cue-faults", nil)
	fields := dom.ByID("cue-fields")
	fields.Call("replaceChildren")
	if !now.On {
		return
	}
	dom.Say("cue-form-title", view.CueFormTitle(now.New))
	for _, f := range view.CueForm(&now.Cue, now.Units) {
		putField("cue", f, fields)
	}
}

// putField writes a field of a form with its label. form begins the ids of its fields.
func putField(form string, f view.CueField, parent js.Value) {
	row := dom.Put("div", "", parent)
	row.Set("className", "lines")
	label := dom.Put("label", f.LabelWords(), row)
	tag := "input"
	switch {
	case f.Choices != nil:
		tag = "select"
	case f.Long:
		tag = "textarea"
	}
	field := dom.Put(tag, "", row)
	if f.Number {
		field.Set("inputMode", "decimal")
		field.Get("dataset").Set("unit", f.Unit)
	}
	if f.Date {
		field.Set("type", "date") // shown and typed the way the device writes dates
	}
	for _, choice := range f.Choices {
		dom.Put("option", choice[1], field).Set("value", choice[0])
	}
	field.Set("className", "text")
	field.Set("id", form+"-"+f.Key+"-field")
	field.Get("dataset").Set("field", f.Key)
	field.Set("value", f.Text)
	label.Set("htmlFor", form+"-"+f.Key+"-field")
}

// saveForm saves the form, or says what is wrong with it.
func (c *cues) saveForm() {
	typed := map[string]string{}
	dom.Each("#cue-fields [data-field]", func(el js.Value) {
		typed[dom.Data(el, "field")] = el.Get("value").String()
	})
	form := c.Model().CueForm
	cue, faults := view.ReadCueForm(form.Cue, typed, form.Units)
	dom.List("cue-faults", faults)
	if faults == nil {
		c.Do(app.SaveCueForm{Cue: cue})
	}
}

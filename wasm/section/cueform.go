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
	c.form.listen(c.saveForm)
}

// openForm opens the form and moves the focus there.
func (c *cues) openForm(e app.OpenCueForm) {
	c.form.discard()
	c.Do(e)
	if c.Model().CueForm.On {
		c.form.open()
	}
}

func (c *cues) showForm(m *app.Model) {
	now := m.CueForm
	c.form.show(now, now.On, view.CueFormTitle(now.New), view.CueForm(&now.Cue, now.Units))
}

// saveForm saves the form, or says what is wrong with it.
func (c *cues) saveForm() {
	form := c.Model().CueForm
	cue, faults := view.ReadCueForm(form.Cue, c.form.typed(), form.Units)
	if !c.form.refuse(faults) {
		c.form.save(c.Host, app.SaveCueForm{Cue: cue}, func(m app.Model) bool { return m.CueForm.On })
	}
}

//go:build js && wasm

package section

import (
	"strconv"
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// cues is the Cues section: the list, its records, and the comparison.
type cues struct {
	Host
	listed  []view.ListedCue
	of      int    // the change of the records that listed belongs to, plus one
	shown   string // the state that the list shows
	form    form
	compare comparison
}

func (c *cues) Listen(h Host) {
	c.Host, c.form.name = h, "cue"
	dom.On("use-cue", func(el js.Value) { c.use(dom.Index(el)) })
	dom.On("open-cue", func(el js.Value) { h.Do(app.ShowRecords{Cue: c.listed[dom.Index(el)].ID()}) })
	dom.On("drop-cue", func(el js.Value) {
		h.Do(app.Drop[store.CueRecord]{Record: dom.Entry(h.Model().Kept.Cues, el)})
		if len(h.Model().Notices) == 0 {
			h.Say(view.Deleted)
		}
	})
	dom.On("link-cue", func(el js.Value) {
		record := dom.Entry(h.Model().Kept.Cues, el)
		link{Host: h, fragment: record.Fragment(), otherwise: view.ExportCues}.copy()
	})
	dom.On("type-cue", func(js.Value) {
		m := h.Model()
		saveCue(h, app.SaveCue{Cue: store.Typed(&m.Scene, device.Moment())})
	})
	dom.On("keep-offer", func(js.Value) { saveCue(h, app.KeepOffer{}) })
	dom.On("drop-offer", func(js.Value) { h.Do(app.DropOffer{}) })
	dom.Listen(dom.ByID("cues"), "change", func(e js.Value) { c.tick(dom.Index(e.Get("target"))) })
	dom.Listen(dom.ByID("cue-find"), "input", func(js.Value) { c.Show(h.Model()) })
	c.listenForm()
	c.compare.listen(h)
}

// saveCue performs an event that adds a record to the list, and confirms it.
func saveCue(h Host, e app.Event) {
	before := h.Model().Changes
	h.Do(e)
	if m := h.Model(); m.Changes > before { // otherwise a notice says why not
		h.Say(view.SavedWords(&m))
	}
}

// ready lists the cues, once for each change of the records.
func (c *cues) ready(m *app.Model) {
	if c.of != m.Changes+1 {
		c.of = m.Changes + 1
		c.listed = view.ListCues(m.Kept.Cues)
	}
}

// tick adds a cue to the comparison, or removes it.
func (c *cues) tick(i int) {
	if i < 0 || i >= len(c.listed) {
		return
	}
	m := c.Model()
	beside := view.Ticked(&m.Scene, &c.listed[i])
	if len(beside) > len(m.Scene.More) {
		c.Say(view.CuesFull)
		c.shown = "" // redraws the checkbox, which must not stay ticked
		c.Show(m)
		return
	}
	c.Do(app.Compare{Cues: beside})
}

// use makes a cue the current one.
func (c *cues) use(i int) {
	m, cue := c.Model(), &c.listed[i]
	c.Do(app.UseCue{Cue: cue.On(&m.Scene), TipWidth: cue.Gear.TipWidth, Chalk: cue.Gear.Chalk, Beside: view.Used(&m.Scene, c.listed, cue)})
	c.Say(view.CurrentCueWords(cue.Title()))
}

func (c *cues) Show(m app.Model) {
	c.ready(&m)
	c.showForm(&m)
	dom.Hide("cue-offer", !m.Offer.On)
	if m.Offer.On {
		dom.Say("cue-offer-words", view.OfferWords(&m))
	}
	find := dom.Text("cue-find")
	now := strconv.Itoa(c.of) + m.Scene.Format() + "\n" + m.OpenedCue + "\n" + find
	if now == c.shown {
		return
	}
	c.shown = now
	rows := view.CueListOf(&m, c.listed, find, device.Day)
	list := dom.ByID("cues")
	list.Call("replaceChildren")
	for _, row := range rows.Rows {
		putCue(row, list)
	}
	dom.Say("cues-note", rows.Note)
	dom.Hide("cue-finder", !rows.Finder)
	dom.Hide("no-cues", !rows.None)
}

func (c *cues) Follow(m app.Model) {
	c.ready(&m)
	c.compare.follow(&m, c.listed, c.of)
}

// putCue writes a cue of the list.
func putCue(row view.CueRow, list js.Value) {
	item := dom.Put("li", "", list)
	hold := dom.Put("label", "", item)
	hold.Set("className", "tick")
	tick := dom.Put("input", "", hold)
	id := strconv.Itoa(row.Index)
	tick.Set("type", "checkbox")
	tick.Set("id", "cue-tick-"+id)
	tick.Get("dataset").Set("index", row.Index)
	tick.Call("setAttribute", "aria-label", row.CompareName())
	tick.Set("checked", row.Ticked)
	tick.Set("disabled", row.Bench || !row.Can)
	dom.Put("strong", row.Title, item)
	dom.Put("span", row.Line, item)
	if row.Bench {
		dom.Put("em", view.CurrentCue, item)
	} else {
		dom.PutButton(view.UseButton, view.UseName(row.Title), "use-cue", row.Index, item).Set("disabled", !row.Can)
	}
	more := dom.PutButton("…", row.RecordsName(), "open-cue", row.Index, item)
	more.Set("id", "cue-open-"+id)
	more.Call("setAttribute", "aria-expanded", row.Open)
	if row.Open {
		putRecords(row.Records, item)
	}
	if row.Change != "" {
		dom.Put("p", row.Change, item)
	}
}

// putRecords writes the records of a cue.
func putRecords(rows []view.RecordRow, item js.Value) {
	list := dom.Put("ul", "", item)
	for _, r := range rows {
		row := dom.Put("li", "", list)
		dom.Put("span", r.Day+": "+r.Line, row)
		if r.Notes != "" {
			dom.Put("span", r.Notes, row)
		}
		bar := dom.PutBar(row)
		dom.PutButton(view.EditButton, r.EditName(), "edit-cue", r.Index, bar)
		dom.PutButton(view.CopyLinkButton, r.LinkName(), "link-cue", r.Index, bar)
		dom.PutButton(view.DeleteButton, r.DeleteName(), "drop-cue", r.Index, bar)
	}
}

//go:build js && wasm

package main

import (
	"strconv"
	"strings"
	"syscall/js"

	"pivotbench/core/shot"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// mostListed is how many cues the list shows: with more, one finds by name.
const mostListed = 40

// cues is the Cues section: the rack, its records, and cues compared.
type cues struct {
	*page
	rack    []view.ListedCue
	racked  int    // the change of the records that rack is of, plus one
	opened  string // the cue whose records are in sight, by its cueID
	offered store.CueRecord
	form    app.CueForm // as it is written
	listed  string      // what the list shows
	entries []view.Entry
	shown   string // what the comparison shows
}

func (c *cues) listen() {
	c.actions["use-cue"] = func(el js.Value) { c.use(index(el)) }
	c.actions["open-cue"] = func(el js.Value) {
		id := cueID(&c.rack[index(el)])
		if c.opened == id {
			id = ""
		}
		c.opened = id
		c.render(nil)
	}
	c.actions["drop-cue"] = func(el js.Value) {
		c.do(app.DropCue{Cue: entry(c.model.Kept.Cues, el)})
		if len(c.model.Notices) == 0 {
			say("taken off the list; Undo brings it back")
		}
	}
	c.actions["link-cue"] = func(el js.Value) {
		record := entry(c.model.Kept.Cues, el)
		address, public := addressOf(record.Fragment())
		copyLink(address, public, "export the cues instead")
	}
	c.actions["type-cue"] = func(js.Value) { c.saveCue(store.Typed(&c.model.Scene, moment())) }
	dom.Listen(byID("cues"), "change", func(e js.Value) { c.tick(index(e.Get("target"))) })
	dom.Listen(byID("cue-find"), "input", func(js.Value) { c.render(nil) })
	for _, id := range []string{"switch-from", "switch-to"} {
		dom.Listen(byID(id), "change", func(js.Value) { c.renderSwitch() })
	}
	c.listenForm()
	c.listenOffer()
}

// saveCue puts a record on the list.
func (p *page) saveCue(c store.CueRecord) {
	before := p.model.Changes
	p.do(app.SaveCue{Cue: c})
	if p.model.Changes == before {
		return // and why is said
	}
	words := "saved to the cues"
	for _, cue := range view.ListCues(p.model.Kept.Cues) {
		if n := len(cue.Records); n > 1 && cue.Records[n-1] == len(p.model.Kept.Cues)-1 {
			words = "saved: there are " + strconv.Itoa(n) + " records of " + cue.Name + " now"
		}
	}
	say(words)
}

// ready puts the records together, once for each change.
func (c *cues) ready() {
	if c.racked != c.model.Changes+1 {
		c.racked = c.model.Changes + 1
		c.rack = view.ListCues(c.model.Kept.Cues)
	}
}

// cueID tells cues of the list apart, those without a name too.
func cueID(cue *view.ListedCue) string {
	if cue.Key == "" {
		return "#" + strconv.Itoa(cue.Records[0])
	}
	return cue.Key
}

// tick puts a cue into the comparison, or takes it out.
func (c *cues) tick(i int) {
	if i < 0 || i >= len(c.rack) {
		return
	}
	s := &c.model.Scene
	beside := view.Ticked(s, &c.rack[i])
	if len(beside) > len(s.More) {
		say("six cues at most: take one out first")
		c.listed = ""
		c.render(nil)
		return
	}
	c.step(app.Compare{Cues: beside})
}

// use puts a cue on the bench.
func (c *cues) use(i int) {
	s, cue := &c.model.Scene, &c.rack[i]
	c.step(app.UseCue{Cue: cue.On(s), TipWidth: cue.Gear.TipWidth, Chalk: cue.Gear.Chalk, Beside: view.Used(s, c.rack, cue)})
	say(cue.Title() + " is on the bench")
}

func (c *cues) render(*shot.Result) {
	c.ready()
	c.renderForm()
	find := byID("cue-find").Get("value").String()
	now := strconv.Itoa(c.racked) + c.model.Scene.Format() + "\n" + c.opened + "\n" + find
	if now == c.listed {
		return
	}
	c.listed = now
	list := byID("cues")
	list.Call("replaceChildren")
	found, listed := 0, 0
	for i := range c.rack {
		if !strings.Contains(c.rack[i].Key, strings.ToLower(strings.TrimSpace(find))) {
			continue
		}
		found++
		if listed < mostListed {
			listed++
			c.putCue(i, list)
		}
	}
	note := ""
	switch {
	case found > listed:
		note = strconv.Itoa(found-listed) + " more: type part of a name to find them."
	case len(c.rack) > 0:
		note = "Ticked cues are compared with the one on the bench. Records of one name are measurements of one cue: rename one to keep it apart."
	}
	set(byID("cues-note"), "textContent", note)
	byID("cue-finder").Set("hidden", len(c.rack) <= mostListed/4)
	byID("no-cues").Set("hidden", len(c.rack) > 0)
}

// putCue writes a cue of the rack.
func (c *cues) putCue(i int, list js.Value) {
	cue, records := &c.rack[i], c.model.Kept.Cues
	item := put("li", "", list)
	hold := put("label", "", item)
	hold.Set("className", "tick")
	tick := put("input", "", hold)
	id := strconv.Itoa(i)
	tick.Set("type", "checkbox")
	tick.Set("id", "cue-tick-"+id)
	tick.Get("dataset").Set("index", i)
	tick.Call("setAttribute", "aria-label", "Compare "+cue.Title())
	bench := cue.Err == nil && cue.OnBench(&c.model.Scene)
	tick.Set("checked", bench || cue.Err == nil && cue.InComparison(&c.model.Scene) >= 0)
	tick.Set("disabled", bench || cue.Err != nil)
	put("strong", cue.Title(), item)
	put("span", view.CueLine(cue, records, c.model.Scene.Units, day), item)
	if bench {
		put("em", "on the bench", item)
	} else {
		putButton("Use", "Use "+cue.Title(), "use-cue", i, item).Set("disabled", cue.Err != nil)
	}
	more := putButton("…", "Records of "+cue.Title(), "open-cue", i, item)
	more.Set("id", "cue-open-"+id)
	open := c.opened == cueID(cue)
	more.Call("setAttribute", "aria-expanded", open)
	if open {
		c.putRecords(cue, records, item)
	}
	if words := view.ChangeWords(cue, records, day); words != "" {
		put("p", words, item)
	}
}

// putRecords writes the records of a cue.
func (c *cues) putRecords(cue *view.ListedCue, records []store.CueRecord, item js.Value) {
	list := put("ul", "", item)
	for _, i := range cue.Records {
		r := records[i]
		row := put("li", "", list)
		put("span", day(r.When)+": "+view.CueRecord(r, c.model.Scene.Units), row)
		if notes := view.CueNotes(&r); notes != "" {
			put("span", notes, row)
		}
		bar := put("div", "", row)
		bar.Set("className", "card-bar")
		putButton("Edit", "Edit the record of "+day(r.When), "edit-cue", i, bar)
		putButton("Copy link", "Copy a link to the record of "+day(r.When), "link-cue", i, bar)
		putButton("Delete", "Delete the record of "+day(r.When), "drop-cue", i, bar)
	}
}

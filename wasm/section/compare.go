//go:build js && wasm

package section

import (
	"strconv"
	"strings"
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/sheet"
	"pivotbench/wasm/view"
)

// comparison is the part of the Cues section that compares the chosen cues.
type comparison struct {
	Host
	entries []view.Entry
	shown   string // the state it shows
}

func (c *comparison) listen(h Host) {
	c.Host = h
	for _, id := range switches {
		dom.Listen(dom.ByID(id), "change", func(js.Value) {
			m := h.Model()
			c.showSwitch(&m)
		})
	}
}

// follow writes the comparison. change is the change of the records that the list belongs
// to.
func (c *comparison) follow(m *app.Model, listed []view.ListedCue, change int) {
	width := chartWidth(dom.ByID("squirts"))
	now := strconv.Itoa(change) + m.Scene.Format() + strconv.Itoa(int(width))
	if now == c.shown {
		return
	}
	c.shown = now
	s := &m.Scene
	entries, left := view.Entries(s, listed)
	c.entries = entries
	dom.Hide("compared", len(entries) < 2)
	if len(entries) < 2 {
		return
	}
	dom.Say("compared-note", strings.Join(left, " "))
	putTable("compare-table", view.CompareTable(entries), c.dash)
	fill("differences", view.Differences(s, entries))
	c.showSquirts(m)
	c.showPicks()
	c.showSwitch(m)
	choice := view.Choosing(s, entries)
	dom.Say("choose-head", choice.Head)
	putTable("choose-table", choice.Table, nil)
	dom.Say("choose-note", choice.Note)
	putTable("effort-table", view.Efforts(s, entries), nil)
}

// dash puts a sample of a cue's line before its name.
func (c *comparison) dash(row int, head js.Value) {
	sample := sheet.DashSample(c.entries[row].Place)
	head.Call("insertAdjacentHTML", "afterbegin", sheet.SVG(&sample, ""))
}

// showSquirts draws squirt against offset.
func (c *comparison) showSquirts(m *app.Model) {
	curves := make([]sheet.SquirtCurve, len(c.entries))
	for i, e := range c.entries {
		curves[i] = sheet.SquirtCurve{Name: e.Name, Dash: sheet.CueDash(e.Place), Known: e.Cue.Known}
	}
	box := dom.ByID("squirts")
	chart := sheet.Squirts(&m.Scene, curves, chartWidth(box), 230)
	box.Set("innerHTML", sheet.SVG(&chart, "Squirt against offset for each cue, with its 90 % band"))
}

// switches are the ids of the menus of the two cues to switch between.
var switches = [...]string{"switch-from", "switch-to"}

// showPicks fills the menus of the cues to switch between.
func (c *comparison) showPicks() {
	for place, id := range switches {
		pick := dom.ByID(id)
		at, err := strconv.Atoi(dom.Text(id))
		if err != nil || at >= len(c.entries) {
			at = place
		}
		pick.Call("replaceChildren")
		for i, e := range c.entries {
			dom.Put("option", e.Name, pick).Set("value", i)
		}
		pick.Set("value", strconv.Itoa(at))
	}
}

// showSwitch writes what changes when switching from one cue to another.
func (c *comparison) showSwitch(m *app.Model) {
	from, _ := strconv.Atoi(dom.Text(switches[0]))
	to, _ := strconv.Atoi(dom.Text(switches[1]))
	if max(from, to) >= len(c.entries) {
		return
	}
	f := view.Switching(&m.Scene, &c.entries[from], &c.entries[to])
	dom.Say("switch-head", f.Head)
	putTable("switch-table", f.Table, nil)
	dom.Say("switch-note", f.Note)
}

//go:build js && wasm

package section

import (
	"slices"
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
	shown   string // what it shows, but for
	between []int  // the places of the cues that it switches between
}

func (c *comparison) listen(h Host) {
	c.Host = h
	for _, id := range switches {
		dom.Listen(dom.ByID(id), "change", func(js.Value) {
			from, _ := strconv.Atoi(dom.Text(switches[0])) // the options are places
			to, _ := strconv.Atoi(dom.Text(switches[1]))
			h.Do(app.ChooseSwitch{From: from, To: to})
		})
	}
}

// follow writes the comparison. change is the change of the records that the list belongs
// to.
func (c *comparison) follow(m *app.Model, listed []view.ListedCue, change int) {
	width := chartWidth(dom.ByID("squirts"))
	now := strconv.Itoa(change) + m.Scene.Format() + strconv.Itoa(int(width))
	if now == c.shown {
		c.showSwitch(m)
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
	c.offerCues()
	c.showSwitch(m)
	choice := view.Choosing(s, entries)
	dom.Say("choose-head", choice.Head)
	putTable("choose-table", choice.Table, nil)
	dom.Say("choose-note", choice.Note)
	putTable("effort-table", view.Efforts(s, entries), nil)
}

// dash puts a sample of a cue's line before its name.
func (c *comparison) dash(row int, head js.Value) {
	sample := sheet.CueSample(c.entries[row].Place)
	head.Call("insertAdjacentHTML", "afterbegin", sheet.SVG(&sample, ""))
}

// showSquirts draws squirt against offset.
func (c *comparison) showSquirts(m *app.Model) {
	curves := make([]sheet.SquirtCurve, len(c.entries))
	for i, e := range c.entries {
		curves[i] = sheet.SquirtCurve{Name: e.Name, Place: e.Place, Known: e.Cue.Known}
	}
	box := dom.ByID("squirts")
	chart := sheet.Squirts(&m.Scene, curves, chartWidth(box), 230)
	box.Set("innerHTML", sheet.SVG(&chart, view.SquirtChartName))
}

// switches are the ids of the menus of the two cues to switch between.
var switches = [...]string{"switch-from", "switch-to"}

// offerCues fills the menus of the cues to switch between.
func (c *comparison) offerCues() {
	for _, id := range switches {
		pick := dom.ByID(id)
		pick.Call("replaceChildren")
		for _, e := range c.entries {
			dom.Put("option", e.Name, pick).Set("value", e.Place)
		}
	}
	c.between = nil // what is chosen is still to be written
}

// showSwitch tells what changes from one cue to another, if that is not what it
// tells already.
func (c *comparison) showSwitch(m *app.Model) {
	if len(c.entries) < 2 {
		return
	}
	from, to := view.Switched(c.entries, m.Switch)
	now := []int{from.Place, to.Place}
	if slices.Equal(now, c.between) {
		return
	}
	c.between = now
	for i, id := range switches {
		dom.ByID(id).Set("value", strconv.Itoa(now[i]))
	}
	f := view.Switching(&m.Scene, from, to)
	dom.Say("switch-head", f.Head)
	putTable("switch-table", f.Table, nil)
	dom.Say("switch-note", f.Note)
}

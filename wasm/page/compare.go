//go:build js && wasm

package main

import (
	"strconv"
	"strings"
	"syscall/js"

	"pivotbench/wasm/sheet"
	"pivotbench/wasm/view"
)

// follow writes the comparison of the cues that are in it.
func (c *cues) follow() {
	c.ready()
	s := &c.model.Scene
	width := byID("squirts").Get("clientWidth").Float()
	now := strconv.Itoa(c.racked) + s.Format() + strconv.Itoa(int(width))
	if now == c.shown {
		return
	}
	c.shown = now
	entries, left := view.Entries(s, c.rack)
	c.entries = entries
	byID("compared").Set("hidden", len(entries) < 2)
	if len(entries) < 2 {
		return
	}
	set(byID("compared-note"), "textContent", strings.Join(left, " "))
	putTable(byID("compare-table"), view.CompareTable(entries), c.dash)
	differences := view.Differences(s, entries)
	fill(byID("differences"), len(differences), func(i int) (string, string) { return differences[i].Head, differences[i].Detail })
	c.renderSquirts()
	c.renderPicks()
	c.renderSwitch()
	choice := view.Choosing(s, entries)
	set(byID("choose-head"), "textContent", choice.Head)
	putTable(byID("choose-table"), choice.Table, nil)
	set(byID("choose-note"), "textContent", choice.Note)
	putTable(byID("effort-table"), view.Efforts(s, entries), nil)
}

// dash puts a piece of a cue's line before its name.
func (c *cues) dash(row int, head js.Value) {
	sample := sheet.DashSample(c.entries[row].Place)
	head.Call("insertAdjacentHTML", "afterbegin", sheet.SVG(&sample, ""))
}

// putTable writes a table; mark adds to the head of a row.
func putTable(table js.Value, t view.Table, mark func(row int, head js.Value)) {
	table.Call("replaceChildren")
	if len(t.Rows) == 0 {
		return
	}
	head := put("tr", "", put("thead", "", table))
	put("td", "", head)
	for _, column := range t.Columns {
		put("th", column, head).Call("setAttribute", "scope", "col")
	}
	body := put("tbody", "", table)
	for i, r := range t.Rows {
		row := put("tr", "", body)
		name := put("th", unbroken(r.Head), row)
		name.Call("setAttribute", "scope", "row")
		if mark != nil {
			mark(i, name)
		}
		for j, cell := range r.Cells {
			put("td", unbroken(cell), row).Get("dataset").Set("head", t.Columns[j])
		}
	}
}

// unbroken keeps a figure and its unit on one line.
func unbroken(text string) string {
	words := strings.Split(text, " ")
	for i := range words[:len(words)-1] {
		gap := " "
		if last := words[i]; last != "" && last[len(last)-1] >= '0' && last[len(last)-1] <= '9' {
			gap = "\u00a0"
		}
		words[i] += gap
	}
	return strings.Join(words, "")
}

// renderSquirts draws squirt against offset.
func (c *cues) renderSquirts() {
	curves := make([]sheet.SquirtCurve, len(c.entries))
	for i, e := range c.entries {
		curves[i] = sheet.SquirtCurve{Name: e.Name, Dash: sheet.CueDash(e.Place), Known: e.Cue.Known}
	}
	box := byID("squirts")
	width := chartWidth(box)
	chart := sheet.Squirts(&c.model.Scene, curves, width, 230)
	box.Set("innerHTML", sheet.SVG(&chart, "Squirt against offset for each cue, with its 90 % band"))
}

// renderPicks offers the cues to switch between.
func (c *cues) renderPicks() {
	for place, id := range []string{"switch-from", "switch-to"} {
		pick := byID(id)
		at, err := strconv.Atoi(pick.Get("value").String())
		if err != nil || at >= len(c.entries) {
			at = place
		}
		pick.Call("replaceChildren")
		for i, e := range c.entries {
			put("option", e.Name, pick).Set("value", i)
		}
		pick.Set("value", strconv.Itoa(at))
	}
}

// renderSwitch tells what changes from one cue to another.
func (c *cues) renderSwitch() {
	from, _ := strconv.Atoi(byID("switch-from").Get("value").String())
	to, _ := strconv.Atoi(byID("switch-to").Get("value").String())
	if max(from, to) >= len(c.entries) {
		return
	}
	f := view.Switching(&c.model.Scene, &c.entries[from], &c.entries[to])
	set(byID("switch-head"), "textContent", f.Head)
	putTable(byID("switch-table"), f.Table, nil)
	set(byID("switch-note"), "textContent", f.Note)
}

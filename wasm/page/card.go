//go:build js && wasm

package main

import (
	"syscall/js"

	"pivotbench/core/card"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/sheet"
	"pivotbench/wasm/view"
)

// carding is the Aim card section.
type carding struct {
	*page
	shown carded
}

// A carded is what a card follows from: while that stays, so do its links, which
// somebody may be about to press.
type carded struct {
	scene scenario.Scenario
	gives string
	day   string
	width float64 // of the chart
}

func (c *carding) listen() {
	c.actions["csv"] = func(js.Value) { c.saveCard() }
	dom.Listen(byID("card-show"), "change", func(js.Value) { c.follow() })
}

func (c *carding) render(*shot.Result) {} // the whole card takes longer than a frame

func (c *carding) follow() {
	now := carded{c.model.Scene, byID("card-show").Get("value").String(), today(), chartWidth(byID("card-chart"))}
	if now == c.shown {
		return
	}
	c.shown = now
	v := view.CardOf(&now.scene, now.gives)
	set(byID("card-title"), "textContent", v.Title)
	facts := byID("card-facts")
	facts.Call("replaceChildren")
	for _, f := range append(v.Facts, "made "+now.day) {
		put("span", f, facts)
	}
	head := document.Call("querySelector", "#card-table thead")
	head.Call("replaceChildren")
	row := put("tr", "", head)
	put("th", "", row)
	for _, c := range v.Columns {
		put("th", c, row).Call("setAttribute", "scope", "col")
	}
	body := document.Call("querySelector", "#card-table tbody")
	body.Call("replaceChildren")
	for _, r := range v.Rows {
		row := put("tr", "", body)
		put("th", r.Head, row).Call("setAttribute", "scope", "row")
		for _, cell := range r.Cells {
			putCell(row, cell)
		}
	}
	set(byID("card-note"), "textContent", v.Note)
	c.renderChart(now.width)
}

// putCell writes a cell as a link to its shot.
func putCell(row js.Value, c view.CardCell) {
	cell := put("td", "", row)
	if c.Why != "" {
		cell.Set("title", c.Why)
	}
	text := c.Text
	if c.Misses {
		text += " !"
		cell.Set("className", "misses")
	}
	a := put("a", unbroken(text), cell)
	a.Set("href", "#"+c.Link)
	a.Call("setAttribute", "data-open", "shot")
}

// renderChart draws effective squirt against distance.
func (c *carding) renderChart(width float64) {
	sh := c.model.Scene.Shot()
	dists, speeds := view.ChartGrid(&c.model.Scene)
	curves, err := card.Curves(&sh, dists, speeds)
	box := byID("card-chart")
	if err != nil {
		box.Set("textContent", err.Error())
		return
	}
	chart := sheet.Chart(&c.model.Scene, curves, width, 230)
	box.Set("innerHTML", sheet.SVG(&chart, "Effective squirt against distance for a slow, a medium and a fast ball"))
}

// saveCard hands the card to the browser as a file.
func (c *carding) saveCard() {
	v := view.CardOf(&c.shown.scene, c.shown.gives)
	save("aim-card.csv", "text/csv;charset=utf-8", v.CSV(c.shown.day))
}

//go:build js && wasm

package section

import (
	"syscall/js"

	"pivotbench/core/card"
	"pivotbench/core/scenario"
	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/sheet"
	"pivotbench/wasm/view"
)

// aimCard is the Aim card section.
type aimCard struct{ shown carded }

// A carded is everything that a card depends on. While it stays the same, the links on
// the card stay too: somebody may be about to press one.
type carded struct {
	scene scenario.Scenario
	gives string
	day   string
	width float64 // of the chart, in pixels
}

func (c *aimCard) Listen(h Host) {
	dom.On("csv", func(js.Value) {
		v := view.CardOf(&c.shown.scene, c.shown.gives)
		device.Save("aim-card.csv", "text/csv;charset=utf-8", v.CSV(c.shown.day))
	})
	dom.Listen(dom.ByID("card-show"), "change", func(js.Value) { c.Follow(h.Model()) })
}

func (c *aimCard) Show(app.Model) {} // nothing: the whole card takes longer than a frame

func (c *aimCard) Follow(m app.Model) {
	now := carded{m.Scene, dom.Text("card-show"), device.Today(), chartWidth(dom.ByID("card-chart"))}
	if now == c.shown {
		return
	}
	c.shown = now
	v := view.CardOf(&now.scene, now.gives)
	dom.Say("card-title", v.Title)
	facts := dom.ByID("card-facts")
	facts.Call("replaceChildren")
	for _, f := range append(v.Facts, view.CardMade(now.day)) {
		dom.Put("span", f, facts)
	}
	head := dom.Find("#card-table thead")
	head.Call("replaceChildren")
	row := dom.Put("tr", "", head)
	dom.Put("th", "", row)
	for _, c := range v.Columns {
		dom.Put("th", c, row).Call("setAttribute", "scope", "col")
	}
	body := dom.Find("#card-table tbody")
	body.Call("replaceChildren")
	for _, r := range v.Rows {
		row := dom.Put("tr", "", body)
		dom.Put("th", r.Head, row).Call("setAttribute", "scope", "row")
		for _, cell := range r.Cells {
			putCell(row, cell)
		}
	}
	dom.Say("card-note", v.Note)
	showCurves(&now)
}

// putCell writes a cell as a link to its shot.
func putCell(row js.Value, c view.CardCell) {
	cell := dom.Put("td", "", row)
	if c.Why != "" {
		cell.Set("title", c.Why)
	}
	text := c.Text
	if c.Misses {
		text += " !"
		cell.Set("className", "misses")
	}
	a := dom.Put("a", dom.Unbroken(text), cell)
	a.Set("href", "#"+c.Link)
	a.Call("setAttribute", "data-open", "shot")
}

// showCurves draws effective squirt against distance.
func showCurves(of *carded) {
	sh := of.scene.Shot()
	dists, speeds := view.ChartGrid(&of.scene)
	curves, err := card.Curves(&sh, dists, speeds)
	box := dom.ByID("card-chart")
	if err != nil {
		box.Set("textContent", err.Error())
		return
	}
	chart := sheet.Chart(&of.scene, curves, of.width, 230)
	box.Set("innerHTML", sheet.SVG(&chart, view.CardChartName))
}

//go:build js && wasm

package main

import (
	"syscall/js"

	"pivotbench/core/card"
	"pivotbench/wasm/app"
	"pivotbench/wasm/sheet"
)

// open shows a section.
func (p *page) open(section string) {
	p.section = section
	root.Get("dataset").Set("section", section)
	each("[data-panel]", func(el js.Value) { el.Set("hidden", el.Get("dataset").Get("panel").String() != section) })
	each("[data-section]", func(el js.Value) {
		if el.Equal(root) {
			return
		}
		el.Call("setAttribute", "aria-current", el.Get("dataset").Get("section").String() == section)
	})
	p.render()
	p.renderExtra()
	if section == "measure" {
		p.weigh()
	}
}

// cardView is the card as it is asked for.
func (p *page) cardView() app.CardView {
	return app.CardOf(&p.model.Scene, byID("card-show").Get("value").String())
}

func (p *page) renderCard() {
	v := p.cardView()
	set(byID("card-title"), "textContent", v.Title)
	facts := byID("card-facts")
	facts.Call("replaceChildren")
	for _, f := range append(v.Facts, "made "+today()) {
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
		for _, c := range r.Cells {
			p.putCell(row, c)
		}
	}
	set(byID("card-note"), "textContent", v.Note)
	p.renderChart()
}

// putCell writes a cell as a link to its shot.
func (p *page) putCell(row js.Value, c app.CardCell) {
	cell := put("td", "", row)
	if c.Why != "" {
		cell.Set("title", c.Why)
	}
	text := c.Text
	if c.Misses {
		text += " !"
		cell.Set("className", "misses")
	}
	a := put("a", text, cell)
	a.Set("href", "#"+c.Link)
	a.Call("setAttribute", "data-open", "shot")
}

// renderChart draws effective squirt against distance.
func (p *page) renderChart() {
	sh := p.model.Scene.Shot()
	dists, speeds := app.ChartGrid(&p.model.Scene)
	curves, err := card.Curves(&sh, dists, speeds)
	box := byID("card-chart")
	if err != nil {
		box.Set("textContent", err.Error())
		return
	}
	width := min(max(box.Get("clientWidth").Float(), 280), 640)
	chart := sheet.Chart(&p.model.Scene, curves, width, 230)
	box.Set("innerHTML", sheet.SVG(&chart, "Effective squirt against distance for a slow, a medium and a fast ball"))
}

// saveCard hands the card to the browser as a file.
func (p *page) saveCard() {
	save("aim-card.csv", "text/csv;charset=utf-8", p.cardView().CSV(today()))
}

// save hands a text to the browser as a file.
func save(name, kind, text string) {
	blob := js.Global().Get("Blob").New([]any{text}, map[string]any{"type": kind})
	address := js.Global().Get("URL").Call("createObjectURL", blob)
	a := document.Call("createElement", "a")
	a.Set("href", address)
	a.Set("download", name)
	a.Call("click")
	js.Global().Get("URL").Call("revokeObjectURL", address)
}

// today is the date on the device, the way its user writes it.
func today() string { return js.Global().Get("Date").New().Call("toLocaleDateString").String() }

// moment is the date and time on the device, for a log.
func moment() string { return js.Global().Get("Date").New().Call("toISOString").String() }

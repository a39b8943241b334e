//go:build js && wasm

package main

import (
	"strconv"
	"syscall/js"
	"time"

	"pivotbench/core/margin"
	"pivotbench/core/shot"
	"pivotbench/wasm/app"
)

const (
	rateStrokes = 10000 // to count what comes off
	restTime    = 120 * time.Millisecond
)

// renderAim writes the answer to the shot, and has the slower answers follow.
func (p *page) renderAim(res *shot.Result) {
	object := p.model.Look.Object
	aimed := app.Solve(&p.model.Scene, res, object)
	set(byID("aim-words"), "textContent", app.AimWords(&p.model.Scene, aimed))
	button := document.Call("querySelector", `[data-do="aim"]`)
	button.Set("disabled", aimed.Err != nil || aimed.Share.Err != nil)
	document.Call("querySelector", `[data-do="unfaint"]`).Set("hidden", !p.model.HasEarlier)
	if p.extra == nil { // while a finger drags they come at this pace, too
		p.extra = time.AfterFunc(restTime, func() {
			p.extra = nil
			p.renderExtra()
		})
	}
}

// renderExtra writes what takes longer than a frame, where it is in sight.
func (p *page) renderExtra() {
	if p.section == "card" {
		p.renderCard()
		return
	}
	if !byID("band").Call("closest", "details").Get("open").Bool() {
		return
	}
	if p.rateSampler == nil {
		p.rateSampler = margin.NewSampler(rateStrokes)
	}
	begin := now()
	chances := app.Chances(&p.model.Scene, p.rateSampler, p.model.Look.Object)
	window.Set("strokesTook", (now()-begin)/float64(len(chances))) // ms for one rate, for the bench
	fill(byID("chances"), len(chances), func(i int) (string, string) { return chances[i].Name, chances[i].Value })
	set(byID("chances-note"), "textContent", "Of "+strconv.Itoa(p.rateSampler.N())+" strokes spread as the scatter says, with the standard error.")
	effects := app.Effects(&p.model.Scene)
	fill(byID("effects"), len(effects), func(i int) (string, string) { return effects[i].Name, effects[i].Value })
}

func now() float64 { return window.Get("performance").Call("now").Float() }

// fill writes a list of names and what they come to.
func fill(list js.Value, n int, row func(int) (name, value string)) {
	list.Call("replaceChildren")
	for i := range n {
		name, value := row(i)
		div := put("div", "", list)
		put("dt", name, div)
		put("dd", value, div)
	}
}

// put makes an element with a text in a parent.
func put(tag, text string, parent js.Value) js.Value {
	el := document.Call("createElement", tag)
	el.Set("textContent", text)
	parent.Call("append", el)
	return el
}

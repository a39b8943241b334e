//go:build js && wasm

package main

import (
	"syscall/js"

	"pivotbench/core/margin"
	"pivotbench/core/shot"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/view"
)

// rateStrokes are made to count what comes off.
const rateStrokes = 10000

// aiming is the Shot section: what sends the ball where it should go, and how
// sure that is.
type aiming struct {
	*page
	sampler *margin.Sampler
}

func (a *aiming) listen() {
	a.actions["aim"] = func(js.Value) { a.step(app.AimIt{Pocket: a.model.Look.Object}) }
	a.actions["beside"] = func(js.Value) { a.do(app.Beside{}) }
	a.actions["unfaint"] = func(js.Value) { a.do(app.Unfaint{}) }
	dom.Listen(byID("band").Call("closest", "details"), "toggle", func(js.Value) { a.follow() })
}

func (a *aiming) render(res *shot.Result) {
	aimed := app.Solve(&a.model.Scene, res, a.model.Look.Object)
	set(byID("aim-words"), "textContent", view.AimWords(&a.model.Scene, aimed))
	doer("aim").Set("disabled", aimed.Err != nil || aimed.Share.Err() != nil)
	doer("unfaint").Set("hidden", !a.model.HasEarlier)
}

func (a *aiming) follow() {
	if !byID("band").Call("closest", "details").Get("open").Bool() {
		return
	}
	if a.sampler == nil {
		a.sampler = margin.NewSampler(rateStrokes)
	}
	begin := now()
	chances := view.Chances(&a.model.Scene, a.sampler, a.model.Look.Object)
	window.Set("strokesTook", (now()-begin)/float64(len(chances))) // ms for one rate, for the bench
	fill(byID("chances"), len(chances), func(i int) (string, string) { return chances[i].Name, chances[i].Value })
	set(byID("chances-note"), "textContent", view.ChancesNote(a.sampler.N()))
	effects := view.Effects(&a.model.Scene)
	fill(byID("effects"), len(effects), func(i int) (string, string) { return effects[i].Name, effects[i].Value })
}

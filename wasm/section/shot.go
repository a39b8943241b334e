//go:build js && wasm

package section

import (
	"syscall/js"

	"pivotbench/core/margin"
	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/view"
)

// rateStrokes is the number of simulated strokes of a success rate.
const rateStrokes = 10000

// aiming is the Shot section: what sends the ball to the target, and how likely that is.
type aiming struct{ sampler *margin.Sampler }

func (s *aiming) Listen(h Host) {
	dom.On("aim", func(js.Value) { h.Do(app.AimIt{Pocket: h.Model().Look.Object}) })
	dom.On("beside", func(js.Value) { h.Do(app.Beside{}) })
	dom.On("unfaint", func(js.Value) { h.Do(app.Unfaint{}) })
	dom.Listen(margins(), "toggle", func(js.Value) { s.Follow(h.Model()) })
}

// margins returns the element that holds the success rates and what they depend on.
func margins() js.Value { return dom.ByID("band").Call("closest", "details") }

func (s *aiming) Show(m app.Model) {
	aim := view.AimOf(&m)
	dom.Say("aim-words", aim.Words)
	dom.Doer("aim").Set("disabled", !aim.Can)
	dom.Doer("unfaint").Set("hidden", !m.HasEarlier)
}

func (s *aiming) Follow(m app.Model) {
	if !margins().Get("open").Bool() {
		return
	}
	if s.sampler == nil {
		s.sampler = margin.NewSampler(rateStrokes)
	}
	begin := device.Now()
	chances := view.Chances(&m.Scene, s.sampler, m.Look.Object)
	dom.Window.Set("strokesTook", (device.Now()-begin)/float64(len(chances))) // ms for each rate, for scripts/bench
	fill("chances", chances)
	dom.Say("chances-note", view.ChancesNote(s.sampler.N()))
	fill("effects", view.Effects(&m.Scene))
}

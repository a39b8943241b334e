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

// rateStrokes are made to count what comes off.
const rateStrokes = 10000

// aiming is the Shot section: what sends the ball where it should go, and how sure
// that is.
type aiming struct{ sampler *margin.Sampler }

func (s *aiming) Listen(h Host) {
	dom.On("aim", func(js.Value) { h.Do(app.AimIt{Pocket: h.Model().Look.Object}) })
	dom.On("beside", func(js.Value) { h.Do(app.Beside{}) })
	dom.On("unfaint", func(js.Value) { h.Do(app.Unfaint{}) })
	dom.Listen(margins(), "toggle", func(js.Value) { s.Follow(h.Model()) })
}

// margins is what holds the chances and what they depend on.
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
	dom.Window.Set("strokesTook", (device.Now()-begin)/float64(len(chances))) // ms for one rate, for the bench
	fill("chances", chances)
	dom.Say("chances-note", view.ChancesNote(s.sampler.N()))
	fill("effects", view.Effects(&m.Scene))
}

//go:build js && wasm

package section

import (
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
)

// listenSetUp takes how well the set-up is known.
func (s *measure) listenSetUp() {
	dom.Each("[data-sure]", func(input js.Value) {
		dom.Listen(input, "change", func(js.Value) {
			s.Do(app.SetSure{Key: dom.Data(input, "sure"), Text: input.Get("value").String()})
		})
	})
}

// showSetUp writes it, but not under the user's cursor.
func (s *measure) showSetUp(m *app.Model) {
	focus, known := dom.Document.Get("activeElement"), m.SittingOn().SetUp
	for i := range app.Sures {
		sure := &app.Sures[i]
		if input := dom.Find(`[data-sure="` + sure.Key + `"]`); !focus.Equal(input) {
			dom.Set(input, "value", sure.Text(known, m.Scene.Units))
		}
	}
}

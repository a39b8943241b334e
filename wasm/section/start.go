//go:build js && wasm

package section

import (
	"slices"
	"syscall/js"

	"pivotbench/core/scenario"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/view"
)

// Start is the short start of a first visit: what the page is for, where each job begins,
// and what the user plays with. Above the open section it also shows the next step of
// that job, and whether the shot has other gear than the user's.
type Start struct {
	Host
	ever   bool
	open   bool
	words  [2]string         // the next step, and other gear
	mine   scenario.Scenario // what the menus show
	cues   []view.GearCue
	listed []view.ListedCue
	of     int // the change of the records that listed belongs to, plus one
}

// Listen handles its buttons and menus.
func (s *Start) Listen(h Host) {
	s.Host = h
	dom.On("door", func(el js.Value) { h.Do(app.TakeDoor{Name: dom.Data(el, "door")}) })
	dom.On("start", func(js.Value) {
		h.Do(app.ShowStart{On: true})
		dom.Find(".panel").Set("scrollTop", 0)
		dom.Find("#start button").Call("focus")
	})
	dom.On("start-close", func(js.Value) { h.Do(app.ShowStart{}) })
	dom.On("step-done", func(js.Value) { h.Do(app.EndStep{}) })
	dom.On("use-gear", func(js.Value) { h.Do(app.UseGear{}) })
	dom.On("keep-gear", func(js.Value) {
		m := h.Model()
		h.Do(app.KeepGear{Parts: m.Other()})
	})
	dom.Each("[data-gear]", func(menu js.Value) {
		dom.Listen(menu, "change", func(js.Value) {
			h.Do(app.SetGear{Key: dom.Data(menu, "gear"), Text: menu.Get("value").String()})
		})
	})
	dom.Listen(dom.ByID("gear-cue"), "change", func(js.Value) { s.choose(dom.Text("gear-cue")) })
}

// choose makes a cue the user's own.
func (s *Start) choose(value string) {
	for i := range s.listed {
		if cue := &s.listed[i]; cue.ID() == value {
			m := s.Model()
			s.Do(app.UseCue{Cue: cue.On(&m.Scene), TipWidth: cue.Gear.TipWidth, Chalk: cue.Gear.Chalk, Beside: view.Used(&m.Scene, s.listed, cue)})
			value = view.BenchCue
		}
	}
	if value == view.BenchCue {
		s.Do(app.KeepGear{Parts: []scenario.Part{scenario.CuePart}})
	}
}

// Show writes what has changed of it.
func (s *Start) Show(m app.Model) {
	if now := [2]string{view.NextStep(&m), view.OtherGear(&m)}; now != s.words {
		for i, id := range []string{"step", "gear"} {
			dom.Hide(id, now[i] == "")
			dom.Say(id+"-words", now[i])
		}
		s.words = now
	}
	if m.Starting != s.open || !s.ever {
		dom.Hide("start", !m.Starting)
		dom.Root.Call("toggleAttribute", "data-start", m.Starting)
		s.open, s.ever = m.Starting, true
	}
	if m.Starting {
		s.showGear(&m)
	}
}

// showGear writes the user's own gear into the menus.
func (s *Start) showGear(m *app.Model) {
	if s.of != m.Changes+1 {
		s.of, s.listed = m.Changes+1, view.ListCues(m.Kept.Cues)
	}
	mine, cues := m.MyGear(), view.GearCues(m, s.listed)
	if s.mine == mine && slices.Equal(s.cues, cues) {
		return
	}
	s.mine, s.cues = mine, cues
	dom.Each("[data-gear]", func(menu js.Value) {
		dom.Set(menu, "value", scenario.Find(dom.Data(menu, "gear")).Text(&mine))
	})
	menu := dom.ByID("gear-cue")
	menu.Call("replaceChildren")
	for _, cue := range cues {
		dom.Put("option", cue.Label, menu).Set("value", cue.Value)
	}
}

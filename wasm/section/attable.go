//go:build js && wasm

package section

import (
	"slices"
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/view"
)

// atTable is measuring at the table: the section for measuring with large type, few
// buttons and the next stroke set by itself. The style sheet hides the rest of the page
// by data-at of its root.
type atTable struct {
	state     view.TableState // as it is shown
	names     []string        // the cues that have buttons
	suggested followed        // what the stroke on the bench was suggested after
	waiting   bool            // a stroke was noted, and the next is not suggested yet
}

// A followed is what a suggestion at the table depends on.
type followed struct {
	strokes int
	last    string // when the newest stroke was noted
	cue     string
	table   app.Table
}

func following(m *app.Model) followed {
	f := followed{strokes: len(m.Kept.Strokes), cue: m.Measuring, table: m.Table}
	if f.strokes > 0 {
		f.last = m.Kept.Strokes[f.strokes-1].When
	}
	return f
}

// listenTable takes what is done at the table.
func (s *measure) listenTable() {
	dom.On("table-open", func(js.Value) { s.Do(app.AtTable{On: true}) })
	dom.On("table-leave", func(js.Value) { s.Do(app.AtTable{}) })
	dom.On("ask-cue", func(js.Value) { s.Do(app.AskCue{}) })
	start := func() { s.Do(app.MeasureCue{Name: dom.Text("at-name")}) }
	dom.On("table-start", func(js.Value) { start() })
	dom.Listen(dom.ByID("at-name"), "keydown", func(e js.Value) {
		if e.Get("key").String() == "Enter" {
			e.Call("preventDefault")
			start()
		}
	})
	dom.On("table-cue", func(el js.Value) { s.Do(app.MeasureCue{Name: dom.Entry(s.table.names, el)}) })
	dom.On("read-by", func(el js.Value) { s.Do(app.ReadBy{Mark: dom.Data(el, "by") == string(view.AtLine)}) })
	dom.On("table-dark", func(js.Value) {
		look := s.Model().Look
		if look.Theme == "dark" {
			look.Theme = "system"
		} else {
			look.Theme = "dark"
		}
		s.Do(app.Show{Look: look})
	})
	dom.On("take-back", func(js.Value) {
		s.Do(app.TakeBack{})
		m := s.Model()
		s.table.suggested = following(&m) // the stroke that was taken back is to be played again
	})
	dom.Listen(dom.Document, "keydown", func(e js.Value) {
		m := s.Model()
		dialog := dom.Find("dialog[open]")
		if m.Table.On && e.Get("key").String() == "Escape" && !dialog.Truthy() && !e.Get("defaultPrevented").Bool() {
			s.Do(app.AtTable{})
		}
	})
}

// suggest sets the suggested stroke, once for each stroke that is noted. A step that was
// undone stays so, and can be redone.
func (s *measure) suggest(m *app.Model) {
	t, now := &s.table, following(m)
	t.waiting = false
	if m.Table.On && m.Table.Named && !m.Correction.On && !m.CanRedo() && t.suggested != now {
		t.suggested = now
		if len(s.finding.Sets) > 0 {
			s.Do(app.TakeNext{Sets: s.finding.Sets})
		}
	}
	after := s.Model()
	s.showTable(&after)
}

// showTable writes it, and puts the focus where the next key press is expected when its
// state changes.
func (s *measure) showTable(m *app.Model) {
	state := view.TableStateOf(m)
	changed, opened := state != s.table.state, s.table.state == ""
	s.table.state = state
	if state != "" {
		now := view.AtTableOf(m)
		dom.Say("at-cue", now.Cue)
		dom.List("at-next", now.Next)
		dom.Say("at-setup", now.SetUp)
		dom.Say("at-last", now.Last)
		dom.Doer("take-back").Set("disabled", now.Last == "")
		dom.Doer("table-dark").Call("setAttribute", "aria-pressed", m.Look.Theme == "dark")
		dom.Each("[data-by]", func(el js.Value) { el.Call("setAttribute", "aria-pressed", dom.Data(el, "by") == string(state)) })
		dom.ByID("at-play").Get("classList").Call("toggle", "waiting", s.table.waiting)
		s.showTableCues(m)
	}
	if !changed {
		return
	}
	to := map[view.TableState]string{"": `[data-do="table-open"]`, view.AskingCue: "#at-name"}[state]
	if to == "" {
		to = "#at-play"
	}
	if state == view.AskingCue {
		dom.ByID("at-name").Set("value", m.Measuring)
	}
	if state != "" || !opened {
		dom.Find(to).Call("focus")
	}
	dom.Find(".panel").Set("scrollTop", 0)
}

// showTableCues writes the known cues as buttons, to be measured by a tap.
func (s *measure) showTableCues(m *app.Model) {
	names := view.CueNames(m)
	if slices.Equal(names, s.table.names) {
		return
	}
	s.table.names = names
	list := dom.ByID("at-cues")
	list.Call("replaceChildren")
	for i, name := range names {
		dom.PutButton(name, view.MeasureName(name), "table-cue", i, dom.Put("li", "", list))
	}
	list.Set("hidden", len(names) == 0)
}

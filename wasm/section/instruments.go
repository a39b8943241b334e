//go:build js && wasm

package section

import (
	"errors"
	"math"
	"strconv"
	"syscall/js"

	"pivotbench/core/instrument"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// instruments is the Instruments section. Each instrument is a <details class="gauge">.
// Only the open ones are computed: one, if the browser keeps the others closed.
type instruments struct {
	Host
	watches map[string]*watch      // by instrument
	said    map[string]view.Answer // by instrument
	listed  map[string]string      // what the lists show, by id
	units   string                 // of the lengths in the fields
	tilt    device.Tilt
	zero    []instrument.Tilt // of the phone on the cloth
	along   []instrument.Tilt // and along the cue; nil: elevation is measured with a tape
}

func (s *instruments) Listen(h Host) {
	s.Host = h
	s.said, s.listed = map[string]view.Answer{}, map[string]string{}
	s.listenWatches()
	dom.On("send-gauge", func(el js.Value) {
		said, before := s.said[gaugeOf(el)], h.Model()
		h.Do(app.UseReading{Sets: said.Sets, Sure: said.Sure, When: device.Moment()})
		after := h.Model()
		h.Say(view.UsedWords(&before, &after))
	})
	dom.On("save-gauge", func(el js.Value) { s.save(gaugeOf(el)) })
	dom.On("drop-reading", func(el js.Value) {
		h.Do(app.Drop[store.Reading]{Record: dom.Entry(h.Model().Kept.Readings, el)})
		h.Say(view.Deleted)
	})
	dom.On("save-table", func(js.Value) {
		if name := s.tableName(); name != "" {
			m := h.Model()
			h.Do(app.SaveTable{Table: store.TableOf(&m.Scene, name, device.Moment())})
			h.Say(view.TableSaved)
		}
	})
	dom.On("use-table", func(el js.Value) {
		table := dom.Entry(h.Model().Kept.Tables, el)
		dom.ByID("table-name").Set("value", table.Name)
		h.Do(app.UseTable{Table: table})
		h.Say(view.TableUsed)
	})
	dom.On("drop-table", func(el js.Value) {
		h.Do(app.Drop[store.Table]{Record: dom.Entry(h.Model().Kept.Tables, el)})
		h.Say(view.Deleted)
	})
	dom.On("tilt-zero", func(js.Value) { s.readTilt(&s.zero) })
	dom.On("tilt-cue", func(js.Value) {
		if s.zero == nil {
			tiltSaid(view.TiltNoZero)
			return
		}
		s.readTilt(&s.along)
	})
	dom.Each(".gauge", func(el js.Value) { dom.Listen(el, "toggle", func(js.Value) { s.Show(h.Model()) }) })
	dom.Each("[data-gauge-text]", func(el js.Value) {
		dom.Listen(el, "input", func(js.Value) {
			if gaugeOf(el.Call("closest", ".gauge")) == "elev" {
				s.along = nil // elevation is measured with a tape
			}
			s.Show(h.Model())
		})
	})
}

// gaugeOf returns the name of the instrument that an element belongs to.
func gaugeOf(el js.Value) string { return dom.Data(el, "gauge") }

// Show computes the open instrument, and lists the tables.
func (s *instruments) Show(m app.Model) {
	s.Relabel(m.Scene.Units)
	dom.Each(".gauge[open]", func(el js.Value) {
		if of := view.InstrumentOf(gaugeOf(el)); of != nil {
			s.show(&m, of)
		}
	})
	dom.Hide("no-tables", len(m.Kept.Tables) > 0)
	s.list(&m, "tables", view.TableLines(&m, device.Day), func(r view.RecordLine, item js.Value) {
		dom.PutButton(view.UseButton, r.UseName(), "use-table", r.Index, item)
		dom.PutButton("×", r.DeleteName(), "drop-table", r.Index, item)
	})
}

func (s *instruments) Follow(app.Model) {}

// Units returns the units of the lengths in the fields.
func (s *instruments) Units() string { return s.units }

// Relabel converts the lengths in the fields to other units, and their default values
// too: a text that differs from its default value is a draft.
func (s *instruments) Relabel(units string) {
	if s.units == units {
		return
	}
	u, _ := unit.LengthKind.Find(units)
	dom.Each(".gauge-unit", func(el js.Value) {
		input := el.Get("previousElementSibling")
		for _, text := range []string{"value", "defaultValue"} { // defaultValue has no effect on a value that was already set
			if v, err := unit.Parse(input.Get(text).String(), unit.LengthKind, s.units); err == nil {
				input.Set(text, dom.Number(math.Round(v/u.SI*100)/100))
			}
		}
		dom.Set(el, "textContent", units)
	})
	s.units = units
}

// show writes the answer of an instrument and its readings.
func (s *instruments) show(m *app.Model, of *view.Instrument) {
	text := func(field string) string { return dom.Text(of.Name + "-" + field) }
	g := of.Say(view.Input{Scene: &m.Scene, Readings: m.Kept.Readings, Text: text, Zero: s.zero, Along: s.along})
	s.said[of.Name] = g
	dom.Say(of.Name+"-head", g.Head)
	dom.Say(of.Name+"-note", g.Note)
	dom.Each(`:is([data-do="send-gauge"], [data-do="save-gauge"])[data-gauge="`+of.Name+`"]`, func(el js.Value) {
		el.Set("disabled", g.Head == "")
	})
	if of.Fits {
		fill(of.Name+"-fits", g.Fits)
	}
	if of.Presses != nil {
		s.list(m, of.Name+"-list", view.ReadingLines(m, of.Name), func(r view.RecordLine, item js.Value) {
			dom.PutButton("×", r.DeleteName(), "drop-reading", r.Index, item)
		})
	}
}

// list writes a list of records if it has changed.
func (s *instruments) list(m *app.Model, id string, rows []view.RecordLine, buttons func(r view.RecordLine, item js.Value)) {
	now := strconv.Itoa(m.Changes) // the buttons hold an index
	for _, r := range rows {
		now += "\n" + r.Head + "\n" + r.Line
	}
	if s.listed[id] == now {
		return
	}
	s.listed[id] = now
	list := dom.ByID(id)
	list.Call("replaceChildren")
	for _, r := range rows {
		item := dom.Put("li", "", list)
		dom.Put("strong", r.Head, item)
		dom.Put("span", r.Line, item)
		buttons(r, item)
	}
}

// tableName returns the name of the table. If it is empty, a message says so.
func (s *instruments) tableName() string {
	name := dom.Text("table-name")
	if name == "" {
		dom.ByID("table-name").Call("focus")
		s.Say(view.TableNameless)
	}
	table := store.Table{Name: name}.Clean()
	if faults := table.Faults(); len(faults) > 0 {
		s.Do(app.Tell{Notices: faults})
		return ""
	}
	return table.Name
}

// save saves the answer of an instrument with the table.
func (s *instruments) save(gauge string) {
	if name := s.tableName(); name != "" {
		before := s.Model().Changes
		s.Do(app.SaveMeasured{Table: name, When: device.Moment(), Sets: s.said[gauge].Sets})
		if s.Model().Changes > before {
			s.Say(view.SavedWithTable(name))
		}
	}
}

// readTilt reads the phone's sensor.
func (s *instruments) readTilt(into *[]instrument.Tilt) {
	s.tilt.Read(func() { tiltSaid(view.TiltAsking) }, func() { tiltSaid(view.TiltReading) },
		func(read []instrument.Tilt, err error) {
			switch {
			case errors.Is(err, device.ErrMissing):
				tiltSaid(view.TiltMissing(device.Secure()))
				return
			case errors.Is(err, device.ErrRefused):
				tiltSaid(view.TiltRefused)
				return
			case err != nil:
				tiltSaid(view.TiltSilent)
				return
			}
			*into = read
			if into == &s.zero {
				s.along = nil
				tiltSaid(view.TiltZeroed)
			} else {
				tiltSaid(view.TiltRead)
			}
			s.Show(s.Model())
		})
}

func tiltSaid(words string) { dom.Say("elev-said", words) }

//go:build js && wasm

package main

import (
	"math"
	"slices"
	"strconv"
	"syscall/js"

	"pivotbench/core/shot"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// instruments is the Instruments section: each a <details class="gauge">, of
// which those that are open are worked out: one, where the browser sees to it.
type instruments struct {
	*page
	watches map[string]*watch      // stopwatches, by the gauge they are for
	said    map[string]view.Gauged // the answers, by gauge
	listed  map[string]string      // what the lists show
	units   string                 // of the lengths in the fields
	ear     *ear                   // while the microphone is on
	tilts   tilts
}

func (m *instruments) listen() {
	m.said, m.listed = map[string]view.Gauged{}, map[string]string{}
	m.listenWatches()
	m.actions["send-gauge"] = func(el js.Value) {
		m.step(app.SetAll{Sets: m.said[gaugeOf(el)].Sets})
		say("sent to the shot; Undo takes it back")
	}
	m.actions["save-gauge"] = func(el js.Value) { m.saveGauge(gaugeOf(el)) }
	m.actions["note-time"] = func(el js.Value) { m.watches[gaugeOf(el)].typed() }
	m.actions["clear-readings"] = func(el js.Value) { m.watches[gaugeOf(el)].clear() }
	m.actions["drop-reading"] = func(el js.Value) {
		m.do(app.DropReading{Reading: entry(m.model.Kept.Readings, el)})
		say("taken off the list; Undo brings it back")
	}
	m.actions["save-table"] = func(js.Value) {
		if name := m.tableName(); name != "" {
			m.do(app.SaveTable{Table: store.TableOf(&m.model.Scene, name, moment())})
			say("saved to the tables")
		}
	}
	m.actions["use-table"] = func(el js.Value) {
		table := entry(m.model.Kept.Tables, el)
		byID("table-name").Set("value", table.Name)
		m.step(app.UseTable{Table: table})
		say("on the bench; Undo takes it back")
	}
	m.actions["drop-table"] = func(el js.Value) {
		m.do(app.DropTable{Table: entry(m.model.Kept.Tables, el)})
		say("taken off the list; Undo brings it back")
	}
	m.actions["tilt-zero"] = func(js.Value) { m.readTilt(&m.tilts.zero) }
	m.actions["tilt-cue"] = func(js.Value) { m.readTilt(&m.tilts.along) }
	each(".gauge", func(el js.Value) { dom.Listen(el, "toggle", func(js.Value) { m.render(nil) }) })
	each("[data-gauge-text]", func(el js.Value) {
		dom.Listen(el, "input", func(js.Value) {
			if el.Call("closest", "[data-gauge='elev']").Truthy() {
				m.tilts.along = nil // the tape has the word
			}
			m.render(nil)
		})
	})
}

// gaugeOf is the gauge that a button is for.
func gaugeOf(el js.Value) string { return el.Get("dataset").Get("gauge").String() }

// text is what a field holds.
func text(id string) string { return byID(id).Get("value").String() }

// render works the open gauge out, and lists the tables.
func (m *instruments) render(*shot.Result) {
	m.relabel(m.model.Scene.Units)
	each(".gauge[open]", func(el js.Value) { m.renderGauge(gaugeOf(el)) })
	m.list("tables", len(m.model.Kept.Tables), func(i int) (string, string) {
		t := m.model.Kept.Tables[i]
		return t.Name, view.TableRecord(t, m.model.Scene.Units) + ", " + day(t.When)
	}, func(i int, name string, item js.Value) {
		putButton("Use", "Use "+name, "use-table", i, item)
		putButton("×", "Take "+name+" off the list", "drop-table", i, item)
	})
}

func (m *instruments) follow() {}

// relabel has the fields hold their lengths in other units, and what they came
// with too: a text is a draft while it differs from that.
func (m *instruments) relabel(units string) {
	if m.units == units {
		return
	}
	u, _ := unit.LengthKind.Find(units)
	each(".gauge-unit", func(el js.Value) {
		input := el.Get("previousElementSibling")
		for _, text := range []string{"value", "defaultValue"} { // which has no effect on a value that was set
			if v, err := unit.Parse(input.Get(text).String(), unit.LengthKind, m.units); err == nil {
				input.Set(text, number(math.Round(v/u.SI*100)/100))
			}
		}
		set(el, "textContent", units)
	})
	m.units = units
}

// answer is what a gauge says now.
func (m *instruments) answer(gauge string) view.Gauged {
	s, readings := &m.model.Scene, m.model.Kept.Readings
	switch gauge {
	case "speed":
		return view.Speed(s, readings)
	case "rest", "marks":
		return view.Rolling(s, readings, gauge)
	case "slide":
		return view.Sliding(s, readings, text("slide-length"), text("slide-place"))
	case "elev":
		if m.tilts.along != nil {
			return view.Level(m.tilts.zero, m.tilts.along)
		}
		return view.Elevation(s, text("elev-tip"), text("elev-butt"), text("elev-apart"), text("elev-thin"), text("elev-thick"))
	case "offset":
		return view.Offset(s, text("offset-way"), text("offset-x"), text("offset-to"))
	case "dome":
		return view.Dome(text("dome-width"), text("dome-rise"))
	}
	g, facts := view.Ball(s, text("ball-size"), text("ball-how") == "round", text("ball-weight"))
	fill(byID("ball-fits"), len(facts), func(i int) (string, string) { return facts[i].Name, facts[i].Value })
	return g
}

func (m *instruments) renderGauge(gauge string) {
	g := m.answer(gauge)
	m.said[gauge] = g
	set(byID(gauge+"-head"), "textContent", g.Head)
	set(byID(gauge+"-note"), "textContent", g.Note)
	each(`:is([data-do="send-gauge"], [data-do="save-gauge"])[data-gauge="`+gauge+`"]`, func(el js.Value) {
		el.Set("disabled", g.Head == "")
	})
	if m.watches[gauge] == nil {
		return
	}
	var at []int // in all readings
	for i, r := range m.model.Kept.Readings {
		if r.Of == gauge {
			at = append(at, i)
		}
	}
	m.list(gauge+"-list", len(at), func(i int) (string, string) {
		return view.Timing(&m.model.Scene, m.model.Kept.Readings[at[i]])
	}, func(i int, _ string, item js.Value) {
		putButton("×", "Delete reading "+strconv.Itoa(i+1), "drop-reading", at[i], item)
	})
}

// list writes a list of records, where it is not what it shows already.
func (m *instruments) list(id string, n int, line func(int) (name, more string), buttons func(int, string, js.Value)) {
	var lines []string
	for i := range n {
		name, more := line(i)
		lines = append(lines, name, more)
	}
	now := strconv.Itoa(m.model.Changes) // the buttons hold an index
	for _, l := range lines {
		now += "\n" + l
	}
	if m.listed[id] == now {
		return
	}
	m.listed[id] = now
	list := byID(id)
	list.Call("replaceChildren")
	for i := range n {
		item := put("li", "", list)
		put("strong", lines[2*i], item)
		put("span", lines[2*i+1], item)
		buttons(i, lines[2*i], item)
	}
}

// tableName is what the table is called; without a name it says so, and gives
// an empty one.
func (m *instruments) tableName() string {
	name := text("table-name")
	if name == "" {
		byID("table-name").Call("focus")
		say("give the table a name first")
	}
	table := store.Table{Name: name}.Clean()
	if faults := table.Faults(); len(faults) > 0 {
		m.do(app.Tell{Notices: faults})
		return ""
	}
	return table.Name
}

// saveGauge keeps what a gauge says with the table.
func (m *instruments) saveGauge(gauge string) {
	name := m.tableName()
	if name == "" {
		return
	}
	records, when := m.model.Kept, moment()
	for _, s := range m.said[gauge].Sets {
		table, err := records.Measured(&m.model.Scene, name, when, s.Key, s.Text)
		if err != nil {
			m.do(app.Tell{Notices: []string{err.Error()}})
			return
		}
		records = records.WithTable(table)
	}
	i := slices.IndexFunc(records.Tables, func(t store.Table) bool { return t.Name == name && t.When == when })
	m.do(app.SaveTable{Table: records.Tables[i]})
	say("saved with " + name)
}

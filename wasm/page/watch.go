//go:build js && wasm

package main

import (
	"strconv"
	"strings"
	"syscall/js"
	"time"

	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// A watch is a stopwatch: a big button pressed as each thing happens.
type watch struct {
	*instruments
	gauge   string
	button  js.Value
	labels  []string  // of the button, by how often it was pressed
	presses []float64 // milliseconds, of the run under way
	waiting func()    // notes the run that is over, once it has its length; nil: none
}

// presses and what the button asks for, by gauge.
var pressLabels = map[string][]string{
	"speed": {"Start at the hit", "Stop at the mark"},
	"rest":  {"It passes the mark", "It is at rest"},
	"marks": {"First mark", "Second mark", "Third mark"},
}

// listenWatches takes presses as the finger goes down, not as it lifts, at the
// time the browser had them. The space bar is the open gauge's button.
func (m *instruments) listenWatches() {
	m.watches = map[string]*watch{}
	each("[data-watch]", func(button js.Value) {
		gauge := button.Get("dataset").Get("watch").String()
		w := &watch{instruments: m, gauge: gauge, button: button, labels: pressLabels[gauge]}
		m.watches[gauge] = w
		dom.Listen(button, "pointerdown", func(e js.Value) {
			if e.Get("button").Int() == 0 {
				w.press(e)
			}
		})
		dom.Listen(button, "click", func(e js.Value) {
			if e.Get("detail").Int() == 0 { // by no pointer: a screen reader's
				w.press(e)
			}
		})
		dom.Listen(byID(gauge+"-length"), "change", func(js.Value) {
			if note := w.waiting; note != nil {
				w.waiting = nil
				note()
			}
		})
		w.label()
	})
	dom.Listen(byID("speed-by"), "change", func(js.Value) { m.watches["speed"].label() })
	for _, kind := range []string{"keydown", "keyup"} {
		dom.Listen(document, kind, func(e js.Value) {
			if w := m.watchFor(e); w != nil {
				e.Call("preventDefault") // no scrolling, and no click
				if kind == "keydown" && !e.Get("repeat").Bool() {
					w.press(e)
				}
			}
		})
	}
}

// watchFor is the watch that a key is for; nil: it is for something else.
func (m *instruments) watchFor(e js.Value) *watch {
	key, at := e.Get("key").String(), document.Get("activeElement")
	if m.section != "instruments" || key != " " && key != "Enter" || e.Get("ctrlKey").Bool() || e.Get("metaKey").Bool() || e.Get("altKey").Bool() || !forPage(e) {
		return nil
	}
	if on := at.Get("dataset").Get("watch"); on.Truthy() {
		return m.watches[on.String()]
	}
	if key == "Enter" || at.Call("closest", "input, select, button, summary, a").Truthy() {
		return nil
	}
	open := document.Call("querySelector", ".gauge[open]")
	if !open.Truthy() {
		return nil
	}
	return m.watches[gaugeOf(open)]
}

// bySound reports whether the microphone does the pressing.
func (w *watch) bySound() bool { return w.gauge == "speed" && text("speed-by") == "sound" }

// press is one press of the button, at the time of its event.
func (w *watch) press(e js.Value) {
	switch {
	case w.waiting != nil:
		w.say("The run before still lacks its length: enter it, or start anew.")
		return
	case w.bySound():
		w.toggleEar()
		return
	case len(w.presses) == 0:
		w.say("")
	}
	w.presses = append(w.presses, e.Get("timeStamp").Float())
	if len(w.presses) == 1 {
		go w.tick()
	}
	if len(w.presses) == len(w.labels) {
		times := make([]float64, len(w.presses)-1)
		for i := range times {
			times[i] = (w.presses[i+1] - w.presses[0]) / 1000
		}
		w.presses = nil
		w.note("thumb", times)
	}
	w.label()
}

// tick shows the time that runs.
func (w *watch) tick() {
	for len(w.presses) > 0 {
		time.Sleep(100 * time.Millisecond)
		w.label()
	}
}

func (w *watch) label() {
	words := w.labels[len(w.presses)]
	switch {
	case w.bySound() && w.ear != nil:
		words = "Stop listening"
	case w.bySound():
		words = "Listen"
	case len(w.presses) > 0:
		words += " · " + strconv.FormatFloat((now()-w.presses[0])/1000, 'f', 1, 64) + " s"
	}
	set(w.button, "textContent", words)
	w.button.Get("dataset").Set("running", len(w.presses) > 0 || w.bySound() && w.ear != nil)
}

// say tells how it went, under the button.
func (w *watch) say(words string) { set(byID(w.gauge+"-said"), "textContent", words) }

// note keeps a run, if it can be one. One whose length is not known yet waits
// for it.
func (w *watch) note(by string, times []float64) {
	took := strconv.FormatFloat(times[len(times)-1], 'f', 2, 64) + " s"
	r := store.Reading{Of: w.gauge, By: by, When: moment(), Time: span(times[0])}
	var err error
	if r.Length, err = w.length(w.gauge + "-length"); err != nil {
		w.waiting = func() { w.note(by, times) }
		w.say(took + ": now enter the length.")
		byID(w.gauge + "-length").Call("focus")
		return
	}
	switch w.gauge {
	case "marks":
		r.ThirdTime = span(times[1])
		r.Third, err = w.length("marks-third")
	case "speed":
		var topspin float64
		topspin, err = view.Topspin(&w.model.Scene, text("speed-hit"))
		r.Topspin = strconv.FormatFloat(topspin, 'g', -1, 64)
	}
	if err == nil {
		err = view.CheckReading(&w.model.Scene, r)
	}
	if err != nil {
		w.say("Not noted, " + took + ": " + err.Error() + ".")
		return
	}
	w.say("Noted: " + took + ".")
	if w.gauge == "rest" {
		byID("rest-length").Set("value", "") // the next ball stops elsewhere
	}
	w.do(app.AddReading{Reading: r})
}

func span(seconds float64) string { return strconv.FormatFloat(seconds, 'f', 4, 64) + "s" }

// length is a field's, as a record holds it.
func (w *watch) length(id string) (string, error) {
	v, err := unit.Parse(text(id), unit.LengthKind, w.model.Scene.Units)
	return store.Length(v), err
}

// typed takes times that another watch gave.
func (w *watch) typed() {
	input := byID(w.gauge + "-typed")
	var times []float64
	for _, word := range strings.Fields(input.Get("value").String()) {
		t, err := unit.Parse(word, unit.SpanKind, "s")
		if err != nil {
			w.say("Not noted: " + err.Error() + ".")
			return
		}
		times = append(times, t)
	}
	if many := len(w.labels) - 1; len(times) != many {
		w.say("Not noted: " + map[int]string{1: "one time is needed", 2: "two times are needed, both from the first mark, with a space between"}[many] + ".")
		return
	}
	input.Set("value", "")
	w.note("typed", times)
}

// clear drops the run under way; or, when there is none, the list.
func (w *watch) clear() {
	if len(w.presses) > 0 || w.waiting != nil {
		w.presses, w.waiting = nil, nil
		w.say("The run under way was dropped.")
		w.label()
		return
	}
	w.say("")
	w.do(app.ClearReadings{Of: w.gauge})
	say("started anew; Undo brings the readings back")
}

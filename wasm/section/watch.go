//go:build js && wasm

package section

import (
	"strconv"
	"strings"
	"syscall/js"
	"time"

	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// A watch is a stopwatch: a big button that is pressed at each event.
type watch struct {
	Host
	gauge   string
	button  js.Value
	labels  []string  // of the button, by the number of presses
	presses []float64 // times in milliseconds, of the present run
	waiting func()    // records the finished run once its length is known; nil: none
	ear     *device.Microphone
}

// listenWatches takes presses as the finger goes down, not as it lifts, with the event's
// own time. The space bar presses the button of the open instrument.
func (s *instruments) listenWatches() {
	s.watches = map[string]*watch{}
	dom.Each("[data-watch]", func(button js.Value) {
		of := view.InstrumentOf(dom.Data(button, "watch"))
		w := &watch{Host: s.Host, gauge: of.Name, button: button, labels: of.Presses}
		s.watches[of.Name] = w
		dom.Listen(button, "pointerdown", func(e js.Value) {
			if e.Get("button").Int() == 0 {
				w.press(e)
			}
		})
		dom.Listen(button, "click", func(e js.Value) {
			if e.Get("detail").Int() == 0 { // not by a pointer: by a screen reader
				w.press(e)
			}
		})
		dom.Listen(dom.ByID(w.gauge+"-length"), "change", func(js.Value) {
			if note := w.waiting; note != nil {
				w.waiting = nil
				note()
			}
		})
		w.label()
	})
	dom.Listen(dom.ByID("speed-by"), "change", func(js.Value) { s.watches[store.OfSpeed].label() })
	dom.On("note-time", func(el js.Value) { s.watches[gaugeOf(el)].typed() })
	dom.On("clear-readings", func(el js.Value) { s.watches[gaugeOf(el)].clear() })
	for _, kind := range []string{"keydown", "keyup"} {
		dom.Listen(dom.Document, kind, func(e js.Value) {
			if w := s.watchFor(e); w != nil {
				e.Call("preventDefault") // neither scrolling nor a click
				if kind == "keydown" && !e.Get("repeat").Bool() {
					w.press(e)
				}
			}
		})
	}
}

// watchFor returns the watch that a key press is for, or nil.
func (s *instruments) watchFor(e js.Value) *watch {
	key, at := e.Get("key").String(), dom.Document.Get("activeElement")
	if key != " " && key != "Enter" || s.Model().Section != "instruments" || dom.Modified(e) || !dom.ForPage(e) {
		return nil
	}
	if on := dom.Data(at, "watch"); on != "" {
		return s.watches[on]
	}
	if key == "Enter" || at.Call("closest", "input, select, button, summary, a").Truthy() {
		return nil
	}
	open := dom.Find(".gauge[open]")
	if !open.Truthy() {
		return nil
	}
	return s.watches[gaugeOf(open)]
}

// bySound reports whether the microphone does the timing.
func (w *watch) bySound() bool { return w.gauge == store.OfSpeed && dom.Text("speed-by") == "sound" }

// press handles a press of the button, at the time of its event.
func (w *watch) press(e js.Value) {
	switch {
	case w.waiting != nil:
		w.tell(view.TimeNoDistance)
		return
	case w.bySound():
		w.toggleEar()
		return
	case len(w.presses) == 0:
		w.tell("")
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

// tick shows the running time.
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
		words = view.StopListening
	case w.bySound():
		words = view.StartListening
	case len(w.presses) > 0:
		words += " · " + strconv.FormatFloat((device.Now()-w.presses[0])/1000, 'f', 1, 64) + " s"
	}
	dom.Set(w.button, "textContent", words)
	w.button.Get("dataset").Set("running", len(w.presses) > 0 || w.bySound() && w.ear != nil)
}

// tell writes a message under the button.
func (w *watch) tell(words string) { dom.Say(w.gauge+"-said", words) }

// note records a run if it is possible. A run whose length is not known yet waits for it.
func (w *watch) note(by string, times []float64) {
	took := strconv.FormatFloat(times[len(times)-1], 'f', 2, 64) + " s"
	m := w.Model()
	length := func(id string) (string, error) {
		v, err := unit.Parse(dom.Text(id), unit.LengthKind, m.Scene.Units)
		return store.Length(v), err
	}
	r := store.Reading{Of: w.gauge, By: by, When: device.Moment(), Time: span(times[0])}
	var err error
	if r.Length, err = length(w.gauge + "-length"); err != nil {
		w.waiting = func() { w.note(by, times) }
		w.tell(view.TimeNeedsDistance(took))
		dom.ByID(w.gauge + "-length").Call("focus")
		return
	}
	switch w.gauge {
	case store.OfMarks:
		r.ThirdTime = span(times[1])
		r.Third, err = length("marks-third")
	case store.OfSpeed:
		var topspin float64
		topspin, err = view.Topspin(&m.Scene, dom.Text("speed-hit"))
		r.Topspin = strconv.FormatFloat(topspin, 'g', -1, 64)
	}
	if err == nil {
		err = view.CheckReading(&m.Scene, r)
	}
	if err != nil {
		w.tell(view.TimeRefused(took, err))
		return
	}
	w.tell(view.TimeNoted(took))
	if w.gauge == store.OfRest {
		dom.ByID("rest-length").Set("value", "") // the next ball stops elsewhere
	}
	w.Do(app.AddReading{Reading: r})
}

func span(seconds float64) string { return strconv.FormatFloat(seconds, 'f', 4, 64) + "s" }

// typed takes times that another watch measured.
func (w *watch) typed() {
	input := dom.ByID(w.gauge + "-typed")
	var times []float64
	for _, word := range strings.Fields(input.Get("value").String()) {
		t, err := unit.Parse(word, unit.SpanKind, "s")
		if err != nil {
			w.tell(view.NotNoted(err))
			return
		}
		times = append(times, t)
	}
	if many := len(w.labels) - 1; len(times) != many {
		w.tell(view.TimesNeeded(many))
		return
	}
	input.Set("value", "")
	w.note("typed", times)
}

// clear drops the present run, or the list if there is none.
func (w *watch) clear() {
	if len(w.presses) > 0 || w.waiting != nil {
		w.presses, w.waiting = nil, nil
		w.tell(view.TimeDropped)
		w.label()
		return
	}
	w.tell("")
	w.Do(app.ClearReadings{Of: w.gauge})
	w.Say(view.ReadingsCleared)
}

//go:build js && wasm

package section

import (
	"math"
	"strings"
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/view"
)

// A heldMark is a mark that is dragged. It moves by as much as the finger does, which so
// need not hide the ball.
type heldMark struct {
	ball    string // empty if none is dragged
	pointer js.Value
	off     app.FilmPoint // from the finger to the mark
}

// listenMarks has marks dragged by mouse, pen or finger, and typed or moved by keys in
// their fields.
func (s *filming) listenMarks() {
	dom.Each("[data-film-mark]", func(field js.Value) {
		ball, axis, _ := strings.Cut(dom.Data(field, "filmMark"), ".")
		typed := func(draft bool) func(js.Value) {
			return func(js.Value) {
				s.Do(app.TypeFilmMark{Ball: ball, Axis: axis, Text: field.Get("value").String(), Draft: draft})
				s.stand()
			}
		}
		dom.Listen(field, "input", typed(true))
		dom.Listen(field, "change", typed(false))
		dom.Listen(field, "blur", func(js.Value) {
			m := s.Model()
			dom.Set(field, "value", view.FilmMarkText(&m.Film, ball, axis)) // where the outline was found
		})
		dom.Listen(field, "keydown", func(e js.Value) {
			step := map[string]float64{"ArrowUp": 1, "ArrowDown": -1}[e.Get("key").String()]
			if step == 0 {
				return
			}
			e.Call("preventDefault")
			if e.Get("shiftKey").Bool() {
				step *= 10
			}
			m := s.Model()
			at := view.FilmMarkOf(&m.Film, ball).At
			if axis == "x" {
				at.X += step
			} else {
				at.Y += step
			}
			s.Do(app.MarkFilm{Ball: ball, At: at})
			m = s.Model()
			field.Set("value", view.FilmMarkText(&m.Film, ball, axis))
			s.stand()
		})
	})
	over := dom.ByID("film-over")
	dom.Listen(dom.ByID("film-marks"), "pointerdown", func(e js.Value) {
		m, at := s.Model(), s.under(e)
		k := view.NearestMark(&m.Film, at)
		if s.held.ball != "" || k.Ball == "" {
			return
		}
		pointer := e.Get("pointerId")
		if !device.Attempt(func() { over.Call("setPointerCapture", pointer) }) {
			return // the pointer is gone already
		}
		s.turn++ // an answer under way is about the marks as they were
		s.held = heldMark{k.Ball, pointer, app.FilmPoint{X: k.At.X - at.X, Y: k.At.Y - at.Y}}
		e.Call("preventDefault")
		s.magnify(k.At)
	})
	dom.Listen(dom.ByID("film-marks"), "touchstart", func(e js.Value) {
		if s.held.ball != "" { // else a swipe scrolls; touch-action would do it, but not within an SVG
			e.Call("preventDefault")
		}
	})
	dom.Listen(over, "pointermove", func(e js.Value) {
		if s.held.ball == "" || !e.Get("pointerId").Equal(s.held.pointer) {
			return
		}
		at := s.under(e)
		at = app.FilmPoint{X: at.X + s.held.off.X, Y: at.Y + s.held.off.Y}
		s.Do(app.MarkFilm{Ball: s.held.ball, At: at})
		s.magnify(at)
	})
	dom.Listen(over, "lostpointercapture", func(js.Value) {
		s.held = heldMark{}
		dom.Hide("film-glass", true)
		s.stand()
	})
}

// under returns where in the film a pointer is.
func (s *filming) under(e js.Value) app.FilmPoint {
	box, f := dom.ByID("film-over").Call("getBoundingClientRect"), s.Model().Film
	scale := f.Width / math.Max(1, box.Get("width").Float())
	return app.FilmPoint{
		X: (e.Get("clientX").Float() - box.Get("left").Float()) * scale,
		Y: (e.Get("clientY").Float() - box.Get("top").Float()) * scale,
	}
}

// magnify shows the film around a point, in the upper corner that is further from it.
func (s *filming) magnify(at app.FilmPoint) {
	glass, f := dom.ByID("film-glass"), s.Model().Film
	size := glass.Get("width").Float()
	wide := math.Max(f.Width, f.Height) / 8
	pen := glass.Call("getContext", "2d")
	pen.Call("clearRect", 0, 0, size, size)
	pen.Call("drawImage", dom.ByID("film-video"), at.X-wide/2, at.Y-wide/2, wide, wide, 0, 0, size, size)
	pen.Set("strokeStyle", "#fff")
	pen.Set("lineWidth", 2)
	pen.Call("stroke", js.Global().Get("Path2D").New(view.GlassCross(size)))
	dom.Hide("film-glass", false)
	glass.Get("classList").Call("toggle", "right", at.X < f.Width/2)
}

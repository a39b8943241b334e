package message_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/message"
	"pivotbench/wasm/store"
)

// trips reports whether a message is read as it was sent.
func trips[T interface{ Object() message.Object }](t *testing.T, read func(message.Object) (T, bool), sent ...T) {
	t.Helper()
	for _, s := range sent {
		got, ok := read(s.Object())
		assert.True(t, ok)
		assert.Equal(t, s, got)
	}
}

// Every field of a film's message is read as it was sent, every number to the bit.
func TestFilmRoundTrips(t *testing.T) {
	marks := []app.FilmMark{{Ball: "cue", At: app.FilmPoint{X: math.Pi, Y: -1.0 / 3}, Radius: 20}, {Ball: "target", At: app.FilmPoint{X: 1e-9, Y: 719.5}}}
	line := []app.FilmPoint{{X: 0.1, Y: 0.2}, {X: 1280, Y: -3}}
	trips(t, message.ReadFilmFirst, message.FilmFirst{Link: "v=1&gate=20in", Width: 1280, Height: 720, Scale: 1.5, Marks: marks})
	trips(t, message.ReadFilmMarks, message.FilmMarks{Link: "v=1", Marks: marks}, message.FilmMarks{})
	trips(t, message.ReadFilmNext, message.FilmNext{}, message.FilmNext{Start: true})
	trips(t, message.ReadFilmTimes, message.FilmTimes{Times: []float64{0, 1.0 / 60, 0.033}}, message.FilmTimes{Why: "no film"})
	trips(t, message.ReadFilmFrame, message.FilmFrame{Time: 1.0 / 60, Width: 720, Height: 1280, Start: true}, message.FilmFrame{Width: 1, Height: 1})
	trips(t, message.ReadFilmEnd, message.FilmEnd{})
	trips(t, message.ReadFilmFit, message.FilmFit{Link: "v=1", Line: 30 * unit.Inch, Stroke: 1, Struck: []int{4, 0, 8}}, message.FilmFit{})
	trips(t, message.ReadFilmStand,
		message.FilmStand{FilmStand: app.FilmStand{Marks: marks, Aim: line, Gate: line[:1], Same: true, Found: true}},
		message.FilmStand{FilmStand: app.FilmStand{Why: "target ball: no ball is found at this mark; drag “it”"}})
	trips(t, message.ReadFilmTook, message.FilmTook{}, message.FilmTook{Why: "the camera moved"}, message.FilmTook{Share: 1.0 / 3, More: true})
	trips(t, message.ReadFilmStrokes, message.FilmStrokes{Begins: []float64{0.6, 1.0 / 3}}, message.FilmStrokes{Why: "no stroke is seen"})
	trips(t, message.ReadFilmTrack,
		message.FilmTrack{FilmTrack: app.FilmTrack{Why: "too few"}},
		message.FilmTrack{FilmTrack: app.FilmTrack{
			Launch: stat.NormalEstimate[unit.Angle](-0.05, 0.001), Speed: stat.NormalEstimate[unit.Speed](5, 0.1),
			Arrival: stat.NormalEstimate[unit.Length](0.02, 0.001), Roll: stat.NormalEstimate(0.01, 0.001), Slide: stat.NormalEstimate(0.2, 0.01), Line: 30 * unit.Inch,
			Frames: []app.FilmFrame{{Time: 0.5, At: line[0], Off: 0.7, Used: true}, {Time: 0.6, At: line[1]}}, Path: line,
			Record: store.Stroke{Mark: "1.1in", At: "30in", Read: "1mm", Film: store.Film{Launch: "2deg", Speed: "11mph", Cov: "1 0 1 0 0 1"}},
		}})
}

// A film's message is of one type, and what belongs to the canvas, or is junk, is of none.
func TestFilmMessagesAreOfOneType(t *testing.T) {
	readers := map[string]func(message.Object) bool{
		"first":   func(o message.Object) bool { _, ok := message.ReadFilmFirst(o); return ok },
		"marks":   func(o message.Object) bool { _, ok := message.ReadFilmMarks(o); return ok },
		"next":    func(o message.Object) bool { _, ok := message.ReadFilmNext(o); return ok },
		"times":   func(o message.Object) bool { _, ok := message.ReadFilmTimes(o); return ok },
		"frame":   func(o message.Object) bool { _, ok := message.ReadFilmFrame(o); return ok },
		"end":     func(o message.Object) bool { _, ok := message.ReadFilmEnd(o); return ok },
		"fit":     func(o message.Object) bool { _, ok := message.ReadFilmFit(o); return ok },
		"stand":   func(o message.Object) bool { _, ok := message.ReadFilmStand(o); return ok },
		"took":    func(o message.Object) bool { _, ok := message.ReadFilmTook(o); return ok },
		"strokes": func(o message.Object) bool { _, ok := message.ReadFilmStrokes(o); return ok },
		"track":   func(o message.Object) bool { _, ok := message.ReadFilmTrack(o); return ok },
	}
	for want, o := range map[string]message.Object{
		"first":   message.FilmFirst{Link: "v=1", Width: 1, Height: 1, Scale: 1}.Object(),
		"marks":   message.FilmMarks{}.Object(),
		"next":    message.FilmNext{}.Object(),
		"times":   message.FilmTimes{}.Object(),
		"frame":   message.FilmFrame{Width: 1, Height: 1}.Object(),
		"end":     message.FilmEnd{}.Object(),
		"fit":     message.FilmFit{}.Object(),
		"stand":   message.FilmStand{}.Object(),
		"took":    message.FilmTook{}.Object(),
		"strokes": message.FilmStrokes{}.Object(),
		"track":   message.FilmTrack{}.Object(),
		"scene":   message.Scene{}.Object(),
		"drag":    message.Drag{}.Object(),
		"ready":   message.Ready{}.Object(),
		"failed":  message.Failed{}.Object(),
		"junk": {
			"first": 1.0, "moved": true, "frame": "soon", "end": 1.0, "fit": "0", "stand": nil, "took": false,
			"strokes": 3.0, "next": "now", "times": 0.5, "track": message.Object{},
		},
		"empty picture": {"first": "v=1", "frame": 0.0, "width": 0.0, "height": -5.0},
		"no message":    nil,
	} {
		for name, is := range readers {
			assert.Equal(t, name == want, is(o), "%s read as %s", want, name)
		}
	}
}

// Lists that are cut or of another form count as left out.
func TestFilmListsAreChecked(t *testing.T) {
	read, ok := message.ReadFilmStand(message.Object{"stand": "", "balls": "cue 1 2;target 1 2 x;left 1 2 3 4;right 1 2 3;", "aim": "1 2 3", "gate": 7.0})
	assert.True(t, ok)
	assert.Equal(t, message.FilmStand{FilmStand: app.FilmStand{
		Marks: []app.FilmMark{{Ball: "right", At: app.FilmPoint{X: 1, Y: 2}, Radius: 3}}, Aim: []app.FilmPoint{{X: 1, Y: 2}},
	}}, read)
}

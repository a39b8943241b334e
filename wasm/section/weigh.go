//go:build js && wasm

package section

import (
	"slices"
	"strconv"
	"syscall/js"
	"time"

	"pivotbench/core/sitting"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/view"
)

// A weigher works the posterior of the strokes out in the background, a stroke at
// a time: on a slow phone the controls stay alive meanwhile.
type weigher struct {
	log     view.Log
	sitting *view.Sitting
	of      weighed // what the finding is for
	fit     string  // how well the strokes fit, in words
	turn    int     // of the computation under way: an older one gives up
}

// A weighed is what a finding depends on beside the strokes.
type weighed struct {
	scene, cue string
	setUp      sitting.SetUp
	line       unit.Length
	table      app.Table
	changes    int    // of the records, which hold the checks of the set-up too
	now        string // the time, by which the next stroke begins a sitting or not
}

func weighing(m *app.Model) weighed {
	return weighed{m.Scene.Format(), m.Measuring, m.SetUp, m.MarkLine(), m.Table, m.Changes, m.Now}
}

// weigh weighs the strokes, then finds the next one, then where strokes are expected,
// then what would help, then which strokes don't fit the others.
func (s *measure) weigh() {
	w := &s.weigher
	w.turn++
	turn := w.turn
	on := func(rest time.Duration) bool { // gives the page time for other work
		time.Sleep(rest)
		return w.turn == turn
	}
	rested := device.Now()
	step := func() bool { // rests when the page has waited for half a frame
		if device.Now()-rested < 8 {
			return w.turn == turn
		}
		goesOn := on(time.Millisecond)
		rested = device.Now()
		return goesOn
	}
	go func() {
		m := s.Model()
		t, ok := w.log.Follow(&m, step)
		if !ok {
			return
		}
		w.sitting = t
		if !on(time.Millisecond) {
			return
		}
		m = s.Model()
		w.of = weighing(&m)
		begin := device.Now()
		finding, ok := view.WeighWhile(&m, w.sitting, step)
		if !ok {
			return
		}
		s.finding = finding
		dom.Window.Set("suggestionTook", device.Now()-begin) // ms, for the bench
		s.showFinding(&m)
		s.suggest(&m)
		if !on(time.Millisecond) {
			return
		}
		bands := view.Bands(&m, w.sitting, step)
		if w.turn != turn {
			return
		}
		if now := s.Model(); !slices.Equal(now.Bands, bands) {
			s.Do(app.Expect{Bands: bands})
		}
		if !on(200 * time.Millisecond) { // several times the work of one suggestion
			return
		}
		dom.Say("help", view.Help(&m, w.sitting))
		doubts := make([]float64, len(w.sitting.Taken))
		for i := range doubts {
			if !step() {
				return
			}
			doubts[i] = w.sitting.Post.Doubt(i)
		}
		w.showDoubts(doubts)
		words, swapped := view.Fit(w.sitting, step)
		if w.turn != turn {
			return
		}
		w.fit = words
		w.log.Suspect(swapped)
		m = s.Model()
		s.askSides(&m)
	}()
}

// showDoubts marks the strokes that don't fit the others, and those that were left
// out.
func (w *weigher) showDoubts(doubts []float64) {
	chance := map[int]float64{}
	for i, d := range doubts {
		chance[w.sitting.Taken[i]] = d
	}
	var said []string
	doubtful := map[string]bool{}
	show := func(stroke int, words string) {
		if words != "" {
			said = append(said, words)
			doubtful[strconv.Itoa(stroke)] = true
		}
	}
	w.sitting.PastDoubts(show)
	for i := range w.sitting.Noted {
		d, taken := chance[i]
		place := w.sitting.Place(i)
		show(place, view.Doubt(place, taken, d))
	}
	dom.Each("#strokes tr[data-stroke]", func(row js.Value) {
		row.Get("classList").Call("toggle", "doubtful", doubtful[dom.Data(row, "stroke")])
	})
	dom.List("doubts", said)
}

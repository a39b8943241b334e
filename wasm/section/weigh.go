//go:build js && wasm

package section

import (
	"slices"
	"time"

	"pivotbench/core/sitting"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// A weigher works the posterior of the strokes out in the background, a stroke at
// a time: on a slow phone the controls stay alive meanwhile.
type weigher struct {
	log     view.Log
	sitting *view.Sitting // nil: the finding is still to come
	cue     string        // that the finding is about: see store.CueKey
	of      weighed       // what the finding is for
	fit     string        // how well the strokes fit, in words
	turn    int           // of the computation under way: an older one gives up
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

// soon is how long an answer may take before the page says that it is on its way, and how
// long until it says again how far it is.
const soon = 200 * time.Millisecond

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
	rested := time.Now()
	step := func() bool { // rests when the page has waited for most of a frame
		if time.Since(rested) < 12*time.Millisecond {
			return w.turn == turn
		}
		goesOn := on(time.Millisecond)
		rested = time.Now()
		return goesOn
	}
	said := rested
	pending := func() bool { // is step, and says that the answer takes a moment
		goesOn := step()
		if goesOn && rested.Sub(said) > soon {
			said = rested
			s.showPending()
		}
		return goesOn
	}
	if w.sitting == nil {
		s.showPending()
	}
	go func() {
		m := s.Model()
		t, ok := w.log.Follow(&m, pending)
		if !ok {
			return
		}
		w.sitting, w.cue = t, store.CueKey(m.Measuring)
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
		if t, ok = w.log.FollowAll(&m, step); !ok {
			return
		}
		w.sitting = t
		doubts := make([]float64, len(w.sitting.Taken))
		for i := range doubts {
			if !step() {
				return
			}
			doubts[i] = w.sitting.Post.Doubt(i)
		}
		s.showDoubts(doubts)
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
func (s *measure) showDoubts(doubts []float64) {
	t, chance := s.weigher.sitting, map[int]float64{}
	for i, d := range doubts {
		chance[t.Taken[i]] = d
	}
	var said []string
	doubtful := map[int]bool{}
	show := func(stroke int, words string) {
		if words != "" {
			said = append(said, words)
			doubtful[stroke] = true
		}
	}
	t.PastDoubts(show)
	for i := range t.Noted {
		d, taken := chance[i]
		place := t.Place(i)
		show(place, view.Doubt(place, taken, d))
	}
	s.strokes.markAll(doubtful)
	dom.List("doubts", said)
}

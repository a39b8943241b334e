//go:build js && wasm

package section

import (
	"strconv"
	"time"

	"pivotbench/core/trial"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// A weigher computes the posterior of the log in the background, one stroke at a time, so
// that the controls stay responsive on a slow phone.
type weigher struct {
	log       []store.Try // the part that is included in the posterior
	taken     []int       // the strokes of the log that could be included
	post      *trial.Posterior
	reference float64
	at        string // the set-up that the finding belongs to
	turn      int    // number of the present computation; older ones stop
}

// weigh computes the posterior of the strokes, then the next stroke to make, then the
// settings that would help, then the strokes that do not fit the others.
func (s *measure) weigh() {
	w := &s.weigher
	w.turn++
	turn := w.turn
	on := func(rest time.Duration) bool { // gives the page time for other work
		time.Sleep(rest)
		return w.turn == turn
	}
	go func() {
		m := s.Model()
		w.begin(m.Kept.Tries, m.Scene.PivotSpin)
		for _, try := range m.Kept.Tries[len(w.log):] {
			if !on(time.Millisecond) {
				return
			}
			w.add(try)
		}
		if !on(time.Millisecond) {
			return
		}
		scene := s.Model().Scene
		w.at = scene.Format()
		begin := device.Now()
		s.finding = view.Weigh(&scene, w.post)
		dom.Window.Set("suggestionTook", device.Now()-begin) // ms, for scripts/bench
		s.showFinding(&scene)
		if !on(200 * time.Millisecond) { // it takes six times the work of one suggestion
			return
		}
		var said string
		said, s.help = view.Help(&scene, w.post)
		dom.Say("help", said)
		dom.Doer("take-help").Set("hidden", len(s.help) == 0)
		doubts := make([]float64, len(w.taken))
		for i := range doubts {
			if !on(time.Millisecond) {
				return
			}
			doubts[i] = w.post.Doubt(i)
		}
		w.showDoubts(doubts)
	}()
}

// begin continues from the present posterior if that belongs to the beginning of the log,
// and otherwise starts over.
func (w *weigher) begin(log []store.Try, reference float64) {
	same := w.post != nil && w.reference == reference && len(w.log) <= len(log)
	for i := 0; same && i < len(w.log); i++ {
		same = w.log[i] == log[i]
	}
	if !same {
		*w = weigher{post: trial.Prior(), reference: reference, turn: w.turn}
	}
}

// add includes the next stroke of the log. A stroke that cannot have happened, as in an
// imported file, is left out.
func (w *weigher) add(try store.Try) {
	t, _ := try.Trial(w.reference)
	if next, err := w.post.Add(t); err == nil {
		w.post = next
		w.taken = append(w.taken, len(w.log))
	}
	w.log = append(w.log, try)
}

// showDoubts marks the strokes that do not fit the others, and those that were left out.
func (w *weigher) showDoubts(doubts []float64) {
	chance := map[int]float64{}
	for i, d := range doubts {
		chance[w.taken[i]] = d
	}
	var said []string
	for i := range w.log {
		d, taken := chance[i]
		words := view.Doubt(i, taken, d)
		if row := dom.Find(`#tries tr[data-try="` + strconv.Itoa(i) + `"]`); row.Truthy() {
			row.Get("classList").Call("toggle", "doubtful", words != "")
		}
		if words != "" {
			said = append(said, words)
		}
	}
	dom.List("doubts", said)
}

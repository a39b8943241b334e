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

// A weigher works the posterior of the log out in the background, a try at a
// time: on a slow phone the controls stay alive meanwhile.
type weigher struct {
	log       []store.Stroke // as far as it is weighed
	taken     []int          // the tries of the log that could be weighed
	post      *trial.Posterior
	reference float64
	at        string // the set-up the finding is for
	turn      int    // of the computation under way: an older one gives up
}

// weigh weighs the tries, then finds the next one, then what would help, then
// which tries don't fit the others.
func (s *measure) weigh() {
	w := &s.weigher
	w.turn++
	turn := w.turn
	on := func(rest time.Duration) bool { // lets the page have its turn
		time.Sleep(rest)
		return w.turn == turn
	}
	go func() {
		m := s.Model()
		w.begin(m.Kept.Strokes, m.Scene.PivotSpin)
		for _, try := range m.Kept.Strokes[len(w.log):] {
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
		dom.Window.Set("suggestionTook", device.Now()-begin) // ms, for the bench
		s.showFinding(&scene)
		if !on(200 * time.Millisecond) { // six times the work of one suggestion
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

// begin goes on from what is weighed already, if that is the log's beginning;
// else from nothing.
func (w *weigher) begin(log []store.Stroke, reference float64) {
	same := w.post != nil && w.reference == reference && len(w.log) <= len(log)
	for i := 0; same && i < len(w.log); i++ {
		same = w.log[i] == log[i]
	}
	if !same {
		*w = weigher{post: trial.Prior(), reference: reference, turn: w.turn}
	}
}

// add weighs the next try of the log. One that can't have been, as an imported
// file may have, is left out.
func (w *weigher) add(try store.Stroke) {
	t, _ := try.Trial(w.reference)
	if next, err := w.post.Add(t); err == nil {
		w.post = next
		w.taken = append(w.taken, len(w.log))
	}
	w.log = append(w.log, try)
}

// showDoubts marks the tries that don't fit the others, and those that were left
// out.
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

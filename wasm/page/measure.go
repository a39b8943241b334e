//go:build js && wasm

package main

import (
	"slices"
	"strconv"
	"strings"
	"syscall/js"
	"time"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/trial"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/kept"
	"pivotbench/wasm/sheet"
	"pivotbench/wasm/show"
)

// measuring is the Measure section: tries at a gate, noted down and weighed.
type measuring struct {
	*page
	rail    show.RailFinding
	listed  []kept.Try // the tries in the list
	listing bool       // there is a list

	// The posterior of the log, worked out as far as it goes.
	log       []kept.Try
	post      *trial.Posterior
	reference float64
	at        string // the set-up the finding is for
	finding   show.Finding
	turn      int // of the computation under way: an older one gives up
}

func (m *measuring) listen() {
	m.actions["note"] = func(el js.Value) {
		m.do(app.AddTry{Outcome: el.Get("dataset").Get("outcome").String(), When: moment()})
	}
	m.actions["delete-try"] = func(el js.Value) { m.do(app.ChangeTry{Index: index(el)}) }
	m.actions["take-next"] = func(js.Value) { m.takeNext() }
	m.actions["gap-by-cards"] = func(js.Value) { m.gapByCards() }
	m.actions["use-pivot"] = func(js.Value) { m.usePivot() }
	m.actions["tries-csv"] = func(js.Value) { save("tries.csv", "text/csv;charset=utf-8", kept.TriesCSV(m.model.Kept.Tries)) }
	m.actions["clear-tries"] = func(js.Value) {
		records := m.model.Kept
		records.Tries = nil
		m.do(app.Replace{Kept: records})
		say("started anew; Undo brings the tries back")
	}
	m.actions["save-measured"] = func(js.Value) { m.saveMeasured() }
	m.actions["save-rail"] = func(js.Value) { m.saveCue(m.rail.Cue) }
	listen(byID("tries"), "change", func(e js.Value) {
		pick := e.Get("target")
		m.do(app.ChangeTry{Index: index(pick), Outcome: pick.Get("value").String()})
	})
	m.listenRail()
}

// render writes the list of tries, and has them weighed, when they or the
// set-up have changed.
func (m *measuring) render(*shot.Result) {
	tries := m.model.Kept.Tries
	changed := !m.listing || !slices.Equal(tries, m.listed)
	if changed {
		m.listed, m.listing = tries, true
		body := document.Call("querySelector", "#tries tbody")
		body.Call("replaceChildren")
		for i := len(tries) - 1; i >= 0; i-- {
			m.putTry(body, i, tries[i])
		}
		byID("tries").Set("hidden", len(tries) == 0)
	}
	if changed || m.at != m.model.Scene.Format() {
		m.weigh()
	}
	m.renderRail()
}

func (m *measuring) follow() {} // weighing goes on by itself

// putTry writes a row of the list.
func (m *measuring) putTry(body js.Value, i int, l kept.Try) {
	s, _ := scenario.Parse(l.Link)
	s.Units = m.model.Scene.Units
	row := put("tr", "", body)
	put("td", strconv.Itoa(i+1), row)
	put("td", scenario.Find("bridge").Shown(&s), row)
	put("td", scenario.Find("side").Shown(&s), row)
	put("td", scenario.Find("speed").Shown(&s), row)
	pick := put("select", "", put("td", "", row))
	pick.Call("setAttribute", "aria-label", "Result of try "+strconv.Itoa(i+1))
	pick.Get("dataset").Set("index", i)
	for _, o := range kept.Outcomes {
		put("option", o, pick)
	}
	pick.Set("value", l.Outcome)
	putButton("×", "Delete try "+strconv.Itoa(i+1), "delete-try", i, put("td", "", row))
}

// weigh works the posterior out in the background, a try at a time, and then
// the finding: on a slow phone the controls stay alive meanwhile.
func (m *measuring) weigh() {
	m.turn++
	turn, log, reference := m.turn, m.model.Kept.Tries, m.model.Scene.PivotSpin
	go func() {
		post, from := m.begun(log, reference)
		var refused []string
		for i := from; i < len(log); i++ {
			time.Sleep(time.Millisecond) // lets the page have its turn
			if m.turn != turn {
				return
			}
			t, ok := log[i].Trial(reference)
			next, err := post.Add(t)
			if !ok || err != nil {
				refused = append(refused, "try "+strconv.Itoa(i+1)+" was left out: it can't have reached the gate")
				continue
			}
			post = next
		}
		m.log, m.post, m.reference = log, post, reference
		time.Sleep(time.Millisecond)
		if m.turn != turn {
			return
		}
		m.at = m.model.Scene.Format()
		m.finding = show.Weigh(&m.model.Scene, post)
		m.renderFinding(refused)
		time.Sleep(200 * time.Millisecond) // six times the work of one suggestion
		if m.turn == turn {
			set(byID("help"), "textContent", show.Help(&m.model.Scene, post))
		}
	}()
}

// begun is the posterior of as many tries of a log as were weighed before.
func (m *measuring) begun(log []kept.Try, reference float64) (*trial.Posterior, int) {
	was := m.log
	if m.post != nil && m.reference == reference && len(was) <= len(log) {
		i := 0
		for i < len(was) && was[i] == log[i] {
			i++
		}
		if i == len(was) {
			return m.post, i
		}
	}
	return trial.Prior(), 0
}

func (m *measuring) renderFinding(refused []string) {
	f := &m.finding
	set(byID("finding"), "textContent", f.Head)
	set(byID("next"), "textContent", f.Next)
	set(byID("limit"), "textContent", strings.Join(append(refused, f.Limit), " "))
	fill(byID("facts"), len(f.Facts), func(i int) (string, string) { return f.Facts[i].Name, f.Facts[i].Value })
	doer("use-pivot").Set("disabled", f.Pivot == 0)
	box := byID("density")
	width := min(max(box.Get("clientWidth").Float(), 280), 640)
	chart := sheet.Density(&m.model.Scene, m.post, width, 150)
	box.Set("innerHTML", sheet.SVG(&chart, "How likely each pivot length is. "+f.Head))
}

// takeNext puts the suggested try on the bench.
func (m *measuring) takeNext() {
	m.do(app.Drag{Phase: app.DragStart})
	m.do(app.Drag{Phase: app.DragEnd, Sets: m.finding.Sets})
	m.pushAddress()
}

// usePivot puts the measured pivot length in the shot.
func (m *measuring) usePivot() {
	m.do(app.Set{Key: "pivot", Text: unit.Exact(float64(m.finding.Pivot), unit.LengthKind, "in")})
	m.settle()
	m.open("shot")
}

// gapByCards sets the gap as one ball and some cards or coins between the
// blockers.
func (m *measuring) gapByCards() {
	many, err := unit.Parse(byID("cards").Get("value").String(), unit.Ratio, "")
	thick, errThick := unit.Parse(byID("thick").Get("value").String(), unit.LengthKind, "mm")
	if err != nil || errThick != nil || many < 0 || thick < 0 {
		say("give a number of cards, and how thick one is, as in 1.5 mm")
		return
	}
	gap := float64(2*m.model.Scene.GearBall().Radius) + many*thick
	m.do(app.Set{Key: "gap", Text: unit.Exact(gap, unit.LengthKind, "in")})
	m.settle()
}

// saveMeasured puts what the tries came to on the list of cues.
func (m *measuring) saveMeasured() {
	if m.post == nil || m.post.N() == 0 {
		say("note some tries first")
		return
	}
	scene := m.model.Scene
	scene.Name = byID("cue-name").Get("value").String()
	m.saveCue(kept.Measured(&scene, m.post.Pivot(), "gate", moment()))
}

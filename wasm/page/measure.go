//go:build js && wasm

package main

import (
	"strconv"
	"strings"
	"syscall/js"
	"time"

	"pivotbench/core/scenario"
	"pivotbench/core/trial"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/sheet"
)

// keptKey is where tries and cues are kept on the device.
const keptKey = "pivotbench-kept"

// A weighing is the posterior of the log, worked out as far as it goes.
type weighing struct {
	log       []app.Logged
	post      *trial.Posterior
	reference float64
	at        string // the set-up the finding is for
	finding   app.Finding
	turn      int // of the computation under way: an older one gives up
}

// loadKept brings tries and cues back from the device.
func (p *page) loadKept() {
	text := stored(keptKey)
	if text == "" {
		return
	}
	kept, err := app.Decode(text)
	if err != nil {
		p.model.Notices = append(p.model.Notices, "What this device keeps can't be read: "+err.Error())
		store(keptKey+"-unread", text) // whoever can mend it still has it
		return
	}
	p.model.Kept = kept
}

// listenKept follows what another tab keeps, the results changed in the list,
// and files chosen to be imported.
func (p *page) listenKept() {
	listen(window, "storage", func(e js.Value) {
		if text := e.Get("newValue"); e.Get("key").Equal(js.ValueOf(keptKey)) && text.Type() == js.TypeString {
			if kept, err := app.Decode(text.String()); err == nil {
				p.model.Kept = kept
				p.shown = nil
				p.render()
			}
		}
	})
	listen(byID("tries"), "change", func(e js.Value) {
		if i := e.Get("target").Get("dataset").Get("try"); !i.IsUndefined() {
			n, _ := strconv.Atoi(i.String())
			p.do(app.ChangeTry{Index: n, Outcome: e.Get("target").Get("value").String()})
		}
	})
	p.listenRail()
	each("input[type=file]", func(input js.Value) { listen(input, "change", p.takeFile) })
}

// takeFile imports a file, whole or not at all.
func (p *page) takeFile(e js.Value) {
	input := e.Get("target")
	file := input.Get("files").Index(0)
	if !file.Truthy() {
		return
	}
	settle(file.Call("text"), func(text js.Value) {
		kept, err := app.Decode(text.String())
		if err != nil {
			p.do(app.Tell{Notices: strings.Split("Nothing was imported.\n"+err.Error(), "\n")})
			return
		}
		p.do(app.Replace{Kept: kept})
		say(strconv.Itoa(len(kept.Tries)) + " tries and " + strconv.Itoa(len(kept.Cues)) + " cues imported; Undo brings the old ones back")
	}, func(js.Value) { say("the file can't be read") })
	input.Set("value", "")
}

// same reports whether two lists are the same one, not merely alike: they are
// never changed in place.
func same[T any](a, b []T) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}

// renderKept writes the lists when they have changed, keeps them on the
// device, and has the tries weighed.
func (p *page) renderKept() {
	if p.section == "measure" && p.weighed.at != p.model.Scene.Format() {
		p.weigh()
	}
	p.renderRail()
	k := p.model.Kept
	if p.shown != nil && same(p.shown.Tries, k.Tries) && same(p.shown.Cues, k.Cues) && p.shown.Marks == k.Marks {
		return
	}
	first := p.shown == nil
	p.shown = &k
	body := document.Call("querySelector", "#tries tbody")
	body.Call("replaceChildren")
	for i := len(k.Tries) - 1; i >= 0; i-- {
		p.putTry(body, i, k.Tries[i])
	}
	byID("tries").Set("hidden", len(k.Tries) == 0)
	p.renderCues()
	words := "Tries and cues are kept on this device as they are made."
	if !first && !store(keptKey, k.Encode()) {
		words = "This device refused to keep this: export it before you leave."
	}
	each(".kept", func(el js.Value) { set(el, "textContent", words) })
	p.weigh()
}

// putTry writes a row of the list.
func (p *page) putTry(body js.Value, i int, l app.Logged) {
	s, _ := scenario.Parse(l.Link)
	s.Units = p.model.Scene.Units
	row := put("tr", "", body)
	put("td", strconv.Itoa(i+1), row)
	put("td", scenario.Find("bridge").Shown(&s), row)
	put("td", scenario.Find("side").Shown(&s), row)
	put("td", scenario.Find("speed").Shown(&s), row)
	pick := put("select", "", put("td", "", row))
	pick.Call("setAttribute", "aria-label", "Result of try "+strconv.Itoa(i+1))
	pick.Get("dataset").Set("try", i)
	for _, o := range app.Outcomes {
		put("option", o, pick)
	}
	pick.Set("value", l.Outcome)
	drop := put("button", "×", put("td", "", row))
	drop.Call("setAttribute", "type", "button")
	drop.Call("setAttribute", "aria-label", "Delete try "+strconv.Itoa(i+1))
	drop.Get("dataset").Set("delete", i)
}

// weigh works the posterior out in the background, a try at a time, and then
// the finding: on a slow phone the controls stay alive meanwhile.
func (p *page) weigh() {
	if p.section != "measure" {
		return
	}
	p.weighed.turn++
	turn, log, reference := p.weighed.turn, p.model.Kept.Tries, p.model.Scene.PivotSpin
	go func() {
		post, from := p.begun(log, reference)
		var refused []string
		for i := from; i < len(log); i++ {
			time.Sleep(time.Millisecond) // lets the page have its turn
			if p.weighed.turn != turn {
				return
			}
			t, ok := log[i].Try(reference)
			next, err := post.Add(t)
			if !ok || err != nil {
				refused = append(refused, "try "+strconv.Itoa(i+1)+" was left out: it can't have reached the gate")
				continue
			}
			post = next
		}
		p.weighed.log, p.weighed.post, p.weighed.reference = log, post, reference
		time.Sleep(time.Millisecond)
		if p.weighed.turn != turn {
			return
		}
		p.weighed.at = p.model.Scene.Format()
		p.weighed.finding = app.Weigh(&p.model.Scene, post)
		p.renderFinding(refused)
		time.Sleep(200 * time.Millisecond) // six times the work of one suggestion
		if p.weighed.turn == turn {
			set(byID("help"), "textContent", app.Help(&p.model.Scene, post))
		}
	}()
}

// begun is the posterior of as many tries of a log as were weighed before.
func (p *page) begun(log []app.Logged, reference float64) (*trial.Posterior, int) {
	was := p.weighed.log
	if p.weighed.post != nil && p.weighed.reference == reference && len(was) <= len(log) {
		i := 0
		for i < len(was) && was[i] == log[i] {
			i++
		}
		if i == len(was) {
			return p.weighed.post, i
		}
	}
	return trial.Prior(), 0
}

func (p *page) renderFinding(refused []string) {
	f := &p.weighed.finding
	set(byID("finding"), "textContent", f.Head)
	set(byID("next"), "textContent", f.Next)
	set(byID("limit"), "textContent", strings.Join(append(refused, f.Limit), " "))
	fill(byID("facts"), len(f.Facts), func(i int) (string, string) { return f.Facts[i].Name, f.Facts[i].Value })
	document.Call("querySelector", `[data-do="use-pivot"]`).Set("disabled", f.Pivot == 0)
	box := byID("density")
	width := min(max(box.Get("clientWidth").Float(), 280), 640)
	chart := sheet.Density(&p.model.Scene, p.weighed.post, width, 150)
	box.Set("innerHTML", sheet.SVG(&chart, "How likely each pivot length is. "+f.Head))
}

// takeNext puts the suggested try on the bench.
func (p *page) takeNext() {
	p.do(app.Drag{Phase: app.DragStart})
	p.do(app.Drag{Phase: app.DragEnd, Sets: p.weighed.finding.Sets})
	p.pushAddress()
}

// usePivot puts the measured pivot length in the shot.
func (p *page) usePivot() {
	p.do(app.Set{Key: "pivot", Text: unit.Exact(float64(p.weighed.finding.Pivot), unit.LengthKind, "in")})
	p.settle()
	p.open("shot")
}

// gapByCards sets the gap as one ball and some cards or coins between the
// blockers.
func (p *page) gapByCards() {
	many, err := unit.Parse(byID("cards").Get("value").String(), unit.Ratio, "")
	thick, errThick := unit.Parse(byID("thick").Get("value").String(), unit.LengthKind, "mm")
	if err != nil || errThick != nil || many < 0 || thick < 0 {
		say("give a number of cards, and how thick one is, as in 1.5 mm")
		return
	}
	gap := float64(2*p.model.Scene.GearBall().Radius) + many*thick
	p.do(app.Set{Key: "gap", Text: unit.Exact(gap, unit.LengthKind, "in")})
	p.settle()
}

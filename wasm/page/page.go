//go:build js && wasm

package main

import (
	"syscall/js"
	"time"

	"pivotbench/core/lesson"
	"pivotbench/core/shot"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/pointer"
	"pivotbench/wasm/sheet"
	"pivotbench/wasm/view"
)

// A page is the model and what it writes to.
type page struct {
	model        app.Model
	outputs      []output
	controls     []*control
	actions      map[string]func(js.Value) // of buttons, by their data-do
	sections     map[string]section
	offers       map[string]func(address string) // of links that bring no shot, by their kind
	offered      string                          // the address an offer left behind
	panels, tabs map[string]js.Value             // of the sections
	section      string                          // the one that is open
	allListen    bool                            // not only the section that is open at the start
	following    bool                            // the open section is soon to catch up
	canvas       bool                            // the canvas draws
	ready        bool                            // it is to, once the drag under way is over
	layer        *pointer.Layer                  // of the plain drawing, while there is no canvas
	glass        sheet.Glass                     // the plain drawing
	looks        looks                           // as written
	awake        js.Value                        // the hold on the screen, where there is one
	keeper
	importing importing   // as written
	sent      *app.Mirror // what the canvas was sent last; nil: nothing yet
	gliding   bool        // what is sent next is to be glided to
	settling  *time.Timer // ends a gesture of the controls
	playing   playing
	teaching  *teaching
	gauges    *instruments
	keyboard  focus // where the keyboard is
	keypad    keypad
}

// An output is an element that shows a reading.
type output struct {
	el, why js.Value
	spec    *shot.Spec
	last    view.Readout
}

// find looks up the elements the page writes to.
func (p *page) find() {
	p.section = first
	rack := &cues{page: p}
	p.teaching = &teaching{page: p}
	p.gauges = &instruments{page: p, units: "in"} // as the page is made
	p.sections = map[string]section{
		"shot":        &aiming{page: p},
		"measure":     &measuring{page: p},
		"cues":        rack,
		"card":        &carding{page: p},
		"clearance":   &clearing{page: p},
		"lessons":     p.teaching,
		"instruments": p.gauges,
		"reference":   still{},
	}
	p.offers = map[string]func(string){"cue": rack.offer, lesson.Kind: p.teaching.offer}
	p.panels, p.tabs = map[string]js.Value{}, map[string]js.Value{}
	for name := range p.sections {
		p.panels[name] = document.Call("querySelector", `[data-panel="`+name+`"]`)
		p.tabs[name] = document.Call("querySelector", `.tabs [data-section="`+name+`"]`)
	}
	for i := range shot.Specs {
		spec := &shot.Specs[i]
		el := document.Call("querySelector", `[data-reading="`+spec.Name+`"]`)
		p.outputs = append(p.outputs, output{el: el, why: el.Get("nextElementSibling"), spec: spec})
	}
	p.adopt()
}

// do takes an event and shows what comes of it.
func (p *page) do(e app.Event) {
	p.model = app.Update(p.model, e)
	p.render()
}

// render writes the model to the page; what has not changed is left alone.
func (p *page) render() {
	p.storeKept()
	res := p.model.Play()
	p.renderModel(res)
	p.renderDrawing(res)
}

// renderModel writes all but the plain drawing.
func (p *page) renderModel(res *shot.Result) {
	p.renderReadings(res)
	p.renderControls(&res.Reading)
	p.renderNotices()
	p.renderLook()
	p.renderImport()
	p.sections[p.section].render(res)
	if p.playing.due() {
		p.playing.render()
	}
	p.followSoon()
	p.sendScene()
	byID("board").Set("href", boardPage()+"#"+p.model.Scene.Format())
	p.keyboard.hold()
}

func (p *page) renderReadings(res *shot.Result) {
	r := &res.Reading
	for i := range p.outputs {
		o := &p.outputs[i]
		now := view.ReadoutOf(o.spec, r, p.model.Scene.Units)
		if now == o.last {
			continue
		}
		o.last = now
		o.el.Get("dataset").Set("value", now.Exact)
		o.el.Get("dataset").Set("why", now.Why)
		o.el.Set("textContent", now.Text)
		if o.why.Truthy() {
			o.why.Set("textContent", now.Why)
		}
	}
	said := phrase.Verdict(&p.model.Scene, r)
	if p.model.Look.Object && res.Launched == nil {
		said.Detail = view.Potting(&p.model.Scene, res)
	}
	head := document.Call("querySelector", `[data-reading="verdict"]`)
	set(head, "textContent", said.Head)
	set(byID("detail"), "textContent", said.Detail)
	why := ""
	if r.Verdict.Err() != nil {
		why = r.Verdict.Err().Error()
	}
	head.Get("dataset").Set("value", string(r.Verdict.Value))
	head.Get("dataset").Set("why", why)
}

func (p *page) renderNotices() {
	box := byID("notices")
	list := box.Call("querySelector", "ul")
	if list.Get("childElementCount").Int() == 0 && len(p.model.Notices) == 0 {
		return
	}
	list.Call("replaceChildren")
	for _, n := range p.model.Notices {
		item := document.Call("createElement", "li")
		item.Set("textContent", n)
		list.Call("append", item)
	}
	box.Set("hidden", len(p.model.Notices) == 0)
}

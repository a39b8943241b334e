//go:build js && wasm

package main

import (
	"time"

	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/keeper"
	"pivotbench/wasm/section"
)

// A page is the model and everything in the browser that follows it.
type page struct {
	model     app.Model
	taking    bool        // an update of the model is under way
	waiting   []app.Event // the changes that come next
	keeper    keeper.Keeper
	asked     bool // to protect the records from eviction
	controls  section.Controls
	play      section.Play
	parts     []section.Part // the parts that are always there
	sections  map[string]section.Section
	heard     bool // all sections listen, not only the first one
	following bool // the open section is about to catch up
	canvas    canvas
	opening   bool      // the link in the address bar is being opened
	brought   string    // the address left by a link that held no shot
	inside    app.Visit // to the example before a reload, until its records arrive
	screen    device.Screen
}

// Model returns the model, to be read only.
func (p *page) Model() app.Model { return p.model }

// Say shows a passing message.
func (p *page) Say(words string) { dom.Flash(words) }

// Do performs an event and makes everything follow it. Together with take it is the door:
// nothing else changes the model.
func (p *page) Do(e app.Event) {
	before := p.model
	p.take(e)
	p.sync(&before)
}

// take changes the model and has the device keep its records. The garbage collector may
// make a goroutine wait in the middle of an update, and the browser's next event is
// handled meanwhile. Its change then waits until that update is done, since the result of
// the update would overwrite it.
func (p *page) take(events ...app.Event) {
	p.waiting = append(p.waiting, events...)
	if p.taking {
		return
	}
	p.taking = true
	for len(p.waiting) > 0 {
		next := p.waiting
		p.waiting = nil
		p.model = p.keeper.Update(p.model, next...)
	}
	p.taking = false
}

// sync makes everything follow a change of the model: the page, the canvas, the address,
// the saved display settings, and the screen.
func (p *page) sync(before *app.Model) {
	m := &p.model
	opened := m.Section != before.Section
	if opened {
		p.open()
	}
	p.show(before)
	p.canvas.draw(m)
	if m.Settled != before.Settled {
		p.pushAddress()
	}
	keepLook(before, m)
	p.screen.Keep(m.HandsFull())
	if opened {
		p.sections[m.Section].Follow(*m)
	}
	p.followExample(before)
	dom.HoldFocus()
}

// show writes the model to the page, except for the plain drawing. It leaves alone what
// has not changed. While the shot plays, only the time changes.
func (p *page) show(before *app.Model) {
	m := &p.model
	if m.Clock.Running && before.Clock.Running && m.Clock != before.Clock {
		p.play.Show(*m)
	} else {
		for _, part := range p.parts {
			part.Show(*m)
		}
		p.sections[m.Section].Show(*m)
		p.followSoon()
		dom.ByID("board").Set("href", section.BoardPage()+"#"+m.Scene.Format())
	}
	p.canvas.send(m, m.GlidesFrom(before))
}

// open shows the panel of the section that is now open.
func (p *page) open() {
	p.hearAll()
	name := p.model.Section
	dom.Root.Get("dataset").Set("section", name)
	for _, s := range app.Sections {
		dom.Find(`[data-panel="`+s+`"]`).Set("hidden", s != name)
		dom.Find(`.tabs [data-section="`+s+`"]`).Call("setAttribute", "aria-current", s == name)
	}
	dom.Find(".panel").Set("scrollTop", 0) // start at the top of the section
	dom.InSight(dom.Find(`.tabs [data-section="` + name + `"]`))
}

// hearAll lets the sections that were closed at the start listen: soon after the start,
// or before one of them opens.
func (p *page) hearAll() {
	if p.heard {
		return
	}
	p.heard = true
	for _, name := range app.Sections[1:] {
		p.sections[name].Listen(p)
	}
}

// restTime is the time between two updates by Follow while a finger drags.
const restTime = 120 * time.Millisecond

// followSoon lets the open section catch up by its slower method.
func (p *page) followSoon() {
	if p.following {
		return
	}
	p.following = true
	time.AfterFunc(restTime, func() {
		p.following = false
		p.sections[p.model.Section].Follow(p.model)
		dom.HoldFocus()
	})
}

//go:build js && wasm

package main

import (
	"time"

	"pivotbench/core/shot"
	"pivotbench/wasm/app"
)

// A section is a part of the page with a tab of its own; its panel is
// [data-panel="<its name>"].
type section interface {
	listen()                 // once, before it opens
	render(res *shot.Result) // when something has changed, while it is open
	follow()                 // soon after: what takes longer than a frame
}

// first is the section that is open at the start.
const first = "shot"

// still is a section that is only read.
type still struct{}

func (still) listen()             {}
func (still) render(*shot.Result) {}
func (still) follow()             {}

// restTime is between what follows, while a finger drags.
const restTime = 120 * time.Millisecond

// listenSections has the sections that were closed at the start listen: soon
// after it, or before one of them opens.
func (p *page) listenSections() {
	if p.allListen {
		return
	}
	p.allListen = true
	for name, s := range p.sections {
		if name != first {
			s.listen()
		}
	}
}

// open shows a section.
func (p *page) open(name string) {
	if p.sections[name] == nil {
		return
	}
	p.listenSections()
	p.section = name
	look := p.model.Look
	look.Side = name == "clearance"
	p.model = app.Update(p.model, app.Show{Look: look})
	root.Get("dataset").Set("section", name)
	for panel, el := range p.panels {
		el.Set("hidden", panel != name)
	}
	for tab, el := range p.tabs {
		el.Call("setAttribute", "aria-current", tab == name)
	}
	document.Call("querySelector", ".panel").Set("scrollTop", 0) // what a section says first is to be seen
	inSight(p.tabs[name])
	p.render()
	p.stayAwake()
	p.sections[name].follow()
}

// followSoon has the open section catch up, at its slower pace.
func (p *page) followSoon() {
	if p.following {
		return
	}
	p.following = true
	time.AfterFunc(restTime, func() {
		p.following = false
		p.sections[p.section].follow()
		p.keyboard.hold()
	})
}

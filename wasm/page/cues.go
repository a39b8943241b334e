//go:build js && wasm

package main

import (
	"pivotbench/wasm/app"
)

// renderCues writes the list of cues.
func (p *page) renderCues() {
	list := byID("cues")
	list.Call("replaceChildren")
	for i, c := range p.model.Kept.Cues {
		item := put("li", "", list)
		name := c.Name
		if name == "" {
			name = "unnamed"
		}
		put("strong", name, item)
		put("span", c.Shown(p.model.Scene.Units)+", "+day(c.When), item)
		use := put("button", "Use", item)
		use.Call("setAttribute", "type", "button")
		use.Call("setAttribute", "aria-label", "Use "+name)
		use.Get("dataset").Set("use", i)
		drop := put("button", "×", item)
		drop.Call("setAttribute", "type", "button")
		drop.Call("setAttribute", "aria-label", "Take "+name+" off the list")
		drop.Get("dataset").Set("drop", i)
	}
	byID("no-cues").Set("hidden", len(p.model.Kept.Cues) > 0)
}

// day is the date of a moment.
func day(when string) string {
	if len(when) < len("2006-01-02") {
		return when
	}
	return when[:len("2006-01-02")]
}

// saveMeasured puts what the tries came to on the list.
func (p *page) saveMeasured() {
	if p.weighed.post == nil || p.weighed.post.N() == 0 {
		say("note some tries first")
		return
	}
	scene := p.model.Scene
	scene.Name = byID("cue-name").Get("value").String()
	p.save(app.Measured(&scene, p.weighed.post.Pivot(), "gate", moment()))
}

// saveTyped puts the cue on the bench on the list, as it was typed in.
func (p *page) saveTyped() { p.save(app.Typed(&p.model.Scene, moment())) }

func (p *page) save(c app.CueRecord) {
	p.do(app.SaveCue{Cue: c})
	say("saved to the cues")
}

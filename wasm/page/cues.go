//go:build js && wasm

package main

import (
	"syscall/js"

	"pivotbench/core/shot"
	"pivotbench/wasm/app"
	"pivotbench/wasm/kept"
	"pivotbench/wasm/show"
)

// cues is the Cues section: the list of records.
type cues struct {
	*page
	listed int // the change of the records that the list shows, plus one
}

func (c *cues) listen() {
	c.actions["use-cue"] = func(el js.Value) {
		c.step(app.UseCue{Index: index(el)})
		c.open("shot")
	}
	c.actions["drop-cue"] = func(el js.Value) {
		c.do(app.DropCue{Index: index(el)})
		say("taken off the list; Undo brings it back")
	}
	c.actions["type-cue"] = func(js.Value) { c.saveCue(kept.Typed(&c.model.Scene, moment())) }
}

// saveCue puts a record on the list.
func (p *page) saveCue(c kept.Cue) {
	p.do(app.SaveCue{Cue: c})
	say("saved to the cues")
}

func (c *cues) render(*shot.Result) {
	if c.listed == c.model.Changes+1 {
		return
	}
	c.listed = c.model.Changes + 1
	list := byID("cues")
	list.Call("replaceChildren")
	for i, cue := range c.model.Kept.Cues {
		item := put("li", "", list)
		name := cue.Name
		if name == "" {
			name = "unnamed"
		}
		put("strong", name, item)
		put("span", show.Cue(cue, c.model.Scene.Units)+", "+day(cue.When), item)
		putButton("Use", "Use "+name, "use-cue", i, item)
		putButton("×", "Take "+name+" off the list", "drop-cue", i, item)
	}
	byID("no-cues").Set("hidden", len(c.model.Kept.Cues) > 0)
}

func (c *cues) follow() {}

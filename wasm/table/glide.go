//go:build js && wasm

package main

import (
	"pivotbench/core/lesson"
	"pivotbench/core/scenario"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/sheet"
)

// glideTime is how long the way from one step of a lesson to the next takes,
// in milliseconds: long enough to see what changes.
const glideTime = 900

// A glide is the sheet on its way from one scene to another.
type glide struct {
	from  scenario.Scenario
	room  sheet.Extent // as much of the table as there was to see
	begin float64
}

func now() float64 { return dom.Window.Get("performance").Call("now").Float() }

// onSheet is the scene as the sheet shows it now, and how much table with it.
func (b *bench) onSheet() (scenario.Scenario, sheet.Extent) {
	room := b.glass.Extent(&b.model)
	if b.glide == nil {
		return b.model.Scene, room
	}
	part := b.glide.part()
	return lesson.Between(&b.glide.from, &b.model.Scene, part), b.glide.room.Toward(room, part)
}

// part is how far the glide has come, from 0 to 1, slow at both ends.
func (g *glide) part() float64 {
	x := min((now()-g.begin)/glideTime, 1)
	return x * x * (3 - 2*x)
}

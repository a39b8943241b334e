//go:build js && wasm

package main

import (
	"pivotbench/core/lesson"
	"pivotbench/core/scenario"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/sheet"
)

// glideTime is the time in milliseconds that the sheet takes to move from one step of a
// lesson to the next. It is long enough to see what changes.
const glideTime = 900

// A glide is a gradual move of the sheet from one scene to another.
type glide struct {
	from  scenario.Scenario
	room  sheet.Extent // the extent of the table at its start
	begin float64
}

func now() float64 { return dom.Window.Get("performance").Call("now").Float() }

// onSheet returns the scene as the sheet shows it now, and the extent of the table shown.
func (b *bench) onSheet() (scenario.Scenario, sheet.Extent) {
	room := b.glass.Extent(&b.model)
	if b.glide == nil {
		return b.model.Scene, room
	}
	part := b.glide.part()
	return lesson.Between(&b.glide.from, &b.model.Scene, part), b.glide.room.Toward(room, part)
}

// part returns how far the glide has come, from 0 to 1, with a slow start and end.
func (g *glide) part() float64 {
	x := min((now()-g.begin)/glideTime, 1)
	return x * x * (3 - 2*x)
}

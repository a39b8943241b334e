//go:build js && wasm

package main

import (
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
)

// do performs an event and makes the sheet, the board's text and its address follow.
// Together with take it is the door: nothing else changes the model.
func (b *bench) do(e app.Event) {
	before := b.model
	b.glide = nil // the handle is where the finger took it
	b.take(e)
	b.sync(&before)
}

// glideTo is do with the sheet moving gradually to the new scene, or at once if the user
// prefers reduced motion.
func (b *bench) glideTo(e app.Event) {
	from, room := b.onSheet()
	b.do(e)
	if !dom.LessMotion() {
		b.glide = &glide{from, room, now()}
	}
}

// take changes the model.
func (b *bench) take(e app.Event) { b.model = app.Update(b.model, e) }

// sync makes everything follow a change of the model.
func (b *bench) sync(before *app.Model) {
	m := &b.model
	if root := dom.Root.Get("dataset"); dom.Data(dom.Root, "theme") != m.Look.Theme && !b.glass.Board {
		root.Set("theme", m.Look.Theme)
		b.painter.inks = nil
	}
	if b.glass.Board {
		if m.Settled != before.Settled || m.Lesson.At != before.Lesson.At {
			b.writeAddress()
		}
		b.talk.show(m)
	}
	b.redraw()
}

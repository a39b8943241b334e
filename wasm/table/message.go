//go:build js && wasm

package main

import (
	"syscall/js"

	"pivotbench/core/lesson"
	"pivotbench/core/link"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/message"
)

// listen handles scenes from the surrounding page. It ignores anything else, which tools
// may send.
func (b *bench) listen() {
	dom.Listen(dom.Window, "message", func(e js.Value) {
		o, ok := message.Heard(e, dom.Window.Get("parent"))
		if !ok {
			return
		}
		scene, ok := message.ReadScene(o)
		switch {
		case !ok:
		case scene.Glide:
			b.glideTo(scene.Mirror)
		default:
			b.do(scene.Mirror)
		}
	})
}

// tell sends a message to the surrounding page, if there is one.
func tell(o message.Object) {
	if framed() {
		message.Tell(dom.Window.Get("parent"), o)
	}
}

// openAddress makes the board's model that of its own address, a shot or a lesson, now
// and whenever the address changes.
func (b *bench) openAddress() {
	b.openLink()
	dom.Listen(dom.Window, "hashchange", func(js.Value) {
		b.openLink()
		b.talk.show(&b.model)
		b.redraw()
	})
}

// openLink opens the link in the address, and says what was refused.
func (b *bench) openLink() {
	note := dom.ByID("trouble")
	note.Set("hidden", true)
	note.Set("textContent", "")
	b.take(app.EndLesson{})
	b.take(addressed())
	for _, said := range b.model.Notices {
		trouble(said)
	}
}

// addressed returns the event that opens the address. It replaces the model, so there is
// nothing to undo.
func addressed() app.Event {
	hash := dom.Window.Get("location").Get("hash").String()
	if link.Kind(hash) != lesson.Kind {
		return app.First{Link: hash}
	}
	l, errs := lesson.ParseLink(hash)
	for _, err := range errs {
		trouble(err.Error())
	}
	return app.Teach{Link: l}
}

// trouble shows a message to whoever looks at the board.
func trouble(words string) {
	note := dom.ByID("trouble")
	note.Set("hidden", false)
	note.Call("append", words+" ")
}

// writeAddress puts the board's scenario in its address once a drag has ended, or the
// present stop of its lesson.
func (b *bench) writeAddress() {
	text := b.model.Settled.Format()
	if b.model.Lesson.Lesson.Stops() > 0 {
		text = b.model.Lesson.Format()
	}
	if !b.model.Dragging {
		defer func() { _ = recover() }() // a browser refuses if this happens too often; the next drag tries again
		dom.Window.Get("history").Call("replaceState", nil, "", "#"+text)
	}
}

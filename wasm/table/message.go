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

// listen takes scenes from the page around. Anything else that arrives, from
// elsewhere or of another form, is left alone: tools send messages too.
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

// tell tells the page around, if there is one.
func tell(o message.Object) {
	if framed() {
		message.Tell(dom.Window.Get("parent"), o)
	}
}

// openAddress makes the board's model that of its own address, a shot or a lesson,
// now and whenever it changes.
func (b *bench) openAddress() {
	b.openLink()
	dom.Listen(dom.Window, "hashchange", func(js.Value) {
		b.openLink()
		b.talk.show(&b.model)
		b.redraw()
	})
}

// openLink opens what the address asks for, and says what of it was refused.
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

// addressed is what the address asks for. There is nothing before it to undo.
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

// trouble gives whoever looks at the board something to read.
func trouble(words string) {
	note := dom.ByID("trouble")
	note.Set("hidden", false)
	note.Call("append", words+" ")
}

// writeAddress puts the board's scenario in its address once a drag is over,
// or where its lesson has come to.
func (b *bench) writeAddress() {
	text := b.model.Settled.Format()
	if b.model.Lesson.Lesson.Stops() > 0 {
		text = b.model.Lesson.Format()
	}
	if !b.model.Dragging {
		defer func() { _ = recover() }() // a browser refuses when asked too often; the next drag makes up for it
		dom.Window.Get("history").Call("replaceState", nil, "", "#"+text)
	}
}

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
	dom.Listen(window, "message", func(e js.Value) {
		o, ok := message.Heard(e, window.Get("parent"))
		if !ok {
			return
		}
		if scene, ok := message.ReadScene(o); ok {
			b.take(scene)
		}
	})
}

// take shows what the page sends.
func (b *bench) take(scene message.Scene) {
	if scene.Glide {
		b.glideTo(scene.Mirror)
	} else {
		b.glide = nil
		b.change(scene.Mirror)
	}
	root := document.Get("documentElement")
	if theme := b.model.Look.Theme; root.Get("dataset").Get("theme").String() != theme {
		root.Get("dataset").Set("theme", theme)
		b.painter.inks = nil
	}
}

// tell tells the page around, if there is one.
func tell(o message.Object) {
	if framed() {
		message.Tell(window.Get("parent"), o)
	}
}

// openAddress makes the board's model that of its own address, a shot or a
// lesson, now and whenever it changes.
func (b *bench) openAddress() {
	b.openLink()
	b.model.Past = nil // it was opened so
	dom.Listen(window, "hashchange", func(js.Value) {
		b.change(app.EndLesson{})
		b.openLink()
		b.talk.render(b)
	})
}

// openLink opens what the address asks for, and says what of it was refused.
func (b *bench) openLink() {
	note := byID("trouble")
	note.Set("hidden", true)
	note.Set("textContent", "")
	b.change(addressed())
	for _, said := range b.model.Notices {
		trouble(said)
	}
}

// addressed is what the address asks for.
func addressed() app.Event {
	hash := window.Get("location").Get("hash").String()
	if link.Kind(hash) != lesson.Kind {
		return app.Open{Link: hash}
	}
	l, errs := lesson.ParseLink(hash)
	for _, err := range errs {
		trouble(err.Error())
	}
	return app.Teach{Link: l}
}

// trouble gives whoever looks at the board something to read.
func trouble(words string) {
	note := byID("trouble")
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
		window.Get("history").Call("replaceState", nil, "", "#"+text)
	}
}

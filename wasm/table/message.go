//go:build js && wasm

package main

import (
	"syscall/js"

	"pivotbench/core/lesson"
	"pivotbench/core/link"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/message"
)

// listen takes scenes from the page around. Anything else that arrives, from
// elsewhere or of another form, is left alone: tools send messages too.
func (b *bench) listen() {
	dom.Listen(window, "message", func(e js.Value) {
		data := e.Get("data")
		if !message.From(e, window.Get("parent")) || message.Type(data) != js.TypeObject {
			return
		}
		if scene, ok := message.Text(data.Get("scene")); ok {
			next := app.First{Link: scene}
			if data.Get("glide").Equal(js.ValueOf(true)) {
				b.glideTo(next)
			} else {
				b.glide = nil
				b.change(next)
			}
			b.look(data.Get("look"))
			if t := data.Get("time"); message.Type(t) == js.TypeNumber {
				b.change(app.Seek{To: unit.Span(t.Float())})
			} else {
				b.change(app.Rest{})
			}
			b.redraw()
		}
	})
}

// look takes the part of a message that says how the sheet is shown.
func (b *bench) look(v js.Value) {
	if message.Type(v) != js.TypeObject {
		return
	}
	look := b.model.Look
	if s := v.Get("stretch"); message.Type(s) == js.TypeNumber {
		look.Stretch = s.Int()
	}
	if theme, ok := message.Text(v.Get("theme")); ok {
		look.Theme = theme
	}
	is := func(name string) bool { return v.Get(name).Equal(js.ValueOf(true)) }
	look.Left, look.Object, look.Band, look.Side = is("left"), is("object"), is("band"), is("side")
	b.model = app.Update(b.model, app.Show{Look: look})
	if earlier, ok := message.Text(v.Get("earlier")); ok && earlier != "" {
		b.model.Earlier, _ = scenario.Parse(earlier)
		b.model.HasEarlier = true
	}
	root := document.Get("documentElement")
	if theme := b.model.Look.Theme; root.Get("dataset").Get("theme").String() != theme {
		root.Get("dataset").Set("theme", theme)
		b.painter.inks = nil
	}
}

// postDrag reports a drag to the page.
func postDrag(d app.Drag) {
	set := map[string]any{}
	for _, s := range d.Sets {
		set[s.Key] = s.Text
	}
	tell(map[string]any{"drag": map[string]any{"set": set, "phase": string(d.Phase)}})
}

// tell tells the page around, if there is one.
func tell(news map[string]any) {
	if framed() {
		message.Tell(window.Get("parent"), news)
	}
}

// openAddress makes the board's model that of its own address, a shot or a
// lesson, now and whenever it changes.
func (b *bench) openAddress() {
	b.change(addressed())
	b.model.Past = nil // it was opened so
	dom.Listen(window, "hashchange", func(js.Value) {
		b.change(app.EndLesson{})
		b.change(addressed())
		b.talk.render(b)
	})
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

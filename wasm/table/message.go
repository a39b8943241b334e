//go:build js && wasm

package main

import (
	"syscall/js"

	"pivotbench/core/scenario"
	"pivotbench/wasm/app"
	"pivotbench/wasm/message"
)

// listen takes scenes from the page around. Anything else that arrives, from
// elsewhere or of another form, is left alone: tools send messages too.
func (b *bench) listen() {
	window := js.Global().Get("window")
	window.Call("addEventListener", "message", js.FuncOf(func(_ js.Value, args []js.Value) any {
		data := args[0].Get("data")
		if !args[0].Get("source").Equal(window.Get("parent")) || message.Type(data) != js.TypeObject {
			return nil
		}
		if scene := data.Get("scene"); message.Type(scene) == js.TypeString {
			b.model = app.Update(b.model, app.First{Link: scene.String()})
			b.look(data.Get("look"))
			b.redraw()
		}
		return nil
	}))
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
	if t := v.Get("theme"); message.Type(t) == js.TypeString {
		look.Theme = t.String()
	}
	is := func(name string) bool { return v.Get(name).Equal(js.ValueOf(true)) }
	look.Left, look.Object, look.Band = is("left"), is("object"), is("band")
	b.model = app.Update(b.model, app.Show{Look: look})
	if e := v.Get("earlier"); message.Type(e) == js.TypeString && e.String() != "" {
		b.model.Earlier, _ = scenario.Parse(e.String())
		b.model.HasEarlier = true
	}
	root := js.Global().Get("document").Get("documentElement")
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

// tell posts to the page around, if there is one.
func tell(news map[string]any) {
	if framed() {
		window := js.Global().Get("window")
		window.Get("parent").Call("postMessage", news, message.Target())
	}
}

// openAddress makes the board's model that of its own address, now and
// whenever it changes.
func (b *bench) openAddress() {
	location := js.Global().Get("location")
	b.model = app.Update(b.model, app.First{Link: location.Get("hash").String()})
	js.Global().Get("window").Call("addEventListener", "hashchange", js.FuncOf(func(js.Value, []js.Value) any {
		b.change(app.Open{Link: location.Get("hash").String()})
		return nil
	}))
}

// writeAddress puts the board's scenario in its address once a drag is over.
func (b *bench) writeAddress() {
	if !b.model.Dragging {
		js.Global().Get("history").Call("replaceState", nil, "", "#"+b.model.Settled.Format())
	}
}

//go:build js && wasm

package main

import (
	"strconv"
	"strings"
	"syscall/js"

	"pivotbench/wasm/app"
)

// lookKey is where the look is kept on the device.
const lookKey = "pivotbench-look"

// show changes the look, and keeps it.
func (p *page) show(look app.Look) {
	p.do(app.Show{Look: look})
	l := p.model.Look
	local.write(lookKey, strings.Join([]string{strconv.Itoa(l.Stretch), l.Theme, strconv.FormatBool(l.Left)}, " "))
}

// loadLook brings back the look kept on the device, if it can be read.
func (p *page) loadLook() {
	parts := strings.Fields(local.read(lookKey))
	if len(parts) != 3 {
		return
	}
	stretch, _ := strconv.Atoi(parts[0])
	look := p.model.Look
	look.Stretch, look.Theme, look.Left = stretch, parts[1], parts[2] == "true"
	p.model = app.Update(p.model, app.Show{Look: look})
}

// looks are what renderLook writes.
type looks struct {
	app.Look
	undo, redo bool // there is something to
}

func (p *page) renderLook() {
	l := p.model.Look
	now := looks{l, len(p.model.Past) > 0 || p.model.Scene != p.model.Settled, len(p.model.Future) > 0}
	if p.looks == now {
		return
	}
	p.looks = now
	root.Get("dataset").Set("theme", l.Theme)
	root.Get("dataset").Set("hand", map[bool]string{true: "left", false: "right"}[l.Left])
	set(byID("theme"), "value", l.Theme)
	for name, on := range map[string]bool{"left": l.Left, "object": l.Object, "band": l.Band} {
		byID(name).Set("checked", on)
	}
	each("[data-stretch]", func(el js.Value) {
		el.Call("setAttribute", "aria-pressed", el.Get("dataset").Get("stretch").String() == strconv.Itoa(l.Stretch))
	})
	document.Call("querySelector", `[data-do="undo"]`).Set("disabled", !now.undo)
	document.Call("querySelector", `[data-do="redo"]`).Set("disabled", !now.redo)
}

// A storage is one of the browser's two.
type storage string

// The device's, and that of this tab alone.
const (
	local storage = "localStorage"
	tab   storage = "sessionStorage"
)

// open gives it. Where it is refused, to name it already throws, which only a
// call brings back as something to recover from.
func (s storage) open() js.Value { return js.Global().Get("Reflect").Call("get", window, string(s)) }

// read and write use it. It may be full or refused: nothing is then read, or kept.
func (s storage) read(key string) (text string) {
	attempt(func() {
		if v := s.open().Call("getItem", key); v.Type() == js.TypeString {
			text = v.String()
		}
	})
	return text
}

func (s storage) write(key, text string) (kept bool) {
	return attempt(func() { s.open().Call("setItem", key, text) })
}

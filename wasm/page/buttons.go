//go:build js && wasm

package main

import (
	"strconv"
	"syscall/js"

	"pivotbench/core/scenario"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
)

// listenButtons has every button of the page answered by the action its
// data-do names; sections add their own.
func (p *page) listenButtons() {
	p.actions = map[string]func(js.Value){
		"open": func(el js.Value) { p.open(el.Get("dataset").Get("section").String()) },
		"stretch": func(el js.Value) {
			look := p.model.Look
			look.Stretch, _ = strconv.Atoi(el.Get("dataset").Get("stretch").String())
			p.show(look)
		},
		"undo":    func(js.Value) { p.step(app.Undo{}) },
		"redo":    func(js.Value) { p.step(app.Redo{}) },
		"dismiss": func(js.Value) { p.do(app.Dismiss{}) },
		"share":   func(js.Value) { p.share() },
		"copy":    func(js.Value) { p.copy() },
		"print":   func(js.Value) { window.Call("print") },
		"update": func(js.Value) {
			p.settle() // a page that is loaded anew has the address, and nothing else
			document.Call("dispatchEvent", js.Global().Get("CustomEvent").New("apply-update"))
		},
	}
	dom.Listen(document, "click", func(e js.Value) {
		if link := e.Get("target").Call("closest", "a[data-open]"); link.Truthy() {
			p.open(link.Get("dataset").Get("open").String()) // its address opens the shot itself
			return
		}
		if link := e.Get("target").Call("closest", "a[data-preset]"); link.Truthy() {
			if i, err := strconv.Atoi(link.Get("dataset").Get("preset").String()); err == nil && i < len(scenario.Presets) && !elsewhere(e) {
				e.Call("preventDefault")
				p.step(app.UsePreset{Preset: scenario.Presets[i]})
			}
			return
		}
		button := e.Get("target").Call("closest", "button")
		if !button.Truthy() {
			return
		}
		if act := p.actions[button.Get("dataset").Get("do").String()]; act != nil {
			act(button)
			p.keyboard.hold()
		}
	})
	// Browsers leave a tab that is half in sight where it is.
	dom.Listen(document.Call("querySelector", ".tabs"), "focusin", func(e js.Value) { inSight(e.Get("target")) })
	dom.Listen(byID("theme"), "change", func(e js.Value) {
		look := p.model.Look
		look.Theme = e.Get("target").Get("value").String()
		p.show(look)
	})
	each("[data-look]", func(box js.Value) {
		dom.Listen(box, "change", func(js.Value) {
			look, on := p.model.Look, box.Get("checked").Bool()
			switch box.Get("id").String() {
			case "left":
				look.Left = on
			case "object":
				look.Object = on
			case "band":
				look.Band = on
			}
			p.show(look)
		})
	})
	dom.Listen(document, "offline-state", func(js.Value) { renderOffline() })
	dom.Listen(document, "keydown", p.shortcut)
	renderOffline()
}

// elsewhere reports whether a click on a link opens it in another tab or window.
func elsewhere(e js.Value) bool {
	return e.Get("ctrlKey").Bool() || e.Get("metaKey").Bool() || e.Get("shiftKey").Bool() || e.Get("altKey").Bool()
}

// step takes an event that is a gesture of its own: it makes an entry of the
// history.
func (p *page) step(e app.Event) {
	p.do(e)
	p.pushAddress()
}

// renderOffline says in words how the offline copy stands.
func renderOffline() {
	words := map[string]string{
		"installing": "saving…", "ready": "ready offline", "failed": "not saved for offline",
		"unsupported": "no offline here", "update": "a newer version is ready",
		"stuck":  "the newer version did not start: close the other tabs of this page first",
		"inside": "all in one file",
	}[root.Get("dataset").Get("offline").String()]
	mark := byID("offline")
	set(mark, "textContent", words)
	if root.Get("dataset").Get("offline").String() == "update" {
		button := document.Call("createElement", "button")
		button.Set("textContent", "Use it")
		button.Get("dataset").Set("do", "update")
		mark.Call("append", " ", button)
	}
}

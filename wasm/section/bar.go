//go:build js && wasm

package section

import (
	"strconv"
	"syscall/js"

	"pivotbench/core/scenario"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/view"
)

// Bar is the part above and below every section: undo and redo, display settings, example
// shots, the tabs, and the state of the offline copy.
type Bar struct {
	shown looks
	ever  bool
}

// looks is what a Bar shows.
type looks struct {
	app.Look
	undo, redo bool
	at         view.TableState
}

// Listen handles its buttons.
func (b *Bar) Listen(h Host) {
	dom.On("open", func(el js.Value) { h.Do(app.OpenSection{Name: dom.Data(el, "section")}) })
	dom.On("undo", func(js.Value) { h.Do(app.Undo{}) })
	dom.On("redo", func(js.Value) { h.Do(app.Redo{}) })
	dom.UndoKeys(func() { h.Do(app.Undo{}) }, func() { h.Do(app.Redo{}) })
	dom.On("dismiss", func(js.Value) { h.Do(app.Dismiss{}) })
	dom.On("print", func(js.Value) { dom.Window.Call("print") })
	dom.On("update", func(js.Value) {
		h.Do(app.Settle{}) // a page that is reloaded has the address and nothing else
		dom.Document.Call("dispatchEvent", js.Global().Get("CustomEvent").New("apply-update"))
		dom.Say("offline", view.Updating)
	})
	dom.Listen(dom.Document, "click", func(e js.Value) { followLink(h, e) })
	// Browsers do not scroll a tab that is half in sight.
	dom.Listen(dom.Find(".tabs"), "focusin", func(e js.Value) { dom.InSight(e.Get("target")) })
	listenLook(h)
	dom.Listen(dom.Document, "offline-state", func(js.Value) {
		showOffline()
		if dom.Data(dom.Root, "offline") == "stuck" {
			h.Do(app.Tell{Notices: []string{view.UpdateStuck}})
			dom.InSight(dom.ByID("notices"))
		}
	})
	showOffline()
}

// followLink opens the section that a link names, while the browser follows its address
// to the shot, or takes an example shot.
func followLink(h Host, click js.Value) {
	link := click.Get("target").Call("closest", "a[data-open], a[data-preset]")
	if !link.Truthy() {
		return
	}
	if name := dom.Data(link, "open"); name != "" {
		h.Do(app.OpenSection{Name: name})
		return
	}
	elsewhere := dom.Modified(click) || click.Get("shiftKey").Bool() // the link opens in another tab or window
	if i, err := strconv.Atoi(dom.Data(link, "preset")); err == nil && i < len(scenario.Presets) && !elsewhere {
		click.Call("preventDefault")
		h.Do(app.UsePreset{Preset: scenario.Presets[i]})
	}
}

// listenLook handles the display settings.
func listenLook(h Host) {
	change := func(how func(*app.Look)) {
		look := h.Model().Look
		how(&look)
		h.Do(app.Show{Look: look})
	}
	dom.On("stretch", func(el js.Value) {
		change(func(l *app.Look) { l.Stretch, _ = strconv.Atoi(dom.Data(el, "stretch")) })
	})
	dom.Listen(dom.ByID("theme"), "change", func(js.Value) {
		change(func(l *app.Look) { l.Theme = dom.Text("theme") })
	})
	for id, part := range ticks {
		box := dom.ByID(id)
		dom.Listen(box, "change", func(js.Value) {
			change(func(l *app.Look) { *part(l) = box.Get("checked").Bool() })
		})
	}
}

// ticks maps the id of each checkbox to the setting that it controls.
var ticks = map[string]func(*app.Look) *bool{
	"left":   func(l *app.Look) *bool { return &l.Left },
	"object": func(l *app.Look) *bool { return &l.Object },
	"band":   func(l *app.Look) *bool { return &l.Band },
}

// Show writes the settings.
func (b *Bar) Show(m app.Model) {
	now := looks{m.Look, m.CanUndo(), m.CanRedo(), view.TableStateOf(&m)}
	if b.ever && b.shown == now {
		return
	}
	b.shown, b.ever = now, true
	data := dom.Root.Get("dataset")
	data.Set("theme", now.Theme)
	data.Set("hand", map[bool]string{true: "left", false: "right"}[now.Left])
	if now.at != "" {
		data.Set("at", string(now.at))
	} else {
		dom.Root.Call("removeAttribute", "data-at")
	}
	dom.Set(dom.ByID("theme"), "value", now.Theme)
	for id, part := range ticks {
		dom.ByID(id).Set("checked", *part(&now.Look))
	}
	dom.Each("[data-stretch]", func(el js.Value) {
		el.Call("setAttribute", "aria-pressed", dom.Data(el, "stretch") == strconv.Itoa(now.Stretch))
	})
	dom.Doer("undo").Set("disabled", !now.undo)
	dom.Doer("redo").Set("disabled", !now.redo)
}

// showOffline says in words how the offline copy stands.
func showOffline() {
	state := dom.Data(dom.Root, "offline")
	dom.Say("offline", view.OfflineWords(state))
	if words := view.UpdateButton(state); words != "" {
		mark := dom.ByID("offline")
		mark.Call("append", " ")
		dom.Put("button", words, mark).Get("dataset").Set("do", "update")
	}
}

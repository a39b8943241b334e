//go:build js && wasm

package main

import (
	"strconv"
	"syscall/js"

	"pivotbench/wasm/app"
)

func (p *page) listenButtons() {
	listen(document, "click", func(e js.Value) {
		if link := e.Get("target").Call("closest", "a[data-open]"); link.Truthy() {
			p.open(link.Get("dataset").Get("open").String()) // its address opens the shot itself
			return
		}
		button := e.Get("target").Call("closest", "button")
		if !button.Truthy() {
			return
		}
		data := button.Get("dataset")
		if s := data.Get("stretch"); !s.IsUndefined() {
			look := p.model.Look
			look.Stretch, _ = strconv.Atoi(s.String())
			p.show(look)
		}
		if s := data.Get("section"); !s.IsUndefined() {
			p.open(s.String())
		}
		if o := data.Get("outcome"); !o.IsUndefined() {
			p.do(app.AddTry{Outcome: o.String(), When: moment()})
		}
		if i := data.Get("delete"); !i.IsUndefined() {
			n, _ := strconv.Atoi(i.String())
			p.do(app.ChangeTry{Index: n})
		}
		if i := data.Get("use"); !i.IsUndefined() {
			n, _ := strconv.Atoi(i.String())
			p.do(app.UseCue{Index: n})
			p.pushAddress()
			p.open("shot")
		}
		if i := data.Get("drop"); !i.IsUndefined() {
			n, _ := strconv.Atoi(i.String())
			p.do(app.DropCue{Index: n})
			say("taken off the list; Undo brings it back")
		}
		switch data.Get("do").String() {
		case "aim":
			p.do(app.AimIt{Pocket: p.model.Look.Object})
			p.pushAddress()
		case "unfaint":
			p.do(app.Unfaint{})
		case "take-next":
			p.takeNext()
		case "gap-by-cards":
			p.gapByCards()
		case "use-pivot":
			p.usePivot()
		case "log-json":
			save("pivotbench.json", "application/json", p.model.Kept.Encode())
		case "log-csv":
			save("tries.csv", "text/csv;charset=utf-8", app.TriesCSV(p.model.Kept.Tries))
		case "log-clear":
			p.do(app.Replace{Kept: app.Kept{Cues: p.model.Kept.Cues}})
			say("started anew; Undo brings the tries back")
		case "save-cue":
			p.saveMeasured()
		case "save-rail":
			p.save(p.rail.Cue)
		case "type-cue":
			p.saveTyped()
		case "print":
			window.Call("print")
		case "csv":
			p.saveCard()
		case "undo":
			p.do(app.Undo{})
			p.pushAddress()
		case "redo":
			p.do(app.Redo{})
			p.pushAddress()
		case "dismiss":
			p.do(app.Dismiss{})
		case "share":
			p.share()
		case "copy":
			p.copy()
		case "update":
			document.Call("dispatchEvent", js.Global().Get("CustomEvent").New("apply-update"))
		}
	})
	listen(byID("theme"), "change", func(e js.Value) {
		look := p.model.Look
		look.Theme = e.Get("target").Get("value").String()
		p.show(look)
	})
	each("[data-look]", func(box js.Value) {
		listen(box, "change", func(js.Value) {
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
	listen(byID("band").Call("closest", "details"), "toggle", func(js.Value) { p.renderExtra() })
	listen(byID("card-show"), "change", func(js.Value) { p.renderCard() })
	listen(document, "offline-state", func(js.Value) { renderOffline() })
	listen(document, "keydown", func(e js.Value) {
		if !(e.Get("ctrlKey").Bool() || e.Get("metaKey").Bool()) || e.Get("target").Get("type").String() == "text" {
			return
		}
		switch key := e.Get("key").String(); {
		case key == "z" && !e.Get("shiftKey").Bool():
			e.Call("preventDefault")
			p.do(app.Undo{})
			p.pushAddress()
		case key == "y" || key == "Z" || key == "z":
			e.Call("preventDefault")
			p.do(app.Redo{})
			p.pushAddress()
		}
	})
	renderOffline()
}

// renderOffline says in words how the offline copy stands.
func renderOffline() {
	words := map[string]string{
		"installing": "saving…", "ready": "ready offline", "failed": "not saved for offline",
		"unsupported": "no offline here", "update": "a newer version is ready",
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

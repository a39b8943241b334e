//go:build js && wasm

package main

import (
	"strconv"
	"strings"
	"syscall/js"

	"pivotbench/core/lesson"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/kept"
)

// keptKey is where records are kept on the device, and unreadKey where what
// could not be read is set aside, for whoever can mend it.
const (
	keptKey   = "pivotbench-kept"
	unreadKey = "pivotbench-kept-unread"
)

// A keeper is how the page stands with the device's storage.
type keeper struct {
	changes int    // of the records, as far as the device has them
	held    string // what the device has, as last read or written
	locked  bool   // it has what can't be read, and nothing may be written over that
	refused bool   // it did not take the last change
}

// loadKept brings records back from the device.
func (p *page) loadKept() {
	p.held = stored(device, keptKey)
	if p.held == "" {
		return
	}
	records, err := kept.Decode(p.held)
	if err == nil {
		p.model.Kept = records
		return
	}
	if aside := stored(device, unreadKey); !strings.Contains(aside, p.held) {
		p.locked = !store(device, unreadKey, aside+p.held+"\n")
	}
	p.model.Notices = append(p.model.Notices, "What this device keeps can't be read: "+err.Error()+
		". It is set aside: “Export what can't be read” in Cues gives it to you as a file.")
}

// catchUp takes what another tab has kept meanwhile. A newer version of the
// bench may keep more than this one can read: that stays as it is.
func (p *page) catchUp() {
	text := stored(device, keptKey)
	if text == "" || text == p.held {
		return
	}
	p.held = text
	records, err := kept.Decode(text)
	if err != nil {
		p.locked = true
		p.do(app.Tell{Notices: []string{"Another tab keeps what this one can't read, and this one keeps nothing over it: load the page anew. (" + err.Error() + ".)"}})
		return
	}
	p.model = app.Update(p.model, app.Elsewhere{Kept: records})
	p.changes = p.model.Changes
	p.render()
}

// listenKept follows what another tab keeps, and files chosen to be imported.
func (p *page) listenKept() {
	p.actions["export"] = func(js.Value) { save("pivotbench.json", "application/json", p.model.Kept.Encode()) }
	p.actions["export-unread"] = func(js.Value) { save("pivotbench-unread.txt", "text/plain;charset=utf-8", stored(device, unreadKey)) }
	each(`[data-do="export-unread"]`, func(el js.Value) { el.Set("hidden", stored(device, unreadKey) == "") })
	// A page that slept was told nothing.
	dom.Listen(window, "storage", func(js.Value) { p.catchUp() })
	dom.Listen(window, "pageshow", func(js.Value) { p.catchUp() })
	dom.Listen(document, "visibilitychange", func(js.Value) { p.catchUp() })
	each("input[type=file]", func(input js.Value) { dom.Listen(input, "change", p.takeFile) })
}

// takeFile imports a file, whole or not at all.
func (p *page) takeFile(e js.Value) {
	input := e.Get("target")
	file := input.Get("files").Index(0)
	if !file.Truthy() {
		return
	}
	if err := kept.CheckSize(file.Get("size").Int()); err != nil {
		p.refuseFile(err)
		return
	}
	settle(file.Call("text"), func(text js.Value) {
		if made, ok, err := kept.DecodeLesson(text.String()); ok {
			p.takeLesson(made, err)
			return
		}
		records, err := kept.Decode(text.String())
		if err != nil {
			p.refuseFile(err)
			return
		}
		said := strconv.Itoa(len(records.Tries)) + " tries"
		if records.V == 0 { // a log by itself leaves the rest as it is
			tries := records.Tries
			records = p.model.Kept
			records.Tries = tries
		} else {
			said += ", " + strconv.Itoa(len(records.Cues)) + " cues and all else of the file"
		}
		p.do(app.Replace{Kept: records})
		say(said + " imported; Undo brings the old ones back")
	}, func(js.Value) { say("the file can't be read") })
	input.Set("value", "")
}

func (p *page) refuseFile(err error) {
	p.do(app.Tell{Notices: strings.Split("Nothing was imported.\n"+err.Error(), "\n")})
}

// takeLesson puts an imported lesson on the list.
func (p *page) takeLesson(made lesson.Lesson, err error) {
	if err != nil {
		p.refuseFile(err)
		return
	}
	p.do(app.KeepLesson{Index: len(p.model.Kept.Lessons), Lesson: made})
	say("a lesson imported, with your own; Undo takes it off again")
}

// storeKept keeps records on the device whenever they have changed.
func (p *page) storeKept() {
	if p.changes == p.model.Changes {
		return
	}
	p.changes = p.model.Changes
	words, text, before := "Tries, cues, readings, tables and lessons are kept on this device as they are made.", p.model.Kept.Encode(), p.refused
	p.refused = p.locked || !store(device, keptKey, text)
	if p.refused {
		words = "This device refused to keep this: export it before you leave."
	} else {
		p.held = text
	}
	if p.refused && !before { // said aloud once, and written below for as long as it holds
		p.model.Notices = append(p.model.Notices, words)
		p.renderNotices()
	}
	each(".kept", func(el js.Value) { set(el, "textContent", words) })
}

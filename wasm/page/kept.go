//go:build js && wasm

package main

import (
	"strconv"
	"strings"
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/kept"
)

// keptKey is where records are kept on the device.
const keptKey = "pivotbench-kept"

// loadKept brings records back from the device.
func (p *page) loadKept() {
	text := stored(keptKey)
	if text == "" {
		return
	}
	records, err := kept.Decode(text)
	if err != nil {
		p.model.Notices = append(p.model.Notices, "What this device keeps can't be read: "+err.Error())
		store(keptKey+"-unread", text) // whoever can mend it still has it
		return
	}
	p.model.Kept = records
}

// listenKept follows what another tab keeps, and files chosen to be imported.
func (p *page) listenKept() {
	p.actions["export"] = func(js.Value) { save("pivotbench.json", "application/json", p.model.Kept.Encode()) }
	listen(window, "storage", func(e js.Value) {
		if text := e.Get("newValue"); e.Get("key").Equal(js.ValueOf(keptKey)) && text.Type() == js.TypeString {
			if records, err := kept.Decode(text.String()); err == nil {
				p.do(app.Elsewhere{Kept: records})
			}
		}
	})
	each("input[type=file]", func(input js.Value) { listen(input, "change", p.takeFile) })
}

// takeFile imports a file, whole or not at all.
func (p *page) takeFile(e js.Value) {
	input := e.Get("target")
	file := input.Get("files").Index(0)
	if !file.Truthy() {
		return
	}
	settle(file.Call("text"), func(text js.Value) {
		records, err := kept.Decode(text.String())
		if err != nil {
			p.do(app.Tell{Notices: strings.Split("Nothing was imported.\n"+err.Error(), "\n")})
			return
		}
		p.do(app.Replace{Kept: records})
		say(strconv.Itoa(len(records.Tries)) + " tries and " + strconv.Itoa(len(records.Cues)) + " cues imported; Undo brings the old ones back")
	}, func(js.Value) { say("the file can't be read") })
	input.Set("value", "")
}

// storeKept keeps records on the device whenever they have changed.
func (p *page) storeKept() {
	if p.changes == p.model.Changes {
		return
	}
	p.changes = p.model.Changes
	words := "Tries, cues, readings and tables are kept on this device as they are made."
	if !store(keptKey, p.model.Kept.Encode()) {
		words = "This device refused to keep this: export it before you leave."
	}
	each(".kept", func(el js.Value) { set(el, "textContent", words) })
}

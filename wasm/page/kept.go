//go:build js && wasm

package main

import (
	"syscall/js"
	"time"

	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/view"
)

// listenKept follows what another tab saves. A page that was asleep missed its events.
func (p *page) listenKept() {
	catchUp := func(js.Value) {
		if e := p.keeper.Elsewhere(); e != nil {
			p.Do(e)
		}
	}
	dom.Listen(dom.Window, "storage", catchUp)
	dom.Listen(dom.Window, "pageshow", catchUp)
	dom.Listen(dom.Document, "visibilitychange", func(e js.Value) {
		if !dom.Hidden() {
			catchUp(e)
		}
	})
}

// askAfter is the delay after the first record before the browser is asked, so that the
// confirmation of the record comes first.
const askAfter = 2 * time.Second

// askToKeep asks the browser, once there are records, to keep them when space
// runs short, and says why if the browser asks its user in turn.
func (p *page) askToKeep() {
	if p.asked {
		return
	}
	p.asked = true
	time.AfterFunc(askAfter, func() {
		device.KeepForGood(func() {
			p.Say(view.AllowStorage)
		})
	})
}

//go:build js && wasm

package main

import (
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/keeper"
)

// lookKey is where the look is kept on the device, setUpKey how well the set-up is
// known, gearKey what the user plays with, startKey that the start was seen (loader.js
// reads it too), and cautionKey where this visit notes that the cautions were read.
const (
	lookKey    = "pivotbench-look"
	setUpKey   = "pivotbench-setup"
	gearKey    = "pivotbench-gear"
	startKey   = "pivotbench-start"
	cautionKey = "pivotbench-caution"
)

// loadLook restores the display settings from the device.
func loadLook() app.Event {
	return app.Recall{
		Look: device.Local.Read(lookKey), SetUp: device.Local.Read(setUpKey), Gear: device.Local.Read(gearKey),
		Cautioned: device.Tab.Read(cautionKey) == "read",
		Known:     device.Local.Read(startKey) != "" || device.Local.Read(keeper.Kept) != "",
	}
}

// keepLook saves the display settings on the device if they have changed, except those
// of the example.
func keepLook(before, m *app.Model) {
	if before.InExample() || m.InExample() {
		return
	}
	if now := m.Look.Format(); now != before.Look.Format() {
		device.Local.Write(lookKey, now)
	}
	if m.SetUp != before.SetUp {
		device.Local.Write(setUpKey, app.FormatSetUp(m.SetUp))
	}
	if m.Gear != before.Gear {
		device.Local.Write(gearKey, m.Gear.Format())
	}
	if before.Starting && !m.Starting {
		device.Local.Write(startKey, "seen")
	}
	if m.Cautioned && !before.Cautioned {
		device.Tab.Write(cautionKey, "read")
	}
}

// listenScreen keeps the screen on again after the page was hidden. It may be another day
// by then.
func (p *page) listenScreen() {
	dom.Listen(dom.Document, "visibilitychange", func(js.Value) {
		p.screen.Lost()
		p.Do(app.Clocked{When: device.Moment()})
	})
}

//go:build js && wasm

package main

import (
	"strings"
	"syscall/js"
	"time"

	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/store"
)

// keptKey is where records are kept on the device, asideKey where those are that
// an import replaced, and unreadKey where what could not be read is set aside,
// for whoever can mend it.
const (
	keptKey   = "pivotbench-kept"
	asideKey  = "pivotbench-kept-aside"
	unreadKey = "pivotbench-kept-unread"
)

// A keeper is how the page stands with the device's storage. What it finds there
// is an event for the model.
type keeper struct {
	changes int          // of the records, as far as the device has them
	shared  store.Shared // what the device has, as last read or written
	unread  string       // what could not be read, and the device had no room for aside
	locked  bool         // it has what can't be read, and nothing may be written over that
	aside   string       // the records set aside there, as last read or written
	asked   bool         // to keep them when space runs short
}

// load returns the records that the device keeps.
func (k *keeper) load() app.Event {
	var restored app.Restore
	if k.aside = device.Local.Read(asideKey); k.aside != "" {
		aside, lost, _ := store.Restore(k.aside)
		restored.Aside, restored.HasAside = aside, lost != k.aside
	}
	k.shared = store.NewShared()
	if text := device.Local.Read(keptKey); text != "" {
		_, now, lost, err := k.shared.Read(text)
		if err != nil {
			restored.Notices = k.setAside(lost, err)
		}
		restored.Kept = now
	}
	restored.Unread = k.lost() != ""
	return restored
}

// lost returns what of the device's records could not be read; empty: nothing.
func (k *keeper) lost() string { return device.Local.Read(unreadKey) + k.unread }

// setAside keeps what can't be read apart, so that it is not lost when the rest
// is written, and tells of it.
func (k *keeper) setAside(lost string, err error) []string {
	where := "It is set aside on this device"
	if aside := device.Local.Read(unreadKey); !strings.Contains(aside, lost) && !device.Local.Write(unreadKey, aside+lost+"\n") {
		k.unread, k.locked = lost, true
		where = "There is no room to set it aside, so nothing is kept here over it"
	}
	return strings.Split("Some of what this device keeps can't be read. "+where+
		": “Export what can't be read” under Cues gives it to you as a file.\n"+err.Error(), "\n")
}

// elsewhere returns what another tab has kept meanwhile; nil: nothing. A newer
// version of the bench may keep more than this one can read: that stays as it is.
func (k *keeper) elsewhere() app.Event {
	text := device.Local.Read(keptKey)
	if text == "" || k.shared.Has(text) || k.locked {
		return nil
	}
	base, now, lost, err := k.shared.Read(text)
	if lost == text {
		k.locked = true
		return app.Tell{Notices: []string{"Another tab keeps what this one can't read, and this one keeps nothing over it: load the page again. (" + err.Error() + ".)"}}
	}
	e := app.Elsewhere{Base: base, Kept: now}
	if err != nil {
		e.Notices = k.setAside(lost, err)
	}
	return e
}

// keep keeps a model's records on the device whenever they have changed, on top of
// what another tab has kept meanwhile. It returns what the model is to be told.
func (k *keeper) keep(m *app.Model) []app.Event {
	if k.changes == m.Changes {
		return nil
	}
	if there := device.Local.Read(asideKey); there != "" && there != k.aside {
		k.aside = there
		if other, lost, _ := store.Restore(there); lost != there {
			return []app.Event{app.PutAside{Kept: other}}
		}
	}
	if e := k.elsewhere(); e != nil {
		return []app.Event{e}
	}
	k.changes = m.Changes
	var said []app.Event
	if !k.keepAside(m) {
		said = append(said, app.AlsoTell{Notices: []string{"This device has no room to keep what the import replaced. Bring it back, or export it, before you leave."}})
	}
	return append(said, app.Stored{Refused: !k.write(m)})
}

// keepAside keeps what an import replaced, and reports whether the device has it.
func (k *keeper) keepAside(m *app.Model) bool {
	text := ""
	if m.HasAside {
		text = m.Aside.Encode()
	}
	if text != k.aside {
		if !device.Local.Write(asideKey, text) {
			return false
		}
		k.aside = text
	}
	return true
}

// write writes the records where they are not what the device has, and reports
// whether it has them now.
func (k *keeper) write(m *app.Model) bool {
	if k.shared.Holds(m.Kept) {
		return true
	}
	text, ok := k.shared.Text(m.Kept)
	if k.locked || !ok || !device.Local.Write(keptKey, text) {
		return false
	}
	k.shared.Wrote(text, m.Kept)
	k.askToKeep()
	return true
}

// askAfter is how long after the first record the browser is asked: what was noted
// is said first.
const askAfter = 2 * time.Second

// askToKeep has the browser asked, once there are records, to keep them when
// space runs short. Some browsers ask their user in turn.
func (k *keeper) askToKeep() {
	if k.asked {
		return
	}
	k.asked = true
	time.AfterFunc(askAfter, func() {
		dom.Flash("So that your records stay when space runs short, the browser is asked to keep them: if it asks you, allow it")
		dom.Document.Call("dispatchEvent", js.Global().Get("CustomEvent").New("keep-files"))
	})
}

// listenKept follows what another tab keeps. A page that slept was told nothing.
func (p *page) listenKept() {
	catchUp := func(js.Value) {
		if e := p.keeper.elsewhere(); e != nil {
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

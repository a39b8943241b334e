// Package keeper keeps a model's records on the device, along with those that other
// tabs of the page keep there. Plain Go, no browser.
package keeper

import (
	"slices"
	"strings"

	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
)

// A Storage keeps texts under keys, as a browser does. It may be full, or refuse.
type Storage interface {
	Read(key string) string // empty: there is none
	Write(key, text string) (kept bool)
}

// Kept is the key of the records on the device, Aside of those that an import
// replaced, and Unread of what could not be read, for whoever can mend it.
const (
	Kept   = "pivotbench-kept"
	Aside  = "pivotbench-kept-aside"
	Unread = "pivotbench-kept-unread"
)

// A Keeper is how a page stands with the device's storage. What it finds there is
// an event for the model.
type Keeper struct {
	Storage Storage
	Wrote   func() // is called whenever records were written

	changes int          // of the records, as far as the device has them
	shared  store.Shared // what the device has, as last read or written
	unread  string       // what could not be read, and the device had no room for aside
	locked  bool         // it has what can't be read, and nothing may be written over that
	aside   string       // the records set aside there, as last read or written
}

// Load returns the records that the device keeps.
func (k *Keeper) Load() app.Event {
	var restored app.Restore
	if k.aside = k.Storage.Read(Aside); k.aside != "" {
		aside, lost, _ := store.Restore(k.aside)
		restored.Aside, restored.HasAside = aside, lost != k.aside
	}
	k.shared = store.NewShared()
	if text := k.Storage.Read(Kept); text != "" {
		_, now, lost, err := k.shared.Read(text)
		if err != nil {
			restored.Notices = k.setAside(lost, err)
		}
		restored.Kept = now
	}
	restored.Unread = k.Lost() != ""
	return restored
}

// Lost returns what of the device's records could not be read; empty: nothing.
func (k *Keeper) Lost() string { return k.Storage.Read(Unread) + k.unread }

// setAside keeps what can't be read apart, so that it is not lost when the rest
// is written, and tells of it.
func (k *Keeper) setAside(lost string, err error) []string {
	where := "It is set aside on this device"
	if aside := k.Storage.Read(Unread); !strings.Contains(aside, lost) && !k.Storage.Write(Unread, aside+lost+"\n") {
		k.unread, k.locked = lost, true
		where = "There is no room to set it aside, so nothing is kept here over it"
	}
	return strings.Split("Some of what this device keeps can't be read. "+where+
		": “Export what can't be read” under Cues gives it to you as a file.\n"+err.Error(), "\n")
}

// Elsewhere returns what another tab has kept meanwhile; nil: nothing. A newer
// version of the bench may keep more than this one can read: that stays as it is.
func (k *Keeper) Elsewhere() app.Event {
	text := k.Storage.Read(Kept)
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

// Update returns the model after some events, with its records kept. What the
// storage answers, such as records that another tab has kept meanwhile, is an event
// too.
func (k *Keeper) Update(m app.Model, events ...app.Event) app.Model {
	for len(events) > 0 {
		m = app.Update(m, events[0])
		events = append(slices.Clip(events[1:]), k.keep(&m)...)
	}
	return m
}

// keep keeps a model's records on the device whenever they have changed, on top of
// what another tab has kept meanwhile. It returns what the model is to be told.
func (k *Keeper) keep(m *app.Model) []app.Event {
	if k.changes == m.Changes {
		return nil
	}
	if there := k.Storage.Read(Aside); there != "" && there != k.aside {
		k.aside = there
		if other, lost, _ := store.Restore(there); lost != there {
			return []app.Event{app.PutAside{Kept: other}}
		}
	}
	if e := k.Elsewhere(); e != nil {
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
func (k *Keeper) keepAside(m *app.Model) bool {
	text := ""
	if m.HasAside {
		text = m.Aside.Encode()
	}
	if text != k.aside {
		if !k.Storage.Write(Aside, text) {
			return false
		}
		k.aside = text
	}
	return true
}

// write writes the records where they are not what the device has, and reports
// whether it has them now.
func (k *Keeper) write(m *app.Model) bool {
	if k.shared.Holds(m.Kept) {
		return true
	}
	text, ok := k.shared.Text(m.Kept)
	if k.locked || !ok || !k.Storage.Write(Kept, text) {
		return false
	}
	k.shared.Wrote(text, m.Kept)
	k.Wrote()
	return true
}

// Package keeper saves a model's records on the device, together with those that other
// tabs of the page save there. Plain Go, no browser.
package keeper

import (
	"slices"
	"strings"

	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
)

// A Storage saves texts under keys, as a browser does. It may be full, or refuse.
type Storage interface {
	Read(key string) string // "" if there is none
	Write(key, text string) (kept bool)
}

// Kept is the key of the records on the device, Aside that of the records an import
// replaced, and Unread that of text that could not be read, for whoever can repair it.
const (
	Kept   = "pivotbench-kept"
	Aside  = "pivotbench-kept-aside"
	Unread = "pivotbench-kept-unread"
)

// A Keeper connects a page with the device's storage. Whatever it finds there becomes an
// event for the model.
type Keeper struct {
	Storage Storage
	Wrote   func() // called whenever records were written

	changes int          // change counter of the records that the device has
	shared  store.Shared // what the device has, as last read or written
	unread  string       // text that could not be read and that the device had no room to set aside
	locked  bool         // the device has records that cannot be read, which must not be overwritten
	aside   string       // the records set aside, as last read or written
}

// Load returns an event with the records saved on the device.
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

// Lost returns the records that could not be read, or "" if there are none.
func (k *Keeper) Lost() string { return k.Storage.Read(Unread) + k.unread }

// setAside saves text that cannot be read under another key, so that it is not lost when
// the rest is written. It returns a notice about it.
func (k *Keeper) setAside(lost string, err error) []string {
	where := "It is set aside on this device"
	if aside := k.Storage.Read(Unread); !strings.Contains(aside, lost) && !k.Storage.Write(Unread, aside+lost+"\n") {
		k.unread, k.locked = lost, true
		where = "There is no room to set it aside, so nothing is kept here over it"
	}
	return strings.Split("Some of what this device keeps can't be read. "+where+
		": “Export what can't be read” under Cues gives it to you as a file.\n"+err.Error(), "\n")
}

// Elsewhere returns an event with what another tab has saved meanwhile, or nil. A newer
// version of the bench may save more than this one can read; its records are left alone.
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

// Update returns the model after some events, with its records saved. Whatever the
// storage holds, such as records that another tab has saved meanwhile, is an event too.
func (k *Keeper) Update(m app.Model, events ...app.Event) app.Model {
	for len(events) > 0 {
		m = app.Update(m, events[0])
		events = append(slices.Clip(events[1:]), k.keep(&m)...)
	}
	return m
}

// keep saves a model's records on the device if they have changed, merged with what
// another tab has saved meanwhile. It returns events for the model.
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

// keepAside saves what an import replaced, and reports whether the device has it.
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

// write saves the records if they differ from what the device has, and reports whether it
// has them now.
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

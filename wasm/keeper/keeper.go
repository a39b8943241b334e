// Package keeper saves a model's records on the device and merges them with those that
// other tabs of the page save there. It is plain Go and does not need a browser.
package keeper

import (
	"slices"
	"strings"

	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/store"
)

// A Storage saves texts under keys, like a browser's storage. It may refuse to save, for
// example because it is full.
type Storage interface {
	Read(key string) string             // returns "" if nothing is saved under the key
	Write(key, text string) (kept bool) // reports whether the text was saved
}

// The keys in the device's storage.
const (
	Kept   = "pivotbench-kept"        // the records
	Aside  = "pivotbench-kept-aside"  // the records that an import replaced
	Unread = "pivotbench-kept-unread" // text that could not be read, for repair by hand
)

// A Keeper connects a page with the device's storage. It passes what it finds there to
// the model as events.
type Keeper struct {
	Storage Storage
	Wrote   func() // called after the records are written

	changes int          // value of Model.Changes at the last save
	shared  store.Shared // the records on the device, as last read or written
	unread  string       // text that cannot be read and that the device has no room to set aside
	locked  bool         // whether the device has unreadable records, which must not be overwritten
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

// Lost returns the text of the records that could not be read, or "" if there is none.
func (k *Keeper) Lost() string { return k.Storage.Read(Unread) + k.unread }

// setAside saves text that cannot be read under the key Unread, so that it is not lost
// when the other records are written. It returns notices for the user.
func (k *Keeper) setAside(lost string, err error) []string {
	where := "They are safe on this device"
	if aside := k.Storage.Read(Unread); !strings.Contains(aside, lost) && !k.Storage.Write(Unread, aside+lost+"\n") {
		k.unread, k.locked = lost, true
		where = "There is no room for a copy, so Pivotbench saves nothing here for now"
	}
	return strings.Split("Some of the records on this device can't be read. "+where+
		". To get them as a file, use “Export unreadable records” under Cues.\n"+err.Error(), "\n")
}

// Elsewhere returns an event with the records that another tab has saved, or nil if there
// are no new ones. If this version of the bench cannot read them at all, such as those of
// a newer version, the event tells the user and the Keeper no longer writes records.
func (k *Keeper) Elsewhere() app.Event {
	text := k.Storage.Read(Kept)
	if text == "" || k.shared.Has(text) || k.locked {
		return nil
	}
	base, now, lost, err := k.shared.Read(text)
	if lost == text {
		k.locked = true
		return app.Tell{Notices: []string{"Another tab saved records that this tab can't read, so this tab saves nothing. Reload the page. (" + phrase.Upper(err.Error()) + ".)"}}
	}
	e := app.Elsewhere{Base: base, Kept: now}
	if err != nil {
		e.Notices = k.setAside(lost, err)
	}
	return e
}

// Update returns the model after some events and saves its records. It also applies the
// events that saving leads to, such as those for records that another tab has saved.
func (k *Keeper) Update(m app.Model, events ...app.Event) app.Model {
	for len(events) > 0 {
		m = app.Update(m, events[0])
		events = append(slices.Clip(events[1:]), k.keep(&m)...)
	}
	return m
}

// keep saves a model's records on the device if they have changed, and returns events for
// the model. It saves nothing of the example. If another tab has saved records since the last read, keep returns those as
// an event and saves nothing, so that the model can merge them first.
func (k *Keeper) keep(m *app.Model) []app.Event {
	if k.changes == m.Changes || m.InExample() {
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
		said = append(said, app.AlsoTell{Notices: []string{"This device has no room for the records that the import replaced. Bring them back or export them before you leave."}})
	}
	return append(said, app.Stored{Refused: !k.write(m)})
}

// keepAside saves the records that an import replaced, and reports whether the device has
// them.
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

// write saves the records if they differ from those on the device, and reports whether
// the device has them.
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

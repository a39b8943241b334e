//go:build js && wasm

package dom

import "syscall/js"

// A focus is where the keyboard focus is. When its element is removed, hidden or
// disabled, as when a list is rewritten, the focus moves to what is next to it: it is
// never lost to the page as a whole.
type focus struct {
	el     js.Value // null: nowhere, or a pointer was pressed elsewhere since
	parent js.Value
	panel  js.Value // of its section, or null
	list   js.Value // the list that it is an entry of, or null
	row    int      // index in the list
	kind   string   // selector for the same control in other rows
	place  int      // index among those
}

const (
	// focusable matches what can have the keyboard focus.
	focusable = `button, select, input, textarea, summary, a[href], [tabindex="0"]`
	// gone matches what can no longer have it.
	gone = `[hidden], :disabled, .read`
	// lists and rows match what is rewritten, and its parts.
	lists, rows = `ul[id], ol[id], table[id]`, `:scope > li, :scope > tbody > tr`
)

// keyboard is the only focus.
var keyboard = focus{el: js.Null()}

// FollowFocus starts tracking the focus for HoldFocus.
func FollowFocus() {
	f := &keyboard
	Listen(Document, "focusin", func(e js.Value) { f.mark(e.Get("target")) })
	Listen(Document, "pointerdown", func(e js.Value) {
		if f.el.Truthy() && !f.el.Call("contains", e.Get("target")).Bool() {
			f.el = js.Null()
		}
	})
}

// mark remembers the position of an element.
func (f *focus) mark(el js.Value) {
	*f = focus{el: el, parent: el.Get("parentElement"), panel: el.Call("closest", "[data-panel]"), list: el.Call("closest", lists)}
	if !f.list.Truthy() {
		return
	}
	f.kind = el.Get("localName").String()
	for _, name := range []string{"do", "edit"} {
		if v := el.Get("dataset").Get(name); !v.IsUndefined() {
			f.kind = `[data-` + name + `="` + v.String() + `"]`
		}
	}
	f.place = where(f.list.Call("querySelectorAll", f.kind), el)
	f.row = where(f.list.Call("querySelectorAll", rows), el)
}

// where returns the index of the first of some elements that contains another or is the
// same.
func where(all, el js.Value) int {
	for i := range all.Length() {
		if all.Index(i).Call("contains", el).Bool() {
			return i
		}
	}
	return 0
}

// HoldFocus moves the focus to the nearest element if it was lost.
func HoldFocus() {
	f := &keyboard
	if !f.el.Truthy() || f.el.Get("isConnected").Bool() && f.el.Call("closest", gone).IsNull() {
		return
	}
	at := Document.Get("activeElement")
	if at.Truthy() && !at.Equal(Document.Get("body")) && !at.Equal(f.el) {
		return // something else has the focus
	}
	if next := f.next(); next.Truthy() {
		next.Call("focus") // which marks it
	}
}

// next returns the first usable one of the elements that data-then of the lost element
// selects. Where there is none, it returns the nearest element: the same control in the row
// that has moved up, or in the last row; anything else in that row; what stands next to it;
// what comes before or after the list; the tab of the section.
func (f *focus) next() js.Value {
	if then := Data(f.el, "then"); then != "" {
		if found := nearest(Document.Call("querySelectorAll", then), 0); found.Truthy() {
			return found
		}
	}
	if f.list.Truthy() {
		if found := nearest(f.list.Call("querySelectorAll", f.kind), f.place); found.Truthy() {
			return found
		}
		if all := f.list.Call("querySelectorAll", rows); all.Length() > 0 {
			row := all.Index(min(f.row, all.Length()-1))
			if found := nearest(row.Call("querySelectorAll", focusable), 0); found.Truthy() {
				return found
			}
		}
	} else if found := nearest(f.parent.Call("querySelectorAll", ":scope > button"), 0); found.Truthy() {
		return found
	}
	if f.panel.Truthy() && f.panel.Call("closest", gone).IsNull() {
		from, before := f.parent, true
		if f.list.Truthy() {
			from, before = f.list, false
		}
		if found := beyond(f.panel, from, before); found.Truthy() {
			return found
		}
	}
	return Document.Call("querySelector", `.tabs [aria-current="true"]`)
}

// usable reports whether an element can have the focus.
func usable(el js.Value) bool {
	return el.Call("closest", gone).IsNull() && el.Call("getClientRects").Length() > 0
}

// nearest returns, of some elements, the usable one at an index or the last before it;
// otherwise the first after it; otherwise null.
func nearest(all js.Value, place int) js.Value {
	for i := min(place, all.Length()-1); i >= 0; i-- {
		if usable(all.Index(i)) {
			return all.Index(i)
		}
	}
	for i := place + 1; i < all.Length(); i++ {
		if usable(all.Index(i)) {
			return all.Index(i)
		}
	}
	return js.Null()
}

// beyond returns the last usable element before another, or the first after it, or null
// if the panel has none.
func beyond(panel, from js.Value, before bool) (found js.Value) {
	const preceding, following = 2, 4 // of Node.compareDocumentPosition
	all := panel.Call("querySelectorAll", focusable)
	for i := range all.Length() {
		el := all.Index(i)
		side := from.Call("compareDocumentPosition", el).Int()
		switch {
		case from.Call("contains", el).Bool() || !usable(el):
		case before && side&preceding != 0:
			found = el
		case !before && side&following != 0:
			return el
		}
	}
	return found
}

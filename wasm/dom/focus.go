//go:build js && wasm

package dom

import "syscall/js"

// A focus is where the keyboard is. When that goes out of the page, out of
// sight or out of use, as when a list is written anew, the keyboard goes to
// what stands next to it: focus is never lost to the page as a whole.
type focus struct {
	el     js.Value // null: nowhere, or a pointer has been elsewhere since
	parent js.Value
	panel  js.Value // of its section, or null
	list   js.Value // that it is an entry of, or null
	row    int      // of the list
	kind   string   // a selector for what does the same in other rows
	place  int      // among those
}

const (
	// focusable is what the keyboard can reach.
	focusable = `button, select, input, textarea, summary, a[href], [tabindex="0"]`
	// gone is what it can reach no more.
	gone = `[hidden], :disabled, .read`
	// lists and rows are what is written anew, and what that consists of.
	lists, rows = `ul[id], ol[id], table[id]`, `:scope > li, :scope > tbody > tr`
)

// keyboard is the one that there is.
var keyboard = focus{el: js.Null()}

// FollowFocus has HoldFocus know where the keyboard is.
func FollowFocus() {
	f := &keyboard
	Listen(Document, "focusin", func(e js.Value) { f.mark(e.Get("target")) })
	Listen(Document, "pointerdown", func(e js.Value) {
		if f.el.Truthy() && !f.el.Call("contains", e.Get("target")).Bool() {
			f.el = js.Null()
		}
	})
}

// mark remembers where an element is.
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

// where is the first of some elements that is another or contains it.
func where(all, el js.Value) int {
	for i := range all.Length() {
		if all.Index(i).Call("contains", el).Bool() {
			return i
		}
	}
	return 0
}

// HoldFocus gives the keyboard a place again, where it has lost it.
func HoldFocus() {
	f := &keyboard
	if !f.el.Truthy() || f.el.Get("isConnected").Bool() && f.el.Call("closest", gone).IsNull() {
		return
	}
	at := Document.Get("activeElement")
	if at.Truthy() && !at.Equal(Document.Get("body")) && !at.Equal(f.el) {
		return // something else has it
	}
	if next := f.next(); next.Truthy() {
		next.Call("focus") // which is marked in its turn
	}
}

// next is what is nearest: the same in the row that has moved up, or in the
// last; anything in that row; what stands beside; what follows a list, or what
// something else came after; the tab of the section.
func (f *focus) next() js.Value {
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

// usable reports whether the keyboard can go to an element.
func usable(el js.Value) bool {
	return el.Call("closest", gone).IsNull() && el.Call("getClientRects").Length() > 0
}

// nearest is that of some elements, at a place or as near before it as can be,
// that the keyboard can go to; else the first after; else null.
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

// beyond is the last thing before an element that the keyboard can go to, or
// the first after it; null: there is none in the panel.
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

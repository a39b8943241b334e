//go:build js && wasm

package device

import "strings"

// Fragment returns the link in the address bar, from its # on.
func Fragment() string { return window.Get("location").Get("hash").String() }

// Push puts a link in the address bar as a new entry of the history, and Replace
// in place of the newest. A browser refuses when it is asked too often in a short
// time.
func Push(fragment string) bool { return putAddress("pushState", fragment) }

// Replace is Push without a new entry.
func Replace(fragment string) bool { return putAddress("replaceState", fragment) }

func putAddress(way, fragment string) bool {
	return Attempt(func() { window.Get("history").Call(way, nil, "", "#"+fragment) })
}

// Address returns the address of a link; public is the site's own address, as its
// build knows it. ok is false where nobody else could open what is returned.
func Address(fragment, public string) (address string, ok bool) {
	at := window.Get("location")
	base := at.Get("href").String()
	base, ok = base[:strings.IndexAny(base+"#", "?#")], true
	switch host := at.Get("hostname").String(); {
	case at.Get("protocol").String() == "file:", host == "localhost", host == "127.0.0.1", host == "[::1]":
		if public != "" {
			base = public
		} else {
			ok = false
		}
	}
	return base + "#" + fragment, ok
}

// CameBack reports whether the page was loaded again, rather than opened by a
// link.
func CameBack() bool {
	came := window.Get("performance").Call("getEntriesByType", "navigation").Index(0)
	return !came.IsUndefined() && came.Get("type").String() != "navigate"
}

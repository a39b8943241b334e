//go:build js && wasm

package device

import "strings"

// Fragment returns the link in the address bar, with its #.
func Fragment() string { return window.Get("location").Get("hash").String() }

// Push puts a link in the address bar as a new history entry. It reports whether that
// worked: a browser refuses if it happens too often in a short time.
func Push(fragment string) bool { return putAddress("pushState", fragment) }

// Replace is Push in place of the present entry.
func Replace(fragment string) bool { return putAddress("replaceState", fragment) }

func putAddress(way, fragment string) bool {
	return Attempt(func() { window.Get("history").Call(way, nil, "", "#"+fragment) })
}

// Address returns the address of a link. public is the address of the site, as given to
// its build. ok is false if nobody else could open the address returned.
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

// CameBack reports whether the page was reloaded rather than opened by a link.
func CameBack() bool {
	came := window.Get("performance").Call("getEntriesByType", "navigation").Index(0)
	return !came.IsUndefined() && came.Get("type").String() != "navigate"
}

// Package link reads and writes the fragment of an address: key=value joined by &, each
// value percent-encoded (RFC 3986).
//
//	v=1&bridge=9.5in&name=Tuesday%20class
//
// A first key without a value says what kind of thing the link is. A scenario has none.
//
//	lesson&v=1&title=...
package link

import "strings"

// Trailing is what messengers and prose may add to the end of a link.
const Trailing = ".,;:!?)]}>'\"’”» "

// Fragment returns the part of an address after its #, or the whole text if it has no #,
// without surrounding white space.
func Fragment(address string) string {
	if i := strings.IndexByte(address, '#'); i >= 0 {
		address = address[i+1:]
	}
	return strings.TrimSpace(address)
}

// Kind returns the first key of an address or fragment if it has no value. It says what
// kind of thing the link is, and is empty for a scenario.
func Kind(address string) string {
	first, _, _ := strings.Cut(Fragment(address), "&")
	if strings.Contains(first, "=") {
		return ""
	}
	return strings.TrimRight(first, Trailing)
}

// plain are the characters that are not encoded: the unreserved ones of RFC 3986, section
// 2.3, and the comma, which is common in lists.
const plain = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-._~,"

const hex = "0123456789ABCDEF"

// Escape percent-encodes a value. The standard library's net/url does the same but brings
// fmt and reflection into a program that a phone has to download.
func Escape(value string) string {
	var out strings.Builder
	for i := range len(value) {
		if c := value[i]; strings.IndexByte(plain, c) >= 0 {
			out.WriteByte(c)
		} else {
			out.WriteByte('%')
			out.WriteByte(hex[c>>4])
			out.WriteByte(hex[c&15])
		}
	}
	return out.String()
}

// Unescape decodes a percent-encoded value. A stray % that encodes nothing is kept as it
// is.
func Unescape(raw string) string {
	var out strings.Builder
	for i := 0; i < len(raw); i++ {
		if raw[i] != '%' {
			out.WriteByte(raw[i])
			continue
		}
		if i+2 >= len(raw) || digit(raw[i+1]) < 0 || digit(raw[i+2]) < 0 {
			return raw
		}
		out.WriteByte(byte(digit(raw[i+1])<<4 | digit(raw[i+2])))
		i += 2
	}
	return out.String()
}

// digit returns the value of a hexadecimal digit, or -1 if c is none.
func digit(c byte) int {
	if 'a' <= c && c <= 'f' {
		c -= 'a' - 'A'
	}
	return strings.IndexByte(hex, c)
}

// Package link is the text that travels as an address's fragment: key=value
// joined by &, each value percent-encoded (RFC 3986).
//
//	v=1&bridge=9.5in&name=Tuesday%20class
//
// A first key without a value says what kind of thing it is; a scenario has
// none.
//
//	lesson&v=1&title=...
package link

import "strings"

// Trailing is what messengers and prose leave at the end of a link.
const Trailing = ".,;:!?)]}>'\"’”» "

// Fragment is the part of an address behind its #, or a text that has none as
// it is, without white space around it.
func Fragment(address string) string {
	if i := strings.IndexByte(address, '#'); i >= 0 {
		address = address[i+1:]
	}
	return strings.TrimSpace(address)
}

// Kind is the first key of an address or fragment if it has no value: what
// kind of thing the link brings. It is empty for a scenario.
func Kind(address string) string {
	first, _, _ := strings.Cut(Fragment(address), "&")
	if strings.Contains(first, "=") {
		return ""
	}
	return strings.TrimRight(first, Trailing)
}

// plain are the characters that stand for themselves: the unreserved ones, and
// the comma, which lists are full of.
const plain = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-._~,"

const hex = "0123456789ABCDEF"

// Escape percent-encodes a value. The standard library's net/url does the same
// and brings fmt and reflection along, which a page that opens on a phone can
// do without.
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

// Unescape reads a percent-encoded value. One that was never encoded, with a
// stray % in it, is taken as it stands.
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

// digit is the value of a hexadecimal digit; -1: it is none.
func digit(c byte) int {
	if 'a' <= c && c <= 'f' {
		c -= 'a' - 'A'
	}
	return strings.IndexByte(hex, c)
}

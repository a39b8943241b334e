package codec

import (
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// quoted reads a string in quotes; ok is false if there is none. Invalid UTF-8 and
// unpaired surrogates become the replacement character.
func (r *reader) quoted() (text string, ok bool) {
	if !r.is('"') {
		return "", false
	}
	var whole strings.Builder
	for from := r.at; ; from = r.at {
		n := strings.IndexAny(r.text[from:], "\"\\")
		if n < 0 {
			n = len(r.text) - from
		}
		part := r.text[from : from+n]
		if i := strings.IndexFunc(part, func(c rune) bool { return c < ' ' }); i >= 0 {
			r.at = from + i
			r.expected("the closing quote of a text before it")
			return "", false
		}
		r.at = from + n
		if !utf8.ValidString(part) {
			part = string([]rune(part))
		}
		if r.at == len(r.text) {
			r.expected("the closing quote of a text")
			return "", false
		}
		if r.text[r.at] == '"' {
			r.at++
			if whole.Len() == 0 { // the usual case, which needs no copy
				return part, true
			}
			whole.WriteString(part)
			return whole.String(), true
		}
		whole.WriteString(part)
		whole.WriteRune(r.escape())
		if r.err != nil {
			return "", false
		}
	}
}

// escape reads an escape sequence after its backslash.
func (r *reader) escape() rune {
	if half, ok := r.unit(); ok {
		if !utf16.IsSurrogate(half) {
			return half
		}
		after := r.at
		if other, ok := r.unit(); ok {
			if pair := utf16.DecodeRune(half, other); pair != utf8.RuneError {
				return pair
			}
		}
		r.at = after
		return utf8.RuneError
	}
	r.at++
	if r.at < len(r.text) {
		c := r.text[r.at]
		if i := strings.IndexByte(letters, c); i >= 0 {
			r.at++
			return rune(controls[i])
		}
		if c == '"' || c == '\\' || c == '/' {
			r.at++
			return rune(c)
		}
	}
	r.expected(`one of " \ / b f n r t, or u and four digits, after a backslash`)
	return 0
}

// unit reads a UTF-16 code unit written as \u and four hexadecimal digits.
func (r *reader) unit() (rune, bool) {
	rest, ok := strings.CutPrefix(r.text[r.at:], `\u`)
	if !ok || len(rest) < 4 {
		return 0, false
	}
	n, err := strconv.ParseUint(rest[:4], 16, 32)
	if err != nil {
		return 0, false
	}
	r.at += len(`\u`) + 4
	return rune(n), true
}

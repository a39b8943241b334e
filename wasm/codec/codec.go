// Package codec reads and writes two text formats of files: JSON (RFC 8259), for records
// with named fields, and comma-separated values (RFC 4180). An error names the line, what
// was read there and what was expected. Plain Go, no browser.
//
// The standard library's readers find fields by reflection and word errors by fmt.
// Together these would be a tenth of the page's program, which has to be loaded before
// anything can be read.
package codec

import (
	"errors"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Trim returns a file's text without the byte order mark and the white space that editors
// put around it, and the line on which it then begins.
func Trim(text string) (trimmed string, line int) {
	all := strings.TrimPrefix(text, "\uFEFF")
	trimmed = strings.TrimLeftFunc(all, unicode.IsSpace)
	line = 1 + strings.Count(all[:len(all)-len(trimmed)], "\n")
	return strings.TrimRightFunc(trimmed, unicode.IsSpace), line
}

// refusal returns an error that begins with its line.
func refusal(line int, what string) error {
	return errors.New("line " + strconv.Itoa(line) + ": " + what)
}

// shown returns the next token of a text, for an error: a word, a number or a character.
func shown(rest string) string {
	if rest == "" {
		return "the end of the file"
	}
	first, size := utf8.DecodeRuneInString(rest)
	if !unicode.IsPrint(first) {
		return codePoint(first)
	}
	inWord := func(r rune) bool {
		return unicode.IsLetter(r) || unicode.IsDigit(r) || r == '.' || r == '+' || r == '-'
	}
	if first == '"' || inWord(first) {
		size = len(rest) - len(strings.TrimLeftFunc(rest[size:], inWord))
	}
	return "“" + clip(rest[:size]) + "”"
}

// clip shortens a quotation for an error.
func clip(text string) string {
	const glance = 24
	if len(text) <= glance {
		return text
	}
	return strings.ToValidUTF8(text[:glance], "") + "…"
}

// codePoint names a character that cannot be shown.
func codePoint(r rune) string {
	hex := strings.ToUpper(strconv.FormatInt(int64(r), 16))
	return "U+" + strings.Repeat("0", max(0, 4-len(hex))) + hex
}

// Package typed cleans text that people type: names, notes, captions. The same rule
// applies to what is written and to what is read.
package typed

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Line returns a text as one line. It replaces white space of any kind by single spaces,
// drops what cannot be shown, and keeps at most longest characters. cut reports whether
// it lost any of them. A line that it returned comes back unchanged.
func Line(text string, longest int) (line string, cut bool) {
	return clip(strings.Join(strings.Fields(showable(text)), " "), longest)
}

// Lines is Line for a text of several lines, which keeps its line breaks.
func Lines(text string, longest int) (lines string, cut bool) {
	all := strings.FieldsFunc(text, func(r rune) bool { return r == '\n' || r == '\r' || r == '\u2028' || r == '\u2029' })
	kept := all[:0]
	for _, one := range all {
		if one, _ := Line(one, len(one)); one != "" {
			kept = append(kept, one)
		}
	}
	return clip(strings.Join(kept, "\n"), longest)
}

// Zero-width joiners and non-joiners belong to emoji and to the letters of some scripts.
const (
	nonJoiner = '\u200c'
	joiner    = '\u200d'
)

// showable returns a text with a space for every white space and without what cannot be
// shown.
func showable(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case r == utf8.RuneError, !unicode.IsPrint(r) && r != joiner && r != nonJoiner:
			return -1
		}
		return r
	}, text)
}

// clip keeps the first longest characters of a text, without white space at the end.
func clip(text string, longest int) (clipped string, cut bool) {
	n := 0
	for i := range text {
		if n == longest {
			return strings.TrimRight(text[:i], " \n"), true
		}
		n++
	}
	return text, false
}

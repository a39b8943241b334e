package codec

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// WriteJSON writes a record as JSON, one field a line, indented by one space for each
// level.
func WriteJSON(fields func(Fields)) string {
	var w writer
	w.record(fields)
	w.text.WriteByte('\n')
	return w.text.String()
}

// A writer is the Fields that writes.
type writer struct {
	text  strings.Builder
	depth int
	any   bool // something was written before at this level
}

func (w *writer) Text(name string, at *string) {
	w.name(name)
	w.quote(*at)
}

func (w *writer) TextIfAny(name string, at *string) {
	if *at != "" {
		w.Text(name, at)
	}
}

func (w *writer) Whole(name string, at *int) {
	w.name(name)
	w.text.WriteString(strconv.Itoa(*at))
}

func (w *writer) Has(string, *bool) {}

func (w *writer) begin(name string, given bool) bool {
	if given {
		w.name(name)
	}
	return given
}

func (w *writer) record(fields func(Fields)) {
	w.group('{', '}', func() { fields(w) })
}

func (w *writer) list(l list) {
	if l.missing {
		w.text.WriteString("null")
		return
	}
	w.group('[', ']', func() {
		for i := range l.len {
			w.next()
			w.record(func(f Fields) { l.visit(i, f) })
		}
	})
}

// group writes what stands between two brackets.
func (w *writer) group(from, to byte, members func()) {
	w.text.WriteByte(from)
	w.depth, w.any = w.depth+1, false
	members()
	w.depth--
	if w.any {
		w.line()
	}
	w.text.WriteByte(to)
	w.any = true
}

// next begins a member of a group.
func (w *writer) next() {
	if w.any {
		w.text.WriteByte(',')
	}
	w.any = true
	w.line()
}

func (w *writer) line() {
	w.text.WriteByte('\n')
	for range w.depth {
		w.text.WriteByte(' ')
	}
}

func (w *writer) name(name string) {
	w.next()
	w.quote(name)
	w.text.WriteString(": ")
}

// quote writes a string in quotes. Invalid UTF-8 becomes the replacement character. The
// line separators of Unicode are escaped, so that the text may also stand in a script.
func (w *writer) quote(text string) {
	w.text.WriteByte('"')
	from := 0
	for i, r := range text {
		escape := ""
		size := utf8.RuneLen(r)
		switch {
		case r == utf8.RuneError:
			if _, n := utf8.DecodeRuneInString(text[i:]); n != 1 {
				continue
			}
			escape, size = `\ufffd`, 1
		case r == '"' || r == '\\':
			escape = `\` + string(r)
		case r < ' ':
			escape = control(r)
		case r == '\u2028' || r == '\u2029':
			escape = `\u` + strconv.FormatInt(int64(r), 16)
		default:
			continue
		}
		w.text.WriteString(text[from:i])
		w.text.WriteString(escape)
		from = i + size
	}
	w.text.WriteString(text[from:])
	w.text.WriteByte('"')
}

// control returns the escape sequence of a control character.
func control(r rune) string {
	if i := strings.IndexRune(controls, r); i >= 0 {
		return `\` + letters[i:i+1]
	}
	return `\u00` + strconv.FormatInt(int64(r>>4), 16) + strconv.FormatInt(int64(r&15), 16)
}

// The control characters that have a letter of their own, and those letters.
const (
	controls = "\b\f\n\r\t"
	letters  = "bfnrt"
)

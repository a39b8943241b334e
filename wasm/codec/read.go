package codec

import (
	"strconv"
	"strings"
)

// ReadJSON reads a record from JSON. After an error the record may hold a part of the
// text.
func ReadJSON(text string, fields func(Fields)) error {
	text, line := Trim(text)
	r := reader{text: text, first: line}
	r.object("a record in { }", fields)
	if r.space(); r.err == nil && r.at < len(r.text) {
		r.expected("the end of the file")
	}
	return r.err
}

// A reader is the Fields that reads: for each key of a text it visits all fields, and the
// one of that name takes the value. After an error it reads nothing more.
type reader struct {
	text  string
	first int // the line on which text begins
	at    int // position of the reader in text
	depth int // nesting of brackets
	in    object
	err   error
}

// An object is the state of a reader within an object.
type object struct {
	key   string
	taken bool   // its value has been read
	field int    // index of the next field to be visited
	seen  uint64 // the fields that had their value, one bit each
}

func (r *reader) Text(name string, at *string) {
	if !r.take(name) {
		return
	}
	text, ok := r.quoted()
	if !ok {
		r.expected("a text in quotes for “" + name + "”")
		return
	}
	*at = text
}

func (r *reader) TextIfAny(name string, at *string) { r.Text(name, at) }

func (r *reader) Whole(name string, at *int) {
	if !r.take(name) {
		return
	}
	start := r.at
	text, _ := r.number()
	n, err := strconv.Atoi(text)
	if err != nil {
		r.at = start
		r.expected("a whole number for “" + name + "”")
		return
	}
	*at = n
}

func (r *reader) Has(name string, at *bool) {
	*at = *at || name == r.in.key
}

func (r *reader) begin(name string, _ bool) bool { return r.take(name) }

func (r *reader) record(fields func(Fields)) {
	r.object("a record in { } for “"+r.in.key+"”", fields)
}

func (r *reader) list(l list) {
	name := r.in.key
	l.clear()
	n, start, each := 0, r.at, "a record in { } for each of “"+name+"”"
	r.group('[', ']', "a list in [ ] for “"+name+"”", func() {
		if n++; n > l.most {
			r.skip()
			return
		}
		l.grow()
		if !r.null() {
			r.object(each, func(f Fields) { l.visit(n-1, f) })
		}
	})
	if r.err == nil && n > l.most {
		r.at = start
		r.refuse(strconv.Itoa(n) + " " + name + ", allowed: up to " + strconv.Itoa(l.most))
	}
}

// take reports whether to read the field now: it has the present key, and its value is
// not null.
func (r *reader) take(name string) bool {
	bit := uint64(1) << r.in.field
	r.in.field++
	if r.err != nil || r.in.taken || name != r.in.key {
		return false
	}
	r.in.taken = true
	if r.in.seen&bit != 0 {
		r.refuse("“" + name + "” is given twice")
		return false
	}
	r.in.seen |= bit
	return !r.null()
}

// object reads a record. what names what was expected, for the error.
func (r *reader) object(what string, fields func(Fields)) {
	outer := r.in
	var seen uint64
	r.group('{', '}', what, func() {
		r.in = object{key: r.key(), seen: seen}
		if r.err == nil {
			fields(r)
		}
		if !r.in.taken {
			r.skip()
		}
		seen = r.in.seen
	})
	r.in = outer
}

// key reads a key and its colon.
func (r *reader) key() string {
	name, ok := r.quoted()
	if !ok {
		r.expected("a key in quotes")
	}
	if !r.is(':') {
		r.expected("“:” after the key “" + clip(name) + "”")
	}
	r.space()
	return name
}

// group reads what stands between two brackets.
func (r *reader) group(from, to byte, what string, member func()) {
	if !r.is(from) {
		r.expected(what)
	}
	// Deeper than any of our files.
	const deepest = 100
	if r.depth++; r.depth > deepest {
		r.refuse("brackets within brackets, more than " + strconv.Itoa(deepest) + " deep")
	}
	for more := !r.is(to); more && r.err == nil; {
		r.space()
		member()
		if more = r.is(','); !more && !r.is(to) {
			r.expected("“,” or “" + string(rune(to)) + "”")
		}
	}
	r.depth--
}

// is skips a character if it is next.
func (r *reader) is(c byte) bool {
	r.space()
	if r.err != nil || r.at == len(r.text) || r.text[r.at] != c {
		return false
	}
	r.at++
	return true
}

// null skips the word null if it is next.
func (r *reader) null() bool {
	r.space()
	rest, ok := strings.CutPrefix(r.text[r.at:], "null")
	r.at = len(r.text) - len(rest)
	return ok
}

func (r *reader) space() {
	for r.at < len(r.text) && strings.IndexByte(" \n\r\t", r.text[r.at]) >= 0 {
		r.at++
	}
}

// expected reports an error at the next token.
func (r *reader) expected(what string) {
	r.refuse("read " + shown(r.text[r.at:]) + ", expected " + what)
}

func (r *reader) refuse(what string) {
	if r.err != nil {
		return
	}
	r.err = refusal(r.first+strings.Count(r.text[:r.at], "\n"), what)
}

package codec

import "strings"

// skip reads a value of any kind and discards it.
func (r *reader) skip() {
	if r.space(); r.err != nil {
		return
	}
	if r.at == len(r.text) {
		r.expected("a value")
		return
	}
	switch r.text[r.at] {
	case '{':
		r.group('{', '}', "", func() { r.key(); r.skip() })
	case '[':
		r.group('[', ']', "", r.skip)
	case '"':
		r.quoted()
	default:
		for _, word := range []string{"true", "false", "null"} {
			if strings.HasPrefix(r.text[r.at:], word) {
				r.at += len(word)
				return
			}
		}
		if _, ok := r.number(); !ok {
			r.expected("a value")
		}
	}
}

// number reads a number and returns it as it is written. ok is false if there is none.
func (r *reader) number() (text string, ok bool) {
	start := r.at
	if r.any("-", 1) == 0 && (r.at == len(r.text) || r.text[r.at] < '0' || r.text[r.at] > '9') {
		return "", false
	}
	if r.any("0", 1) == 0 {
		r.digits()
	}
	if r.any(".", 1) > 0 {
		r.digits()
	}
	if r.any("eE", 1) > 0 {
		r.any("+-", 1)
		r.digits()
	}
	return r.text[start:r.at], r.err == nil
}

// digits reads one or more digits.
func (r *reader) digits() {
	if r.any("0123456789", len(r.text)) == 0 {
		r.expected("a digit")
	}
}

// any skips characters of a set, up to most of them, and returns their number.
func (r *reader) any(of string, most int) int {
	start := r.at
	for r.at < len(r.text) && r.at < start+most && strings.IndexByte(of, r.text[r.at]) >= 0 {
		r.at++
	}
	return r.at - start
}

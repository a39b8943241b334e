package store

import (
	"hash/fnv"
	"slices"
	"strconv"
	"strings"

	"pivotbench/wasm/codec"
)

// remembered is the number of editions of the shared text that a tab remembers and that
// a text names. Tabs that see each other's changes within that many editions merge
// exactly.
const remembered = 32

// A Shared is one tab's view of the text that all tabs of a device share. Tabs write at
// any time and learn of each other's writes later. Each text therefore names the
// editions that its writer had. If two tabs write without knowing of each other, the
// newest edition that both had is the base of the merge.
type Shared struct {
	text  string
	body  string    // the records in the text, as Encode writes them
	had   []edition // editions that this tab has had, newest first
	after []string  // marks of the editions that this tab's records are based on, newest first
}

// An edition is one version of the shared records.
type edition struct {
	mark    string
	records Records
}

// A sharedText is a file of records with the additional field "after": the marks of the
// texts that it is based on, newest first. Decode and Restore ignore that field.
type sharedText struct {
	Records
	after string
}

func (s *sharedText) fields(f codec.Fields) {
	s.Records.fields(f)
	f.TextIfAny("after", &s.after)
}

// NewShared returns the Shared of a device with no records yet.
func NewShared() Shared {
	var s Shared
	s.have("", Records{}, nil)
	return s
}

// mark returns a hash of a text, which identifies its edition.
func mark(text string) string {
	h := fnv.New64a()
	h.Write([]byte(text))
	return strconv.FormatUint(h.Sum64(), 36)
}

// Has reports whether a text is the one that this tab has.
func (s *Shared) Has(text string) bool { return text == s.text }

// Holds reports whether the text that this tab has contains the records k.
func (s *Shared) Holds(k Records) bool { return k.Encode() == s.body }

// Text returns the text to write for records that are based on what this tab has. ok is
// false if they exceed the limits for reading.
func (s *Shared) Text(k Records) (text string, ok bool) {
	k.V = version
	out := sharedText{k, strings.Join(s.after, " ")}
	text = codec.WriteJSON(out.fields)
	return text, k.readsBack(text)
}

// Wrote records that the device has saved a text from Text.
func (s *Shared) Wrote(text string, k Records) { s.have(text, k, nil) }

// Read takes in the text that is on the device now. base holds the records that both
// this text and this tab's records are based on. now, lost and err are those of Restore.
// If nothing in the text can be read, Read remembers only the text itself.
func (s *Shared) Read(text string) (base, now Records, lost string, err error) {
	now, lost, err = Restore(text)
	if lost == text {
		s.text, s.body = text, ""
		return base, now, lost, err
	}
	var its sharedText
	_ = codec.ReadJSON(text, its.fields) // Restore has already checked the text
	after := append(strings.Fields(its.after), mark(text))
	base = s.had[0].records // if no edition in common is known
	if i := slices.IndexFunc(s.had, func(e edition) bool { return slices.Contains(after, e.mark) }); i >= 0 {
		base = s.had[i].records
	}
	s.have(text, now, after)
	return base, now, lost, err
}

// have makes a text and its records the current edition.
func (s *Shared) have(text string, k Records, after []string) {
	is := mark(text)
	s.text, s.body = text, k.Encode()
	s.had = newest(append([]edition{{is, k}}, s.had...), func(a, b edition) bool { return a.mark == b.mark })
	s.after = newest(slices.Concat([]string{is}, after, s.after), func(a, b string) bool { return a == b })
}

// newest returns the first entries of a list, without duplicates, up to remembered.
func newest[T any](list []T, same func(a, b T) bool) (out []T) {
	for _, one := range list {
		if len(out) < remembered && !slices.ContainsFunc(out, func(other T) bool { return same(one, other) }) {
			out = append(out, one)
		}
	}
	return out
}

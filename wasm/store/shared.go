package store

import (
	"hash/fnv"
	"slices"
	"strconv"
	"strings"

	"pivotbench/wasm/codec"
)

// remembered is how many editions of the shared text a tab remembers, and how many
// a text names. Tabs that hear of each other within that many changes merge
// exactly.
const remembered = 32

// A Shared is the text that all tabs of a device share, as one tab has it. Tabs
// write at any time and hear of each other late. So each text names the editions
// its writer had, and where two tabs wrote without knowing of each other, the
// newest that both had is the base of the merge.
type Shared struct {
	text  string
	body  string    // the records in it, as Encode writes them
	had   []edition // what this tab has had, newest first
	after []string  // marks of all that this tab's records come from, newest first
}

// An edition is what was shared at one time.
type edition struct {
	mark    string
	records Records
}

// A sharedText is a file of records with "after": the marks of the texts it was
// written after, newest first. What reads files skips that.
type sharedText struct {
	Records
	after string
}

func (s *sharedText) fields(f codec.Fields) {
	s.Records.fields(f)
	f.TextIfAny("after", &s.after)
}

// NewShared is that of a device that keeps nothing yet.
func NewShared() Shared {
	var s Shared
	s.have("", Records{}, nil)
	return s
}

// mark tells texts apart.
func mark(text string) string {
	h := fnv.New64a()
	h.Write([]byte(text))
	return strconv.FormatUint(h.Sum64(), 36)
}

// Has reports whether a text is the one this tab has.
func (s *Shared) Has(text string) bool { return text == s.text }

// Holds reports whether the text this tab has says what k says.
func (s *Shared) Holds(k Records) bool { return k.Encode() == s.body }

// Text is what to write for records that go on from what this tab has. ok is false
// when there are more of them than can be read again.
func (s *Shared) Text(k Records) (text string, ok bool) {
	k.V = version
	out := sharedText{k, strings.Join(s.after, " ")}
	text = codec.WriteJSON(out.fields)
	return text, k.readsBack(text)
}

// Wrote is the device having taken such a text.
func (s *Shared) Wrote(text string, k Records) { s.have(text, k, nil) }

// Read takes a text that is there now. Base is what it and this tab's records both
// come from; lost and err are as Restore has them. Of a text that can't be read at
// all, only that it is there is noted.
func (s *Shared) Read(text string) (base, now Records, lost string, err error) {
	now, lost, err = Restore(text)
	if lost == text {
		s.text, s.body = text, ""
		return base, now, lost, err
	}
	var its sharedText
	_ = codec.ReadJSON(text, its.fields) // Restore has read it
	after := append(strings.Fields(its.after), mark(text))
	base = s.had[0].records // if its writer is long ahead, or does not say
	if i := slices.IndexFunc(s.had, func(e edition) bool { return slices.Contains(after, e.mark) }); i >= 0 {
		base = s.had[i].records
	}
	s.have(text, now, after)
	return base, now, lost, err
}

// have takes a text as what there is now.
func (s *Shared) have(text string, k Records, after []string) {
	is := mark(text)
	s.text, s.body = text, k.Encode()
	s.had = newest(append([]edition{{is, k}}, s.had...), func(a, b edition) bool { return a.mark == b.mark })
	s.after = newest(slices.Concat([]string{is}, after, s.after), func(a, b string) bool { return a == b })
}

// newest are the first of a list, each once.
func newest[T any](list []T, same func(a, b T) bool) (out []T) {
	for _, one := range list {
		if len(out) < remembered && !slices.ContainsFunc(out, func(other T) bool { return same(one, other) }) {
			out = append(out, one)
		}
	}
	return out
}

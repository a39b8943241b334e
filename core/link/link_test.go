package link_test

import (
	"net/url"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/link"
)

func TestFragment(t *testing.T) {
	for _, c := range []struct{ address, fragment, kind string }{
		{"", "", ""},
		{"#", "", ""},
		{"v=1&side=0.3", "v=1&side=0.3", ""},
		{" https://example.org/bench/?from=mail#v=1&side=0.3\n", "v=1&side=0.3", ""},
		{"table.html#lesson&v=1", "lesson&v=1", "lesson"},
		{"#lesson.", "lesson.", "lesson"},
		{"cue&v=1", "cue&v=1", "cue"},
	} {
		assert.Equal(t, c.fragment, link.Fragment(c.address), c.address)
		assert.Equal(t, c.kind, link.Kind(c.address), c.address)
	}
}

func TestUnescapeKeepsUnencodedText(t *testing.T) {
	for _, text := range []string{"100%", "50% off", "%zz", "%4", "a=b", "é"} {
		assert.Equal(t, text, link.Unescape(text))
	}
	assert.Equal(t, "é/é", link.Unescape("%c3%a9/%C3%A9"))
}

// FuzzEscape compares the encoding with the standard library's.
func FuzzEscape(f *testing.F) {
	for _, text := range []string{"", "Tuesday class", "a&b=c#d%e+f", "é½漢😀", "\xff\x00", "100%"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		escaped := link.Escape(text)
		want := strings.NewReplacer("+", "%20", "%2C", ",").Replace(url.QueryEscape(text))
		assert.Equal(t, want, escaped)
		assert.Equal(t, text, link.Unescape(escaped))
		if back, err := url.PathUnescape(text); err == nil {
			assert.Equal(t, back, link.Unescape(text))
		} else {
			assert.Equal(t, text, link.Unescape(text))
		}
	})
}

// Every pair of bytes after a % is decoded as the standard library does, and kept as it
// is where the library refuses it.
func TestUnescapeOfEveryPair(t *testing.T) {
	for a := range 256 {
		for b := range 256 {
			text := string([]byte{'%', byte(a), byte(b)})
			want, err := url.PathUnescape(text)
			if err != nil {
				want = text
			}
			if got := link.Unescape(text); got != want {
				t.Fatalf("%q: %q, not %q", text, got, want)
			}
		}
	}
}

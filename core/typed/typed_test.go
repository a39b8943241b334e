package typed_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/typed"
)

func TestLine(t *testing.T) {
	for text, want := range map[string]string{
		"House 4":                  "House 4",
		"  House \t 4\n":           "House 4",
		"House\u00a04":             "House 4", // no-break space
		"House\u202f4":             "House 4", // narrow no-break space
		"House\u00ad4\u0000\u0007": "House4",  // soft hyphen and control characters
		"\u202eesuoH":              "esuoH",   // right-to-left override
		"\u1f3b1":                  "\u1f3b1",
		"👩\u200d🏫 class":           "👩\u200d🏫 class", // an emoji joined from two
		"می\u200cخواهم":            "می\u200cخواهم",  // letters with a non-joiner
		"Zürich – “thin” & worn, 球杆 №4": "Zürich – “thin” & worn, 球杆 №4",
		"a\xffb\ufffdc": "abc",
		"\u2028":        "",
	} {
		line, cut := typed.Line(text, 60)
		assert.Equal(t, want, line, "%q", text)
		assert.False(t, cut, "%q", text)
	}
	line, cut := typed.Line("ab cd", 3)
	assert.Equal(t, "ab", line, "no space is left at the end")
	assert.True(t, cut)
	line, cut = typed.Line("éé", 2)
	assert.Equal(t, "éé", line, "characters are counted, not bytes")
	assert.False(t, cut)
}

func TestLines(t *testing.T) {
	lines, cut := typed.Lines(" dinged\tnear  the joint.\r\n\n\u2028wiped weekly ", 100)
	assert.Equal(t, "dinged near the joint.\nwiped weekly", lines)
	assert.False(t, cut)
	lines, cut = typed.Lines("one\ntwo", 4)
	assert.Equal(t, "one", lines)
	assert.True(t, cut)
}

// A text that was cleaned reads back unchanged.
func FuzzLine(f *testing.F) {
	f.Add("House\u00a04 \u200d", 9)
	f.Add("a\nb\r c", 3)
	f.Fuzz(func(t *testing.T, text string, longest int) {
		longest = max(1, min(longest, 1000))
		for _, clean := range []func(string, int) (string, bool){typed.Line, typed.Lines} {
			once, _ := clean(text, longest)
			again, cut := clean(once, longest)
			require.Equal(t, once, again)
			require.False(t, cut)
			require.True(t, utf8.ValidString(once))
			require.LessOrEqual(t, utf8.RuneCountInString(once), longest)
			require.Equal(t, once, strings.TrimSpace(once))
		}
	})
}

// Unicode's line breaks (Unicode Standard, section 5.8) each end a line, alone or
// together. The result has single breaks between its lines.
func TestLinesAtEveryBreak(t *testing.T) {
	for _, end := range []string{"\n", "\r", "\r\n", "\u2028", "\u2029", "\n\n \n"} {
		lines, cut := typed.Lines(end+"one"+end+"two"+end, 9)
		assert.Equal(t, "one\ntwo", lines, "%q", end)
		assert.False(t, cut)
	}
}

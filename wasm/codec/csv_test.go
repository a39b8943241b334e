package codec_test

import (
	"encoding/csv"
	"errors"
	"io"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/wasm/codec"
)

// FuzzCSV compares the reader and the writer with the standard library's.
func FuzzCSV(f *testing.F) {
	for _, text := range []string{
		"a,b,c\nd,e,f\n", "a\r\n\r\n\n\"b\r\nc\",\"d\"\"e\"\r\nf", "\"\"\n\"\",\n,\n", "a\rb,c\r,d\r\ne", "a\"b", "\"a\"b", "\"a", "\"a\n\nb\n",
		"\"a\"\rb", " \"a\"", "\uFEFF\n\na", "é,\xff\n", "\"\n\n\"\nx,\"y\"z", `"""` + "\n" + `""","`, "x,\"a\"\r",
		"a;b,c;d \"e\"\r\n", "; x;\\.", ";;\u2003y\n\xff",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		csvReadsAsTheLibrary(t, text)
		fields := strings.SplitN(text, ";", 100)
		records := [][]string{fields, {}, fields[:1]}
		var want strings.Builder
		require.NoError(t, csv.NewWriter(&want).WriteAll(records))
		assert.Equal(t, want.String(), codec.WriteCSV(records))
	})
}

// What the library reads is read with the same result and the same lines, and what it
// refuses is refused.
func csvReadsAsTheLibrary(t *testing.T, text string) {
	t.Helper()
	trimmed, first := codec.Trim(text)
	var got, want [][]string
	var lines, theirs []int
	err := codec.ReadCSV(text, func(line int, fields []string) error {
		lines = append(lines, line)
		got = append(got, slices.Clone(fields))
		return nil
	})
	if err != nil && strings.HasSuffix(err.Error(), "more than 100 fields") {
		return // the library has no limit
	}
	r := csv.NewReader(strings.NewReader(trimmed))
	r.FieldsPerRecord = -1
	for {
		fields, wrong := r.Read()
		if wrong != nil {
			require.Equal(t, wrong == io.EOF, err == nil, "%v, but the library: %v", err, wrong)
			break
		}
		line, _ := r.FieldPos(0)
		theirs = append(theirs, first-1+line)
		want = append(want, fields)
	}
	assert.Equal(t, want, got)
	assert.Equal(t, theirs, lines)
	if err != nil {
		assert.Regexp(t, `^line [1-9][0-9]*: `, err.Error())
	}
}

func TestReadCSVSaysWhatIsWrong(t *testing.T) {
	for text, want := range map[string]string{
		"\n\na,b\nc\"d,e":                "line 4: a quote in a field without quotes around it: read “c\"d”",
		"a\n\"b\nc,d":                    "line 2: a field in quotes has no closing quote",
		"a\n\"b\nc\"d":                   "line 3: read “d” after the closing quote of a field, expected a comma or the end of the line",
		"a\n" + strings.Repeat(",", 100): "line 2: more than 100 fields",
		"\"a\" ,b":                       "line 1: read “ ” after the closing quote",
	} {
		err := codec.ReadCSV(text, func(int, []string) error { return nil })
		assert.ErrorContains(t, err, want)
	}
	stop := errors.New("stop")
	rows := 0
	assert.Equal(t, stop, codec.ReadCSV("a\nb\nc", func(int, []string) error { rows++; return stop }))
	assert.Equal(t, 1, rows)
}

func TestJunkOfCSVIsBounded(t *testing.T) {
	size := junk()
	for _, with := range []string{",", "\n", "\r", `"`, "\",\n", "a,b,c\n", "\"\"\"\",", "\xff"} {
		text := "a" + "\n\"" + strings.Repeat(with, size/len(with))
		spent := allocated(func() { _ = codec.ReadCSV(text, func(int, []string) error { return nil }) })
		assert.Less(t, spent, uint64(12*size), "%q", with)
	}
}

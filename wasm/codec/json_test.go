package codec_test

import (
	"encoding/json"
	"fmt"
	"regexp"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/wasm/codec"
)

// A hall has fields of every kind. The standard library reads and writes it by its tags,
// this package by its list of fields.
type hall struct {
	V      int     `json:"v"`
	Name   string  `json:"name"`
	Note   string  `json:"note,omitempty"`
	Door   table   `json:"door"`
	Extra  table   `json:"extra,omitzero"`
	Tables []table `json:"tables"`
	Spare  []table `json:"spare,omitempty"`
}

type table struct {
	Cloth string  `json:"cloth,omitempty"`
	Balls []table `json:"balls,omitempty"`
}

func (h *hall) fields(f codec.Fields) {
	f.Whole("v", &h.V)
	f.Text("name", &h.Name)
	f.TextIfAny("note", &h.Note)
	codec.Record(f, "door", true, &h.Door, (*table).fields)
	codec.Record(f, "extra", h.Extra.Cloth != "" || h.Extra.Balls != nil, &h.Extra, (*table).fields)
	codec.List(f, "tables", 100, &h.Tables, (*table).fields)
	codec.ListIfAny(f, "spare", 100, &h.Spare, (*table).fields)
}

func (t *table) fields(f codec.Fields) {
	f.TextIfAny("cloth", &t.Cloth)
	codec.ListIfAny(f, "balls", 100, &t.Balls, (*table).fields)
}

func library(t *testing.T, h hall) string {
	var text strings.Builder
	w := json.NewEncoder(&text)
	w.SetEscapeHTML(false)
	w.SetIndent("", " ")
	require.NoError(t, w.Encode(h))
	return text.String()
}

// FuzzJSON compares the reader and the writer with the standard library's.
func FuzzJSON(f *testing.F) {
	for _, text := range []string{
		`{"v": 1, "name": "a\u00e9\ud83c\udfb1\ud83c\u0041\udfb1\ud83cx\ud83c\ud83c\udfb1", "door": {"cloth": "\"\\\/\b\f\n\r\t"}}`,
		`{"v": null, "name": null, "door": null, "tables": null, "spare": []}`,
		`{"tables": [null, {}, {"cloth": "a", "balls": [{"balls": [{}]}]}]}`,
		"{\"name\": \"\xff\xc3(\xed\xa0\x80\", \"\xff\": \"\\ud800\\u\", \"note\": \"\x7f\"}",
		`{"x": [1, -0, 1.5e+3, 0.1E-2, true, false, null, "", {"y": {}}], "v": -0}`,
		`{"v": 1.0}`, `{"v": 1e2}`, `{"v": 01}`, `{"v": -}`, `{"v": 9223372036854775808}`, `{"v": "1"}`, `{"v": 1 2}`,
		`{"name": 5}`, `{"name": "a` + "\n" + `"}`, `{"name": "\x"}`, `{"name": "\u12g4"}`, `{"name": "\ud83c\u12"}`, `{"name": "`,
		`{"door": []}`, `{"tables": {}}`, `{"tables": ["a"]}`, `{"tables": [{},]}`, `{,}`, `{"a"}`, `{"a":}`, `{"a":1,}`, `{} {}`, `{"a": nul}`,
		`{"v": 1, "v": 2}`, `{"x": 1, "x": 2}`, `{"x": ` + strings.Repeat("[", 150) + strings.Repeat("]", 150) + `}`,
		"\uFEFF\u00a0 {\"v\":\t3\r\n}\v", `[]`, `"`, `{"name": "` + strings.Repeat(`\\`, 99) + `"}`,
		`{"tables": [` + strings.Repeat("{},", 100) + `{}]}`,
	} {
		f.Add(text, len(text), uint8(len(text)))
	}
	for n, text := range []string{"", "Harbour Hall", "<b>&", "\x00\x1f\x7f\"\\/\b\f\n\r\t", "\xff\xfea\xc3", "\u2028\u2029\ufffd\U0001f3b1é"} {
		f.Add(text, -n, uint8(n))
	}
	f.Fuzz(func(t *testing.T, text string, v int, n uint8) {
		jsonReadsAsTheLibrary(t, text)
		h := hall{V: v, Name: text, Note: text, Door: table{Cloth: text}}
		switch {
		case n == 1:
			h.Tables, h.Spare = []table{}, []table{}
		case n > 1:
			h.Extra = table{Balls: []table{}}
			for range n % 8 {
				h.Tables = append(h.Tables, table{Cloth: text}, table{Balls: []table{{}, {Cloth: text}}})
			}
			h.Spare = h.Tables
		}
		jsonWritesAsTheLibrary(t, h)
	})
}

func jsonWritesAsTheLibrary(t *testing.T, h hall) {
	t.Helper()
	text := codec.WriteJSON(h.fields)
	assert.Equal(t, library(t, h), text)
	var back, theirs hall
	require.NoError(t, codec.ReadJSON(text, back.fields))
	require.NoError(t, json.Unmarshal([]byte(text), &theirs))
	assert.Equal(t, theirs, back)
}

// What the library reads is read with the same result, and what it refuses is refused.
// Three things that it accepts are refused: a repeated key, brackets nested too deep, and
// lists that are too long.
func jsonReadsAsTheLibrary(t *testing.T, text string) {
	t.Helper()
	trimmed, _ := codec.Trim(text)
	if !strings.HasPrefix(trimmed, "{") || otherCase(trimmed) {
		return // the library ignores the case of keys
	}
	var got, want hall
	wrong := json.Unmarshal([]byte(trimmed), &want)
	err := codec.ReadJSON(text, got.fields)
	if wrong != nil {
		require.Error(t, err, wrong)
	} else if err == nil {
		assert.Equal(t, want, got)
	}
	if err != nil {
		assert.Regexp(t, `^line [1-9][0-9]*: `, err.Error())
		if wrong == nil {
			assert.Regexp(t, `is given twice$|more than 100 deep$|allowed: up to 100$`, err.Error())
		}
		assert.Less(t, len(err.Error()), 300)
	}
}

// otherCase reports whether a text may have a key that differs from one of a hall's only
// in its case.
func otherCase(text string) bool {
	for _, name := range []string{"v", "name", "note", "door", "extra", "tables", "spare", "cloth", "balls"} {
		for _, key := range regexp.MustCompile(`(?i)"`+name+`"`).FindAllString(text, -1) {
			if key != `"`+name+`"` {
				return true
			}
		}
	}
	return false
}

func TestReadJSONSaysWhatIsWrong(t *testing.T) {
	long := strings.Repeat("long", 50)
	for text, want := range map[string]string{
		"":                            "line 1: read the end of the file, expected a record in { }",
		"[]":                          "line 1: read “[”, expected a record in { }",
		"\n\n {\n \"v\": x}":          "line 4: read “x”, expected a whole number for “v”",
		"{\"v\": 1.5}":                "line 1: read “1.5”, expected a whole number for “v”",
		"{\"v\": \"1\"}":              "line 1: read “\"1”, expected a whole number for “v”",
		"{\n\"name\": 5}":             "line 2: read “5”, expected a text in quotes for “name”",
		"{\n\"name\":\n" + long + "}": "line 3: read “longlonglonglonglonglong…”, expected a text in quotes for “name”",
		"{\"name\": \"a\n\"}":         "line 1: read U+000A, expected the closing quote of a text before it",
		"{\"name\":\n\"a":             "line 2: read the end of the file, expected the closing quote of a text",
		"{\"name\": \"a\\q\"}":        "line 1: read “q”, expected one of",
		"{\"door\": 1}":               "line 1: read “1”, expected a record in { } for “door”",
		"{\"tables\": true}":          "line 1: read “true”, expected a list in [ ] for “tables”",
		"{\"tables\": [\n{},\n7]}":    "line 3: read “7”, expected a record in { } for each of “tables”",
		"{\"v\": 1\n\"name\": \"\"}":  "line 2: read “\"name”, expected “,” or “}”",
		"{\"v\": 1,\n}":               "line 2: read “}”, expected a key in quotes",
		"{\"v\"\n1}":                  "line 2: read “1”, expected “:” after the key “v”",
		"{\"other\": [1,\n\n]}":       "line 3: read “]”, expected a value",
		"{\"other\": [1\n\n":          "line 1: read the end of the file, expected “,” or “]”",
		"{\"other\": nothing}":        "line 1: read “nothing”, expected a value",
		"{\"v\": 1}\n{":               "line 2: read “{”, expected the end of the file",
		"{\"v\": 1,\n\"v\": 2}":       "line 2: “v” is given twice",
		"{\"v\": \x00}":               "line 1: read U+0000, expected a whole number for “v”",
		"{\"v\": -x}":                 "line 1: read “x”, expected a digit",
		"{\n\"tables\": [" + strings.Repeat("{},\n", 100) + "{}]}": "line 2: 101 tables, allowed: up to 100",
		"{\"other\":\n" + strings.Repeat("[", 150):                 "line 2: brackets within brackets, more than 100 deep",
	} {
		var h hall
		assert.ErrorContains(t, codec.ReadJSON(text, h.fields), want)
	}
}

func TestHas(t *testing.T) {
	for text, want := range map[string]bool{
		`{"a": 1, "steps": null, "b": 2}`: true, `{"steps": [1], "steps": 2}`: true, `{"b": {"steps": 1}}`: false, `{}`: false,
	} {
		has := false
		fields := func(f codec.Fields) { f.Has("steps", &has) }
		require.NoError(t, codec.ReadJSON(text, fields))
		assert.Equal(t, want, has, text)
		assert.Equal(t, "{}\n", codec.WriteJSON(fields), "Has writes nothing")
	}
}

// 10 MB of junk give an error, at a cost bounded by their size.
func TestJunkIsBounded(t *testing.T) {
	size := junk()
	fill := func(begin, with string) string { return begin + strings.Repeat(with, size/len(with)) }
	for _, text := range []string{
		fill("", "["), fill("", `{"a":`), fill(`{"tables":[`, `{},`), fill(`{"tables":[`, `null,`),
		fill(`{"tables":`, "["), fill(`{"v":`, "9"), fill(`{"v":-1`, "e"), fill(`{"a":1`, `,"a":1`), fill(`{"a":`, " \n"),
		fill(`{"name":"`, "a"), fill(`{"name":"`, `\`), fill(`{"name":"`, `\u000`), fill(`{"`, "a"), fill(`{"a":[0`, `,0`),
		fill(`{"tables":[{"balls":[`, `{},`), fill("{\"name\":\"", "\xff"), fill(`{"name":"`, `\ud800`),
	} {
		var h hall
		spent := allocated(func() { assert.Error(t, codec.ReadJSON(text, h.fields)) })
		assert.Less(t, spent, uint64(12*size), "%.20s", text)
	}
}

// junk returns the amount of junk in bytes.
func junk() int {
	if testing.Short() {
		return 1 << 20
	}
	return 10 << 20
}

// allocated returns the memory that a function allocates, in bytes.
func allocated(run func()) uint64 {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	run()
	runtime.ReadMemStats(&after)
	return after.TotalAlloc - before.TotalAlloc
}

func BenchmarkReadJSON(b *testing.B) {
	h := hall{Name: "Harbour Hall", Tables: make([]table, 100)}
	for i := range h.Tables {
		h.Tables[i].Cloth = fmt.Sprint("cloth ", i)
	}
	text := codec.WriteJSON(h.fields)
	for b.Loop() {
		var back hall
		if err := codec.ReadJSON(text, back.fields); err != nil || len(back.Tables) != len(h.Tables) {
			b.Fatal(err)
		}
	}
}

package store_test

import (
	"encoding/json"
	"os"
	"reflect"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/wasm/store"
)

// written is a file that the standard library's encoders wrote.
func written(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile("../../testdata/kept/" + name)
	require.NoError(t, err)
	return string(text)
}

// Files of this version are written again byte for byte.
func TestFilesAreWrittenAsTheyWere(t *testing.T) {
	for _, name := range []string{"records-v3.json", "empty-v3.json"} {
		k, err := store.Decode(written(t, name))
		require.NoError(t, err, name)
		assert.Equal(t, written(t, name), k.Encode())
	}
	l, ok, err := store.DecodeLesson(written(t, "lesson.json"))
	require.NoError(t, err)
	assert.True(t, ok)
	assert.Equal(t, written(t, "lesson.json"), store.EncodeLesson(l))

	log, err := store.Decode(written(t, "strokes-v3.csv"))
	require.NoError(t, err)
	assert.Equal(t, written(t, "strokes-v3.csv"), store.StrokesCSV(log.Strokes))
}

// Files of earlier versions are read for ever: each try is a stroke at a gate
// with a cue that has no name, everything else is what it was, and all of it is
// there again in a file of this version.
func TestFilesOfEarlierVersions(t *testing.T) {
	for _, name := range []string{"records-v1.json", "records-v2.json", "empty-v2.json"} {
		text := written(t, name)
		var old struct {
			V     int
			Tries []struct{ Link, Outcome, When string }
		}
		require.NoError(t, json.Unmarshal([]byte(text), &old))
		for _, read := range []func(string) (store.Records, error){store.Decode, restored} {
			k, err := read(text)
			require.NoError(t, err, name)
			require.Len(t, k.Strokes, len(old.Tries), name)
			for i, try := range old.Tries {
				assert.Equal(t, store.Stroke{Link: try.Link, See: try.Outcome, When: try.When}, k.Strokes[i], name)
			}

			again, err := read(k.Encode())
			require.NoError(t, err, name)
			assert.Equal(t, 3, again.V, name)
			again.V = old.V
			assert.Equal(t, k, again, name)
		}
		// All but version and strokes are texts that both versions write alike.
		k, _ := store.Decode(text)
		_, rest, _ := strings.Cut(text, ` "cues": `)
		_, now, _ := strings.Cut(k.Encode(), ` "cues": `)
		if old.V == 2 {
			assert.Equal(t, rest, now, name)
		} else { // version 1 ends with the marks
			upTo, _, _ := strings.Cut(rest, "\n }\n}")
			assert.Contains(t, now, upTo, name)
		}
	}

	log, err := store.Decode(written(t, "tries-v2.csv"))
	require.NoError(t, err)
	assert.Equal(t, []store.Stroke{
		{Link: "v=1&bridge=9in&name=Harbour%20Hall", See: "left", When: "2026-11-24T19:00:00Z"},
		{Link: "v=1", See: "clean"},
		{Link: "v=1&name=a", See: "right", When: "Tuesday, \"late\"\nin the evening"},
	}, log.Strokes)
	again, err := store.Decode(store.StrokesCSV(log.Strokes))
	require.NoError(t, err)
	assert.Equal(t, log, again)
}

// restored reads what the device kept, all of it.
func restored(text string) (store.Records, error) {
	k, _, err := store.Restore(text)
	return k, err
}

// An old try that can't be read is set aside as a stroke, and named as it is there.
func TestOldTriesThatCantBeRead(t *testing.T) {
	k, lost, err := store.Restore(`{"v": 2, "tries": [{"link": "v=1", "outcome": "left"}, {"link": "v=1", "outcome": "up", "when": "late"}]}`)
	assert.EqualError(t, err, "stroke 2: what the ball hit (see): “up”, allowed: left, clean, right")
	assert.Equal(t, []store.Stroke{{Link: "v=1", See: "left"}}, k.Strokes)
	assert.Equal(t, store.Records{Strokes: []store.Stroke{{Link: "v=1", See: "up", When: "late"}}}.Encode(), lost)
}

// Whoever puts tries of an old file into a new one by hand loses none of them.
func TestTriesAmongStrokes(t *testing.T) {
	k, err := store.Decode(`{"v": 3, "strokes": [{"cue": "a", "link": "v=1", "see": "clean"}], "tries": [{"link": "v=1", "outcome": "left"}]}`)
	require.NoError(t, err)
	assert.Equal(t, []store.Stroke{{Cue: "a", Link: "v=1", See: "clean"}, {Link: "v=1", See: "left"}}, k.Strokes)
}

// The file of all records has every field there is, so that none is left out
// of a list of fields.
func TestEveryFieldTravels(t *testing.T) {
	k, err := store.Decode(written(t, "records-v3.json"))
	require.NoError(t, err)
	var empty []string
	var walk func(where string, values ...reflect.Value)
	walk = func(where string, values ...reflect.Value) {
		switch first := values[0]; first.Kind() {
		case reflect.Struct:
			for i := range first.NumField() {
				var of []reflect.Value
				for _, v := range values {
					of = append(of, v.Field(i))
				}
				walk(where+"."+first.Type().Field(i).Name, of...)
			}
		case reflect.Slice:
			var of []reflect.Value
			for _, v := range values {
				for i := range v.Len() {
					of = append(of, v.Index(i))
				}
			}
			require.NotEmpty(t, of, where)
			walk(where, of...)
		default:
			for _, v := range values {
				if !v.IsZero() {
					return
				}
			}
			empty = append(empty, where)
		}
	}
	walk("Records", reflect.ValueOf(k))
	assert.Empty(t, empty)
}

func TestDecodeNamesTheLine(t *testing.T) {
	for text, want := range map[string]string{
		"\n{\n \"v\": 2,\n \"tries\": [\n":                                            "not a Pivotbench records file: line 4: read the end of the file, expected a record in { } for each of “tries”",
		"{\"v\": 2,\n \"cues\": [{\"name\": 5}]}":                                     "not a Pivotbench records file: line 2: read “5”, expected a text in quotes for “name”",
		"{\"v\": 2,\n \"tries\": [], \"tries\": []}":                                  "line 2: “tries” is given twice",
		"{\"v\": 4,\n \"strokes\": 5}":                                                "the file is of version 4, but this copy of Pivotbench reads versions 1 to 3",
		"{\"v\": 2,\n \"tries\": [" + strings.Repeat("{},", 10000) + "{}]}":           "line 2: 10001 tries, allowed: up to 10000",
		"link,outcome,when\n\nv=1,left,\"a\nb\"\nv=1,gone,\n":                         "line 5: what the ball hit (see): “gone”",
		"link,outcome,when\nv=1,left,\nv=1,left\n":                                    "not a list of strokes: line 3: read 2 fields, expected link,outcome,when",
		"cue,link,see,mark,at,read,when\na,v=1,left,\n":                               "not a list of strokes: line 2: read 4 fields, expected cue,link,see,mark,at,read,when",
		"link,outcome,when\nv=1,\"left":                                               "not a list of strokes: line 2: a field in quotes has no closing quote",
		"link,outcome,when\n" + strings.Repeat("v=1,left,\n", 5001):                   "5001 strokes, allowed: up to 5000",
		"{\"v\": 2, \"readings\": [{\"of\": \"" + strings.Repeat("9", 9999) + "\"}]}": "999…”, allowed: speed, rest, marks",
	} {
		_, err := store.Decode(text)
		assert.ErrorContains(t, err, want)
	}
}

// The most that is read at all, of junk, costs memory in proportion.
func TestJunkIsBounded(t *testing.T) {
	for begin, with := range map[string]string{
		"{": "[", "[": "{", `{"v":2,"tries":[`: `{},`, `{"v":3,"strokes":[`: `{},`, `{"v":2,"cues":[`: `null,`, `{"v":2,"lessons":[{"steps":[`: `{},`, `{"v":2`: `,"a":1`,
		`{"steps":[`: `{},`, `{"steps":0`: `,"steps":1`, "link,outcome,when\n": ",,\n", "link,outcome,": ",",
	} {
		text := begin + strings.Repeat(with, (store.MostBytes-len(begin))/len(with))
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, _, lessonErr := store.DecodeLesson(text)
		_, err := store.Decode(text)
		runtime.ReadMemStats(&after)
		assert.Error(t, err, begin)
		assert.NoError(t, lessonErr, begin)
		assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(4*store.MostBytes), begin)
	}
}

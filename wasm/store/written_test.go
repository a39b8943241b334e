package store_test

import (
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

// Files of earlier copies of the bench are read, and written again byte for
// byte, so that these read ours.
func TestFilesOfEarlierCopies(t *testing.T) {
	for _, name := range []string{"records.json", "empty.json"} {
		k, err := store.Decode(written(t, name))
		require.NoError(t, err, name)
		assert.Equal(t, written(t, name), k.Encode())
	}
	l, ok, err := store.DecodeLesson(written(t, "lesson.json"))
	require.NoError(t, err)
	assert.True(t, ok)
	assert.Equal(t, written(t, "lesson.json"), store.EncodeLesson(l))

	log, err := store.Decode(written(t, "tries.csv"))
	require.NoError(t, err)
	assert.Equal(t, written(t, "tries.csv"), store.TriesCSV(log.Tries))
}

// The file of all records has every field there is, so that none is left out
// of a list of fields.
func TestEveryFieldTravels(t *testing.T) {
	k, err := store.Decode(written(t, "records.json"))
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
		"\n{\n \"v\": 2,\n \"tries\": [\n":                                            "not records of this bench: line 4: read the end of the file, expected a record in { } for each of “tries”",
		"{\"v\": 2,\n \"cues\": [{\"name\": 5}]}":                                     "not records of this bench: line 2: read “5”, expected a text in quotes for “name”",
		"{\"v\": 2,\n \"tries\": [], \"tries\": []}":                                  "line 2: “tries” is given twice",
		"{\"v\": 3,\n \"tries\": 5}":                                                  "version 3 of the file; this copy reads versions 1 to 2",
		"{\"v\": 2,\n \"tries\": [" + strings.Repeat("{},", 10000) + "{}]}":           "line 2: 10001 tries, allowed: up to 10000",
		"link,outcome,when\n\nv=1,left,\"a\nb\"\nv=1,gone,\n":                         "line 5: outcome “gone”",
		"link,outcome,when\nv=1,left,\nv=1,left\n":                                    "not a log of tries: line 3: read 2 fields, expected link,outcome,when",
		"link,outcome,when\nv=1,\"left":                                               "not a log of tries: line 2: a field in quotes has no closing quote",
		"link,outcome,when\n" + strings.Repeat("v=1,left,\n", 5001):                   "5001 tries, allowed: up to 5000",
		"{\"v\": 2, \"readings\": [{\"of\": \"" + strings.Repeat("9", 9999) + "\"}]}": "999…”, allowed: speed, rest, marks",
	} {
		_, err := store.Decode(text)
		assert.ErrorContains(t, err, want)
	}
}

// The most that is read at all, of junk, costs memory in proportion.
func TestJunkIsBounded(t *testing.T) {
	for begin, with := range map[string]string{
		"{": "[", "[": "{", `{"v":2,"tries":[`: `{},`, `{"v":2,"cues":[`: `null,`, `{"v":2,"lessons":[{"steps":[`: `{},`, `{"v":2`: `,"a":1`,
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

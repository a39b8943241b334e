package store_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/wasm/store"
)

func TestDecodeRefuses(t *testing.T) {
	long := strings.Repeat("9", 1<<20)
	for text, want := range map[string][]string{
		"":                         {"empty"},
		"{":                        {"not a Pivotbench records file"},
		`{"v": 4}`:                 {"version 4", "reads versions 1 to 3"},
		`{}`:                       {"version 0"},
		"one,two,three\na,b,c":     {"line 1", "cue,link,see,mark,at,read,when or link,outcome,when"},
		"link,outcome,when\na,b":   {"not a list of strokes"},
		"link,outcome,when\n,ok,x": {"line 2", "“ok”", "left, clean, right"},
		"link,outcome,when\nv=1,clean,x\nbridge=-3in,left,y":                                           {"line 3", "bridge", "-3in"},
		`{"v": 1, "tries": [{"link": "v=1", "outcome": "gone"}]}`:                                      {"stroke 1", "“gone”"},
		`{"v": 1, "cues": [{"link": "v=1", "pivot": "9", "at": "0.5", "how": "typed"}]}`:               {"cue 1", "pivot", "“9”"},
		`{"v": 1, "cues": [{"link": "v=1", "pivot": "9in", "at": "0.5", "how": "dreamt"}]}`:            {"cue 1", "dreamt", "gate, marks, typed"},
		`{"v": 1, "cues": [{"link": "v=1", "pivot": "9in", "at": "0.5", "how": "gate", "from": "x"}]}`: {"cue 1", "“x”"},
		"link,outcome," + long + "\nv=1,left,":                                                         {"line 1", "…"},
		`{"v": 1, "tries": [{"link": "v=1", "outcome": "` + long + `"}]}`:                              {"stroke 1", "…"},
		`{"v": 1` + long + `}`: {"not a Pivotbench records file"},
		`{"v": 1, "cues": [{"link": "v=1", "pivot": "9in", "at": "0.5", "how": "` + long + `", "from": "` + long + `"}]}`: {"cue 1", "…"},
		strings.Repeat(" ", store.MostBytes) + "{}":                                           {"4 MB", "at most 4"},
		`{"v": 1, "tries": [` + strings.Repeat(`{"link":"v=1","outcome":"?"},`, 300) + `{}]}`: {"stroke 1", "and there are more errors"},
	} {
		k, err := store.Decode(text)
		require.Error(t, err, text)
		assert.Equal(t, store.Records{}, k, "nothing is read of a file with an error")
		for _, w := range want {
			assert.Contains(t, err.Error(), w)
		}
		assert.Less(t, len(err.Error()), 4000)
	}
}

// FuzzRead opens anything as a file and as a cue's link: what is taken can be
// given on, and comes back the same.
func FuzzRead(f *testing.F) {
	c := house()
	for _, text := range []string{
		`{"v": 1, "tries": [{"link": "v=1&bridge=9in", "outcome": "left", "when": ""}], "cues": []}`,
		`{"v": 3, "strokes": [{"cue": "a", "link": "v=1", "mark": "-1 7/8 in", "at": "30in", "read": "3mm"}], "tries": [{"link": "v=1", "outcome": "left"}]}`,
		"cue,link,see,mark,at,read,when\na,v=1,,1in,30in,1mm,\n",
		"link,outcome,when\nv=1,clean,\n", c.Fragment(), "cue&v=1&how=none&end",
		"link,outcome,when\nv=1,clean,\xff\n",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if k, err := store.Decode(text); err == nil {
			again, err := store.Decode(k.Encode())
			require.NoError(t, err)
			assert.Equal(t, k.Encode(), again.Encode())
		}
		if c, err := store.ReadCue(text); err == nil {
			again, err := store.ReadCue(c.Fragment())
			require.NoError(t, err)
			assert.Equal(t, c, again)
			file := store.Records{Cues: []store.CueRecord{c}}.Encode()
			k, err := store.Decode(file)
			require.NoError(t, err)
			assert.Equal(t, []store.CueRecord{c}, k.Cues)
		}
	})
}

func TestRoundTrip(t *testing.T) {
	s := scenario.Default()
	s.Name = "House 4, “thin”"
	k := store.Records{
		Strokes: []store.Stroke{
			{Cue: "House 4", Link: "v=1&bridge=9in", See: "left", When: "2026-11-24T19:00:00Z"}, {Link: "v=1", See: "clean"},
			{Cue: "House 4, “thin”", Link: "v=1&back=0", Mark: "-1.9in", At: "30in", Read: "3mm"},
		},
		Cues:  []store.CueRecord{store.Typed(&s, "2026-11-24T19:30:00Z")},
		Marks: store.Marks{Rail: "50 in", Right: "-1.9 -2.1", Left: "2 2.2"},
	}
	back, err := store.Decode(k.Encode())
	require.NoError(t, err)
	k.V = back.V
	assert.Equal(t, k, back)

	log, err := store.Decode("\uFEFF" + store.StrokesCSV(k.Strokes))
	require.NoError(t, err)
	assert.Equal(t, store.Records{Strokes: k.Strokes}, log)
}

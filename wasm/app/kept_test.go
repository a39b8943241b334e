package app_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/trial"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
)

// noted is a model with some tries, a cue and marks.
func noted(t *testing.T) app.Model {
	t.Helper()
	m := app.Start()
	for i, o := range app.Outcomes {
		m = app.Update(m, app.Set{Key: "bridge", Text: strconv.Itoa(9+i) + "in"})
		m = app.Update(m, app.AddTry{Outcome: o, When: "2026-11-24T19:00:00Z"})
	}
	m = app.Update(m, app.Set{Key: "name", Text: "House 4, “thin”"})
	m = app.Update(m, app.SaveCue{Cue: app.Typed(&m.Scene, "2026-11-24T19:30:00Z")})
	m = app.Update(m, app.SetMarks{Marks: app.MarksText{Rail: "50 in", Right: "-1.9 -2.1", Left: "2 2.2"}})
	require.Empty(t, m.Notices)
	require.Len(t, m.Kept.Tries, 3)
	return m
}

func TestKeptRoundTrip(t *testing.T) {
	k := noted(t).Kept
	back, err := app.Decode(k.Encode())
	require.NoError(t, err)
	k.V = back.V
	assert.Equal(t, k, back)

	tries, err := app.Decode("\uFEFF" + app.TriesCSV(k.Tries))
	require.NoError(t, err)
	assert.Equal(t, k.Tries, tries.Tries)
}

func TestTriesAreUndone(t *testing.T) {
	m := noted(t)
	deleted := app.Update(m, app.ChangeTry{Index: 0})
	assert.Len(t, deleted.Kept.Tries, 2)
	assert.Equal(t, m.Kept.Tries[1:], deleted.Kept.Tries)
	changed := app.Update(m, app.ChangeTry{Index: 1, Outcome: "left"})
	assert.Equal(t, "left", changed.Kept.Tries[1].Outcome)
	assert.Equal(t, "clean", m.Kept.Tries[1].Outcome, "a list is never changed in place")
	for _, after := range []app.Model{deleted, changed, app.Update(m, app.Replace{}), app.Update(m, app.DropCue{Index: 0})} {
		undone := app.Update(after, app.Undo{})
		assert.Equal(t, m.Kept, undone.Kept)
		assert.Equal(t, after.Kept, app.Update(undone, app.Redo{}).Kept)
	}
	for _, e := range []app.Event{app.ChangeTry{Index: 3}, app.ChangeTry{Index: -1}, app.DropCue{Index: 9}, app.UseCue{Index: 1}, app.AddTry{Outcome: "sideways"}} {
		assert.Equal(t, m.Kept, app.Update(m, e).Kept)
	}
}

// A try whose ball can't come to the gate is not noted, and the reason is said.
func TestImpossibleTry(t *testing.T) {
	m := app.Update(app.Start(), app.Open{Link: "v=1&speed=0.4mph&roll=0.05"})
	m = app.Update(m, app.AddTry{Outcome: "clean"})
	assert.Empty(t, m.Kept.Tries)
	require.Len(t, m.Notices, 1)
	assert.Contains(t, m.Notices[0], trial.ErrNoCrossing.Error())
}

func TestDecodeRefuses(t *testing.T) {
	for text, want := range map[string][]string{
		"":                         {"empty"},
		"{":                        {"not records of this bench"},
		`{"v": 2}`:                 {"version 2", "reads version 1"},
		"one,two,three\na,b,c":     {"line 1", "link,outcome,when"},
		"link,outcome,when\na,b":   {"not a log of tries"},
		"link,outcome,when\n,ok,x": {"line 2", "“ok”", "left, clean, right"},
		"link,outcome,when\nv=1,clean,x\nbridge=-3in,left,y":                                           {"line 3", "bridge", "-3in"},
		`{"v": 1, "tries": [{"link": "v=1", "outcome": "gone"}]}`:                                      {"try 1", "“gone”"},
		`{"v": 1, "cues": [{"link": "v=1", "pivot": "9", "at": "0.5", "how": "typed"}]}`:               {"cue 1", "pivot", "“9”"},
		`{"v": 1, "cues": [{"link": "v=1", "pivot": "9in", "at": "0.5", "how": "dreamt"}]}`:            {"cue 1", "dreamt", "gate, marks, typed"},
		`{"v": 1, "cues": [{"link": "v=1", "pivot": "9in", "at": "0.5", "how": "gate", "from": "x"}]}`: {"cue 1", "“x”"},
		`{"v": 1, "tries": [` + strings.Repeat(`{"link":"v=1","outcome":"?"},`, 300) + `{}]}`:          {"try 1", "and more"},
	} {
		k, err := app.Decode(text)
		require.Error(t, err, text)
		assert.Equal(t, app.Kept{}, k, "nothing is read of a file with an error")
		for _, w := range want {
			assert.Contains(t, err.Error(), w)
		}
		assert.Less(t, len(err.Error()), 4000)
	}
}

func FuzzDecode(f *testing.F) {
	f.Add(`{"v": 1, "tries": [{"link": "v=1&bridge=9in", "outcome": "left", "when": ""}], "cues": []}`)
	f.Add("link,outcome,when\nv=1,clean,\n")
	f.Fuzz(func(t *testing.T, text string) {
		k, err := app.Decode(text)
		if err != nil {
			return
		}
		again, err := app.Decode(k.Encode())
		require.NoError(t, err)
		assert.Len(t, again.Tries, len(k.Tries))
		assert.Len(t, again.Cues, len(k.Cues))
	})
}

func TestUseCue(t *testing.T) {
	m := noted(t)
	m = app.Update(m, app.Set{Key: "pivot", Text: "19in"})
	m = app.Update(m, app.Set{Key: "name", Text: "another"})
	m = app.Update(m, app.UseCue{Index: 0})
	assert.Equal(t, 12*unit.Inch, m.Scene.Pivot)
	assert.Equal(t, "House 4, “thin”", m.Scene.Name)
	assert.Equal(t, 11*unit.Inch, m.Scene.Bridge, "the shot stays")
}

// Tries simulated by hand off a 13 in cue: the head names a pivot near it, and
// what is saved is what was read.
func TestWeigh(t *testing.T) {
	m := app.Start()
	post := trial.Prior()
	none := app.Weigh(&m.Scene, post)
	assert.Equal(t, "No tries yet", none.Head)
	assert.Zero(t, none.Pivot)
	for _, try := range []struct {
		bridge, side, outcome string
	}{{"8in", "0.4", "right"}, {"8in", "-0.4", "left"}, {"20in", "0.4", "left"}, {"20in", "-0.4", "right"}, {"13in", "0.4", "clean"}, {"13in", "-0.4", "clean"}} {
		m = app.Update(m, app.Set{Key: "bridge", Text: try.bridge})
		m = app.Update(m, app.Set{Key: "side", Text: try.side})
		m = app.Update(m, app.AddTry{Outcome: try.outcome})
		logged, ok := m.Kept.Tries[len(m.Kept.Tries)-1].Try(m.Scene.PivotSpin)
		require.True(t, ok)
		var err error
		post, err = post.Add(logged)
		require.NoError(t, err)
	}
	f := app.Weigh(&m.Scene, post)
	assert.InDelta(t, float64(13*unit.Inch), float64(f.Pivot), float64(2.5*unit.Inch))
	assert.Contains(t, f.Head, "90 % between")
	assert.Contains(t, f.Limit, "passes this gate clean")
	for _, s := range f.Sets {
		m = app.Update(m, app.Set{Key: s.Key, Text: s.Text})
		assert.Empty(t, m.Notices, s.Key)
	}
	c := app.Measured(&m.Scene, post.Pivot(), "gate", "2026-11-24")
	saved, err := app.Decode(app.Kept{Cues: []app.CueRecord{c}}.Encode())
	require.NoError(t, err)
	assert.Equal(t, c, saved.Cues[0])
	assert.NotEmpty(t, app.Help(&m.Scene, post))
}

func TestMarks(t *testing.T) {
	s := app.Start().Scene
	rail, marks, err := app.MarksText{Rail: "50", Right: "-1.9in, -2.1 in; -50 mm", Left: "2\n2,2 1.9"}.Read(&s)
	require.NoError(t, err)
	assert.Equal(t, 50*unit.Inch, rail)
	var at []unit.Length
	for _, m := range marks {
		at = append(at, m.At)
	}
	inches := func(v float64) unit.Length { return unit.Length(v * 0.0254) }
	assert.Equal(t, []unit.Length{inches(-1.9), inches(-2.1), -50 * unit.Millimetre, inches(2), inches(2.2), inches(1.9)}, at)
	assert.Equal(t, []bool{true, true, true, false, false, false}, []bool{marks[0].Right, marks[1].Right, marks[2].Right, marks[3].Right, marks[4].Right, marks[5].Right})

	for _, bad := range []struct {
		text app.MarksText
		says string
	}{
		{app.MarksText{Rail: "far", Right: "1", Left: "1"}, "distance to the rail"},
		{app.MarksText{Rail: "50", Right: "1 x", Left: "1"}, "mark 2 with right english"},
		{app.MarksText{Rail: "50"}, trial.ErrNoMarks.Error()[1:]},
		{app.MarksText{Rail: "50", Right: "-2", Left: "2"}, trial.ErrFewMarks.Error()[1:]},
	} {
		f := app.WeighMarks(&s, bad.text, "")
		assert.Contains(t, f.Note, bad.says)
		assert.Empty(t, f.Cue.Pivot)
	}
	good := app.WeighMarks(&s, app.MarksText{Rail: "50", Right: "-1.9 -2.1 -2", Left: "2 2.1 1.9"}, "")
	assert.NotEmpty(t, good.Cue.Pivot)
	_, err = app.Decode(app.Kept{Cues: []app.CueRecord{good.Cue}}.Encode())
	assert.NoError(t, err)
}

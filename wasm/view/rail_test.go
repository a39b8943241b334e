package view_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/trial"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

func TestMarks(t *testing.T) {
	s := app.Start().Scene
	rail, marks, err := view.ReadMarks(&s, store.Marks{Rail: "50", Right: "-1.9in, -2.1 in; -50 mm", Left: "2\n2,2 1.9"})
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
		text store.Marks
		says string
	}{
		{store.Marks{Rail: "far", Right: "1", Left: "1"}, "distance to the rail"},
		{store.Marks{Rail: "50", Right: "1 x", Left: "1"}, "mark 2 with right english"},
		{store.Marks{Rail: "50"}, trial.ErrNoMarks.Error()[1:]},
		{store.Marks{Rail: "50", Right: "-2", Left: "2"}, trial.ErrFewMarks.Error()[1:]},
	} {
		f := view.WeighMarks(&s, bad.text, "")
		assert.Contains(t, f.Note, bad.says)
		assert.Empty(t, f.Cue.Pivot)
	}
	good := view.WeighMarks(&s, store.Marks{Rail: "50", Right: "-1.9 -2.1 -2", Left: "2 2.1 1.9"}, "")
	assert.NotEmpty(t, good.Cue.Pivot)
	_, err = store.Decode(store.Records{Cues: []store.CueRecord{good.Cue}}.Encode())
	assert.NoError(t, err)
}

// A pivot length that no record may have is told, and not offered to be saved.
func TestMarksOfHardlyAnySquirt(t *testing.T) {
	s := app.Start().Scene
	s.Elev = 0
	f := view.WeighMarks(&s, store.Marks{Rail: "50", Right: "-0.2 -0.3", Left: "0.2 0.3"}, "")
	require.Greater(t, len(f.Facts), 4)
	assert.Equal(t, "natural pivot", f.Facts[4].Name)
	assert.Contains(t, f.Note, "over 60.0 in")
	assert.Empty(t, f.Cue)
}

// Another cue's marks off the same shot are held against this one's. Welch's
// test itself is checked where it lives.
func TestMarksAgainstAnotherCue(t *testing.T) {
	s := app.Start().Scene
	marks := store.Marks{Rail: "50", Right: "-1.9 -2.1 -2", Left: "2 2.1 1.9"}
	find := func(m store.Marks) string {
		for _, f := range view.WeighMarks(&s, m, "").Facts {
			if f.Name == "against the other cue" {
				return f.Value
			}
		}
		return ""
	}
	assert.Empty(t, find(marks), "there is none")
	marks.OtherRight, marks.OtherLeft = marks.Right, marks.Left
	assert.Contains(t, find(marks), "0.00 in more", "the same marks")
	assert.Contains(t, find(marks), "in 100 % of cases")
	marks.OtherRight, marks.OtherLeft = "-0.9 -1.1 -1", "1 1.1 0.9"
	assert.Contains(t, find(marks), "1.00 in more", "twice the offset")
	assert.Contains(t, find(marks), "in 0 % of cases")
}

// Whatever is typed for marks is read or refused in words, and what is read
// comes to figures.
func FuzzMarks(f *testing.F) {
	for _, m := range []store.Marks{
		{Rail: "50", Right: "-1.9in, -2.1 in; -50 mm", Left: "2\n2,2 1.9"},
		{Rail: "50", Right: "-1.9 -2.1 -2", Left: "2 2.1 1.9"},
		{Rail: "1e-300", Right: "1 1", Left: "1 1"},
		{Rail: "-4", Right: "−1 in in", Left: "1 x"},
		{Rail: "9 ft", Right: "1e308 1e308", Left: "-1e308 -1e308"},
	} {
		f.Add(m.Rail, m.Right, m.Left)
	}
	s := app.Start().Scene
	f.Fuzz(func(t *testing.T, far, right, left string) {
		typed := store.Marks{Rail: far, Right: right, Left: left, OtherRight: left, OtherLeft: right}
		rail, marks, err := view.ReadMarks(&s, typed)
		if err != nil {
			require.NotEmpty(t, err.Error())
		} else {
			again := store.Marks{Rail: store.Length(float64(rail))}
			for _, m := range marks {
				side := map[bool]*string{true: &again.Right, false: &again.Left}[m.Right]
				*side += store.Length(float64(m.At)) + "; "
			}
			_, same, err := view.ReadMarks(&s, again)
			require.NoError(t, err)
			require.Equal(t, marks, same, "written out, it is read the same")
		}
		found := view.WeighMarks(&s, typed, "2026-11-24T19:00:00Z")
		if len(found.Facts) == 0 {
			require.NotEmpty(t, found.Note)
		}
		for _, fact := range found.Facts {
			require.NotRegexp(t, `NaN|Inf|<nil>`, fact.Value, fact.Name)
		}
		if found.Cue.Pivot != "" {
			require.Empty(t, found.Cue.Faults())
		}
	})
}

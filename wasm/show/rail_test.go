package show_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/trial"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/kept"
	"pivotbench/wasm/show"
)

func TestMarks(t *testing.T) {
	s := app.Start().Scene
	rail, marks, err := show.ReadMarks(&s, kept.Marks{Rail: "50", Right: "-1.9in, -2.1 in; -50 mm", Left: "2\n2,2 1.9"})
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
		text kept.Marks
		says string
	}{
		{kept.Marks{Rail: "far", Right: "1", Left: "1"}, "distance to the rail"},
		{kept.Marks{Rail: "50", Right: "1 x", Left: "1"}, "mark 2 with right english"},
		{kept.Marks{Rail: "50"}, trial.ErrNoMarks.Error()[1:]},
		{kept.Marks{Rail: "50", Right: "-2", Left: "2"}, trial.ErrFewMarks.Error()[1:]},
	} {
		f := show.WeighMarks(&s, bad.text, "")
		assert.Contains(t, f.Note, bad.says)
		assert.Empty(t, f.Cue.Pivot)
	}
	good := show.WeighMarks(&s, kept.Marks{Rail: "50", Right: "-1.9 -2.1 -2", Left: "2 2.1 1.9"}, "")
	assert.NotEmpty(t, good.Cue.Pivot)
	_, err = kept.Decode(kept.Records{Cues: []kept.Cue{good.Cue}}.Encode())
	assert.NoError(t, err)
}

// Another cue's marks off the same shot are held against this one's. Welch's
// test itself is checked where it lives.
func TestMarksAgainstAnotherCue(t *testing.T) {
	s := app.Start().Scene
	marks := kept.Marks{Rail: "50", Right: "-1.9 -2.1 -2", Left: "2 2.1 1.9"}
	find := func(m kept.Marks) string {
		for _, f := range show.WeighMarks(&s, m, "").Facts {
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

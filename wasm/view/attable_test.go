package view_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// The states follow each other, and each shows what it needs.
func TestAtTheTableStates(t *testing.T) {
	m := after(app.Open{Link: "v=1&speed=12mph"})
	assert.Empty(t, view.TableStateOf(&m))
	m = app.Update(m, app.AtTable{On: true})
	assert.Equal(t, view.AskingCue, view.TableStateOf(&m))
	m = app.Update(m, app.MeasureCue{})
	assert.Equal(t, view.AtGate, view.TableStateOf(&m), "a cue need not have a name")
	now := view.AtTableOf(&m)
	assert.Equal(t, "Unnamed", now.Cue)
	assert.Equal(t, []string{"Bridge 12 in, back hand", "Right english, 1.2 tips"}, now.Next)
	assert.Equal(t, "Blockers 30 in away, gap 2.75 in, 12 mph, tip 0.40 R", now.SetUp)
	assert.Empty(t, now.Last)
	m = app.Update(m, app.ReadBy{Mark: true})
	assert.Equal(t, view.AtLine, view.TableStateOf(&m))
	m = app.Update(app.Update(m, app.SetMarking{Marking: app.Marking{Text: "-1.5", Line: "40"}}), app.NoteMarks{})
	now = view.AtTableOf(&m)
	assert.Equal(t, "Line 40 in away, 12 mph, tip 0.40 R", now.SetUp)
	assert.Equal(t, "Stroke 1: 1.50 in left", now.Last)
	m = app.Update(app.Update(m, app.NoteStroke{Cue: "House 4", See: "right"}), app.Set{Key: "back", Text: "0"})
	now = view.AtTableOf(&m)
	assert.Equal(t, "Stroke 2: hit right, House 4", now.Last)
	assert.Equal(t, "Cue parallel to the aim line", now.Next[0])
}

// What is suggested at the table can be set by a person: half a tip or a whole one, a
// whole bridge length; it is seen the way the user has chosen; and what is noted is
// what is said.
func TestAtTheTableSuggestions(t *testing.T) {
	for _, units := range []string{"in", "cm"} {
		for _, byMark := range []bool{false, true} {
			m := after(app.Open{Link: "v=1&speed=12mph&elev=1deg&units=" + units}, app.MeasureCue{Name: "House 4"}, app.AtTable{On: true}, app.ReadBy{Mark: byMark})
			sitting := view.NewSitting(m.SetUp, m.Scene.PivotSpin)
			for _, mark := range []string{"-0.6in", "0.5in", "-0.7in", "0.5in", "-0.6in", "0.6in"} {
				f := view.Weigh(&m, sitting)
				require.NotEmpty(t, f.Sets)
				m = app.Update(m, app.SetAll{Sets: f.Sets})
				require.Empty(t, m.Notices)
				assert.Equal(t, byMark, f.Line > 0)
				sh := m.Scene.Shot()
				tips := float64(unit.Abs(strike.AxisDistance(m.Scene.Side, sh.Ball, sh.Cue.Tip)) / m.Scene.TipWidth)
				assert.InDelta(t, 0, min(max(tips-0.5, 0.5-tips), max(tips-1, 1-tips)), 0.02, "%v tips", tips)
				assert.Regexp(t, "(½|1) tip$", view.AtTableOf(&m).Next[1])
				step := map[string]float64{"in": float64(unit.Inch), "cm": 0.025}[units]
				assert.InDelta(t, 0, float64(m.Scene.Bridge)/step-float64(int(float64(m.Scene.Bridge)/step+0.5)), 0.05)
				e := app.Event(app.NoteStroke{Cue: "House 4", See: "clean"})
				if byMark {
					e = app.NoteStroke{Cue: "House 4", Mark: mark, At: store.Length(float64(m.MarkLine())), Read: "3mm"}
				}
				m = app.Update(m, e)
				require.Empty(t, m.Notices)
				k := m.Kept.Strokes[len(m.Kept.Strokes)-1]
				noted, problems := scenario.Parse(k.Link)
				require.Empty(t, problems)
				assert.Equal(t, m.Scene, noted)
				sitting = sitting.Add(k)
			}
		}
	}
}

func TestProgressIsToldInWords(t *testing.T) {
	f := view.Finding{Head: "pivot length 13.0 in, probably 12 to 14 in", Pivot: 1, More: "About 5 more strokes to ±10 %."}
	assert.Equal(t, "Play 3 strokes to begin with.", f.Progress(0))
	assert.Equal(t, "1 more stroke to begin with.", f.Progress(2))
	assert.Equal(t, "Pivot length 13.0 in, probably 12 to 14 in. About 5 more strokes to ±10 %.", f.Progress(3))
	f.More = ""
	assert.Equal(t, "Pivot length 13.0 in, probably 12 to 14 in.", f.Progress(9))
}

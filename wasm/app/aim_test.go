package app_test

import (
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/margin"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/wasm/app"
)

// After aiming, the ball comes to the target, or the object ball to the middle
// of its pocket; the shot before stays beside, and can be undone.
func TestAimIt(t *testing.T) {
	before := app.Update(app.Start(), app.First{Link: "v=1&bridge=9in&cut=25deg"})
	assert.True(t, before.Look.Object, "a link with a cut means the object ball to be seen")

	m := app.Update(before, app.AimIt{})
	require.Empty(t, m.Notices)
	assert.InDelta(t, 0, float64(m.Play().Reading.Arrival.Value), 1e-9)
	assert.Equal(t, before.Scene, m.Earlier)
	assert.True(t, m.HasEarlier)
	assert.False(t, app.Update(m, app.Unfaint{}).HasEarlier)
	undone := app.Update(m, app.Undo{})
	assert.Equal(t, before.Scene, undone.Scene)
	assert.False(t, undone.HasEarlier)

	m = app.Update(before, app.AimIt{Pocket: true})
	sh, res := m.Scene.Shot(), m.Play()
	var pot shot.Pot
	require.NoError(t, sh.Sink(&res.Path, &pot))
	assert.InDelta(t, 0, float64(pot.Miss), 1e-9)
	assert.Contains(t, app.Potting(&m.Scene, res), "object ball in")
}

func TestAimItRefuses(t *testing.T) {
	for link, says := range map[string]string{
		"v=1&side=0.6":                       "slips",
		"v=1&side=0":                         "nothing to share",
		"v=1&speed=1mph&roll=0.05&dist=90in": "stops",
		"v=1&side=0.02&elev=40deg&height=0.3&grip=5in&bridge=40in": "back-hand share of",
	} {
		m := app.Update(app.Start(), app.First{Link: link})
		aimed := app.Update(m, app.AimIt{})
		if assert.NotEmpty(t, aimed.Notices, link) {
			assert.Contains(t, aimed.Notices[0], says, link)
		}
		assert.Equal(t, m.Scene, aimed.Scene, link)
	}
}

func TestHandsWords(t *testing.T) {
	for share, want := range map[float64]string{
		1: "back hand alone", 0: "front hand alone", 0.61: "back hand 61 %, front hand 39 %",
		1.2:  "back hand 120 %, then the front hand 20 % back the other way",
		-0.3: "front hand 130 %, then the back hand 30 % back the other way",
	} {
		assert.Equal(t, want, app.HandsWords(share))
	}
}

func TestBrief(t *testing.T) {
	for in, want := range map[string]string{"12.0 in": "12 in", "0.05": "0.05", "3.0°": "3°", "7.5 mph": "7.5 mph", "10.0": "10", "0.00": "0.00"} {
		assert.Equal(t, want, app.Brief(in))
	}
}

// Every cell opens a shot that pockets the object ball.
func TestCard(t *testing.T) {
	s, problems := scenario.Parse("v=1&bridge=9in&name=Harbour%20%3Cb%3E&cut=15deg")
	require.Empty(t, problems)
	for _, units := range []string{"in", "cm"} {
		s.Units = units
		v := app.CardOf(&s, app.ShowShare)
		require.Len(t, v.Rows, 6)
		marked := 0
		for _, row := range v.Rows {
			require.Len(t, row.Cells, len(v.Columns))
			for _, c := range row.Cells {
				require.Empty(t, c.Why)
				at, problems := scenario.Parse(c.Link)
				require.Empty(t, problems)
				sh := at.Shot()
				var res shot.Result
				shot.Play(&sh, &res)
				var pot shot.Pot
				require.NoError(t, sh.Sink(&res.Path, &pot))
				assert.InDelta(t, 0, float64(pot.Miss), 1e-9)
				if c.Misses {
					marked++
				}
			}
		}
		assert.Positive(t, marked)
		for _, show := range []string{app.ShowHeading, app.ShowShift} {
			for _, row := range app.CardOf(&s, show).Rows {
				for _, c := range row.Cells {
					assert.False(t, c.Misses, "the mark is for shares")
				}
			}
		}
		rows, err := csv.NewReader(strings.NewReader("distance," + strings.SplitN(v.CSV("today"), "\ndistance,", 2)[1])).ReadAll()
		require.NoError(t, err)
		assert.Len(t, rows, 7)
	}
}

func TestMarginWords(t *testing.T) {
	s := scenario.Default()
	for _, units := range []string{"in", "cm"} {
		s.Units = units
		assert.Len(t, app.Effects(&s), len(margin.Inputs))
		for _, e := range app.Effects(&s) {
			assert.Regexp(t, `(left|right|on the line)$`, e.Value)
		}
	}
	// With no scatter the default shot, aimed right, is certain.
	m := app.Update(app.Start(), app.AimIt{})
	for _, part := range []string{"tip", "speed", "bridge", "elev", "aim"} {
		k := scenario.Find("scatter." + part)
		require.Nil(t, k.Set(&m.Scene, "0"+k.Unit, ""))
	}
	for _, c := range app.Chances(&m.Scene, margin.NewSampler(64), false) {
		assert.Equal(t, "100.0 % ± 0.00 %", c.Value, c.Name)
	}
}

func TestShiftWords(t *testing.T) {
	s := scenario.Default()
	assert.Equal(t, "26 mm left, 2.0 tips, 0.45 ball", app.ShiftWords(&s, -0.026))
}

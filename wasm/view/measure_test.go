package view_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/core/trial"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// Tries simulated by hand off a 13 in cue: the head names a pivot near it, and
// what is saved is what was read.
func TestWeigh(t *testing.T) {
	m := app.Start()
	post := trial.Prior()
	none := view.Weigh(&m.Scene, post)
	assert.Equal(t, "No tries yet", none.Head)
	assert.Zero(t, none.Pivot)
	for _, try := range []struct {
		bridge, side, outcome string
	}{{"8in", "0.4", "right"}, {"8in", "-0.4", "left"}, {"20in", "0.4", "left"}, {"20in", "-0.4", "right"}, {"13in", "0.4", "clean"}, {"13in", "-0.4", "clean"}} {
		m = app.Update(m, app.Set{Key: "bridge", Text: try.bridge})
		m = app.Update(m, app.Set{Key: "side", Text: try.side})
		m = app.Update(m, app.NoteStroke{See: try.outcome})
		logged, ok := m.Kept.Strokes[len(m.Kept.Strokes)-1].Trial(m.Scene.PivotSpin)
		require.True(t, ok)
		var err error
		post, err = post.Add(logged)
		require.NoError(t, err)
	}
	f := view.Weigh(&m.Scene, post)
	assert.InDelta(t, float64(13*unit.Inch), float64(f.Pivot), float64(2.5*unit.Inch))
	assert.Contains(t, f.Head, "90 % between")
	assert.Contains(t, f.Limit, "passes this gate clean")
	for _, s := range f.Sets {
		m = app.Update(m, app.Set{Key: s.Key, Text: s.Text})
		assert.Empty(t, m.Notices, s.Key)
	}
	c := store.Measured(&m.Scene, post.Pivot(), "gate", "2026-11-24")
	saved, err := store.Decode(store.Records{Cues: []store.CueRecord{c}}.Encode())
	require.NoError(t, err)
	assert.Equal(t, c, saved.Cues[0])
	// What would help can be set, and then helps: the floor or the rate is
	// better for it.
	said, sets := view.Help(&m.Scene, post)
	require.NotEmpty(t, sets, said)
	was, _ := scenario.Find(sets[0].Key).Number(&m.Scene)
	m = app.Update(m, app.Set{Key: sets[0].Key, Text: sets[0].Text})
	assert.Empty(t, m.Notices)
	now, _ := scenario.Find(sets[0].Key).Number(&m.Scene)
	assert.NotEqual(t, was, now)
}

func TestFlawsAreSaid(t *testing.T) {
	for link, want := range map[string][]string{
		"v=1&speed=12mph&elev=2deg&gap=2.45in&side=0.5": nil,
		"v=1&speed=12mph&gap=3.2in":                     {"The gap is wide"},
		"v=1&speed=3mph&elev=6deg&gap=2.45in":           {"Swerve hides squirt"},
		"v=1&speed=12mph&side=0.05&gap=2.3in":           {"So little english"},
	} {
		s, problems := scenario.Parse(link)
		require.Empty(t, problems)
		got := view.Weigh(&s, trial.Prior()).Flaws
		require.Len(t, got, len(want), "%s: %q", link, got)
		for i, w := range want {
			assert.Contains(t, got[i], w)
		}
	}
}

func TestDoubt(t *testing.T) {
	assert.Empty(t, view.Doubt(0, true, 0.3))
	assert.Contains(t, view.Doubt(2, true, 0.87), "Try 3 contradicts the others: more likely than not (87 %)")
	assert.Contains(t, view.Doubt(0, false, 0), "Try 1 is left out")
}

// What is said of the next try is what is set, to the digit, and a slider can
// be set to it; where nothing is suggested there is nothing to set.
func TestNextIsSetAsItIsSaid(t *testing.T) {
	for _, link := range []string{"v=1", "v=1&units=cm", "v=1&ball=snooker&table=snooker&gap=2.9in", "v=1&side=0.2&gap=61.7mm&units=cm", "v=1&speed=12mph&elev=2deg"} {
		before := app.Update(app.Start(), app.First{Link: link})
		m, f := before, view.Weigh(&before.Scene, trial.Prior())
		require.NotEmpty(t, f.Sets, link)
		m = app.Update(m, app.SetAll{Sets: f.Sets})
		require.Empty(t, m.Notices)
		s := &m.Scene
		assert.Contains(t, f.Next, "bridge "+phrase.Brief(phrase.Length(s, s.Bridge))+",", link)
		for _, key := range []string{"bridge", "side", "gap"} {
			k := scenario.Find(key)
			v, _ := k.Number(s)
			if was, _ := k.Number(&before.Scene); was == v {
				continue // it is not suggested, and stays as it was typed
			}
			assert.InDelta(t, v, k.Stepped(v, s.Units, math.Round), 1e-12, "%s of %s: %s", key, link, k.Value(s))
		}
		if strings.Contains(f.Next, "gap") {
			assert.Contains(t, f.Next, "gap "+scenario.Find("gap").Shown(s), link)
		}
		said, sets := view.Help(s, trial.Prior())
		if len(sets) > 0 {
			m = app.Update(m, app.SetAll{Sets: sets})
			assert.Contains(t, said, scenario.Find(sets[0].Key).Shown(&m.Scene), link)
			assert.LessOrEqual(t, len(sets[0].Text), 8, sets[0].Text)
		}
	}

	still := app.Update(app.Start(), app.First{Link: "v=1&side=0&pivotspin=0.1"})
	f := view.Weigh(&still.Scene, trial.Prior())
	assert.Contains(t, f.Next, "hardly any try tells more")
	assert.Empty(t, f.Sets)
}

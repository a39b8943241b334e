package view_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/hop"
	"pivotbench/core/motion"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

const (
	hopLink   = "v=1&side=0&elev=40deg&speed=9mph&gate=12in&gap=2in"
	lightLink = "v=1&side=0&elev=40deg&speed=9mph&gate=12in&gap=2in&bounce=0.87&cuemass=280g"
)

// usual are the contact times of a shot before any hop has been seen.
func usual(s *scenario.Scenario) *view.Contacts {
	c := view.ContactsOf(s, &store.Records{})
	return &c
}

func cleared(t *testing.T, link string) (view.Clearing, map[string]string) {
	t.Helper()
	s, problems := scenario.Parse(link)
	require.Empty(t, problems, link)
	contacts := usual(&s)
	c := view.Clear(&s, contacts)
	facts := map[string]string{}
	for _, f := range c.Facts {
		assert.NotContains(t, facts, f.Name)
		assert.NotEmpty(t, f.Value)
		facts[f.Name] = f.Value
	}
	return c, facts
}

func TestClearHeads(t *testing.T) {
	for link, head := range map[string]string{
		hopLink:                        "May touch",
		lightLink:                      "Clears on the first hop",
		"v=1&side=0&gap=3in&elev=0deg": "Clears on the cloth",
		"v=1&side=0&gap=2in&elev=0deg": "Hits left blocker first",
		"v=1&gate=0in":                 "No blockers are set",
		"v=1&gate=1in&gap=0in":         "The blockers touch the cue ball at rest: widen the gap or move the gate away",
		"v=1&side=0.59":                "The tip slips off the ball, a miscue: use less offset",
		"v=1&side=0&speed=0.2mph":      "Stops short of the gate",
		"v=1&side=0.3&elev=60deg&stroke=9mph&gate=12in&gap=1in": "Clears",
	} {
		c, _ := cleared(t, link)
		assert.Equal(t, head, c.Head, link)
		s, _ := scenario.Parse(link)
		head, detail := view.HopHead(&s, usual(&s))
		assert.Equal(t, c.Head, head)
		assert.Equal(t, c.Detail, detail)
	}
}

// The figures are the least and the most of package hop over the contact times.
func TestClearFacts(t *testing.T) {
	c, facts := cleared(t, hopLink)
	assert.Regexp(t, `^Between 0\.\d\d in too low and \d\.\d\d in to spare`, c.Detail)
	s, _ := scenario.Parse(hopLink)
	sh := s.Shot()
	ratios := hop.Spaced(usual(&s).Range, hop.Enough)
	var path motion.Path
	low, high := 1.0, 0.0
	for _, r := range ratios {
		require.NoError(t, hop.Send(&sh, r, &path))
		rise := 0.0
		if f := hop.Flights(&path, 0); len(f) > 0 {
			rise = float64(f[0].Rise() / unit.Inch)
		}
		low, high = min(low, rise), max(high, rise)
	}
	assert.Equal(t, unit.Round(low, unit.Ratio, "", 2)+" to "+unit.Round(high, unit.Ratio, "", 2)+" in", facts["rises"])
	assert.Regexp(t, `^needs 0\.74 in, has 0\.\d\d to \d\.\d\d in; the blocker is 0\.13 in in the way$`, facts["height at left blocker"])
	assert.Equal(t, facts["height at left blocker"], facts["height at right blocker"])
	speeds := hop.LeastSpeeds(&sh, ratios)
	require.NoError(t, speeds.MayErr)
	assert.Equal(t, unit.Round(float64(speeds.May), unit.SpeedKind, "mph", 1)+" mph of the ball may clear; "+hop.ErrUnsure.Error(), facts["lowest speed at "+pitched(t, "40deg")])
	assert.Contains(t, facts["lands"], "from the start")
	assert.NotContains(t, facts, "bends after landing")
	assert.Equal(t, "hit on the fly or hit on the cloth", facts["object ball at the target"])
	assert.Contains(t, facts["double hit"], "stop the stroke")

	c, facts = cleared(t, "v=1&side=0&elev=40deg&stroke=12mph&gate=12in&gap=2in&bounce=0.87&cuemass=280g")
	assert.Contains(t, c.Head, "Clears")
	assert.Regexp(t, `^[\d.]+ mph of the cue may clear, [\d.]+ mph of the cue will$`, facts["lowest speed at "+pitched(t, "40deg")])

	_, facts = cleared(t, "v=1&side=0.3&elev=45deg&speed=9mph&gate=12in&gap=1in&units=cm")
	assert.Equal(t, "passes beside it", facts["height at left blocker"])
	assert.Contains(t, facts["bends after landing"], "right")
	assert.Contains(t, facts["rises"], "mm")

	_, facts = cleared(t, "v=1&side=0&elev=0deg&gap=2in")
	assert.Equal(t, hop.ErrNoHop.Error(), facts["lowest speed at "+pitched(t, "0deg")])
	assert.Equal(t, "none: the ball stays on the cloth", facts["hop"])
	assert.NotContains(t, facts, "double hit")

	_, facts = cleared(t, "v=1&side=0&elev=5deg&speed=9mph&gate=80in&dist=90in&gap=2in&bounce=0.9")
	assert.Contains(t, facts["lowest speed at "+pitched(t, "5deg")], "beyond most players")
	_, facts = cleared(t, "v=1&side=0&elev=40deg&stroke=30mph&gate=12in&gap=2in")
	assert.Contains(t, facts["this stroke"], "beyond most players")
}

// pitched is an elevation as the facts write it.
func pitched(t *testing.T, text string) string {
	s := scenario.Default()
	require.Nil(t, scenario.Find("elev").Set(&s, text, ""))
	return scenario.Find("elev").Shown(&s)
}

func TestHopCues(t *testing.T) {
	s, problems := scenario.Parse(hopLink + "&cue2=15in,0.5,300g,10.6mm,0.9,Breaker&cue3=6in,0.5,540g,10.6mm,0.75,")
	require.Empty(t, problems)
	cues := view.CompareHops(&s, usual(&s))
	require.Len(t, cues.Rows, 7)
	_, facts := cleared(t, hopLink)
	bench, ordinary, low, light, worked := cues.Rows[0], cues.Rows[1], cues.Rows[2], cues.Rows[3], cues.Rows[4]
	assert.Equal(t, view.CurrentCue, bench.Name)
	assert.Equal(t, facts["rises"], bench.Rises)
	assert.Equal(t, facts["lands"], bench.Lands+" from the start")
	assert.Equal(t, "may touch", bench.Clears)
	assert.Contains(t, ordinary.Name, "9.5 in")
	assert.Regexp(t, `left$`, ordinary.Squirt, "right english squirts to the left, though this shot has none")
	assert.Greater(t, ordinary.Squirt, bench.Squirt)
	assert.Less(t, low.Squirt, bench.Squirt)
	assert.Greater(t, light.Rises, bench.Rises, "the least it rises is more")
	assert.Less(t, light.Speed, bench.Speed)
	assert.Greater(t, worked.Rises, light.Rises)
	assert.Equal(t, "Breaker", cues.Rows[5].Name)
	assert.Equal(t, "cue 3", cues.Rows[6].Name)
	assert.Contains(t, cues.Note, "right english, 0.40 R")
	assert.Equal(t, len(cues.Rows), len(cues.Table().Rows))

	s.Side = 0.3
	spun := view.CompareHops(&s, usual(&s))
	assert.Regexp(t, `left$`, spun.Rows[0].Squirt)
	assert.NotEqual(t, bench.Squirt, spun.Rows[0].Squirt, "of its own english")
	assert.NotContains(t, spun.Note, "has no english")

	for link, clears := range map[string]string{
		"v=1&side=0&elev=5deg&gate=12in&gap=2in": "touches", "v=1&gate=0in": "–", "v=1&side=0&speed=0.2mph": "short",
	} {
		s, _ := scenario.Parse(link)
		assert.Equal(t, clears, view.CompareHops(&s, usual(&s)).Rows[0].Clears, link)
	}
	s.Side = 0.6
	assert.NotEmpty(t, view.CompareHops(&s, usual(&s)).Why)
}

// Hops seen with the same cue and cloth narrow what is said of it, and those of
// another cue do not.
func TestSeenHops(t *testing.T) {
	s, _ := scenario.Parse(hopLink)
	none := view.ContactsOf(&s, &store.Records{})
	assert.Contains(t, none.Said(), "usually stays on the ball for 1.0–2.0 ms and the table for 0.5–1.0 ms")
	k := store.Records{Hops: []store.Hop{
		{Link: hopLink, Saw: "rose", High: "2in"},
		{Link: hopLink + "&cuemass=300g", Saw: "touched"},
		{Link: "v=1&side=0&elev=40deg&stroke=8mph&gate=12in&gap=2in", Saw: "cleared", High: "0.5in"},
	}}
	c := view.ContactsOf(&s, &k)
	require.NoError(t, c.Err)
	assert.Equal(t, 2, c.Hops)
	assert.Contains(t, c.Said(), "Going by 2 hops")
	assert.Less(t, c.Range.To/c.Range.From, 0.6*none.Range.To/none.Range.From)
	before, after := view.CompareHops(&s, &none).Rows[0], view.CompareHops(&s, &c).Rows[0]
	assert.NotEqual(t, before.Rises, after.Rises)

	rows, others := view.SeenHops(&s, &k)
	require.Len(t, rows, 2)
	assert.Equal(t, 1, others)
	assert.Equal(t, 0, rows[0].Index)
	assert.Equal(t, 2, rows[1].Index)
	assert.Equal(t, "Rose 2 in", rows[0].Did)
	assert.Contains(t, rows[0].Shot, "mph")
	assert.Contains(t, rows[1].Did, "Cleared a stack 0.5 in high at 12.0 in")
	assert.Equal(t, "1 hop with another ball, cue or cloth: saved, but not used here.", view.OtherHops(others))
	assert.Empty(t, view.OtherHops(0))

	k.Hops = append(k.Hops, store.Hop{Link: hopLink, Saw: "rose", High: "20in"})
	c = view.ContactsOf(&s, &k)
	assert.ErrorIs(t, c.Err, hop.ErrContradict)
	assert.Equal(t, none.Range, c.Range)
	assert.Contains(t, c.Said(), "delete the one you doubt")
}

func TestHopHigh(t *testing.T) {
	for _, c := range [][3]string{{"", "in", ""}, {"3/4", "in", "0.75in"}, {"20 mm", "in", "20mm"}, {"2", "cm", "2cm"}} {
		got, err := view.HopHigh(c[0], c[1])
		require.NoError(t, err)
		want, _ := unit.Parse(c[2], unit.LengthKind, "")
		back, _ := unit.Parse(got, unit.LengthKind, "")
		assert.Equal(t, want, back, c[0])
	}
	_, err := view.HopHigh("tall", "in")
	assert.ErrorContains(t, err, "“tall”")
}

// The strokes on the buttons are round, and clear.
func TestLeastHops(t *testing.T) {
	for _, link := range []string{lightLink, lightLink + "&units=cm", "v=1&side=0.2&elev=40deg&stroke=7mph&gate=12in&gap=1in&bounce=0.87&cuemass=280g"} {
		s, _ := scenario.Parse(link)
		speed, err := view.SlowestHop(&s, usual(&s))
		require.NoError(t, err)
		slow := s
		require.Nil(t, scenario.Find(speed.Key).Set(&slow, speed.Text, ""))
		assert.Equal(t, s.ByStroke, slow.ByStroke)
		sh := slow.Shot()
		assert.Less(t, hop.Unsure, hop.ClassOf(&sh, hop.Spaced(usual(&s).Range, 5), s.Dist), speed.Text)
		flat := s
		elev, err := view.FlattestHop(&s, usual(&s))
		require.NoError(t, err)
		require.Nil(t, scenario.Find(elev.Key).Set(&flat, elev.Text, ""))
		sh = flat.Shot()
		assert.Less(t, hop.Unsure, hop.ClassOf(&sh, hop.Spaced(usual(&s).Range, 5), s.Dist), elev.Text)
		assert.Regexp(t, `^\d+(\.5)?deg$`, elev.Text)
	}
	s, _ := scenario.Parse("v=1&side=0&elev=0deg&gap=2in")
	_, err := view.SlowestHop(&s, usual(&s))
	assert.ErrorIs(t, err, hop.ErrNoHop)
}

func TestHopColumns(t *testing.T) {
	s, _ := scenario.Parse(hopLink)
	columns := view.HopColumns(&s, usual(&s))
	require.Len(t, columns, 51)
	assert.Equal(t, 30*unit.MilePerHour, view.Fastest(&s))
	assert.InDelta(t, float64(hop.Steep), float64(columns[50].Elevation), 1e-12)
	assert.Equal(t, hop.Hardest, view.Hardest(&scenario.Scenario{ByStroke: true}))
	assert.InEpsilon(t, 1.75/(1+0.17/0.54)*float64(hop.Hardest), float64(view.Hardest(&s)), 1e-9, "(1+e)/(1+m/M) of the cue's")
	s.Speed = 35 * unit.MilePerHour
	assert.Equal(t, hop.Most, view.Fastest(&s))
}

package show_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/hop"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
	"pivotbench/wasm/show"
)

const hopLink = "v=1&side=0&elev=40deg&speed=9mph&gate=12in&gap=2in"

func cleared(t *testing.T, link string) (show.Clearing, map[string]string) {
	t.Helper()
	s, problems := scenario.Parse(link)
	require.Empty(t, problems, link)
	sh, res := s.Shot(), new(shot.Result)
	shot.Play(&sh, res)
	c := show.Clear(&s, res)
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
		hopLink:                        "Clears in its first flight",
		"v=1&side=0&gap=3in&elev=0deg": "Clears on the cloth",
		"v=1&side=0&gap=2in&elev=0deg": "Touches L first",
		"v=1&gate=0in":                 "No blockers are set",
		"v=1&gate=1in&gap=0in":         "The blockers overlap the cue ball at rest: widen the gap or move the gate away",
		"v=1&side=0.59":                "The tip slips off the ball, a miscue: use less offset",
		"v=1&side=0&speed=0.2mph":      "Does not reach the gate",
		"v=1&elev=60deg&hop=0.75&side=0&gate=40in&gap=2.2in&dist=50in&speed=9mph": "Clears in its second flight",
	} {
		c, _ := cleared(t, link)
		assert.Equal(t, head, c.Head, link)
	}
}

// The figures are those of package hop.
func TestClearFacts(t *testing.T) {
	_, facts := cleared(t, hopLink)
	assert.Equal(t, "0.13 in in the way: needs 0.74 in, has 3.36 in", facts["centre's height over L"])
	assert.Equal(t, facts["centre's height over L"], facts["centre's height over R"])
	s, _ := scenario.Parse(hopLink)
	sh := s.Shot()
	speed, err := hop.LeastSpeed(&sh)
	require.NoError(t, err)
	assert.Equal(t, unit.Round(float64(speed), unit.SpeedKind, "mph", 1)+" mph of the ball", facts["lowest speed at 40.0°"])
	elev, err := hop.LeastElevation(&sh)
	require.NoError(t, err)
	assert.Equal(t, unit.Round(float64(elev), unit.AngleKind, "deg", 1)+"°", facts["lowest elevation at 9.0 mph of the ball"])
	assert.Equal(t, "3.36 in", facts["rises"])
	assert.Contains(t, facts["lands"], "23.9 in from the start")
	assert.NotContains(t, facts, "turned after landing")
	assert.Contains(t, facts["object ball at the target"], "hit on the fly")

	_, facts = cleared(t, "v=1&side=0.3&elev=45deg&speed=9mph&gate=12in&gap=1in&units=cm")
	assert.Equal(t, "passes beside it", facts["centre's height over L"])
	assert.Contains(t, facts["turned after landing"], "right")
	assert.Contains(t, facts["rises"], "mm")

	_, facts = cleared(t, "v=1&side=0&elev=0deg&gap=2in")
	assert.Equal(t, hop.ErrNoHop.Error(), facts["lowest speed at 0.0°"])
	assert.Equal(t, "none: the ball keeps to the cloth", facts["flight"])

	_, facts = cleared(t, "v=1&side=0&elev=6deg&speed=9mph&gate=80in&dist=90in&gap=2in")
	assert.Contains(t, facts["lowest speed at 6.0°"], "more than people do")
	_, facts = cleared(t, "v=1&side=0&elev=40deg&stroke=30mph&gate=12in&gap=2in")
	assert.Contains(t, facts["this stroke"], "more than people do")
	assert.Contains(t, facts["object ball at the target"], "flown over")
}

func TestHopCues(t *testing.T) {
	s, problems := scenario.Parse(hopLink + "&cue2=15in,0.5,300g,10.6mm,0.9,Breaker&cue3=6in,0.5,540g,10.6mm,0.75,")
	require.Empty(t, problems)
	sh, res := s.Shot(), new(shot.Result)
	shot.Play(&sh, res)
	cues := show.CompareHops(&s, res)
	require.Len(t, cues.Rows, 6)
	bench, heavy, light, worked := cues.Rows[0], cues.Rows[1], cues.Rows[2], cues.Rows[3]
	assert.Equal(t, show.HopRow{Name: "this cue", Speed: "9.0 mph", Squirt: "0.00°", Rises: "3.36 in", Lands: "23.9 in", Clears: "by 1.72 in"}, bench)
	assert.Equal(t, bench.Rises, heavy.Rises, "at centre the end does nothing to a hop")
	assert.Less(t, light.Rises, bench.Rises, "at the same hand speed the light cue gives less")
	assert.Greater(t, worked.Rises, bench.Rises, "for the same work more")
	assert.Equal(t, "Breaker", cues.Rows[4].Name)
	assert.Equal(t, "further cue", cues.Rows[5].Name)
	limit := hop.Lightest(sh.Ball, sh.Cue, 0.87)
	assert.Contains(t, cues.Note, "down to "+unit.Round(float64(limit), unit.MassKind, "g", 0)+" g.")

	s.Side = 0.3
	sh = s.Shot()
	shot.Play(&sh, res)
	spun := show.CompareHops(&s, res).Rows
	assert.Regexp(t, `left$`, spun[0].Squirt, "right english squirts to the left")
	assert.Greater(t, spun[1].Squirt, spun[0].Squirt, "a heavier end more so")
	s.Bounce = 0.95
	shot.Play(&sh, res)
	assert.NotContains(t, show.CompareHops(&s, res).Note, "makes up for", "the bench's own tip is harder")

	for link, clears := range map[string]string{
		"v=1&side=0&elev=5deg&gate=12in&gap=2in": "touches", "v=1&gate=0in": "–", "v=1&side=0&speed=0.2mph": "short",
	} {
		s, _ := scenario.Parse(link)
		sh := s.Shot()
		shot.Play(&sh, res)
		assert.Equal(t, clears, show.CompareHops(&s, res).Rows[0].Clears, link)
	}
	s.Side = 0.6
	sh = s.Shot()
	shot.Play(&sh, res)
	assert.NotEmpty(t, show.CompareHops(&s, res).Why)
}

// The strokes on the buttons are round, and clear.
func TestLeastHops(t *testing.T) {
	for _, link := range []string{hopLink, hopLink + "&units=cm", "v=1&side=0.2&elev=40deg&stroke=7mph&gate=12in&gap=1in"} {
		s, _ := scenario.Parse(link)
		speed, err := show.SlowestHop(&s)
		require.NoError(t, err)
		slow := s
		require.Nil(t, scenario.Find(speed.Key).Set(&slow, speed.Text, ""))
		assert.Equal(t, s.ByStroke, slow.ByStroke)
		sh := slow.Shot()
		assert.NotEqual(t, hop.Touches, hop.ClassOf(&sh, s.Dist), speed.Text)
		flat := s
		elev, err := show.FlattestHop(&s)
		require.NoError(t, err)
		require.Nil(t, scenario.Find(elev.Key).Set(&flat, elev.Text, ""))
		sh = flat.Shot()
		assert.NotEqual(t, hop.Touches, hop.ClassOf(&sh, s.Dist), elev.Text)
		assert.Regexp(t, `^\d+(\.5)?deg$`, elev.Text)
	}
	s, _ := scenario.Parse("v=1&side=0&elev=0deg&gap=2in")
	_, err := show.SlowestHop(&s)
	assert.ErrorIs(t, err, hop.ErrNoHop)
}

func TestHopColumns(t *testing.T) {
	s, _ := scenario.Parse(hopLink)
	columns := show.HopColumns(&s)
	require.Len(t, columns, 69)
	assert.Equal(t, 30*unit.MilePerHour, show.Fastest(&s))
	assert.InDelta(t, float64(hop.Steep), float64(columns[68].Elevation), 1e-12)
	res := new(shot.Result)
	assert.Equal(t, hop.Hardest, show.Hardest(&scenario.Scenario{ByStroke: true}, &res.Reading))
	sh := s.Shot()
	shot.Play(&sh, res)
	assert.InEpsilon(t, 1.75/(1+0.17/0.54)*float64(hop.Hardest), float64(show.Hardest(&s, &res.Reading)), 1e-9, "(1+e)/(1+m/M) of the cue's")
	s.Speed = 35 * unit.MilePerHour
	assert.Equal(t, hop.Most, show.Fastest(&s))
}

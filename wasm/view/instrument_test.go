package view_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/instrument"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

func timed(of, length, time string, rest ...string) store.Reading {
	r := store.Reading{Of: of, Length: length, Time: time, By: "thumb"}
	if of == "marks" {
		r.Third, r.ThirdTime = rest[0], rest[1]
	} else if rest != nil {
		r.Topspin = rest[0]
	}
	return r
}

// sends says which values an answer puts in the shot, and that it can.
func sends(t *testing.T, g view.Gauged, want ...app.Setting) {
	t.Helper()
	assert.Equal(t, want, g.Sets)
	assert.NotEmpty(t, g.Head)
	assert.Contains(t, g.Head, "90 %")
	m := app.Update(app.Start(), app.SetAll{Sets: g.Sets})
	assert.Empty(t, m.Notices)
}

// The numbers are worked out by hand from the formulas in each line.
func TestSpeedInWords(t *testing.T) {
	s := scenario.Default()
	assert.Equal(t, view.Gauged{Note: "Tap at the hit and again as the ball gets to the mark."}, view.Speed(&s, nil))
	list := []store.Reading{timed("speed", "50in", "0.61s", "0"), timed("rest", "1m", "5s"), timed("speed", "50in", "0.59s", "0")}
	g := view.Speed(&s, list)
	assert.Contains(t, g.Head, "2 readings")
	assert.Contains(t, g.Note, "medium (4.5 to 9.0 mph)")
	require.Len(t, g.Sets, 1)
	assert.Equal(t, "speed", g.Sets[0].Key)

	bad := timed("speed", "50in", "90s", "0")
	assert.ErrorContains(t, view.CheckReading(&s, bad), "stopped before the mark")
	g = view.Speed(&s, append(list, bad))
	assert.Contains(t, g.Head, "2 readings")
	assert.Contains(t, g.Note, "1 left out")
	read, comes := view.Timing(&s, bad)
	assert.Equal(t, "90.00 s over 50.0 in", read)
	assert.Contains(t, comes, "left out: the ball would have stopped")
	g = view.Speed(&s, []store.Reading{bad})
	assert.Empty(t, g.Head)
	assert.Empty(t, g.Sets)

	hard := timed("speed", "100in", "0.16s", "1")
	hard.By = "sound"
	assert.Contains(t, view.Speed(&s, []store.Reading{hard}).Note, "harder than a break")
	read, comes = view.Timing(&s, hard)
	assert.Equal(t, "0.16 s over 100.0 in, topspin 1.00, by sound", read)
	assert.Contains(t, comes, "mph")
}

// μ = 2L/(g t²) with 2 m in 6 s: 0.01133. Past marks with d = vt − at²/2,
// v = 1 m/s, a = 0.2 m/s²: 0.9 m after 1 s, 1.6 m after 2 s; a/g = 0.0204.
func TestClothInWords(t *testing.T) {
	s := scenario.Default()
	for _, of := range []string{"rest", "marks"} {
		assert.Contains(t, view.Rolling(&s, nil, of).Note, "roll slowly")
	}
	sends(t, view.Rolling(&s, []store.Reading{timed("rest", "2m", "6s")}, "rest"), app.Setting{Key: "roll", Text: "0.0113"})
	g := view.Rolling(&s, []store.Reading{timed("marks", "0.9m", "1s", "1.6m", "2s")}, "marks")
	sends(t, g, app.Setting{Key: "roll", Text: "0.0204"})
	assert.Contains(t, g.Note, "The current shot has 0.0100")
	read, comes := view.Timing(&s, timed("marks", "0.9m", "1s", "1.6m", "2s"))
	assert.Equal(t, "1.00 s over 35.4 in, 2.00 s over 63.0 in", read)
	assert.Equal(t, "0.0204", comes)
	slow := view.Rolling(&s, []store.Reading{timed("rest", "2m", "3.5s")}, "rest")
	assert.Contains(t, slow.Note, "which does not agree.")

	// One ball that seems to have gained speed counts, and says so; with nothing
	// else there is an interval and nothing to set.
	gained := timed("marks", "0.635m", "0.70s", "1.27m", "1.38s")
	require.NoError(t, view.CheckReading(&s, gained))
	_, comes = view.Timing(&s, gained)
	assert.Equal(t, "too rough alone, but it counts in the average", comes)
	g = view.Rolling(&s, []store.Reading{gained}, "marks")
	assert.Contains(t, g.Head, "90 %")
	assert.Empty(t, g.Sets)
	assert.Contains(t, g.Note, "allowed: 0.002 to 0.050")
	g = view.Rolling(&s, []store.Reading{gained, timed("marks", "0.635m", "0.70s", "1.27m", "1.53s")}, "marks")
	assert.Contains(t, g.Head, "2 readings")
	require.Len(t, g.Sets, 1)

	// A stun hit slides 12 v²/(49 μ g): 1.1240 m at 3 m/s and 0.2, and passes
	// 2 m after 2·(3 m/s)/(7·0.2·9.80665) s = 0.4370 s and 0.4116 s more.
	stun := []store.Reading{timed("speed", "2m", "0.8486s", "0")}
	assert.Contains(t, view.Sliding(&s, nil, "44 in", "rolls").Note, "under Ball speed")
	assert.Equal(t, "Type the distance.", view.Sliding(&s, stun, "", "rolls").Note)
	assert.Contains(t, view.Sliding(&s, stun, "far", "rolls").Note, "Distance: “far” is not a length")
	g = view.Sliding(&s, stun, "1.1240m", "rolls")
	require.Len(t, g.Sets, 1)
	assert.Equal(t, "slide", g.Sets[0].Key)
	assert.Contains(t, g.Head, "0.20")
	assert.Contains(t, view.Sliding(&s, stun, "1 m", "dies").Note, "takes backspin")
	rolling := append(stun, timed("speed", "2m", "0.8s", "1"))
	assert.Contains(t, view.Sliding(&s, rolling, "1 m", "rolls").Note, "timed last under Ball speed")
}

// The bench's hit, by the 5/2 of its height when there is next to no end mass.
func TestTopspinOfHits(t *testing.T) {
	s := scenario.Default()
	for _, h := range view.Hits[:3] {
		v, err := view.Topspin(&s, h.Name)
		require.NoError(t, err)
		assert.InDelta(t, map[string]float64{"stun": 0, "follow": 1, "draw": -0.75}[h.Name], v, 1e-12)
	}
	s.Side, s.Height, s.Elev, s.Pivot, s.Back = 0, -0.3, 0, 60*unit.Inch, 0
	v, err := view.Topspin(&s, "bench")
	require.NoError(t, err)
	assert.InDelta(t, -0.75, v, 0.03)
	s.Height = 0.4
	v, err = view.Topspin(&s, "bench")
	require.NoError(t, err)
	assert.InDelta(t, 1, v, 0.04)
	s.Height = 0.8
	_, err = view.Topspin(&s, "bench")
	assert.Error(t, err)
	_, err = view.Topspin(&s, "masse")
	assert.ErrorContains(t, err, "“masse”")
}

func TestElevationInWords(t *testing.T) {
	s := scenario.Default()
	assert.Equal(t, "Type the two heights.", view.Elevation(&s, "", "", "30", "", "").Note)
	sends(t, view.Elevation(&s, "1", "4", "30", "", ""), app.Setting{Key: "elev", Text: "5.5deg"}) // asin 0.1
	// 15 mm of taper over 30 in add atan(7.5/762) = 0.56°.
	sends(t, view.Elevation(&s, "1", "4", "30", "13", "28"), app.Setting{Key: "elev", Text: "6.5deg"})
	bad := view.Elevation(&s, "one", "4", "thirty", "", "")
	assert.Contains(t, bad.Note, "Height nearer the tip: “one” is not a length")
	assert.Contains(t, bad.Note, "; distance between the two: “thirty” is not a length")
	assert.Contains(t, view.Elevation(&s, "4", "1", "30", "", "").Note, "butt would be lower")

	sends(t, view.Level([]instrument.Tilt{{}}, []instrument.Tilt{{Beta: 7 * unit.Degree}}), app.Setting{Key: "elev", Text: "7deg"})
	assert.NotEmpty(t, view.Level(nil, nil).Note)
}

func TestTipInWords(t *testing.T) {
	s := scenario.Default()
	assert.Equal(t, "Type what the ruler reads.", view.Offset(&s, view.Ways[0], "", "right").Note)
	// 10 mm of 28.575.
	sends(t, view.Offset(&s, view.Ways[instrument.Across], "10", "right"), app.Setting{Key: "side", Text: "0.35"})
	sends(t, view.Offset(&s, view.Ways[instrument.Across], "1 cm", "left"), app.Setting{Key: "side", Text: "-0.35"})
	g := view.Offset(&s, view.Ways[instrument.Axis], "10", "below") // of 39.175
	sends(t, g, app.Setting{Key: "height", Text: "-0.26"})
	assert.Contains(t, g.Note, "middle of the cue points 0.39 in")
	assert.Contains(t, g.Note, "touches 0.29 in")
	assert.Contains(t, view.Offset(&s, view.Ways[0], "30", "right").Note, "tip misses the ball")
	assert.Contains(t, view.Offset(&s, view.Ways[0], "x", "right").Note, "Reading: “x” is not a length")

	assert.Equal(t, "Type the width and the rise.", view.Dome("", "").Note)
	// (13²/4 + 2.2²)/(2·2.2) = 10.70 mm.
	sends(t, view.Dome("13", "2.2"), app.Setting{Key: "tip", Text: "10.7mm"}, app.Setting{Key: "tipwidth", Text: "13mm"})
	assert.Contains(t, view.Dome("13", "").Note, "Rise: “” is not a length")
	assert.Contains(t, view.Dome("13", "9").Note, "half the width")
}

func TestBallInWords(t *testing.T) {
	s := scenario.Default()
	g, facts := view.Ball(&s, "", false, "")
	assert.Equal(t, "Type the size, the mass, or both.", g.Note)
	assert.Empty(t, facts)
	g, facts = view.Ball(&s, "2.25 in", false, "165")
	sends(t, g, app.Setting{Key: "diam", Text: "2.250in"}, app.Setting{Key: "mass", Text: "165.0g"})
	require.Len(t, facts, 3)
	assert.Equal(t, view.Fact{Name: "2.245 to 2.255 in, 155.9 to 170.1 g", Value: "within the limits of the World Pool-Billiard Association"}, facts[0])
	assert.Contains(t, facts[1].Value, "outside the limits of the World Professional")

	_, facts = view.Ball(&s, "179.5", true, "")
	assert.Contains(t, facts[0].Value, "too close to call")
	_, facts = view.Ball(&s, "", false, "160")
	assert.Contains(t, facts[1].Value, "sets no mass")
	g, facts = view.Ball(&s, "12", false, "heavy")
	assert.Contains(t, g.Note, "40 to 80 mm")
	assert.Contains(t, g.Note, "mass: “heavy” is not a mass")
	assert.Empty(t, g.Head)
	assert.Empty(t, facts)
}

func TestTableInWords(t *testing.T) {
	s, problems := scenario.Parse("v=1&cloth=worn&roll=0.0123&slide=0.21&diam=57mm&bridge=9in")
	require.Empty(t, problems)
	assert.Equal(t, "9 ft pool, cloth worn, sliding friction 0.210, rolling resistance 0.0123, ball diameter 57.0 mm",
		view.TableRecord(store.TableOf(&s, "3", ""), "cm"))
}

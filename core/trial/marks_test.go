package trial_test

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/strike"
	"pivotbench/core/trial"
	"pivotbench/core/unit"
)

const tableWidth = 50 * unit.Inch

// scipy.stats: Student-t intervals and Welch's test, testdata/trial/make.py.
func TestStudentAndWelchAgainstSciPy(t *testing.T) {
	var data struct {
		Cases []struct {
			X, Y                    []float64
			Confidence              float64
			Mean, StdErr, Low, High float64
			WelchDF                 float64 `json:"welch_df"`
			WelchP                  float64 `json:"welch_p"`
			WelchLow                float64 `json:"welch_low"`
			WelchHigh               float64 `json:"welch_high"`
		}
	}
	text, err := os.ReadFile("../../testdata/trial/student.json")
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(text, &data))
	require.Len(t, data.Cases, 40)
	for _, c := range data.Cases {
		x, y := trial.MeanOf(c.X, c.Confidence), trial.MeanOf(c.Y, c.Confidence)
		near := func(want, got float64) {
			t.Helper()
			assert.InDelta(t, want, got, 1e-8*(math.Abs(want)+x.StdErr+y.StdErr))
		}
		near(c.Mean, x.Mean)
		near(c.StdErr, x.StdErr)
		near(c.Low, x.From)
		near(c.High, x.To)
		welch := trial.Compare(x, y, c.Confidence)
		assert.InEpsilon(t, c.WelchDF, welch.Freedom, 1e-9)
		assert.InDelta(t, c.WelchP, welch.P, 1e-9)
		near(c.WelchLow, welch.From)
		near(c.WelchHigh, welch.To)
	}
}

func TestCompareWithoutScatter(t *testing.T) {
	a, b := trial.MeanOf([]float64{1, 1, 1}, 0.9), trial.MeanOf([]float64{2, 2}, 0.9)
	assert.Equal(t, 1.0, trial.Compare(a, a, 0.9).P)
	c := trial.Compare(a, b, 0.9)
	assert.Zero(t, c.P)
	assert.Equal(t, -1.0, c.Mean.Mean)
	assert.Equal(t, c.From, c.To)
}

// marked is where a cue sends parallel shots, with an aim error and scatter.
func marked(t *testing.T, s shot.Shot, aim unit.Angle, sd float64, n int, r *rand.Rand) []trial.Mark {
	t.Helper()
	s.Hands.Back = 0
	var out []trial.Mark
	side := math.Abs(s.Contact.Side)
	for i := range 2 * n {
		s.Contact.Side, s.AimOff = side, aim
		if i%2 == 1 {
			s.Contact.Side = -side
		}
		var p motion.Path
		require.NoError(t, s.Send(&p))
		when, err := p.AtLine(s.Gate.Dist)
		require.NoError(t, err)
		at, _ := p.At(when)
		out = append(out, trial.Mark{Right: i%2 == 0, At: unit.Length(at.Pos.X + sd*r.NormFloat64())})
	}
	return out
}

// Marks without scatter give the cue back, whatever the aim error and however
// large the swerve.
func TestMarksGiveTheCueBack(t *testing.T) {
	for _, inches := range []unit.Length{6, 9.5, 13, 19, 55} {
		for _, elev := range []unit.Angle{0, 3, 12} {
			s := setUp()
			s.Cue.Pivot, s.Elevation = inches*unit.Inch, elev*unit.Degree
			s.Gate.Dist = 60 * unit.Inch
			marks := marked(t, s, 0.2*unit.Degree, 0, 3, rand.New(rand.NewPCG(1, 2)))
			s.Cue.Pivot = 30 * unit.Inch // of no matter
			got, err := trial.Marks(&s, tableWidth, marks, 0.9)
			require.NoError(t, err)
			assert.InEpsilon(t, float64(inches*unit.Inch), float64(got.Pivot), 1e-3)
			assert.InEpsilon(t, float64(got.Pivot), float64(got.From), 1e-6)
			assert.InEpsilon(t, float64(got.Pivot), float64(got.To), 1e-6)
			assert.InDelta(t, math.Tan(float64(0.2*unit.Degree)), got.Aim.Mean/float64(s.Gate.Dist), 1e-4)
			assert.Empty(t, got.Outliers)
			s.Cue.Pivot = got.Pivot
			k, err := strike.MassRatio(s.Ball, s.Cue)
			require.NoError(t, err)
			assert.InDelta(t, float64(strike.Deflection(0.5, k)), float64(got.Squirt), 1e-12)
		}
	}
}

// With a level cue there is no swerve: a mark is the rail's distance times the
// tangent of squirt, to the left for right english.
func TestAMarkIsSquirtTimesDistance(t *testing.T) {
	s := setUp()
	s.Elevation, s.Contact.Side = 0, 0.5
	q := float64(s.Gate.Dist) * math.Tan(3*math.Pi/180)
	marks := []trial.Mark{
		{Right: true, At: unit.Length(-q)}, {Right: true, At: unit.Length(-q)},
		{At: unit.Length(q)}, {At: unit.Length(q)},
	}
	got, err := trial.Marks(&s, tableWidth, marks, 0.9)
	require.NoError(t, err)
	assert.InDelta(t, 3*math.Pi/180, float64(got.Squirt), 1e-9)
	assert.InDelta(t, q, got.Offset.Mean, 1e-15)
	// The definition of the pivot length: sin α = ρ (R + r)/(L + R).
	pivot := 0.5*float64(s.Ball.Radius+s.Cue.Tip.Dome)/math.Sin(3*math.Pi/180) - float64(s.Ball.Radius)
	assert.InEpsilon(t, pivot, float64(got.Pivot), 1e-9)
}

// Of intervals said to hold the truth nine times in ten, nine in ten do.
func TestMarksHoldTheTruthAsOftenAsTheySay(t *testing.T) {
	const testers = 2000
	s := setUp()
	s.Cue.Pivot, s.Gate.Dist = 13*unit.Inch, 60*unit.Inch
	r := rand.New(rand.NewPCG(9, 9))
	held := 0
	for range testers {
		got, err := trial.Marks(&s, tableWidth, marked(t, s, 0.1*unit.Degree, 0.004, 4, r), 0.9)
		require.NoError(t, err)
		require.LessOrEqual(t, got.From, got.Pivot)
		require.LessOrEqual(t, got.Pivot, got.To)
		if got.From <= 13*unit.Inch && 13*unit.Inch <= got.To {
			held++
		}
	}
	assert.InDelta(t, 0.9, float64(held)/testers, 0.025)
}

// A mark that stands apart is listed, and counted.
func TestOutliersAreListedAndCounted(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 2))
	s := setUp()
	marks := marked(t, s, 0, 0.002, 6, r)
	tidy, err := trial.Marks(&s, tableWidth, marks, 0.9)
	require.NoError(t, err)
	assert.Empty(t, tidy.Outliers)
	marks[7].At += 4 * unit.Inch
	got, err := trial.Marks(&s, tableWidth, marks, 0.9)
	require.NoError(t, err)
	assert.Equal(t, []int{7}, got.Outliers)
	assert.InDelta(t, tidy.Left.Mean+float64(4*unit.Inch)/6, got.Left.Mean, 1e-12)
	assert.Greater(t, got.To-got.From, tidy.To-tidy.From)

	same := []trial.Mark{{At: 0.03}, {At: 0.03}, {At: 0.03}, {At: 0.05}, {Right: true, At: -0.03}, {Right: true, At: -0.03}}
	got, err = trial.Marks(&s, tableWidth, same, 0.9)
	require.NoError(t, err)
	assert.Equal(t, []int{3}, got.Outliers, "the rest agree to the digit")
}

// Of one stroke a cue that squirts makes a little more speed than one that
// does not. Where the one's ball just gets to the rail and the other's does
// not, it is the rail that is too far.
func TestARailThatNotEveryCueReaches(t *testing.T) {
	s := setUp()
	s.ByStroke, s.Elevation, s.Contact.Side, s.Speed = true, 0, 0.5, 1
	reach := func(pivot unit.Length) unit.Length {
		s.Hands.Back, s.Cue.Pivot = 0, pivot
		var p motion.Path
		require.NoError(t, s.Send(&p))
		end, _ := p.At(p.Stop())
		return unit.Length(end.Pos.Y)
	}
	far, near := reach(trial.PivotLeast), reach(100*unit.Metre)
	require.Greater(t, far, near+5*unit.Millimetre)
	s.Gate.Dist = (far + near) / 2
	marks := []trial.Mark{{At: 0.03}, {At: 0.04}, {Right: true, At: -0.03}, {Right: true, At: -0.04}}
	_, err := trial.Marks(&s, tableWidth, marks, 0.9)
	assert.ErrorIs(t, err, trial.ErrNoRail)
}

// Marks so ragged that a cue without squirt could have made them say so.
func TestRaggedMarksLeaveTheUpperEndOpen(t *testing.T) {
	s := setUp()
	got, err := trial.Marks(&s, tableWidth, []trial.Mark{{At: 0.08}, {At: -0.02}, {Right: true, At: -0.08}, {Right: true, At: 0.02}}, 0.9)
	require.NoError(t, err)
	assert.True(t, math.IsInf(float64(got.To), 1))
	assert.Equal(t, trial.PivotLeast, got.From)
}

func TestMarksThatSayNothing(t *testing.T) {
	good := []trial.Mark{{At: 0.03}, {At: 0.04}, {Right: true, At: -0.03}, {Right: true, At: -0.04}}
	turned := []trial.Mark{{At: -0.03}, {At: -0.04}, {Right: true, At: 0.03}, {Right: true, At: 0.04}}
	same := func(*shot.Shot) {}
	for _, c := range []struct {
		why        error
		marks      []trial.Mark
		confidence float64
		spoil      func(s *shot.Shot)
	}{
		{trial.ErrNoMarks, nil, 0.9, same},
		{trial.ErrFewMarks, good[:1], 0.9, same},
		{trial.ErrFewMarks, good[:3], 0.9, same},
		{trial.ErrBeyond, append([]trial.Mark{{At: tableWidth + unit.Inch}}, good...), 0.9, same},
		{trial.ErrBeyond, append([]trial.Mark{{At: unit.Length(math.NaN())}}, good...), 0.9, same},
		{trial.ErrConfidence, good, 1, same},
		{trial.ErrConfidence, good, 0, same},
		{trial.ErrNoSide, good, 0.9, func(s *shot.Shot) { s.Contact.Side = 0 }},
		{trial.ErrNoRail, good, 0.9, func(s *shot.Shot) { s.Speed = 0.2 * unit.MilePerHour }},
		{trial.ErrNoRail, good, 0.9, func(s *shot.Shot) { s.Gate.Dist = 0 }},
		{trial.ErrNoPivot, turned, 0.9, same},
		{strike.ErrOffTip, good, 0.9, func(s *shot.Shot) { s.Contact.Side = 0.9 }},
	} {
		s := setUp()
		c.spoil(&s)
		_, err := trial.Marks(&s, tableWidth, c.marks, c.confidence)
		assert.ErrorIs(t, err, c.why)
	}
}

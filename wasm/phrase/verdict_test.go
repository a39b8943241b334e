package phrase_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
	"pivotbench/wasm/phrase"
)

func play(s *scenario.Scenario) *shot.Result {
	sh, res := s.Shot(), new(shot.Result)
	shot.Play(&sh, res)
	return res
}

// The scene has the hands and the units. The reading is made up, so that each sentence is
// tested by itself.
func TestVerdictWords(t *testing.T) {
	const mm, in = unit.Millimetre, unit.Inch
	reading := func(v shot.Verdict, left, right, arrival, pivot unit.Length) shot.Reading {
		var r shot.Reading
		r.Verdict = shot.Answered(v)
		r.ClearLeft, r.ClearRight = shot.Answered(left), shot.Answered(right)
		r.Arrival, r.PivotEffective = shot.Answered(arrival), shot.Answered(pivot)
		return r
	}
	noPivot := reading(shot.Clean, in, in, in, 0)
	noPivot.PivotEffective, noPivot.Aim = shot.Refused[unit.Length](shot.ErrOtherSide), shot.Answered(-2.5*unit.Degree)
	shares := reading(shot.Clean, in, in, in, 11*in)
	shares.ShareBack = shot.Answered(0.456)
	noGate := reading("", 0, 0, -0.64*in, 13.5*in)
	noGate.Verdict = shot.Refused[shot.Verdict](errors.New("no blockers are set"))
	overlap := reading("", 0, 0, 0.04*mm, 12*in)
	overlap.Verdict = shot.Refused[shot.Verdict](errors.New("the blockers overlap"))
	nowhere := noGate
	nowhere.Arrival = shot.Refused[unit.Length](errors.New("the ball stops before that distance"))

	for _, tc := range []struct {
		link         string
		reading      shot.Reading
		head, detail string
	}{
		{"v=1", reading(shot.Miscue, 0, 0, 0, 0), "Miscue", "The tip slips off the ball: use less offset"},
		{"v=1", reading(shot.StopsShort, 0, 0, 0, 0), "Stops short of the gate", "The ball stops or turns away before the blockers"},
		{"v=1", reading(shot.TouchesLeft, -0.25*in, in, -in, 14*in), "Hits left blocker first", "By 0.25 in. Bridge too short: use 14.0 in"},
		{"v=1&bridge=16in", reading(shot.TouchesRight, in, -0.5*in, in, 14*in), "Hits right blocker first", "By 0.50 in. Bridge too long: use 14.0 in"},
		{"v=1", reading(shot.TouchesRight, in, -0.004*in, in, 14*in), "Hits right blocker first", "By a hair. Bridge too short: use 14.0 in"},
		{"v=1", reading(shot.Clean, 0.5*in, 0.004*in, 0.2*mm, 12*in), "Clean", "Nothing to spare. On target"},
		{"v=1", reading(shot.Clean, 0.5*in, 0.25*in, 0.2*mm, 12*in), "Clean", "0.25 in to spare. On target"},
		{"v=1&units=cm", reading(shot.Clean, 6*mm, 7*mm, in, 14*in), "Clean", "6.0 mm to spare. Bridge too short: use 35.6 cm"},
		{"v=1", noPivot, "Clean", "1.00 in to spare. Turn the cue to 2.50° left"},
		{"v=1&back=0.5&front=0.5", shares, "Clean", "1.00 in to spare. Use 46 % back hand"},
		{"v=1&gate=0in", noGate, "Arrives 0.64 in left", "Bridge too short: use 13.5 in"},
		{"v=1&gate=0in", nowhere, "The ball stops before that distance", ""},
		{"v=1&gate=1in", overlap, "Arrives on the line", "The blockers overlap"},
	} {
		s, problems := scenario.Parse(tc.link)
		require.Empty(t, problems)
		said := phrase.Verdict(&s, &tc.reading)
		assert.Equal(t, phrase.Said{Head: tc.head, Detail: tc.detail}, said)
	}
}

func TestSidewaysAndTurned(t *testing.T) {
	s := scenario.Default()
	assert.Equal(t, "0.64 in right", phrase.Sideways(&s, 0.64*unit.Inch))
	assert.Equal(t, "0.64 in left", phrase.Sideways(&s, -0.64*unit.Inch))
	assert.Equal(t, "on the line", phrase.Sideways(&s, 0))
	assert.Equal(t, "on the line", phrase.Sideways(&s, -0.0001), "it would read 0.00 in left otherwise")
	s.Units = "cm"
	assert.Equal(t, "16.3 mm left", phrase.Sideways(&s, -0.64*unit.Inch))
	assert.Equal(t, "2.80° right", phrase.Turned(2.8*unit.Degree))
	assert.Equal(t, "2.80° left", phrase.Turned(-2.8*unit.Degree))
	assert.Equal(t, "0.00°", phrase.Turned(0))
}

// Every shot has a verdict, and its head and detail do not repeat each other.
func TestVerdictOfAnyShot(t *testing.T) {
	links := []string{
		"v=1&side=0.79", "v=1&side=0", "v=1&gate=0in", "v=1&speed=0.2mph", "v=1&elev=85deg", "v=1&dist=3in&gate=0in",
		"v=1&gate=1in&gap=0in", "v=1&back=5&bridge=2in", "v=1&side=0.59", "v=1&speed=0.3mph&gate=0in&dist=90in",
		"v=1&back=-5&front=5&side=0.5", "v=1&height=0.79", "v=1&back=5&bridge=2in&gate=0in&side=0.5",
	}
	for _, p := range scenario.Presets {
		links = append(links, p.Link)
	}
	for _, text := range links {
		s, problems := scenario.Parse(text)
		require.Empty(t, problems, text)
		said := phrase.Verdict(&s, &play(&s).Reading)
		assert.NotEmpty(t, said.Head, text)
		assert.Regexp(t, `^[A-Z]`, said.Head, text)
		assert.False(t, strings.EqualFold(said.Head, said.Detail), text)
	}
}

func TestBrief(t *testing.T) {
	for in, want := range map[string]string{"12.0 in": "12 in", "0.05": "0.05", "3.0°": "3°", "7.5 mph": "7.5 mph", "10.0": "10", "0.00": "0.00"} {
		assert.Equal(t, want, phrase.Brief(in))
	}
}

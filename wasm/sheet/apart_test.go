package sheet

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
	"pivotbench/wasm/phrase"
)

// said reports whether a text is on a sheet.
func (s *Sheet) said(text string) bool {
	for _, item := range s.Items {
		if it, ok := item.(Text); ok && it.Words == text {
			return true
		}
	}
	return false
}

// With an earlier shot, or one other cue, the sheet says how far apart the two arrive, in
// agreement with their readings. With two other cues it does not.
func TestApart(t *testing.T) {
	arrival := func(link string) unit.Length {
		s, problems := scenario.Parse(link)
		require.Empty(t, problems)
		sh, res := s.Shot(), new(shot.Result)
		shot.Play(&sh, res)
		require.NoError(t, res.Reading.Arrival.Err())
		return res.Reading.Arrival.Value
	}
	const low = "&cue2=19in,0.5,540g,10.6mm,0.75,Low"
	v := View{Width: 800, Height: 700, Stretch: 4}
	s, _, plain := drawn(t, "v=1&bridge=9in", v)
	want := phrase.Small(&s, math.Abs(float64(arrival("v=1&bridge=9in")-arrival("v=1&bridge=16in")))) + " apart"
	assert.False(t, plain.said(want))

	earlier, _ := scenario.Parse("v=1&bridge=16in")
	v.Earlier = &earlier
	_, _, both := drawn(t, "v=1&bridge=9in", v)
	assert.True(t, both.said(want))

	v.Earlier = nil
	want = phrase.Small(&s, math.Abs(float64(arrival("v=1&bridge=9in")-arrival("v=1&bridge=9in&pivot=19in")))) + " apart"
	_, _, one := drawn(t, "v=1&bridge=9in"+low, v)
	assert.True(t, one.said(want))
	_, _, two := drawn(t, "v=1&bridge=9in"+low+"&cue3=9.5in,0.5,540g,10.6mm,0.75,House", v)
	assert.False(t, two.said(want))
}

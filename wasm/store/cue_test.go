package store_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/cues"
	"pivotbench/core/scenario"
	"pivotbench/core/stat"
	"pivotbench/wasm/store"
)

// house is a cue of Harbour Hall's Tuesday class, with all that a record holds.
func house() store.CueRecord {
	s := scenario.Default()
	s.Ball, s.CueMass, s.Bounce, s.Side = "snooker", 0.505, 0.8, -0.3
	return store.CueRecord{
		Name: "House 4, “thin” & worn", Pivot: "9.6in", From: "9in", To: "10.3in", At: "0.5", How: "gate",
		Link: store.GearLink(&s), When: "2026-11-24T19:00:00Z",
		Shaft: "maple", Taper: "long", Ferrule: "brass, 8 mm", Hardness: "medium", Notes: "dinged near the joint.\nwiped weekly = often",
	}
}

func TestGearLinkIsTheCueAndTheBallAlone(t *testing.T) {
	assert.Equal(t, "v=1&ball=snooker&cuemass=505g&bounce=0.8", house().Link)
	s := scenario.Default()
	s.Own.Mass = scenario.Own{Set: true, Value: 0.16}
	s.Bridge, s.Pivot = 0.2, 0.3
	assert.Equal(t, "v=1&mass=160g", store.GearLink(&s))
}

func TestCueLinkRoundTrip(t *testing.T) {
	blank := store.CueRecord{How: "none", Link: "v=1"}
	for _, c := range []store.CueRecord{house(), blank} {
		text := c.Fragment()
		assert.True(t, strings.HasPrefix(text, "cue&v=1"), text)
		assert.NotContains(t, text, " ")
		for _, address := range []string{text, "#" + text, "https://example.org/bench/#" + text, text + ").", " " + text + "\n"} {
			got, err := store.ReadCue(address)
			require.NoError(t, err, address)
			assert.Equal(t, c, got)
		}
	}
}

func TestReadCueRefuses(t *testing.T) {
	whole := house()
	text := whole.Fragment()
	for address, want := range map[string]string{
		"v=1&pivot=9in":                         "not a link to a cue",
		text[:len(text)-6]:                      "cut short",
		text[:40]:                               "cut short",
		"cue":                                   "cut short",
		"cue&v=2&name=x&how=none&end":           "reads version 1",
		"cue&v=1&how=none&colour=red&end":       "“colour”",
		"cue&v=1&how=none&how=typed&end":        "given twice",
		"cue&v=1&how=none&bounce=7&end":         "bounce",
		"cue&v=1&how=none&side=0.4&end":         "“side”", // a shot's, not a cue's
		"cue&v=1&how=gate&pivot=9&at=0.5&end":   "pivot",
		"cue&v=1&how=gate&pivot=9in&at=0.9&end": "pivotspin",
		"cue&v=1&how=gate&pivot=9in&at=0.5&from=10in&to=11in&end":       "does not contain",
		"cue&v=1&how=gate&pivot=9in&at=0.5&from=x&end":                  "the interval",
		"cue&v=1&how=none&pivot=9in&at=0.5&end":                         "choose how it was measured",
		"cue&v=1&how=none&notes=" + strings.Repeat("a", 1001) + "&end":  "allowed: up to 1000",
		"cue&v=1&how=none&shaft=" + strings.Repeat("a", 61) + "&end":    "shaft: 61 characters",
		"cue&v=1&how=none&notes=" + strings.Repeat("a", 17000) + "&end": "cut short",
	} {
		got, err := store.ReadCue(address)
		require.Error(t, err, address)
		assert.Contains(t, err.Error(), want)
		assert.Zero(t, got, "nothing is taken of a link with an error")
	}
}

// Two records of one name, one without a measurement, and one whose interval
// is open above, all travel in a file; an old one has less in it.
func TestCueRecordsTravelInAFile(t *testing.T) {
	open := house()
	open.To = ""
	k := store.Records{Cues: []store.CueRecord{house(), open, {Name: "new", How: "none", Link: "v=1"}}}
	back, err := store.Decode(k.Encode())
	require.NoError(t, err)
	assert.Equal(t, k.Cues, back.Cues)

	old, err := store.Decode(`{"v": 1, "cues": [{"name": "a", "pivot": "9in", "from": "", "to": "", "at": "0.5", "how": "typed", "link": "v=1", "when": ""}]}`)
	require.NoError(t, err)
	assert.Equal(t, []store.CueRecord{{Name: "a", Pivot: "9in", At: "0.5", How: "typed", Link: "v=1"}}, old.Cues)

	_, err = store.Decode(`{"v": 4, "cues": []}`)
	assert.ErrorContains(t, err, "the file is of version 4")
}

// What a measurement shares with others comes back to three digits, and a file says
// what is wrong with it. Records without it, of earlier copies, share nothing.
func TestWhatARecordShares(t *testing.T) {
	s := scenario.Default()
	pivot := stat.Summary[float64]{Estimate: stat.Estimate[float64]{Median: 0.3, Interval: stat.Interval[float64]{From: 0.27, To: 0.33}}}
	share := cues.Share{Sitting: "Tuesday, late", By: [cues.Causes]float64{0.02, -0.031, 0, 0.004, 0.01, -0.00001}}
	made := store.Measured(&s, pivot, cues.EndMass{Spread: 0.05, Shared: []cues.Share{share}}, "marks", "Tuesday,\nlate", "2026-11-24").Clean()
	assert.Empty(t, made.Faults())
	assert.Equal(t, "0.4 -0.62 0 0.08 0.2 0", made.Shared)
	back, err := store.Decode(store.Records{Cues: []store.CueRecord{made}}.Encode())
	require.NoError(t, err)
	require.Equal(t, made, back.Cues[0])
	share.By[5] = 0
	got := back.Cues[0].SharedParts(0.05)
	require.Len(t, got, 1)
	assert.Equal(t, share.Sitting, got[0].Sitting)
	assert.InDeltaSlice(t, share.By[:], got[0].By[:], 1e-12)
	link, err := store.ReadCue(made.Fragment())
	require.NoError(t, err)
	assert.Nil(t, link.SharedParts(0.05), "who opens the link was in another sitting")

	alone := house()
	assert.Nil(t, alone.SharedParts(0.05))
	alone.Sitting = strings.Repeat("long ", 50)
	assert.Contains(t, strings.Join(alone.Faults(), "; "), "sitting: 250 characters, allowed: up to 60")
	for _, bad := range []string{"0.1", "0.9 0.9 0 0 0 0", "a b c d e f", "NaN 0 0 0 0 0", "Inf 0 0 0 0 0", "0 0 0 0 0 0 0"} {
		c := house()
		c.Shared = bad
		assert.Equal(t, []string{"shared “" + bad + "”, allowed: 6 numbers whose squares add up to 1 at most"}, c.Faults())
		assert.Nil(t, c.SharedParts(0.05), bad)
	}
}

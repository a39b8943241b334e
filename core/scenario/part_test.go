package scenario_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/scenario"
)

// A part brings all its values and nothing else.
func TestPartsAreTakenWhole(t *testing.T) {
	from, problems := scenario.Parse("v=1&units=cm&table=8ft&slide=0.3&name=House%204&pivot=9.6in&bridge=9in&side=0.2")
	assert.Empty(t, problems)
	for part, want := range map[scenario.Part]string{
		scenario.UnitsPart: "v=1&units=cm",
		scenario.TablePart: "v=1&table=8ft&slide=0.3",
		scenario.CuePart:   "v=1&name=House%204&pivot=9.6in",
	} {
		s := scenario.Default()
		assert.False(t, s.Shares(part, &from))
		s.Take(part, &from)
		assert.Equal(t, want, s.Format())
		assert.True(t, s.Shares(part, &from))
	}
}

// An override that is taken away by the taking is unset again, and a name alone makes no
// other cue.
func TestPartsUnsetAndIgnoreNames(t *testing.T) {
	def := scenario.Default()
	s, _ := scenario.Parse("v=1&slide=0.3&name=Shot%202")
	assert.True(t, s.Shares(scenario.CuePart, &def))
	s.Take(scenario.TablePart, &def)
	assert.Equal(t, "v=1&name=Shot%202", s.Format())
}

// Each key belongs to at most one part, and those of a stroke to none.
func TestKeysHaveOnePart(t *testing.T) {
	for key, want := range map[string]scenario.Part{"units": scenario.UnitsPart, "ball": scenario.TablePart, "hop": scenario.TablePart, "pivot": scenario.CuePart, "name": scenario.CuePart} {
		part, ok := scenario.PartOf(key)
		assert.True(t, ok)
		assert.Equal(t, want, part, key)
	}
	for _, key := range []string{"bridge", "gap", "cue2", "scatter", "nothing"} {
		_, ok := scenario.PartOf(key)
		assert.False(t, ok, key)
	}
}

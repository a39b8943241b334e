package view_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/scenario"
	"pivotbench/wasm/view"
)

// No source: how people say such values.
func TestSaid(t *testing.T) {
	s, problems := scenario.Parse("v=1&bridge=9in&side=-0.4&height=0&cut=12deg&back=0.75&speed=7mph&cuemass=540g&units=in")
	assert.Empty(t, problems)
	for key, want := range map[string]string{
		"bridge": "9 inches", "side": "0.40 of a ball's radius left", "height": "centre", "cut": "12 degrees to the right",
		"back": "75 per cent", "speed": "7 miles per hour", "cuemass": "540 grams",
	} {
		assert.Equal(t, want, view.ControlOf(scenario.Find(key), &s).Said(), key)
	}
	s.Units = "cm"
	assert.Equal(t, "22.86 centimetres", view.ControlOf(scenario.Find("bridge"), &s).Said())
	assert.Equal(t, "3.13 metres per second", view.ControlOf(scenario.Find("speed"), &s).Said())
}

package scenario_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
)

func TestDisplay(t *testing.T) {
	def := scenario.Default()
	for _, c := range []struct{ key, in, cm string }{
		{"bridge", "12.0 in", "30.5 cm"},
		{"gap", "2.75 in", "6.99 cm"},
		{"diam", "2.25 in", "57.2 mm"},
		{"tip", "10.6 mm", "10.6 mm"},
		{"tipwidth", "13.0 mm", "13.0 mm"},
		{"speed", "7.0 mph", "3.13 m/s"},
		{"elev", "3.0°", "3.0°"},
		{"mass", "170 g", "170 g"},
		{"spindown", "10 rad/s²", "10 rad/s²"},
		{"side", "0.40", "0.40"},
		{"roll", "0.010", "0.010"},
		{"hop", "0.50", "0.50"},
	} {
		k := scenario.Find(c.key)
		v, _ := k.Number(&def)
		assert.Equal(t, c.in, k.Display("in").Format(v), c.key)
		assert.Equal(t, c.cm, k.Display("cm").Format(v), c.key)
	}
}

func TestDisplayOf(t *testing.T) {
	assert.Equal(t, "−1.5°", scenario.DisplayOf(unit.AngleKind, "in").Format(float64(-1.5*unit.Degree)))
	assert.Equal(t, "1.50 s", scenario.DisplayOf(unit.SpanKind, "in").Format(1.5))
	assert.Equal(t, "0.69", scenario.DisplayOf(unit.Ratio, "cm").Format(0.69))
	assert.Equal(t, "25.4", scenario.DisplayOf(unit.LengthKind, "cm").Number(0.254))
}

package main

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/scripts/lib/pack"
)

func TestSample(t *testing.T) {
	s := sample{5, 1, 4, 2, 3}
	assert.Equal(t, 3.0, s.median())
	assert.Equal(t, 1.0, s.at(0))
	assert.Equal(t, 5.0, s.at(0.95))
	assert.Equal(t, sample{5, 1, 4, 2, 3}, s, "asking must not reorder it")
	assert.True(t, math.IsNaN(sample{}.median()))
	assert.Equal(t, "3 ms (1-5)", s.spread(" ms"))
	assert.Equal(t, "3.0 ms, p95 5.0", s.slowest(" ms"))
}

func TestReport(t *testing.T) {
	var r report
	r.atMost("kept", "0.50 of it", 0.5, 0.5, " of it")
	r.atMost("missed", "0.51 of it", 0.51, 0.5, " of it")
	r.within("inside", 0.9, [2]float64{0.87, 0.93})
	r.within("outside", 0.86, [2]float64{0.87, 0.93})
	r.note("noted", "7")
	var out strings.Builder
	r.print(&out)
	lines := strings.Split(strings.TrimSpace(out.String()), "\n")
	require.Len(t, lines, 5)
	assert.Regexp(t, `^kept +0\.50 of it +≤ 0\.5 of it +ok$`, lines[0])
	assert.Regexp(t, `^missed +0\.51 of it +≤ 0\.5 of it +OFF$`, lines[1])
	assert.Regexp(t, `^inside +90\.0 % +87-93 % +ok$`, lines[2])
	assert.Regexp(t, `^outside +86\.0 % +87-93 % +OFF$`, lines[3])
	assert.Regexp(t, `^noted +7\s*$`, lines[4])
}

func TestChoose(t *testing.T) {
	all, err := choose("")
	require.NoError(t, err)
	assert.Len(t, all, len(sections))

	two, err := choose("shot,size")
	require.NoError(t, err)
	require.Len(t, two, 2)
	assert.Equal(t, "size", two[0].name, "the report has its own order")
	assert.Equal(t, "shot", two[1].name)

	parts, err := choose("strokes")
	require.NoError(t, err)
	var names []string
	for _, p := range parts {
		names = append(names, p.name)
	}
	assert.Equal(t, []string{"strokes/needed", "strokes/coverage", "strokes/misfits"}, names)

	part, err := choose("strokes/coverage")
	require.NoError(t, err)
	require.Len(t, part, 1)
	assert.Equal(t, "strokes/coverage", part[0].name)

	_, err = choose("size,speed")
	assert.ErrorContains(t, err, "speed")
}

func TestFile(t *testing.T) {
	made := &pack.Report{Files: []pack.File{{Name: "page.0123456789.js"}, {Name: "page.0123456789.wasm", Raw: 7}}}
	f, err := file(made, "page.wasm")
	require.NoError(t, err)
	assert.Equal(t, 7, f.Raw)
	_, err = file(made, "table.wasm")
	assert.ErrorContains(t, err, "table.wasm")
}

// A small swing of a pendulum is a sine: the first zero of a cosine is at a quarter turn,
// accurate to a few times 1e-9 for that tolerance.
func TestIntegratorFindsAQuarterTurn(t *testing.T) {
	swing := func(_ float64, y, dy []float64) { dy[0], dy[1] = y[1], -y[0] }
	y := []float64{1, 0}
	steps := 0
	at := newIntegrator(2, 1e-9, 1e-12).follow(swing, func(y []float64) float64 { return y[0] }, 0, y, func(now float64, y []float64) {
		steps++
		assert.InDelta(t, math.Cos(now), y[0], 1e-8)
	})
	assert.InDelta(t, math.Pi/2, at, 1e-8)
	assert.InDelta(t, -1, y[1], 1e-8)
	assert.Greater(t, steps, 10, "the tolerance holds its steps")
}

func TestSteppedShotsAreTheShots(t *testing.T) {
	shots, err := presets()
	require.NoError(t, err)
	off, steps := stepped(shots)
	assert.Less(t, off, 1e-7)
	assert.Greater(t, steps, 5.0)
}

package view_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/margin"
	"pivotbench/core/scenario"
	"pivotbench/wasm/app"
	"pivotbench/wasm/view"
)

func TestMarginWords(t *testing.T) {
	s := scenario.Default()
	for _, units := range []string{"in", "cm"} {
		s.Units = units
		assert.Len(t, view.Effects(&s), len(margin.Inputs))
		for _, e := range view.Effects(&s) {
			assert.Regexp(t, `(left|right|on the line)$`, e.Value)
		}
	}
	// With no scatter the default shot, aimed right, is certain.
	m := app.Update(app.Start(), app.AimIt{})
	for _, part := range []string{"tip", "speed", "bridge", "elev", "aim"} {
		k := scenario.Find("scatter." + part)
		require.Nil(t, k.Set(&m.Scene, "0"+k.Unit, ""))
	}
	for _, c := range view.Chances(&m.Scene, margin.NewSampler(64), false) {
		assert.Equal(t, "over 99 %", c.Value, c.Name)
	}
	// Aimed wide of it all, it is as good as certain to fail.
	wide := app.Update(m, app.Set{Key: "bridge", Text: "5in"})
	wide = app.Update(wide, app.Set{Key: "side", Text: "0.55"})
	assert.Equal(t, "under 1 %", view.Chances(&wide.Scene, margin.NewSampler(64), false)[1].Value)
	assert.Equal(t, "Counted over 10000 strokes with your errors; good to about 1 %.", view.ChancesNote(10000))
	assert.Contains(t, view.ChancesNote(400), "about 4 %")
}

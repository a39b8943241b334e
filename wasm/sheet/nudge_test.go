package sheet_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/scenario"
	"pivotbench/wasm/sheet"
)

// An arrow key moves a handle to its next step, whatever the sheet's size, and not beyond
// its limit. No source: the steps are those of a drag.
func TestNudge(t *testing.T) {
	s, problems := scenario.Parse("v=1&bridge=9in&gap=2.75in")
	assert.Empty(t, problems)
	for _, v := range []sheet.View{{Width: 320, Height: 300, Stretch: 4}, {Width: 1900, Height: 1000, Stretch: 1}} {
		for _, c := range []struct {
			id   sheet.HandleID
			x, y float64
			slow bool
			want string
		}{
			{sheet.BridgeHandle, 0, 1, false, "9.5in"},
			{sheet.BridgeHandle, 0, -1, false, "8.5in"},
			{sheet.BridgeHandle, 0, 1, true, "9.1in"},
			{sheet.BridgeHandle, 1, 0, false, "9in"},
			{sheet.GapHandle, 1, 0, false, "2.8in"},
			{sheet.TargetHandle, 0, -1, false, "36.5in"},
			{sheet.TipHandle, -1, 0, false, "0.38"},
		} {
			sets := sheet.Nudge(&s, v, c.id, c.x, c.y, c.slow)
			assert.Equal(t, c.want, sets[0].Text, "%s %v", c.id, c)
			assert.Equal(t, c.id.Keys()[0], sets[0].Key)
		}
	}
}

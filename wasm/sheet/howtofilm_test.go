package sheet_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/wasm/sheet"
)

// Both drawings stay on their sheets, texts included: a letter is at most 0.6 of its size
// wide (common practice, no source).
func TestHowToFilmStaysOnTheSheet(t *testing.T) {
	for name, sh := range map[string]sheet.Sheet{"plan": sheet.FilmPlan(), "side": sheet.FilmSide()} {
		on := func(p sheet.Point) {
			assert.True(t, p.X >= 0 && p.X <= sh.Width && p.Y >= 0 && p.Y <= sh.Height, "%s: %v", name, p)
		}
		for _, item := range sh.Items {
			switch it := item.(type) {
			case sheet.Path:
				for _, p := range it.Points {
					on(p)
				}
			case sheet.Circle:
				on(sheet.Point{X: it.At.X - it.Radius, Y: it.At.Y - it.Radius})
				on(sheet.Point{X: it.At.X + it.Radius, Y: it.At.Y + it.Radius})
			case sheet.Text:
				wide := 0.6 * it.Size * float64(len(it.Words))
				from := map[sheet.Anchor]float64{sheet.FromStart: 0, sheet.Middle: 0.5, sheet.ToEnd: 1}[it.Anchor]
				on(sheet.Point{X: it.At.X - from*wide, Y: it.At.Y - it.Size})
				on(sheet.Point{X: it.At.X + (1-from)*wide, Y: it.At.Y})
			}
		}
	}
}

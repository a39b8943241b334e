//go:build browser

package site_test

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"image/png"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// pixel returns the colour of the page at a point in CSS format.
func (b *bench) pixel(t *testing.T, x, y float64) string {
	t.Helper()
	var got struct{ Data string }
	require.NoError(t, b.CDP("Page.captureScreenshot", map[string]any{
		"format": "png", "clip": map[string]float64{"x": x, "y": y, "width": 1, "height": 1, "scale": 1},
	}, &got))
	data, err := base64.StdEncoding.DecodeString(got.Data)
	require.NoError(t, err)
	picture, err := png.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	red, green, blue, _ := picture.At(0, 0).RGBA()
	return fmt.Sprintf("rgb(%d, %d, %d)", red>>8, green>>8, blue>>8)
}

// In forced colours mode everything uses the user's colours: selections, the focus,
// the charts, and the sheet on the canvas.
func testForcedColours(t *testing.T, b *bench) {
	b.media(t, "forced-colors", "active")
	defer b.media(t, "forced-colors", "")
	b.open(t, "card")
	b.wait(t, `document.querySelector("#card-chart .s-way")`)
	got := eval[map[string]string](t, b.Session, `
		const colour = (name) => {
			const probe = document.createElement("i");
			probe.style.setProperty("forced-color-adjust", "none");
			probe.style.color = name;
			document.body.append(probe);
			const found = getComputedStyle(probe).color;
			probe.remove();
			return found;
		};
		const of = (selector, name) => getComputedStyle(document.querySelector(selector))[name];
		document.querySelector('.tabs [data-section="card"]').focus();
		return {
			canvas: colour("Canvas"), words: colour("CanvasText"), link: colour("LinkText"), chosen: colour("Highlight"), onChosen: colour("HighlightText"),
			tab: of('.tabs [aria-current="true"]', "backgroundColor"), tabWords: of('.tabs [aria-current="true"]', "color"), other: of('.tabs [aria-current="false"]', "backgroundColor"),
			ring: of('.tabs [aria-current="true"]', "outlineColor"),
			pressed: of('.stretch [aria-pressed="true"]', "backgroundColor"),
			chart: of("#card-chart .s-way", "stroke"), ground: of("#card-chart svg", "backgroundColor"), axis: of("#card-chart .f-line", "fill"),
			saidWords: of("#said", "color"), said: of("#said", "backgroundColor"),
		}`)
	for what, like := range map[string]string{
		"tab": "chosen", "tabWords": "onChosen", "ring": "onChosen", "pressed": "chosen",
		"chart": "link", "ground": "canvas", "axis": "words", "saidWords": "words", "said": "canvas",
	} {
		assert.Equal(t, got[like], got[what], what)
	}
	assert.NotEqual(t, got["tab"], got["other"])
	at := eval[[2]float64](t, b.Session, `const r = document.getElementById("table").getBoundingClientRect(); return [r.left + 4, r.top + 4]`)
	for range 40 { // the canvas needs time to draw its frame
		if b.pixel(t, at[0], at[1]) == got["canvas"] {
			break
		}
		require.NoError(t, b.Eval(`return new Promise((done) => setTimeout(done, 100))`, nil))
	}
	assert.Equal(t, got["canvas"], b.pixel(t, at[0], at[1]), "the sheet")
}

//go:build browser

package site_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/scripts/lib/webdriver"
	"pivotbench/wasm/app"
)

// Several cues in turn, by what only a browser shows: a mark is dragged on the sheet, and
// the field follows; a cue is renamed; a mark on the wrong side is moved; scripts read
// the pivot length.
func testSitting(t *testing.T, b *bench) {
	require.NoError(t, b.Viewport(1280, 800, 1, false))
	b.load(t, "v=1&speed=12mph&elev=1deg&back=0&side=0.4", "board")
	b.open(t, "measure")
	b.press(t, `[data-do="clear-strokes"]`) // from another test
	b.fill(t, "mark-line", "")
	b.wait(t, `document.querySelector('[data-reading="pivot-measured"]').dataset.why === "no strokes yet"`)
	assert.Empty(t, b.value(t, "pivot-measured"))

	b.choose(t, "#measuring", "House 3")
	b.drag(t, webdriver.Mouse, "mark", -60, 0)
	b.wait(t, `parseFloat(document.getElementById("mark-text").value) < -1`)
	assert.Regexp(t, `^-\d\.\d$`, eval[string](t, b.Session, `return document.getElementById("mark-text").value`), "in whole steps")
	b.press(t, `[data-do="add-mark"]`)
	b.fill(t, "mark-text", "-1 31/32, -1 7/8")
	b.press(t, `[data-do="add-mark"]`)
	b.choose(t, "#measuring", "Slender")
	b.fill(t, "mark-text", "-0.7")
	b.press(t, `[data-do="add-mark"]`)
	b.wait(t, `document.querySelectorAll("#strokes tr[data-stroke]").length === 4 && !document.getElementById("which").hidden`)
	assert.Equal(t, []string{"House 3 (3)", "Slender (1)"}, b.texts(t, "#sitting-cues button"))
	assert.Contains(t, b.texts(t, "#others")[0], "Slender squirts less:")

	b.press(t, `[data-do="rename-cue"]`)
	b.fill(t, "new-name", "Harbour low")
	b.press(t, `[data-do="rename-take"]`)
	b.wait(t, `document.getElementById("rename").hidden && document.getElementById("sitting-cues").textContent.includes("Harbour low (1)")`)
	b.press(t, `#sitting-cues [data-index="0"]`)
	b.wait(t, `document.getElementById("measuring").value === "House 3" && document.getElementById("finding").dataset.value !== ""`)
	span := eval[[]float64](t, b.Session, `const d = document.getElementById("finding").dataset; return [+d.from, +d.value, +d.to]`)
	assert.Less(t, 0.05, span[0], "in metres")
	assert.Less(t, span[0], span[1])
	assert.Less(t, span[1], span[2])

	b.fill(t, "mark-text", "1.9")
	b.press(t, `[data-do="add-mark"]`)
	b.wait(t, `!document.getElementById("other-side").hidden`)
	b.press(t, `[data-do="flip-mark"]`)
	b.wait(t, `document.getElementById("other-side").hidden`)
	assert.Equal(t, "-1.9in", b.kept(t).Strokes[4].Mark)

	// A stroke on the wrong side that was noted long ago is asked about as well.
	b.press(t, `[data-do="undo"]`)
	require.NoError(t, b.Reload())
	b.wait(t, `document.documentElement.dataset.state !== "still"`)
	b.open(t, "measure")
	b.wait(t, `document.getElementById("next").textContent.startsWith("Before the next stroke, check stroke 5:")`)
	b.press(t, `[data-do="leave-mark"]`)
	b.wait(t, `document.getElementById("other-side").hidden && document.getElementById("fit").textContent.startsWith("Stroke 5 fits far better")`)
	b.press(t, `[data-do="clear-strokes"]`)
}

// Measuring at the table on a phone, upright and on its side, by touch alone and by
// keyboard alone.
func TestAtTable(t *testing.T) {
	for _, engine := range engines {
		t.Run(string(engine), func(t *testing.T) {
			w := walkerIn(t, engine)
			for _, screen := range phones(engine) {
				// In Firefox Tab leaves the page for the browser's own buttons, and no key
				// of a driver gets there.
				w.keys = screen.w > screen.h && engine != webdriver.Firefox
				w.visit(t, screen, "#v=1&speed=12mph&elev=1deg")
				require.NoError(t, w.Wait(`document.documentElement.dataset.state === "board"`, startup))
				w.press(t, `.tabs [data-section="measure"]`)
				w.atTable(t, fmt.Sprint("House ", screen.w))
			}
		})
	}
}

// atTable measures a cue at the table.
func (w *walker) atTable(t *testing.T, cue string) {
	t.Helper()
	w.press(t, `[data-do="table-open"]`)
	w.wait(t, `document.activeElement.id === "at-name"`)
	require.NoError(t, w.Keys(cue, webdriver.KeyEnter))
	w.wait(t, `document.documentElement.dataset.at === "gate"`)
	w.wait(t, `/^Bridge \d+ in, back hand|^Cue parallel/.test(document.getElementById("at-next").innerText)`)
	for n, outcome := range []string{"right", "left"} {
		w.press(t, `[data-outcome="`+outcome+`"]`)
		w.wait(t, fmt.Sprintf(`document.getElementById("at-last").textContent === "Stroke %d: hit %s" && !document.getElementById("at-play").classList.contains("waiting")`, n+1, outcome))
	}
	for _, k := range w.kept(t).Strokes {
		assert.Equal(t, cue, k.Cue)
		m := app.Update(app.Start(), app.Open{Link: k.Link})
		assert.Contains(t, []float64{0.17, 0.33}, max(m.Scene.Side, -m.Scene.Side), "half a tip or a whole one")
	}
	w.press(t, `[data-do="take-back"]`)
	w.wait(t, `document.getElementById("at-last").textContent === "Stroke 1: hit right"`)
	w.inSight(t, `#at-next, #at-last, .outcomes button, .at button`)

	w.reload(t)
	w.wait(t, `document.documentElement.dataset.at === "gate"`)
	w.press(t, `[data-by="mark"]`)
	w.wait(t, `document.documentElement.dataset.at === "mark"`)
	w.write(t, "#mark-text", "-1 7/8")
	w.press(t, `[data-do="add-mark"]`)
	w.wait(t, `/^Stroke 2: 1.8[78] in left$/.test(document.getElementById("at-last").textContent)`)

	// A mark on the wrong side is asked about where it is seen. One step back takes the
	// stroke and the suggestion after it.
	w.write(t, "#mark-text", "1 7/8")
	w.press(t, `[data-do="add-mark"]`)
	w.wait(t, `!document.getElementById("other-side").hidden`)
	w.inSight(t, `#other-side, #other-side button, .at-last button`)
	w.press(t, `[data-do="leave-mark"]`)
	w.wait(t, `document.getElementById("other-side").hidden && !document.getElementById("at-play").classList.contains("waiting")`)
	require.NoError(t, w.Eval(`document.getElementById("at-play").focus()`, nil))
	require.NoError(t, w.Chord(webdriver.KeyControl, "z"))
	w.wait(t, `/^Stroke 2: /.test(document.getElementById("at-last").textContent)`)

	w.drag(t, webdriver.Touch, "mark", 40, 0)
	w.wait(t, `!isNaN(parseFloat(document.getElementById("mark-text").value))`)
	require.NoError(t, w.Keys(webdriver.KeyEscape))
	w.wait(t, `!document.documentElement.dataset.at && document.activeElement.dataset.do === "table-open"`)
	assert.False(t, eval[bool](t, w.Session, `return Array.from(document.querySelectorAll(".at")).some((el) => el.checkVisibility())`), "nothing of it is left in the section")
}

// inSight checks that what is shown of some elements is in sight, and its buttons large
// enough for a thumb.
func (w *walker) inSight(t *testing.T, selector string) {
	t.Helper()
	require.NoError(t, w.Eval(`document.querySelector(".panel").scrollTop = 0`, nil))
	assert.Empty(t, eval[[]string](t, w.Session, `return Array.from(document.querySelectorAll(`+quoted(selector)+`))
		.filter((el) => el.checkVisibility()).filter((el) => {
			const r = el.getBoundingClientRect();
			return r.left < 0 || r.right > innerWidth || r.top < 0 || r.bottom > innerHeight || el.localName === "button" && (r.width < 44 || r.height < (el.dataset.outcome ? 76 : 44) || el.scrollWidth > el.clientWidth + 1 && el.dataset.do !== "ask-cue"); // a long name is cut short there
		}).map((el) => el.outerHTML + JSON.stringify(el.getBoundingClientRect()))`))
}

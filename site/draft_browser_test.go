//go:build browser

package site_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
)

// Unfinished input is restored when the page is reloaded, once and in the units in
// which it was typed.
func TestDrafts(t *testing.T) {
	for _, engine := range engines {
		run := tests{"Reloaded": testDraftsReloaded}
		if slices.Contains(one, engine) {
			run["Junk"] = testJunkVisits
		}
		in(t, engine, releaseHandler(t), run)
	}
}

// again reloads the page and waits until it responds.
func (b *bench) again(t *testing.T) {
	t.Helper()
	require.NoError(t, b.Reload())
	require.NoError(t, b.Wait(`document.documentElement.dataset.state !== "still"`, startup))
}

func testDraftsReloaded(t *testing.T, b *bench) {
	b.loadSoon(t, "v=1&units=cm")
	value := func(id string) string {
		return eval[string](t, b.Session, `return document.getElementById(`+quoted(id)+`).value`)
	}
	b.open(t, "instruments")
	assert.Equal(t, "127", value("speed-length"), "50 in")
	b.fill(t, "speed-length", "152.4")
	b.fill(t, "marks-length", "60 1/2 in")
	b.fill(t, "elev-apart", "30") // the page's initial value, but in inches
	b.choose(t, "#ball-how", "round")
	b.choose(t, "#speed-by", "sound")
	b.open(t, "measure")
	b.fill(t, "mark-text", "-1 7/8")
	b.open(t, "cues")
	b.press(t, `[data-do="new-cue"]`)
	b.fill(t, "cue-pivot-field", "25.4")
	b.fill(t, "cue-notes-field", "two\nlines & = %")
	b.open(t, "shot")
	require.NoError(t, b.Eval(`document.getElementById("object").click(); document.getElementById("band").click()`, nil))
	b.open(t, "lessons")
	b.press(t, `[data-do="lesson-new"]`)
	require.NoError(t, b.Eval(`const el = document.querySelector("#lesson-edits textarea"); el.focus(); el.value = "half a cap"; el.dispatchEvent(new Event("input", {bubbles: true}))`, nil))

	for range 2 {
		b.again(t)
		assert.Equal(t, "lessons", eval[string](t, b.Session, `return document.documentElement.dataset.section`))
		assert.Equal(t, "half a cap", eval[string](t, b.Session, `return document.querySelector("#lesson-edits textarea").value`))
		for id, want := range map[string]string{
			"speed-length": "152.4", "marks-length": "60 1/2 in", "marks-third": "127", "elev-apart": "30", "ball-how": "round",
			"cue-pivot-field": "25.4", "cue-notes-field": "two\nlines & = %",
		} {
			assert.Equal(t, want, value(id), id)
		}
		assert.Equal(t, []string{"Start listening"}, b.texts(t, `[data-watch="speed"]`))
		for _, id := range []string{"object", "band"} {
			assert.True(t, eval[bool](t, b.Session, `return document.getElementById(`+quoted(id)+`).checked`), id)
		}
	}
	assert.Equal(t, "half a cap", b.kept(t).Lessons[0].Steps[0].Caption, "it is kept")
	b.open(t, "measure")
	b.wait(t, `document.getElementById("mark-text").value === "-1 7/8"`)
	assert.Empty(t, eval[[]string](t, b.Session, `return Array.from(document.querySelectorAll(".panel :is(input, select, textarea):not([type=file])"))
		.filter((el) => el.autocomplete !== "off" && (!el.form || el.form.autocomplete !== "off")).map((el) => el.outerHTML)`), "what a browser would put back by itself")

	// When the units change, the draft keeps its own units until it is saved.
	b.open(t, "shot")
	b.choose(t, "#f-units", "in")
	b.open(t, "cues")
	b.fill(t, "cue-name-field", "House 3")
	require.NoError(t, b.Eval(`document.getElementById("cue-form").requestSubmit()`, nil))
	b.wait(t, `document.getElementById("cue-form").hidden`)
	cues := b.kept(t).Cues
	require.Len(t, cues, 1)
	assert.Equal(t, store.Length(0.254), cues[0].Pivot)
	b.open(t, "instruments")
	assert.Equal(t, "60", value("speed-length"), "152.4 cm")
	b.open(t, "lessons")
	b.press(t, `[data-do="lesson-close"]`)
}

// The page starts whatever the saved visit contains.
func testJunkVisits(t *testing.T, b *bench) {
	b.loadSoon(t, "v=1")
	odd := app.Visit{Section: "cues", Units: "cm", Fields: []app.Field{{Name: "no-such"}, {Name: `caption "]`}, {Name: "cue-form", Text: "x"}, {Name: "ball-how", Text: "?"}}}
	for _, text := range []string{odd.Format(), "lessons own lesson&v=1&shipped=squirt&at=-5", "visit&v=2&section=lessons&lesson=lesson%26v%3D1%26shipped%3Dsquirt%26at%3D-5&own=1"} {
		// A page that closes overwrites the saved visit.
		require.NoError(t, b.Eval(`const text = arguments[0], set = Storage.prototype.setItem;
			Storage.prototype.setItem = function (key, value) { set.call(this, key, key === "pivotbench-place" ? text : value); };
			return true`, nil, text))
		b.again(t)
		assert.Equal(t, "live", eval[string](t, b.Session, `const {state} = document.documentElement.dataset; return state === "board" ? "live" : state`), text)
		b.open(t, "shot")
		assert.Equal(t, "across", eval[string](t, b.Session, `return document.getElementById("ball-how").value`))
	}
}

//go:build browser

package site_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/scripts/lib/webdriver"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
)

// sliderNames are the slider names that Chromium gives to a screen reader. Its tools
// give only the number of a value, whatever aria-valuetext says.
func (b *bench) sliderNames(t *testing.T) []string {
	t.Helper()
	var tree struct {
		Nodes []struct {
			Ignored    bool
			Role, Name struct{ Value string }
		}
	}
	require.NoError(t, b.CDP("Accessibility.getFullAXTree", nil, &tree))
	var found []string
	for _, n := range tree.Nodes {
		if !n.Ignored && n.Role.Value == "slider" {
			found = append(found, n.Name.Value)
		}
	}
	return found
}

// Sliders have a name and a value in words that is kept up to date.
func testHeardSliders(t *testing.T, b *bench) {
	said := func(key string) string {
		t.Helper()
		return eval[string](t, b.Session, `return document.querySelector('[type="range"][data-set="`+key+`"]').ariaValueText`)
	}
	b.open(t, "shot")
	b.show(t, "v=1&bridge=9in")
	require.NoError(t, b.Eval(`for (const el of document.querySelectorAll("details")) el.open = true`, nil))
	names := b.sliderNames(t)
	assert.Greater(t, len(names), 20)
	assert.NotContains(t, names, "")
	assert.Contains(t, names, "Bridge, slider")
	assert.Equal(t, "9 inches", said("bridge"))
	assert.Equal(t, "3 degrees", said("elev"))
	require.NoError(t, b.Eval(`document.querySelector('[type="range"][data-set="bridge"]').focus()`, nil))
	require.NoError(t, b.Keys(webdriver.KeyArrowRight))
	assert.Equal(t, "9.1 inches", said("bridge"))
	assert.Empty(t, eval[[]string](t, b.Session, `return Array.from(document.querySelectorAll('.control [type="range"][data-unit]'))
		.filter((el) => el.dataset.unit && !/ (inches|centimetres|millimetres|degrees|miles per hour|grams)|straight/.test(el.ariaValueText)).map((el) => el.dataset.set + ": " + el.ariaValueText)`), "with the unit in words")
}

// The result of the shot is announced once per gesture, not for every pixel.
func testSaidOnce(t *testing.T, b *bench) {
	const verdict, spoken = `document.getElementById("verdict").textContent.trim().replace(/\s+/g, " ")`, `document.getElementById("spoken").textContent`
	said := func() {
		t.Helper()
		b.wait(t, verdict+` === `+spoken)
	}
	b.open(t, "shot")
	// What a section announces when it opens can also be read.
	require.NoError(t, b.Eval(`return new Promise((done) => setTimeout(done, 1000))`, nil))
	b.show(t, "v=1&bridge=10in")
	said()
	before := eval[string](t, b.Session, `return `+spoken)
	require.NoError(t, b.Eval(`document.querySelector('[type="range"][data-set="bridge"]').focus()`, nil))
	require.NoError(t, b.Keys(strings.Repeat(webdriver.KeyArrowRight, 4)))
	b.wait(t, spoken+` !== `+quoted(before))
	said()

	require.NoError(t, b.Eval(`
		window.heard = 0;
		const live = '[aria-live]:not([aria-live="off"]), [role="status"], [role="alert"], output:not([aria-live="off"])';
		window.ear = new MutationObserver((changes) => { if (changes.some(({target}) => (target.closest ? target : target.parentElement).closest(live))) heard++; });
		ear.observe(document.body, {childList: true, characterData: true, subtree: true})`, nil))
	x, y := b.handle(t, "bridge")
	require.NoError(t, b.Drag(webdriver.Mouse, x, y, x, y+60, 40))
	said()
	heard := eval[int](t, b.Session, `ear.disconnect(); return heard`)
	assert.GreaterOrEqual(t, heard, 1)
	assert.LessOrEqual(t, heard, 3)
}

// The full-screen board has no sliders. Its handles respond to the arrow keys and
// report their position, and the result is announced.
func testBoardByKeys(t *testing.T, b *bench) {
	require.NoError(t, b.Get("about:blank"))
	require.NoError(t, b.Get(b.address+"table.html#v=1&bridge=9in"))
	b.wait(t, `document.querySelectorAll('.handle[role="slider"]').length === 6`)
	require.NoError(t, b.Eval(`document.querySelector('[data-handle="bridge"]').focus()`, nil))
	require.NoError(t, b.Keys(webdriver.KeyArrowDown))
	const moved = "v=1&bridge=9.5in"
	b.waitHash(t, moved)
	b.wait(t, `document.querySelector('[data-handle="bridge"]').getAttribute("aria-valuetext") === "9.5 in"`)
	m := app.Update(app.Start(), app.First{Link: moved})
	said := phrase.Verdict(&m.Scene, &m.Play().Reading)
	b.wait(t, `document.getElementById("spoken").textContent === `+quoted(said.Head+", "+said.Detail))
	require.NoError(t, b.Eval(`document.querySelector('[data-handle="tip"]').focus()`, nil))
	require.NoError(t, b.Keys(webdriver.KeyArrowRight))
	b.wait(t, `location.hash.includes("side=0.42")`)
}

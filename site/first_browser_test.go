//go:build browser

package site_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The first minute of a new user: the start on a first visit, its doors, and gear that
// stays on the device.
func TestFirstMinute(t *testing.T) {
	inOne(t, releaseHandler(t), tests{"Start": testStart, "Example": testExample})
}

const startShown = `document.documentElement.hasAttribute("data-start") && document.getElementById("start").checkVisibility()`

// firstVisit loads the page without a link on a device that has not seen it.
func (b *bench) firstVisit(t *testing.T) {
	t.Helper()
	require.NoError(t, b.Get(b.address+"nothing")) // the same origin, without a program that keeps anything
	require.NoError(t, b.Eval(`localStorage.clear(); sessionStorage.clear()`, nil))
	require.NoError(t, b.Get(b.address))
}

// The readings are live beside the start. What is chosen there stays through a reload and
// through the link of another, and a known device opens on the shot.
func testStart(t *testing.T, b *bench) {
	b.firstVisit(t)
	assert.True(t, eval[bool](t, b.Session, `return `+startShown), "before the program runs too")
	require.NoError(t, b.Wait(`document.documentElement.dataset.state !== "still"`, startup))
	b.wait(t, startShown)
	assertReadings(t, "v=1", b.readings(t))
	for _, empty := range []string{"measure: #no-strokes", "cues: #no-cues", "lessons: #no-lessons", "players: #no-players", "instruments: #no-tables"} {
		section, list, _ := strings.Cut(empty, ": ")
		b.press(t, `.tabs [data-section="`+section+`"]`)
		b.wait(t, `document.querySelector(`+quoted(list)+`).checkVisibility()`)
	}
	b.press(t, `[data-do="start"]`)
	b.wait(t, startShown)
	b.choose(t, "#gear-table", "8ft")
	b.choose(t, "#gear-units", "cm")
	b.waitHash(t, "v=1&table=8ft&units=cm")
	b.again(t)
	b.wait(t, startShown)
	b.press(t, `[data-door="measure"]`)
	b.wait(t, `document.documentElement.dataset.section === "measure" && !document.getElementById("step").hidden`)
	assert.False(t, eval[bool](t, b.Session, `return `+startShown))
	b.press(t, `[data-do="step-done"]`)
	assert.True(t, eval[bool](t, b.Session, `return document.getElementById("step").hidden`))

	b.loadSoon(t, "v=1&table=7ft")
	assert.False(t, eval[bool](t, b.Session, `return `+startShown), "a link goes to its shot")
	b.wait(t, `!document.getElementById("gear").hidden`)
	b.press(t, `[data-do="use-gear"]`)
	b.waitHash(t, "v=1&table=8ft&units=cm")
	assert.True(t, eval[bool](t, b.Session, `return document.getElementById("gear").hidden`))

	require.NoError(t, b.Get("about:blank"))
	require.NoError(t, b.Get(b.address))
	require.NoError(t, b.Wait(`document.documentElement.dataset.state !== "still"`, startup))
	b.waitHash(t, "v=1&table=8ft&units=cm") // a copied address is the whole shot
	assert.False(t, eval[bool](t, b.Session, `return `+startShown))
	b.press(t, `[data-do="start"]`)
	b.wait(t, startShown+` && document.activeElement.closest("#start")`)
	b.press(t, `[data-do="start-close"]`)
	assert.False(t, eval[bool](t, b.Session, `return `+startShown))
}

// The example is a place of its own: what is done there is gone, a reload comes back to
// it, and one tap brings back the user's own page with what was typed there.
func testExample(t *testing.T, b *bench) {
	b.loadSoon(t, "v=1&bridge=9in")
	b.open(t, "measure")
	b.note(t, "left")
	b.fill(t, "mark-text", "-1 7/8")
	own := eval[string](t, b.Session, `return localStorage.getItem("pivotbench-kept")`)
	strokes := func(n int) {
		t.Helper()
		b.wait(t, fmt.Sprintf(`document.querySelectorAll("#strokes tr[data-stroke]").length === %d`, n))
	}
	marked := func(want bool) {
		t.Helper()
		b.wait(t, fmt.Sprintf(`document.getElementById("example").checkVisibility() === %v`, want))
	}
	marked(false)
	b.press(t, `[data-do="start"]`)
	b.press(t, `[data-do="example"]`)
	marked(true)
	b.wait(t, `document.querySelectorAll("#cues > li").length === 3`)
	for _, section := range b.sections(t) {
		b.press(t, `.tabs [data-section="`+section+`"]`)
		marked(true)
	}
	b.open(t, "measure")
	strokes(32)
	b.note(t, "right")
	strokes(33)
	assert.Empty(t, eval[string](t, b.Session, `return document.getElementById("mark-text").value`))
	b.fill(t, "mark-text", "2")
	b.again(t)
	marked(true)
	strokes(32)
	assert.Equal(t, "2", eval[string](t, b.Session, `return document.getElementById("mark-text").value`))
	assert.Equal(t, own, eval[string](t, b.Session, `return localStorage.getItem("pivotbench-kept")`))
	b.press(t, `[data-do="example-leave"]`)
	marked(false)
	strokes(1)
	b.waitHash(t, "v=1&bridge=9in")
	assert.Equal(t, "-1 7/8", eval[string](t, b.Session, `return document.getElementById("mark-text").value`))
	assert.Equal(t, own, eval[string](t, b.Session, `return localStorage.getItem("pivotbench-kept")`))
}

//go:build browser

package site_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The first minute of a new user: the start on a first visit, its doors, and gear that
// stays on the device.
func TestFirstMinute(t *testing.T) {
	inOne(t, releaseHandler(t), tests{"Start": testStart})
}

const startShown = `document.documentElement.hasAttribute("data-start") && document.getElementById("start").checkVisibility()`

// The readings are live beside the start. What is chosen there stays through a reload and
// through the link of another, and a known device opens on the shot.
func testStart(t *testing.T, b *bench) {
	require.NoError(t, b.Get(b.address))
	assert.True(t, eval[bool](t, b.Session, `return `+startShown), "before the program runs too")
	require.NoError(t, b.Wait(`document.documentElement.dataset.state !== "still"`, startup))
	b.wait(t, startShown)
	assertReadings(t, "v=1", b.readings(t))
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

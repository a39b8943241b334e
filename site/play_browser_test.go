//go:build browser

package site_test

import (
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
)

func TestPlay(t *testing.T) {
	inOne(t, releaseHandler(t), tests{
		"ByScrubberAndStep": testScrubber,
		"InRealTime":        testRealTime,
		"OnTheBoard":        testPlayOnTheBoard,
	})
}

// moment returns the time that the sheet shows; "" at rest.
func (b *bench) moment(t *testing.T) string {
	t.Helper()
	return eval[string](t, b.Session, `return document.getElementById("play").dataset.on === "true" ? document.getElementById("moment").dataset.time : ""`)
}

func (b *bench) seek(t *testing.T, at string) {
	t.Helper()
	require.NoError(t, b.Eval(`const el = document.getElementById("time"); el.value = arguments[0];
		el.dispatchEvent(new Event("input", {bubbles: true}))`, nil, at))
}

// Each moment shows what the native computation gives.
func testScrubber(t *testing.T, b *bench) {
	const link = "v=1&bridge=9in"
	b.show(t, link)
	m := app.Update(app.Start(), app.First{Link: link})
	line, err := m.Timeline()
	require.NoError(t, err)
	says := func() {
		t.Helper()
		at, err := strconv.ParseFloat(b.moment(t), 64)
		require.NoError(t, err)
		f := line.At(unit.Span(at))
		assert.Equal(t, phrase.Moment(&m.Scene, &f), eval[string](t, b.Session, `return document.getElementById("moment").textContent`))
	}
	assert.Empty(t, b.moment(t))
	for _, at := range []string{"0.05", "0.1", "0.2"} {
		b.seek(t, at)
		says()
	}
	require.NoError(t, b.Eval(`document.querySelector('[data-do="step-on"]').click()`, nil))
	assert.InDelta(t, float64(line.To), mustFloat(t, b.moment(t)), 1e-9, "it meets the blocker next")
	says()
	b.choose(t, "#f-bridge", "10")
	assert.Empty(t, b.moment(t), "another shot is seen at rest")
	assert.NotContains(t, b.hash(t), "time", "and none of it is in the link")
}

func mustFloat(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}

// The playback runs to its end and is drawn meanwhile. Then the drawing stops.
func testRealTime(t *testing.T, b *bench) {
	b.show(t, "v=1&speed=3mph")
	const frames = `return document.getElementById("table").contentWindow.framesDrawn`
	before := eval[int](t, b.Session, frames)
	b.press(t, `[data-do="play"]`)
	b.wait(t, `document.querySelector('[data-do="play"]').textContent === "Pause"`)
	b.press(t, `[data-do="play"]`)
	b.wait(t, `document.querySelector('[data-do="play"]').textContent === "Play"`)
	held := b.moment(t)
	require.NotEmpty(t, held)
	time.Sleep(300 * time.Millisecond)
	assert.Equal(t, held, b.moment(t), "held")
	b.press(t, `[data-do="play"]`)
	b.wait(t, `document.querySelector('[data-do="play"]').textContent === "Play" && document.getElementById("moment").dataset.time === document.getElementById("time").max`)
	drawn := -1
	require.Eventually(t, func() bool { // software rendering may take a while to finish
		was := drawn
		drawn = eval[int](t, b.Session, frames)
		return was == drawn
	}, patience, time.Second)
	assert.Greater(t, drawn, before+2)
}

// The full-screen board, which has no page around it, plays its shot by itself.
func testPlayOnTheBoard(t *testing.T, b *bench) {
	defer b.load(t, "v=1", "board") // restore the page for the following tests
	const link = "v=1&speed=3mph"
	require.NoError(t, b.Get(b.address+"table.html#"+link))
	require.NoError(t, b.Wait(`window.framesDrawn > 0`, startup))
	b.wait(t, `!document.getElementById("run").hidden`)
	m := app.Update(app.Start(), app.First{Link: link})
	line, err := m.Timeline()
	require.NoError(t, err)
	last := line.At(line.To)
	end := phrase.Moment(&m.Scene, &last)
	key := func(name string) {
		t.Helper()
		require.NoError(t, b.Eval(`document.body.dispatchEvent(new KeyboardEvent("keydown", {key: arguments[0], bubbles: true}))`, nil, name))
	}

	assert.Empty(t, b.text(t, "moment"))
	key(" ")
	b.wait(t, `document.getElementById("moment").textContent !== ""`)
	key("p")
	b.wait(t, `document.getElementById("run").textContent === "Play"`)
	held := b.text(t, "moment")
	assert.NotEqual(t, end, held, "held on its way")
	time.Sleep(300 * time.Millisecond)
	assert.Equal(t, held, b.text(t, "moment"))
	b.press(t, "#slow")
	assert.Equal(t, "true", eval[string](t, b.Session, `return document.getElementById("slow").getAttribute("aria-pressed")`))
	b.press(t, "#slow")
	b.press(t, "#run")
	b.wait(t, `document.getElementById("moment").textContent === `+quoted(end))
	b.atRest(t)
	key("Escape")
	b.wait(t, `document.getElementById("moment").textContent === "" && document.getElementById("slow").hidden`)

	require.NoError(t, b.Eval(`location.hash = "v=1&side=0.79"`, nil))
	b.wait(t, `document.getElementById("run").disabled`)
}

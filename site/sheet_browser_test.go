//go:build browser

package site_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/scripts/lib/webdriver"
)

// handles lists the handles with the distance to drag each one, and the direction in
// which its keys change.
var handles = []struct {
	id     string
	dx, dy float64
	ways   map[string]float64
}{
	{"bridge", 0, 40, map[string]float64{"bridge": 1}},
	{"grip", 0, -14, map[string]float64{"grip": -1}},
	{"tip", -30, -12, map[string]float64{"side": -1, "height": 1}},
	{"gap", 25, 0, map[string]float64{"gap": 1}},
	{"gate", 0, 30, map[string]float64{"gate": -1}},
	{"dist", 0, 20, map[string]float64{"dist": -1}},
}

const start = "v=1&dist=40in"

func number(s *scenario.Scenario, key string) float64 {
	v, _ := scenario.Find(key).Number(s)
	return v
}

func TestSheet(t *testing.T) {
	inAll(t, releaseHandler(t), tests{
		"HandlesDrag":      func(t *testing.T, b *bench) { testHandlesDrag(t, b, webdriver.Mouse) },
		"HistoryAndReload": testHistoryAndReload,
	}, engines, tests{
		"FineWork":            testFineWork,
		"PointerCancel":       testPointerCancel,
		"RestsWhenNothingHas": testRests,
	})
}

// Only Chromium's driver supports touch.
func TestSheetByTouch(t *testing.T) {
	b := &bench{open(t, webdriver.Chromium), serve(t, releaseHandler(t)).URL + "/"}
	require.NoError(t, b.Viewport(390, 844, 2, true))
	testHandlesDrag(t, b, webdriver.Touch)
}

func testHandlesDrag(t *testing.T, b *bench, p webdriver.Pointer) {
	b.show(t, start)
	link := start
	for _, h := range handles {
		before, _ := native(t, link)
		entries := b.entries(t)
		b.drag(t, p, h.id, h.dx, h.dy)
		b.wait(t, `location.hash !== "#`+link+`"`)
		link = b.hash(t)
		after, _ := native(t, link)
		if entries < 45 { // browsers keep 50 history entries
			assert.Equal(t, entries+1, b.entries(t), "%s: one entry a drag", h.id)
		}
		for key, way := range h.ways {
			assert.Greater(t, way*(number(&after, key)-number(&before, key)), 0.0, "%s of %s", key, h.id)
			require.Nil(t, scenario.Find(key).Set(&after, scenario.Find(key).Value(&before), ""))
		}
		assert.Equal(t, before, after, "%s moves nothing else", h.id)
		assertReadings(t, link, b.readings(t))
	}
}

func testHistoryAndReload(t *testing.T, b *bench) {
	b.load(t, start, "board")
	b.drag(t, webdriver.Mouse, "bridge", 0, 40)
	b.wait(t, `location.hash.includes("bridge=")`)
	one := b.hash(t)
	b.drag(t, webdriver.Mouse, "tip", -20, 0)
	b.wait(t, `location.hash.includes("side=")`)
	two := b.hash(t)

	shows := func(link string) {
		t.Helper()
		b.waitHash(t, link)
		b.wait(t, `document.getElementById("board").href.endsWith(location.hash)`)
		assertReadings(t, link, b.readings(t))
	}
	require.NoError(t, b.Back())
	shows(one)
	require.NoError(t, b.Back())
	shows(start)
	require.NoError(t, b.Forward())
	require.NoError(t, b.Forward())
	shows(two)
	require.NoError(t, b.Reload())
	b.wait(t, `document.documentElement.dataset.state === "board"`)
	shows(two)
}

// A finger that rests switches to fine adjustment.
func testFineWork(t *testing.T, b *bench) {
	b.show(t, start)
	x, y := b.handle(t, "bridge")
	require.NoError(t, b.Gesture(webdriver.Mouse).Move(x, y).Down().Pause(2500*time.Millisecond).
		Move(x, y+10).Move(x, y+20).Move(x, y+30).Move(x, y+40).Up().Do())
	b.wait(t, `location.hash.includes("bridge=")`)
	s, _ := native(t, b.hash(t))
	slow := number(&s, "bridge")
	b.show(t, start)
	b.drag(t, webdriver.Mouse, "bridge", 0, 40)
	b.wait(t, `location.hash.includes("bridge=")`)
	s, _ = native(t, b.hash(t))
	fast, from := number(&s, "bridge"), 12*0.0254
	assert.Greater(t, slow, from)
	assert.InDelta(t, (fast-from)/5, slow-from, 0.2*0.0254)
}

// When a call or a system gesture cancels the pointer, the drag is reverted.
func testPointerCancel(t *testing.T, b *bench) {
	b.show(t, start)
	before, entries := b.readings(t), b.entries(t)
	x, y := b.handle(t, "bridge")
	require.NoError(t, b.Gesture(webdriver.Mouse).Move(x, y).Down().Move(x, y+20).Move(x, y+40).Do())
	b.wait(t, `document.querySelector('[data-reading="heading"]').dataset.value !== `+quoted(before["heading"].Value))
	assert.Equal(t, start, b.hash(t), "the address waits for the end of the drag")
	require.NoError(t, b.Eval(`const frame = document.getElementById("table").contentWindow;
		for (const pointerId of [0, 1, 2]) frame.document.getElementById("layer").dispatchEvent(
			new frame.PointerEvent("pointercancel", {bubbles: true, pointerId}))`, nil))
	b.wait(t, `document.querySelector('[data-reading="heading"]').dataset.value === `+quoted(before["heading"].Value))
	require.NoError(t, b.Gesture(webdriver.Mouse).Move(x, y+60).Up().Do())
	assert.Equal(t, before, b.readings(t), "what comes after is no drag")
	assert.Equal(t, start, b.hash(t))
	assert.Equal(t, entries, b.entries(t))
}

func testRests(t *testing.T, b *bench) {
	b.show(t, start)
	const frames = `return document.getElementById("table").contentWindow.framesDrawn`
	// A browser with software rendering may lag: wait until it stops drawing, then
	// check that it stays still.
	drawn := -1
	require.Eventually(t, func() bool {
		was := drawn
		drawn = eval[int](t, b.Session, frames)
		return drawn == was
	}, patience, 2*time.Second)
	time.Sleep(2 * time.Second)
	assert.Equal(t, drawn, eval[int](t, b.Session, frames))
	b.show(t, "v=1&bridge=11in")
	time.Sleep(time.Second)
	after := eval[int](t, b.Session, frames)
	assert.Greater(t, after, drawn)
	assert.LessOrEqual(t, after-drawn, 3, "one change is drawn about once")
}

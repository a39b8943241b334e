//go:build browser

package site_test

import (
	"fmt"
	"net/http"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/scripts/lib/webdriver"
)

// Tests faults while a page is open: the drawing context is lost, the phone rings,
// the screen turns. The order matters: the last test ends the page's program.
func TestFaults(t *testing.T) {
	for _, engine := range engines {
		t.Run(string(engine), func(t *testing.T) {
			b := &bench{open(t, engine), serve(t, releaseHandler(t)).URL + "/"}
			b.load(t, start, "board")
			own := slices.Contains(one, engine) // tests that differ little between engines run in one
			for _, tc := range []struct {
				name string
				run  bool
				test func(*testing.T, *bench)
			}{
				{"ContextLost", true, testContextLost},
				{"TurnedMidDrag", own, testTurnedMidDrag},
				{"Zoomed", own, testZoomed},
				{"FingerAndMouse", own, testFingerAndMouse},
				{"HiddenAndBack", true, testHiddenAndBack},
				{"PulledDown", own, testPulledDown},
				{"FrameGone", true, testFrameGone},
				{"MoreStepsThanAllowed", own, testMoreStepsThanAllowed},
				{"ProgramEnds", true, testProgramEnds},
			} {
				if tc.run {
					t.Run(tc.name, func(t *testing.T) { tc.test(t, b) })
				}
			}
		})
	}
}

// dragged asserts that a handle can still be dragged and changes the expected value.
func (b *bench) assertDrags(t *testing.T) {
	t.Helper()
	b.show(t, start)
	b.drag(t, webdriver.Mouse, "bridge", 0, 40)
	b.wait(t, `location.hash !== "#`+start+`"`)
	s, _ := native(t, b.hash(t))
	assert.Greater(t, number(&s, "bridge"), 12*0.0254)
	assertReadings(t, b.hash(t), b.readings(t))
}

// loseContext makes the canvas lose its drawing context, as after a driver crash or
// on a phone that is short of memory.
const loseContext = `
	const canvas = document.getElementById("table").contentDocument.querySelector("canvas");
	(canvas.getContext("webgl2") || canvas.getContext("webgl")).getExtension("WEBGL_lose_context").loseContext()`

// painted is true when the canvas has started and drawn and no message about it is
// shown.
const painted = `document.documentElement.dataset.state === "board" && document.getElementById("table").contentWindow.framesDrawn > 0 &&
	document.getElementById("progress").hidden`

// The canvas restarts, and the plain drawing is used meanwhile. After repeated
// failures the page shows a message instead.
func testContextLost(t *testing.T, b *bench) {
	require.NoError(t, b.Eval(`
		window.states = [];
		const watch = new MutationObserver(() => states.push(document.documentElement.dataset.state));
		watch.observe(document.documentElement, {attributeFilter: ["data-state"]});`+loseContext, nil))
	require.NoError(t, b.Wait(`states.length > 1 && `+painted, startup))
	assert.Equal(t, "live", eval[string](t, b.Session, "return states[0]"))
	b.assertDrags(t)

	// The frame counts its restarts in its name. A drag in progress is reverted.
	b.show(t, start)
	b.grab(t, webdriver.Mouse, "bridge")
	require.NoError(t, b.Eval(`document.getElementById("table").contentWindow.name = "4";`+loseContext, nil))
	b.wait(t, `document.getElementById("progress").innerText.includes("drawing context was lost")`)
	assert.Equal(t, "live", eval[string](t, b.Session, "return document.documentElement.dataset.state"))
	// It stays reverted when the finger rests long enough for fine adjustment to begin.
	require.NoError(t, b.Gesture(webdriver.Mouse).Pause(900*time.Millisecond).Do())
	assertReadings(t, start, b.readings(t))
	require.NoError(t, b.Gesture(webdriver.Mouse).Up().Do())
	b.assertDrags(t)
	b.press(t, "#progress button")
	require.NoError(t, b.Wait(painted, startup))
}

// grab presses on a handle and drags it a little, until the page shows the change.
func (b *bench) grab(t *testing.T, p webdriver.Pointer, id string) (x, y float64) {
	t.Helper()
	x, y = b.handle(t, id)
	before := b.value(t, "heading")
	require.NoError(t, b.Gesture(p).Move(x, y).Down().Move(x, y+20).Move(x, y+40).Do())
	b.wait(t, `document.querySelector('[data-reading="heading"]').dataset.value !== `+quoted(before))
	return x, y + 40
}

// turn switches the screen between portrait and landscape, with the narrowest window
// that both engines allow.
func (b *bench) turn(t *testing.T, upright bool) {
	t.Helper()
	w, h := 600, 844
	if !upright {
		w, h = h, w
	}
	require.NoError(t, b.SetWindow(w, h))
	b.wait(t, `document.getElementById("table").contentWindow.innerWidth === document.getElementById("paper").clientWidth`)
	b.waitSheet(t)
}

// restore sets the screen that the tests begin with.
func (b *bench) restore(t *testing.T) {
	t.Helper()
	if b.Engine == webdriver.Chromium {
		require.NoError(t, b.CDP("Emulation.clearDeviceMetricsOverride", nil, nil))
		require.NoError(t, b.CDP("Emulation.setTouchEmulationEnabled", map[string]any{"enabled": false}, nil))
	}
	require.NoError(t, b.SetWindow(1280, 800))
}

// A drag continues when the screen turns, and is one step that can be undone. The
// test uses a mouse in both engines, because Chromium's driver never lifts a finger
// that an earlier command put down.
func testTurnedMidDrag(t *testing.T, b *bench) {
	for _, upright := range []bool{true, false} {
		b.turn(t, upright)
		b.show(t, start)
		b.grab(t, webdriver.Mouse, "bridge")
		b.turn(t, !upright)
		assert.Equal(t, start, b.hash(t), "the button is still down on it")
		require.NoError(t, b.Gesture(webdriver.Mouse).Move(200, 200).Up().Do())
		b.wait(t, `location.hash !== "#`+start+`"`)
		want, _ := native(t, start)
		s, _ := native(t, b.hash(t))
		s.Bridge = want.Bridge
		assert.Equal(t, want, s, "only the dragged handle moved")
		assertReadings(t, b.hash(t), b.readings(t))
		b.press(t, `[data-do="undo"]`)
		b.waitHash(t, start)
		b.drag(t, webdriver.Mouse, "bridge", 0, 20)
		b.wait(t, `location.hash !== "#`+start+`"`)
	}
	b.restore(t)
}

// At 200 % zoom a page has half as many CSS pixels in each direction. The canvas
// restarts at that size, and everything is present and works. WebKit's driver has no
// zoom and no other pixel size, so the test makes its window as small as the zoomed
// page would be.
func testZoomed(t *testing.T, b *bench) {
	b.show(t, start)
	b.waitSheet(t)
	if b.Engine == webdriver.Chromium {
		for _, percent := range []int{110, 125, 150, 175, 200} { // as by pressing the zoom key five times
			require.NoError(t, b.Viewport(1280*100/percent, 800*100/percent, float64(percent)/100, false))
		}
	} else {
		require.NoError(t, b.SetWindow(640, 400))
	}
	require.NoError(t, b.Wait(`innerWidth === 640 && document.getElementById("table").contentWindow.innerWidth === document.getElementById("paper").clientWidth && `+painted+` && `+fitted, startup))
	b.waitSheet(t)
	assertLayout(t, b.Session)
	b.assertDrags(t)
	for _, section := range b.sections(t) {
		b.open(t, section)
		assert.Empty(t, eval[[]string](t, b.Session, cramped), section)
	}
	b.open(t, "shot")
	b.restore(t)
	require.NoError(t, b.Wait(painted+` && `+fitted, startup))
}

// A second pointer does not drag, wherever it presses.
func testFingerAndMouse(t *testing.T, b *bench) {
	b.show(t, start)
	x, y := b.grab(t, webdriver.Mouse, "bridge")
	was := b.readings(t)
	x2, y2 := b.handle(t, "dist")
	if b.Engine == webdriver.Chromium {
		require.NoError(t, b.Drag(webdriver.Touch, x2, y2, x2, y2+60, 4))
	} else { // WebKit's driver has no touch
		require.NoError(t, b.Eval(`const frame = document.getElementById("table").contentWindow;
			const at = frame.document.querySelector('[data-handle="dist"]');
			for (const [i, name] of ["pointerdown", "pointermove", "pointermove", "pointerup"].entries())
				at.dispatchEvent(new frame.PointerEvent(name, {bubbles: true, pointerId: 77, pointerType: "touch", button: 0, clientY: 60 + 20 * i}))`, nil))
	}
	assert.Equal(t, was, b.readings(t))
	assert.Equal(t, start, b.hash(t))
	require.NoError(t, b.Gesture(webdriver.Mouse).Move(x, y+10).Up().Do())
	b.wait(t, `location.hash !== "#`+start+`"`)
	s, _ := native(t, b.hash(t))
	want, _ := native(t, start)
	assert.Greater(t, s.Bridge, want.Bridge)
	s.Bridge = want.Bridge
	assert.Equal(t, want, s, "only the first pointer's handle moved")
}

// hide tells the page that it is hidden or visible again, as when a call or another
// program covers it.
func (b *bench) hide(t *testing.T, hidden bool) {
	t.Helper()
	require.NoError(t, b.Eval(`
		Object.defineProperty(document, "hidden", {configurable: true, value: arguments[0]});
		document.dispatchEvent(new Event("visibilitychange"));`, nil, hidden))
}

// A phone may end a hidden page without warning. The address then has everything
// except a drag in progress.
func testHiddenAndBack(t *testing.T, b *bench) {
	b.show(t, start)
	require.NoError(t, b.Eval(`const el = document.querySelector(arguments[0]);
		el.value = 10;
		el.dispatchEvent(new Event("input", {bubbles: true}));`, nil, bridgeSlider))
	assert.Equal(t, start, b.hash(t), "a finger may rest on the slider")
	b.hide(t, true)
	b.waitHash(t, "v=1&bridge=10in&dist=40in")
	b.hide(t, false)

	b.show(t, start)
	x, y := b.grab(t, webdriver.Mouse, "bridge")
	b.hide(t, true)
	assert.Equal(t, start, b.hash(t))
	b.hide(t, false)
	require.NoError(t, b.Gesture(webdriver.Mouse).Move(x, y+5).Up().Do())
	b.wait(t, `location.hash !== "#`+start+`"`)
	b.assertDrags(t)
}

// Pulling down beyond the top does not reload the page. A reload restores
// everything.
func testPulledDown(t *testing.T, b *bench) {
	b.show(t, start)
	assert.Equal(t, []string{"none", "none", "contain"}, eval[[]string](t, b.Session, `return ["html", "body", ".panel"]
		.map((name) => getComputedStyle(document.querySelector(name)).overscrollBehaviorY)`))
	b.choose(t, "#f-bridge", "9")
	b.choose(t, "#f-side", "0.3")
	b.waitHash(t, "v=1&side=0.3&bridge=9in&dist=40in")
	b.open(t, "measure")
	b.press(t, `[data-outcome="left"]`)
	b.wait(t, `document.querySelectorAll("#strokes tr[data-stroke]").length === 1`)
	require.NoError(t, b.Reload())
	require.NoError(t, b.Wait(`document.documentElement.dataset.state !== "still"`, startup))
	assertReadings(t, "v=1&side=0.3&bridge=9in&dist=40in", b.readings(t))
	b.open(t, "measure")
	assert.Equal(t, 1, eval[int](t, b.Session, `return document.querySelectorAll("#strokes tr[data-stroke]").length`))
	b.open(t, "shot")
}

// The canvas's frame may contain the browser's own error page, which the page can't
// access. The readings still work.
func testFrameGone(t *testing.T, b *bench) {
	b.show(t, start)
	require.NoError(t, b.Eval(`const frame = document.getElementById("table"); frame.sandbox = ""; frame.src = "table.html?elsewhere"`, nil))
	b.wait(t, `!document.getElementById("table").contentDocument`)
	b.choose(t, "#f-bridge", "9")
	b.waitHash(t, "v=1&bridge=9in&dist=40in")
	assertReadings(t, "v=1&bridge=9in&dist=40in", b.readings(t))
	b.load(t, start, "board")
}

// Browsers limit the number of address changes (WebKit to 100 in 30 seconds,
// Chromium to 200 in 10 seconds) and refuse further ones with or without an
// exception.
func testMoreStepsThanAllowed(t *testing.T, b *bench) {
	b.show(t, start)
	b.choose(t, "#f-bridge", "9")
	b.waitHash(t, "v=1&bridge=9in&dist=40in")
	require.NoError(t, b.Eval(`for (let i = 0; i < 105; i++) for (const name of ["undo", "redo"]) document.querySelector('[data-do="' + name + '"]').click()`, nil))
	assertReadings(t, "v=1&bridge=9in&dist=40in", b.readings(t))
	assert.Empty(t, b.notices(t))
	b.press(t, `[data-do="undo"]`)
	assertReadings(t, start, b.readings(t))
}

// If the page's program ends, the page says so and what to do.
func testProgramEnds(t *testing.T, b *bench) {
	require.NoError(t, b.Eval(`document.querySelector = () => null;
		const el = document.getElementById("f-bridge");
		el.value = "11";
		el.dispatchEvent(new Event("change", {bubbles: true}));`, nil))
	b.wait(t, `document.getElementById("progress").textContent.includes("Pivotbench stopped")`)
	require.NoError(t, b.Eval(`document.querySelectorAll("#progress button")[0].click()`, nil))
	require.NoError(t, b.Wait(`document.documentElement.dataset.state === "board" && document.getElementById("progress").hidden`, startup))
	b.assertDrags(t)
}

// broken serves one kind of file as a failing network does: not at all, or half of
// it.
func broken(site http.Handler, prefix string, half bool) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !strings.HasPrefix(r.URL.Path, "/"+prefix) {
			site.ServeHTTP(w, r)
			return
		}
		if !half {
			http.Error(w, "gone", http.StatusServiceUnavailable)
			return
		}
		w.Header().Set("Content-Type", "application/wasm")
		w.Header().Set("Content-Length", "1000000")
		fmt.Fprint(w, "\x00asm\x01\x00\x00\x00")
		w.(http.Flusher).Flush()
		panic(http.ErrAbortHandler)
	})
}

// When one of the two programs does not load, or only half of it, the other works.
// The page gives the reason, and trying again fixes it.
func TestProgramMissing(t *testing.T) {
	site := releaseHandler(t)
	for _, engine := range one {
		t.Run(string(engine), func(t *testing.T) {
			s := open(t, engine)
			t.Run("Page", func(t *testing.T) {
				server := serve(t, broken(site, "page.", false))
				b := &bench{s, server.URL + "/"}
				b.load(t, start, "still")
				require.NoError(t, b.Wait(`document.documentElement.dataset.canvas === "ready"`, startup))
				b.assertTrouble(t, "Pivotbench did not start: the server answered 503", "")
				server.show(broken(site, "page.", true))
				b.press(t, "#progress button")
				b.assertTrouble(t, "Pivotbench did not start", "503")
				assert.Equal(t, "still", eval[string](t, s, `return document.documentElement.dataset.state`))
				server.show(site)
				b.press(t, "#progress button")
				require.NoError(t, b.Wait(painted, startup))
				b.assertDrags(t)
			})
			t.Run("Canvas", func(t *testing.T) {
				server := serve(t, brokenCanvas(site, true))
				b := &bench{s, server.URL + "/"}
				b.load(t, start, "live")
				b.assertTrouble(t, "live drawing did not start", "503")
				assertReadings(t, start, b.readings(t))
				b.assertDrags(t)
				server.show(brokenCanvas(site, false))
				b.press(t, "#progress button")
				b.assertTrouble(t, "live drawing did not start: the server answered 503", "")
				server.show(site)
				b.press(t, "#progress button")
				require.NoError(t, b.Wait(painted, startup))
				b.assertDrags(t)
			})
		})
	}
}

// brokenCanvas breaks the canvas's program but not its page.
func brokenCanvas(site http.Handler, half bool) http.Handler {
	without := broken(site, "table.", half)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path == "/table.html" {
			site.ServeHTTP(w, r)
			return
		}
		without.ServeHTTP(w, r)
	})
}

// assertTrouble asserts that the page shows and announces only this reason, and not
// an earlier one.
func (b *bench) assertTrouble(t *testing.T, words, not string) {
	t.Helper()
	b.wait(t, `document.getElementById("progress").innerText.includes(`+quoted(words)+`)`)
	said := eval[[]string](t, b.Session, `return Array.from(document.querySelectorAll('#progress [role="alert"]'), (el) => el.textContent)`)
	require.Len(t, said, 1)
	if not != "" {
		assert.NotContains(t, said[0], not)
	}
}

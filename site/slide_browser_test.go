//go:build browser

package site_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/scripts/lib/webdriver"
	"pivotbench/wasm/app"
)

// A finger moves a slider only by a clearly sideways drag. Everything that can be
// typed on a keyboard can be typed by touch.
func TestFingersOnSliders(t *testing.T) {
	inAll(t, releaseHandler(t), tests{"Slide": testFingersOnSliders, "Keypad": testKeypad}, nil, nil)
}

// finger performs a touch gesture with the driver or, if the driver has no touch,
// with events. It begins on the bridge slider, at a share of its width.
func (b *bench) finger(t *testing.T, share, dx, dy float64, cancelled bool) {
	t.Helper()
	require.NoError(t, b.Eval(`document.querySelector(arguments[0]).scrollIntoView({block: "center"})`, nil, bridgeSlider))
	el, err := b.Find(bridgeSlider)
	require.NoError(t, err)
	r, err := el.Rect()
	require.NoError(t, err)
	x, y := r.X+r.Width*share, r.Y+r.Height/2
	if b.Engine != webdriver.WebKit && !cancelled {
		require.NoError(t, b.Drag(webdriver.Touch, x, y, x+dx, y+dy, 8))
		return
	}
	require.NoError(t, b.Eval(`const [selector, x, y, dx, dy, end] = arguments, el = document.querySelector(selector);
		const send = (type, part) => el.dispatchEvent(new PointerEvent(type, {pointerId: 7, pointerType: "touch", isPrimary: true,
			bubbles: true, cancelable: true, clientX: x + dx * part, clientY: y + dy * part}));
		send("pointerdown", 0);
		for (let i = 1; i <= 8; i++) send("pointermove", i / 8);
		send(end, 1);`, nil, bridgeSlider, x, y, dx, dy, map[bool]string{true: "pointercancel", false: "pointerup"}[cancelled]))
}

func testFingersOnSliders(t *testing.T, b *bench) {
	const typed = "v=1&bridge=11.75in" // not a step of the slider
	b.show(t, typed)
	b.open(t, "shot")
	stays := func(why string) {
		t.Helper()
		b.waitHash(t, typed)
		assert.Equal(t, "11.75", b.field(t, "bridge"), why)
		assertReadings(t, typed, b.readings(t))
	}
	entries := b.entries(t)
	b.finger(t, 0.9, 0, -160, false)
	stays("a swipe up, far from the thumb")
	b.finger(t, 0.25, 0, 120, false)
	stays("a swipe down, on the thumb")
	b.finger(t, 0.5, 60, 60, false)
	stays("neither across nor along")
	b.finger(t, 0.9, 0, 0, false)
	stays("a tap on the track")
	b.finger(t, 0.5, 60, 0, true)
	stays("a drag that the browser takes over")
	assert.Equal(t, entries, b.entries(t))

	// A sideways drag moves the slider as far as the finger moves, wherever it began.
	width := eval[float64](t, b.Session, `return document.querySelector(`+quoted(bridgeSlider)+`).clientWidth`)
	b.finger(t, 0.5, 60, 0, false)
	b.wait(t, `location.hash !== "#`+typed+`"`)
	s, _ := native(t, b.hash(t))
	assert.InDelta(t, 11.75+60/(width-26)*38, float64(s.Bridge)/0.0254, 0.15)
	assertReadings(t, b.hash(t), b.readings(t))
	assert.Equal(t, entries+1, b.entries(t), "one drag is one entry")
	b.press(t, `[data-do="undo"]`)
	stays("undone at once")
}

// A number field that is tapped opens the decimal keypad. Beside it are the keys that
// some phones lack, so that a fraction, a minus sign and a unit can be typed.
func testKeypad(t *testing.T, b *bench) {
	b.show(t, "v=1")
	b.open(t, "shot")
	assert.Empty(t, eval[[]string](t, b.Session, `return Array.from(document.querySelectorAll(".control input[data-unit]:not([type=range], [data-set=name]), .gauge .entry input, [data-mark]"))
		.filter((el) => el.inputMode !== "decimal").map((el) => el.id)`))
	const hidden = `return document.getElementById("keypad").hidden`
	tap := func(id, pointer string) {
		require.NoError(t, b.Eval(`const el = document.getElementById(arguments[0]);
			document.activeElement.blur();
			el.dispatchEvent(new PointerEvent("pointerdown", {pointerType: arguments[1], pointerId: 9, bubbles: true}));
			el.focus();
			el.select()`, nil, id, pointer))
	}
	key := func(text string) {
		require.NoError(t, b.Eval(`document.querySelector('#keypad [data-key="' + arguments[0] + '"]').click()`, nil, text))
	}
	tap("f-bridge", "mouse")
	assert.True(t, eval[bool](t, b.Session, hidden), "a mouse has a keyboard beside it")
	tap("f-bridge", "touch")
	assert.False(t, eval[bool](t, b.Session, hidden))
	require.NoError(t, b.Keys("9"))
	key(" ")
	require.NoError(t, b.Keys("1"))
	key("/")
	require.NoError(t, b.Keys("2"))
	b.wait(t, `document.getElementById("board").href.includes("bridge=9.5in")`)
	require.NoError(t, b.Keys("5"))
	tap("f-bridge", "touch")
	require.NoError(t, b.Keys("24"))
	key(" cm")
	m := app.Update(app.Start(), app.Set{Key: "bridge", Text: "24 cm"})
	b.waitHash(t, m.Scene.Format())
	tap("f-side", "touch")
	key("-")
	require.NoError(t, b.Keys("0.3"))
	m = app.Update(m, app.Set{Key: "side", Text: "-0.3"})
	b.waitHash(t, m.Scene.Format())
	// A button below does not move away from under the tap that leaves the field.
	assert.False(t, eval[bool](t, b.Session, `document.activeElement.blur(); `+hidden))
	b.wait(t, `document.getElementById("keypad").hidden`)
}

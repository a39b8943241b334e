//go:build browser

package site_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/scripts/lib/webdriver"
)

// A finger moves a slider only by a clearly sideways drag.
func TestFingersOnSliders(t *testing.T) {
	inAll(t, releaseHandler(t), tests{"Slide": testFingersOnSliders}, nil)
}

// finger is a gesture of a finger, brought by the driver or, where that has none,
// by events. It begins on the bridge's slider, at a share of its width.
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
	const typed = "v=1&bridge=11.75in" // which is no step of the slider
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

	// Across, it moves as far as the finger goes, wherever it was set down.
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

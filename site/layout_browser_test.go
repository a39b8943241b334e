//go:build browser

package site_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/scripts/lib/webdriver"
)

// size is the size of a screen in CSS pixels.
type size struct{ w, h int }

var screens = []size{{390, 844}, {320, 568}, {844, 390}, {1280, 800}, {1920, 1080}}

// lay checks the page's layout, with its details open or closed, and returns what is
// wrong.
const lay = `
	const wrong = [], wide = document.documentElement.clientWidth;
	document.querySelectorAll("details").forEach((el) => el.open = arguments[0]);
	if (document.documentElement.scrollWidth > wide) wrong.push("the page scrolls sideways: " + document.documentElement.scrollWidth);
	for (const box of document.querySelectorAll("main, .panel, body"))
		if (box.scrollWidth > box.clientWidth + 1) wrong.push(box.tagName + "." + box.className + " scrolls sideways");
	const name = (el) => el.tagName + "#" + (el.id || el.dataset.set || el.dataset.do || el.dataset.stretch || el.textContent.trim().slice(0, 20));
	// What is folded away still has its boxes.
	const folded = (el) => el.tagName !== "SUMMARY" && el.closest("details:not([open])");
	const shown = (el) => el.getClientRects().length > 0 && getComputedStyle(el).visibility === "visible" && !folded(el);
	const all = Array.from(document.querySelectorAll("button, select, input, summary")).filter(shown);
	for (const el of all) {
		const r = el.getBoundingClientRect();
		// The strip of tabs scrolls by itself.
		if (!el.closest(".tabs") && (r.left < -0.5 || r.right > wide + 0.5)) wrong.push(name(el) + " is cut off: " + [r.left, r.right]);
		if (el.tagName === "BUTTON" && el.scrollWidth > el.clientWidth + 1) wrong.push(name(el) + " is too narrow for its words");
		const target = el.closest(".tick") || el;
		const t = target.getBoundingClientRect();
		if (Math.min(t.width, t.height) < 24) wrong.push(name(el) + " is too small to touch: " + [t.width, t.height]);
	}
	// Sliders have a generous margin of their own, which may reach under a field.
	const slack = 6;
	const scrolled = document.querySelector(".panel");
	for (let i = 0; i < all.length; i++) for (let j = 0; j < i; j++) {
		const a = all[i].getBoundingClientRect(), b = all[j].getBoundingClientRect();
		if (Math.min(a.right, b.right) - Math.max(a.left, b.left) <= slack || Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) <= slack) continue;
		// What is scrolled out of the panel is not over what is below or above it.
		if (scrolled.contains(all[i]) !== scrolled.contains(all[j])) continue;
		wrong.push(name(all[i]) + " lies on " + name(all[j]));
	}
	const paper = document.getElementById("paper").getBoundingClientRect();
	if (paper.top < 0 || paper.bottom > innerHeight + 0.5 || paper.left < 0 || paper.right > wide + 0.5 || paper.height < 200 || paper.width < 200)
		wrong.push("the sheet is not in view: " + JSON.stringify(paper));
	const frame = document.getElementById("table").contentDocument;
	const handles = Array.from(frame.querySelectorAll("[data-handle]"));
	if (handles.length !== 6) wrong.push(handles.length + " handles");
	for (const el of handles) {
		const r = el.getBoundingClientRect();
		if (Math.min(r.width, r.height) < 44) wrong.push("handle " + el.dataset.handle + " is too small: " + r.width);
		const x = r.left + r.width / 2, y = r.top + r.height / 2;
		if (x < 0 || y < 0 || x > frame.documentElement.clientWidth || y > frame.documentElement.clientHeight) wrong.push("handle " + el.dataset.handle + " is off the sheet");
	}
	return wrong`

func assertLayout(t *testing.T, s *webdriver.Session) {
	t.Helper()
	for _, unfolded := range []bool{false, true} {
		var wrong []string
		require.NoError(t, s.Eval(lay, &wrong, unfolded))
		assert.Empty(t, wrong, "unfolded: %v", unfolded)
	}
}

func TestLayoutInChromium(t *testing.T) {
	b := &bench{open(t, webdriver.Chromium), serve(t, releaseHandler(t)).URL + "/"}
	b.load(t, "v=1", "board")
	for _, screen := range screens {
		t.Run(fmt.Sprintf("%dx%d", screen.w, screen.h), func(t *testing.T) {
			require.NoError(t, b.Viewport(screen.w, screen.h, 1, screen.w < 900))
			b.wait(t, fmt.Sprintf(`innerWidth === %d && document.getElementById("table").contentWindow.innerWidth === document.getElementById("paper").clientWidth`, screen.w))
			b.waitSheet(t)
			assertLayout(t, b.Session)
		})
	}
}

// fitted is true when the canvas has one pixel for each pixel of the screen.
const fitted = `(() => {
	const frame = document.getElementById("table").contentWindow;
	const canvas = frame.document.querySelector("canvas");
	return Math.abs(canvas.width - frame.innerWidth * frame.devicePixelRatio) < 2 && Math.abs(canvas.height - frame.innerHeight * frame.devicePixelRatio) < 2;
})()`

// waitSheet waits until the handles are in the positions for the frame's size.
func (b *bench) waitSheet(t *testing.T) {
	t.Helper()
	require.NoError(t, b.Wait(fitted, startup))
	// Moved handles come with the frame after.
	require.NoError(t, b.Eval(`return new Promise((done) => setTimeout(done, 200))`, nil))
}

func TestLayoutInWebKit(t *testing.T) {
	w := walkerIn(t, webdriver.WebKit)
	w.visit(t, screens[0], "#v=1")
	require.NoError(t, w.Wait(`document.documentElement.dataset.state === "board"`, startup))
	for _, screen := range screens {
		t.Run(fmt.Sprintf("%dx%d", screen.w, screen.h), func(t *testing.T) {
			require.NoError(t, w.SwitchToTop())
			require.NoError(t, w.Eval(`arguments[0].width = arguments[1]; arguments[0].height = arguments[2]`, nil, *w.frame, screen.w, screen.h))
			require.NoError(t, w.SwitchToFrame(*w.frame))
			w.wait(t, fmt.Sprintf(`innerWidth === %d && document.getElementById("table").contentWindow.innerWidth === document.getElementById("paper").clientWidth`, screen.w))
			w.waitSheet(t)
			assertLayout(t, w.Session)
		})
	}
}

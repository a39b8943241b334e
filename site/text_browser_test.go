//go:build browser

package site_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// cramped returns the layout faults that large text causes: words that are cut off,
// overlap other words or are under buttons, and a page that scrolls sideways. Boxes
// that scroll by themselves (tables, the strip of tabs) may be wider than the page.
const cramped = `
	const wrong = [], wide = document.documentElement.clientWidth;
	const name = (el) => el.tagName + "#" + (el.id || el.dataset.set || el.dataset.do || el.className) + " “" + el.textContent.trim().slice(0, 20) + "”";
	if (document.documentElement.scrollWidth > wide) wrong.push("the page scrolls sideways: " + document.documentElement.scrollWidth);
	const seen = Array.from(document.body.querySelectorAll("*")).filter((el) =>
		el.checkVisibility({visibilityProperty: true}) && !el.closest(".unseen, .word, svg, .said, option, legend") && !(el.matches("h1") && getComputedStyle(el).position === "absolute"));
	const scrolls = (el) => el.closest(".scroll, .tabs, .formula");
	for (const el of seen) {
		const style = getComputedStyle(el);
		if (!el.matches(".scroll, .tabs, .formula, textarea, iframe, input") && el.scrollWidth > el.clientWidth + 1 && el.clientWidth > 0 && (style.overflowX !== "visible" || el.matches("button, .button, summary, .entry")) && !el.matches(".drawing"))
			wrong.push(name(el) + " is too narrow for its words: " + [el.scrollWidth, el.clientWidth]);
		if (el.matches("button, .button, .play, .card td a") && el.scrollHeight > el.clientHeight + 1) wrong.push(name(el) + " is too low for its words: " + [el.scrollHeight, el.clientHeight]);
		if (el.matches(".entry:not(.wide) input") && el.value && el.scrollWidth > el.clientWidth + 1) wrong.push(name(el) + " is too narrow for its value " + el.value);
		const r = el.getBoundingClientRect();
		if (!scrolls(el) && r.width > 0 && (r.left < -0.5 || r.right > wide + 0.5)) wrong.push(name(el) + " is cut off: " + [r.left, r.right]);
	}
	// Words on words.
	const lines = [];
	for (const el of seen) {
		if (scrolls(el) && !el.matches(".card *")) continue;
		for (const node of el.childNodes) {
			if (node.nodeType !== Node.TEXT_NODE || !node.textContent.trim()) continue;
			const range = document.createRange();
			range.selectNodeContents(node);
			const size = parseFloat(getComputedStyle(el).fontSize);
			for (const r of range.getClientRects()) if (r.width > 1) lines.push({el, r, size});
		}
	}
	const panel = document.querySelector(".panel"), sticky = ".answer, .thumb, .said";
	const meet = (a, b) => Math.min(a.r.right, b.r.right) - Math.max(a.r.left, b.r.left) > 2 && Math.min(a.r.bottom, b.r.bottom) - Math.max(a.r.top, b.r.top) > Math.min(a.size, b.size) * 0.3;
	for (let i = 0; i < lines.length; i++) for (let j = 0; j < i; j++) {
		const a = lines[i], b = lines[j];
		if (a.el === b.el || !meet(a, b) || !panel.contains(a.el) !== !panel.contains(b.el) || !a.el.closest(sticky) !== !b.el.closest(sticky)) continue;
		wrong.push(name(a.el) + " lies on " + name(b.el));
	}
	// Words under what is pressed.
	const pressed = seen.filter((el) => el.matches("button, select, input:not([type=range]), a.button")).map((el) => ({el, r: el.getBoundingClientRect(), size: Infinity}));
	for (const a of lines) for (const b of pressed) {
		if (!meet(a, b) || b.el.contains(a.el) || !panel.contains(a.el) !== !panel.contains(b.el) || !a.el.closest(sticky) !== !b.el.closest(sticky)) continue;
		wrong.push(name(a.el) + " lies under " + name(b.el));
	}
	return wrong`

// lettered returns the charts whose text does not scale with the text size although
// there is room, and the rings that are not at their position on the map.
const lettered = `
	const wrong = [];
	for (const svg of document.querySelectorAll(".chart svg")) {
		if (!svg.checkVisibility()) continue;
		const scale = svg.getScreenCTM().a, box = svg.parentElement;
		for (const text of svg.querySelectorAll("text"))
			if (parseFloat(text.getAttribute("font-size")) * scale < 20) wrong.push(box.id + " “" + text.textContent + "” at " + scale);
		const ring = box.querySelector(".handle");
		if (!ring) continue;
		const middle = (el) => { const r = el.getBoundingClientRect(); return [r.left + r.width / 2, r.top + r.height / 2]; };
		const [x, y] = middle(ring), near = Array.from(svg.querySelectorAll("circle"), middle).map(([cx, cy]) => Math.hypot(cx - x, cy - y));
		if (Math.min(...near) > 1) wrong.push(box.id + "'s ring is " + Math.min(...near) + " px off");
	}
	return wrong`

// All text is twice as large for a user who has doubled the browser's text size.
func testLargeText(t *testing.T, b *bench) {
	large := func(size int) {
		require.NoError(t, b.CDP("Page.setFontSizes", map[string]any{"fontSizes": map[string]int{"standard": size, "fixed": size * 13 / 16}}, nil))
	}
	defer large(16)
	for _, screen := range []size{{320, 568}, {1280, 800}} {
		require.NoError(t, b.Viewport(screen.w, screen.h, 1, screen.w < 900))
		large(32)
		b.wait(t, `getComputedStyle(document.body).fontSize === "30px"`)
		for _, section := range b.sections(t) {
			b.unfold(t, section)
			assert.Empty(t, eval[[]string](t, b.Session, cramped), "%s, %d px", section, screen.w)
			assert.Empty(t, eval[[]string](t, b.Session, fmt.Sprintf(small, 24)), "%s, %d px", section, screen.w)
			if screen.w > 1000 {
				assert.Empty(t, eval[[]string](t, b.Session, lettered), section)
			}
			if section == "lessons" { // show the list, which is behind the open lesson
				require.NoError(t, b.Eval(`document.querySelector('[data-do="lesson-close"]').click()`, nil))
				assert.Empty(t, eval[[]string](t, b.Session, cramped), "list of lessons, %d px", screen.w)
				require.NoError(t, b.Eval(`document.querySelector('[data-do="lesson-own"]').click()`, nil))
			}
		}
	}
}

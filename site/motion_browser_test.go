//go:build browser

package site_test

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// media emulates a media preference of the user's system.
func (b *bench) media(t *testing.T, name, value string) {
	t.Helper()
	require.NoError(t, b.CDP("Emulation.setEmulatedMedia", map[string]any{
		"features": []map[string]string{{"name": name, "value": value}},
	}, nil))
}

// Nothing is animated for a user who prefers reduced motion.
func testLessMotion(t *testing.T, b *bench) {
	b.media(t, "prefers-reduced-motion", "reduce")
	defer b.media(t, "prefers-reduced-motion", "")
	b.open(t, "shot")
	b.show(t, "v=1&bridge=9in")
	b.press(t, `[data-do="play"]`)
	assert.Equal(t, "Play", eval[string](t, b.Session, `return document.querySelector('[data-do="play"]').textContent`), "it goes on by one event, and runs on by itself no more")
	assert.NotEmpty(t, b.moment(t))

	b.inClass(t)
	b.press(t, `[data-do="lesson-open"][data-index="1"]`)
	const frames = `document.getElementById("table").contentWindow.framesDrawn`
	rest := func() int {
		t.Helper()
		b.wait(t, `(() => {
			const now = performance.now();
			if (window.seen !== `+frames+`) { window.seen = `+frames+`; window.since = now; }
			return now - window.since > 700;
		})()`)
		return eval[int](t, b.Session, `return `+frames)
	}
	drawn := rest()
	b.press(t, `[data-do="lesson-on"]`)
	b.wait(t, frames+` > `+strconv.Itoa(drawn))
	assert.LessOrEqual(t, rest(), drawn+2, "the next step is there at once")

	b.press(t, `[data-do="lesson-copy"]`)
	b.wait(t, `document.getElementById("said").classList.contains("shown")`)
	assert.Empty(t, eval[[]string](t, b.Session, `
		const moving = [];
		for (const el of document.querySelectorAll("*")) {
			const style = getComputedStyle(el);
			if (style.transitionProperty !== "none" && style.transitionDuration !== "0s" || style.scrollBehavior !== "auto") moving.push(el.outerHTML.slice(0, 80));
		}
		for (const a of document.getAnimations()) {
			a.currentTime = 3800; // of 4 s: where it would fade
			if (getComputedStyle(a.effect.target).opacity !== "1") moving.push(a.animationName);
		}
		return moving`))
	b.press(t, `[data-do="lesson-close"]`)

	// The full-screen board too.
	require.NoError(t, b.Get(b.address+"table.html#lesson&v=1&shipped=length"))
	require.NoError(t, b.Wait(`window.framesDrawn > 0`, startup))
	b.atRest(t)
	drawn = eval[int](t, b.Session, `return window.framesDrawn`)
	require.NoError(t, b.Eval(`document.dispatchEvent(new KeyboardEvent("keydown", {key: "PageDown", bubbles: true}))`, nil))
	b.wait(t, `window.framesDrawn > `+strconv.Itoa(drawn))
	b.atRest(t)
	assert.LessOrEqual(t, eval[int](t, b.Session, `return window.framesDrawn`), drawn+2)
}

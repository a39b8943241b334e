//go:build browser

package site_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/scripts/lib/axe"
	"pivotbench/scripts/lib/webdriver"
)

// sections returns the names of all sections of the page.
func (b *bench) sections(t *testing.T) []string {
	t.Helper()
	return eval[[]string](t, b.Session, `return Array.from(document.querySelectorAll(".tabs [data-section]"), (el) => el.dataset.section)`)
}

// unfold opens a section and expands everything in it.
func (b *bench) unfold(t *testing.T, section string) {
	t.Helper()
	b.open(t, section)
	require.NoError(t, b.Eval(`for (const el of document.querySelectorAll("details")) el.open = true`, nil))
	// Content that is updated with a delay is then complete too.
	require.NoError(t, b.Eval(`return new Promise((done) => setTimeout(done, 400))`, nil))
}

// everywhere opens each section, the start and the steps of measuring at the table, and
// calls see with the name of each.
func (b *bench) everywhere(t *testing.T, see func(name string)) {
	t.Helper()
	for _, section := range b.sections(t) {
		b.unfold(t, section)
		see(section)
	}
	b.press(t, `[data-do="start"]`)
	b.wait(t, startShown)
	see("start")
	b.press(t, `[data-do="start-close"]`)
	b.open(t, "measure")
	b.press(t, `[data-do="table-open"]`)
	for _, step := range []struct{ at, next string }{{"cue", "table-start"}, {"gate", "read-by\"][data-by=\"mark"}, {"mark", "read-by\"][data-by=\"gate"}} {
		b.wait(t, `document.documentElement.dataset.at === "`+step.at+`"`)
		see("at the table: " + step.at)
		b.press(t, `[data-do="`+step.next+`"]`)
	}
	b.press(t, `[data-do="table-leave"]`)
}

// rules are the rules of WCAG 2.2 at levels A and AA.
const rules = `["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]`

// The page is accessible to every user. The tests share one page that has entries
// in every list.
func TestForEveryone(t *testing.T) {
	b := &bench{open(t, webdriver.Chromium), serve(t, releaseHandler(t)).URL + "/"}
	b.load(t, start, "board")
	b.furnish(t)
	t.Run("LargeText", func(t *testing.T) { testLargeText(t, b) })
	t.Run("HeardSliders", func(t *testing.T) { testHeardSliders(t, b) })
	t.Run("SaidOnce", func(t *testing.T) { testSaidOnce(t, b) })
	t.Run("ForcedColours", func(t *testing.T) { testForcedColours(t, b) })
	t.Run("KeyboardStays", func(t *testing.T) { testKeyboardStays(t, b) })
	t.Run("LessMotion", func(t *testing.T) { testLessMotion(t, b) })
	t.Run("BoardByKeys", func(t *testing.T) { testBoardByKeys(t, b) })
}

// violations returns what axe-core finds on the current page. The canvas's frame is
// checked separately.
const violations = `
	return axe.run({exclude: [["iframe"]]}, {runOnly: ` + rules + `, resultTypes: ["violations"]}).then((found) =>
		found.violations.flatMap((v) => v.nodes.map((n) => v.id + ": " + n.target.join(" ") + ": " + n.failureSummary)))`

// Checks everything in both themes and on a small and a wide screen. Thorough
// tests check every combination.
func TestAccessRules(t *testing.T) {
	script, err := axe.Script(t.Context())
	require.NoError(t, err)
	b := &bench{open(t, webdriver.Chromium), serve(t, releaseHandler(t)).URL + "/"}
	b.load(t, start, "board")
	b.stock(t)
	require.NoError(t, b.Eval(script, nil))
	for _, width := range []int{320, 1280} {
		require.NoError(t, b.Viewport(width, 800, 1, width < 900))
		for _, theme := range []string{"light", "dark"} {
			if !thorough && (theme == "light") != (width == 320) {
				continue // colours do not depend on the width, and content does not depend on colours
			}
			b.choose(t, "#theme", theme)
			b.everywhere(t, func(name string) {
				assert.Empty(t, eval[[]string](t, b.Session, violations), "%s, %s, %d px", name, theme, width)
			})
		}
	}
	require.NoError(t, b.Get(b.address+"table.html#"+start))
	require.NoError(t, b.Wait(`window.framesDrawn > 0`, startup))
	require.NoError(t, b.Eval(script, nil))
	assert.Empty(t, eval[[]string](t, b.Session, violations), "the board")
}

// furnish adds at least two entries to every list and compares the cues.
func (b *bench) furnish(t *testing.T) {
	t.Helper()
	require.NoError(t, b.Eval(`
		const rest = () => new Promise((done) => setTimeout(done, 100));
		const press = (name) => document.querySelector('[data-do="' + name + '"]').click();
		const open = (section) => document.querySelector('.tabs [data-section="' + section + '"]').click();
		return (async () => {
			open("measure");
			for (const outcome of ["left", "right", "clean"]) document.querySelector('[data-outcome="' + outcome + '"]').click();
			open("cues");
			for (const [pivot, name] of [[9.5, "House maple"], [13, "Tuesday middling"], [19, "Harbour low"]]) {
				const before = location.hash;
				location.hash = "v=1&pivot=" + pivot + "in&name=" + encodeURIComponent(name);
				while (location.hash === before || !document.getElementById("board").href.includes("pivot=" + pivot)) await rest();
				press("type-cue");
			}
			for (const box of document.querySelectorAll("#cues input:not(:disabled)")) document.getElementById(box.id).click();
			open("instruments");
			for (const name of ["Four", "Five", "Six"]) {
				document.getElementById("table-name").value = name;
				press("save-table");
			}
			for (const took of ["0.61", "0.63", "0.6"]) {
				document.getElementById("speed-typed").value = took;
				press("note-time");
			}
			open("players");
			for (const name of ["Ann", "Bert"]) {
				press("new-player");
				document.getElementById("player-name-field").value = name;
				document.querySelector('#player-form [type="submit"]').click();
			}
			while (!document.getElementById("player-next").textContent) await rest();
			document.getElementById("turn-mark").value = "1 2";
			press("add-turn");
			while (document.querySelectorAll("#turns tbody tr").length < 2) await rest();
			open("lessons");
			for (let i = 0; i < 3; i++) {
				press("lesson-new");
				press("lesson-add");
				press("lesson-add");
				press("lesson-close");
			}
			document.querySelector('[data-do="lesson-own"]').click();
			open("shot");
		})()`, nil))
}

// stock records strokes and saves a cue, so that the lists are not empty.
func (b *bench) stock(t *testing.T) {
	t.Helper()
	b.open(t, "measure")
	b.note(t, "left")
	b.note(t, "right")
	b.open(t, "shot")
}

// small returns the targets that are narrower or lower than a number of pixels,
// except links in running text.
const small = `
	const small = [];
	for (const el of document.querySelectorAll("button, select, input, summary, textarea, a[href], label.button")) {
		if (!el.checkVisibility({visibilityProperty: true}) || el.matches(".unseen, p a")) continue;
		const r = (el.closest(".tick, .entry") || el).getBoundingClientRect();
		if (Math.min(r.width, r.height) < %d - 0.01) small.push(el.outerHTML.slice(0, 80) + " " + [r.width, r.height]);
	}
	return small`

// Targets are at least 44 px in size for fingers and 24 px for pointers.
func TestTargets(t *testing.T) {
	b := &bench{open(t, webdriver.Chromium), serve(t, releaseHandler(t)).URL + "/"}
	b.load(t, start, "board")
	b.stock(t)
	for _, least := range []int{24, 44} {
		require.NoError(t, b.Viewport(320, 640, 1, least == 44))
		require.Equal(t, least == 44, eval[bool](t, b.Session, `return matchMedia("(pointer: coarse)").matches`))
		b.everywhere(t, func(name string) {
			assert.Empty(t, eval[[]string](t, b.Session, fmt.Sprintf(small, least)), "%s, %d px", name, least)
		})
	}
}

// The keyboard reaches every interactive element in page order and then starts
// again. The focus is visible and not covered. WebKit shows no focus that a script
// sets, and Firefox shows none after the focus has passed through its own buttons,
// so neither can be tested this way.
func TestKeyboardReachesAll(t *testing.T) {
	in(t, webdriver.Chromium, releaseHandler(t), tests{"Walk": func(t *testing.T, b *bench) {
		b.load(t, start, "board")
		b.stock(t)
		b.everywhere(t, func(section string) {
			steps := eval[int](t, b.Session, `
				window.wanted = Array.from(document.querySelectorAll("button, select, input, summary, textarea, a[href]"))
					.filter((el) => !el.disabled && el.tabIndex >= 0 && el.checkVisibility({visibilityProperty: true}) && (el.type !== "radio" || el.checked));
				window.reached = new Set();
				window.walk ??= document.addEventListener("focusin", ({target}) => reached.add(target)) || true;
				document.activeElement.blur();
				document.querySelector("h1").tabIndex = -1;
				document.querySelector("h1").focus();
				return wanted.length`)
			require.NoError(t, b.Keys(strings.Repeat(webdriver.KeyTab, steps+30)))
			require.NoError(t, b.Wait(`reached.size >= wanted.length`, patience), section)
			assert.Empty(t, eval[[]string](t, b.Session, `return wanted.filter((el) => !reached.has(el)).map((el) => el.outerHTML.slice(0, 90))`), section)
			// After a key press, focus that a script sets is shown too.
			assert.Empty(t, eval[[]string](t, b.Session, `
				const unseen = [];
				for (const el of wanted) {
					el.focus();
					const shown = el.matches(".unseen") ? el.parentElement : el.closest(".entry") || el;
					const style = getComputedStyle(shown), r = shown.getBoundingClientRect();
					const name = el.outerHTML.slice(0, 90);
					if (style.outlineStyle === "none" || parseFloat(style.outlineWidth) < 2) unseen.push("no outline: " + name);
					const over = document.elementFromPoint(r.left + r.width / 2, r.top + Math.min(r.height / 2, 30));
					if (!over || !(shown.contains(over) || over.contains(shown) || over.tagName === "LABEL")) unseen.push("covered by " + (over && over.outerHTML.slice(0, 60)) + ": " + name);
				}
				return unseen`), section)
			assert.Empty(t, eval[[]string](t, b.Session, `return Array.from(document.querySelectorAll("[data-do]"))
				.filter((el) => !el.matches("button")).map((el) => el.outerHTML.slice(0, 90))`), "what acts on a click is a button")
		})
	}})
}

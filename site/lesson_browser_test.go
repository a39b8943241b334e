//go:build browser

package site_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/lesson"
	"pivotbench/scripts/lib/webdriver"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/view"
)

// Tests lessons the way a teacher uses them: on the page, in a link, full-screen.
func TestLessons(t *testing.T) {
	inOne(t, releaseHandler(t), tests{
		"OnThePage": testLessonOnThePage,
		"Own":       testOwnLesson,
		"CutLink":   testLessonCut,
		"Reloaded":  testLessonReloaded,
		"OnTheWall": testLessonOnTheWall,
	})
}

// inClass opens the Lessons section with the list of lessons.
func (b *bench) inClass(t *testing.T) {
	t.Helper()
	b.open(t, "lessons")
	require.NoError(t, b.Eval(`const el = document.querySelector('[data-do="lesson-close"]'); if (el.offsetParent) el.click()`, nil))
}

// atRest waits until the canvas has stopped drawing.
func (b *bench) atRest(t *testing.T) {
	t.Helper()
	b.wait(t, `(() => {
		const now = performance.now();
		if (window.seen !== window.framesDrawn) { window.seen = window.framesDrawn; window.since = now; }
		return now - window.since > 700;
	})()`)
}

func testLessonOnThePage(t *testing.T, b *bench) {
	b.show(t, "v=1")
	b.inClass(t)
	taught := lesson.Shipped[1].Lesson
	b.press(t, `[data-do="lesson-open"][data-index="1"]`)
	for at := range taught.Stops() {
		assert.Equal(t, phrase.Stop(&taught, at, "in"), b.text(t, "lesson-words"))
		scene := taught.Scene(at, "in")
		b.waitHash(t, scene.Format())
		if taught.Asks(at) {
			assert.Contains(t, b.text(t, "lesson-attempt"), "Not yet")
			require.NoError(t, b.Eval(`const el = document.getElementById("lesson-drag"); el.value = 0.2301;
				el.dispatchEvent(new Event("input", {bubbles: true})); el.dispatchEvent(new Event("change", {bubbles: true}))`, nil))
			assert.Contains(t, b.text(t, "lesson-attempt"), "That works")
		}
		if at < taught.Stops()-1 {
			b.press(t, `[data-do="lesson-on"]`)
		}
	}

	b.press(t, `[data-do="lesson-code"]`)
	address := b.text(t, "code-link")
	want, err := view.Code(address)
	require.NoError(t, err)
	assert.Contains(t, address, "#lesson&v=1&shipped=pivot")
	path := `document.querySelector("#code-picture path:last-child").getAttribute("d")`
	assert.Contains(t, want, `d="`+eval[string](t, b.Session, `return `+path)+`"`, "the code is that of the link")
	require.NoError(t, b.Keys(webdriver.KeyEscape))
	b.wait(t, `!document.getElementById("code").open`)
	assert.Equal(t, "lesson-code", eval[string](t, b.Session, `return document.activeElement.dataset.do`), "the focus is where it was")
}

func testOwnLesson(t *testing.T, b *bench) {
	b.show(t, "v=1")
	b.inClass(t) // closing a lesson restores the shot from before it
	b.show(t, "v=1&bridge=8in")
	before := eval[int](t, b.Session, `return document.querySelectorAll("#lessons-own li").length`)
	b.press(t, `[data-do="lesson-new"]`)
	write := func(selector, text string) {
		require.NoError(t, b.Eval(`const el = document.querySelector(arguments[0]); el.value = arguments[1]; el.dispatchEvent(new Event("change", {bubbles: true}))`, nil, selector, text))
	}
	write("#lesson-name", "Tuesday")
	write("#lesson-edits textarea", "<img src=x onerror=alert(1)> {bridge}")
	assert.Equal(t, "<img src=x onerror=alert(1)> 8 in", b.text(t, "lesson-words"), "markup is shown, not run")
	for _, keys := range [][]string{{webdriver.KeyControl, "z"}, {webdriver.KeyControl, "y"}} {
		require.NoError(t, b.Eval(`document.querySelector("#lesson-edits textarea").focus()`, nil))
		require.NoError(t, b.Chord(keys...))
		assert.Equal(t, "<img src=x onerror=alert(1)> 8 in", b.text(t, "lesson-words"), "undo inside a text field is the browser's")
	}
	write("#lesson-edits textarea", "With a bridge of .")
	require.NoError(t, b.Eval(`const el = document.querySelector("#lesson-edits textarea"); el.focus(); el.setSelectionRange(17, 17)`, nil))
	b.press(t, `[data-do="insert-value"][data-insert="bridge"]`)
	assert.Equal(t, "With a bridge of 8 in.", b.text(t, "lesson-words"), "where the cursor was")
	assert.Equal(t, "lesson-caption 25", eval[string](t, b.Session, `const el = document.activeElement; return el.dataset.edit + " " + el.selectionStart`), "the cursor is behind it")
	require.NoError(t, b.Eval(`location.hash = "v=1&bridge=20in"`, nil))
	b.waitHash(t, "v=1&bridge=20in")
	b.press(t, `[data-do="lesson-add"]`)
	b.press(t, `[data-do="step-up"][data-index="1"]`)
	assert.Equal(t, "step-up 0", eval[string](t, b.Session, `return document.activeElement.dataset.do + " " + document.activeElement.dataset.index`), "the focus goes with the step")
	b.press(t, `[data-do="step-show"][data-index="0"]`)
	b.waitHash(t, "v=1&bridge=20in")

	require.NoError(t, b.Reload())
	require.NoError(t, b.Wait(`document.documentElement.dataset.state === "board"`, startup))
	b.inClass(t)
	own := eval[[]string](t, b.Session, `return Array.from(document.querySelectorAll("#lessons-own strong"), (el) => el.textContent)`)
	require.Len(t, own, before+1)
	assert.Equal(t, "Tuesday", own[before], "it is still there")
	b.press(t, `#lessons-own li:last-child [data-do="lesson-drop"]`)
	assert.Equal(t, before, eval[int](t, b.Session, `return document.querySelectorAll("#lessons-own li").length`))
	b.press(t, `[data-do="undo"]`)
	assert.Equal(t, before+1, eval[int](t, b.Session, `return document.querySelectorAll("#lessons-own li").length`))
}

// When a messenger truncates a lesson's link, the complete steps are kept, the page
// says so, and nothing is overwritten.
func testLessonCut(t *testing.T, b *bench) {
	b.show(t, "v=1&bridge=9in")
	own := lesson.Link{Lesson: lesson.Lesson{Title: "Cut", Steps: lesson.Shipped[2].Steps[:3]}}
	text := own.Format()
	require.NoError(t, b.Eval(`location.hash = arguments[0]`, nil, text[:len(text)-20]))
	b.wait(t, `document.getElementById("notices").textContent.includes("2 of 3 steps are here")`)
	assert.Equal(t, "1 of 2", b.text(t, "lesson-place"))
	b.press(t, `[data-do="undo"]`)
	b.waitHash(t, "v=1&bridge=9in")
}

// A reloaded page is at the same step; a link starts the lesson at the beginning.
func testLessonReloaded(t *testing.T, b *bench) {
	b.show(t, "v=1")
	b.inClass(t)
	b.press(t, `[data-do="lesson-open"][data-index="1"]`)
	b.press(t, `[data-do="lesson-on"]`)
	place, said := b.text(t, "lesson-place"), b.text(t, "lesson-words")
	assert.Contains(t, place, "2 of")
	const moved = "v=1&bridge=8.5in"
	require.NoError(t, b.Eval(`location.hash = arguments[0]`, nil, moved))
	b.waitHash(t, moved)

	require.NoError(t, b.Reload())
	require.NoError(t, b.Wait(`document.documentElement.dataset.state === "board"`, startup))
	assert.Equal(t, "lessons", eval[string](t, b.Session, `return document.documentElement.dataset.section`))
	assert.Equal(t, place, b.text(t, "lesson-place"))
	assert.Equal(t, said, b.text(t, "lesson-words"))
	assert.Equal(t, moved, b.hash(t), "the shot is as it was left")
	assert.Equal(t, "8.5", b.field(t, "bridge"))
	b.press(t, `[data-do="lesson-on"]`)
	assert.Contains(t, b.text(t, "lesson-place"), "3 of")

	b.load(t, "v=1&bridge=9in", "board")
	assert.Equal(t, "shot", eval[string](t, b.Session, `return document.documentElement.dataset.section || "shot"`))
	b.open(t, "lessons")
	assert.Equal(t, "", b.text(t, "lesson-place"))
}

func testLessonOnTheWall(t *testing.T, b *bench) {
	defer b.load(t, "v=1", "board") // restore the page for the following tests
	taught := lesson.Shipped[2].Lesson
	require.NoError(t, b.Get(b.address+"table.html#lesson&v=1&shipped=length"))
	require.NoError(t, b.Wait(`window.framesDrawn > 0`, startup))
	at := 0
	key := func(name string, to int) {
		t.Helper()
		at = to
		require.NoError(t, b.Eval(`document.dispatchEvent(new KeyboardEvent("keydown", {key: arguments[0], bubbles: true}))`, nil, name))
		assert.Equal(t, phrase.Stop(&taught, at, "in"), b.text(t, "talk-words"), name)
	}
	key("PageDown", 1)
	key(" ", 2)
	key("ArrowRight", 3)
	key("PageUp", 2)
	key("ArrowLeft", 1)
	key("Home", 0)
	key("ArrowLeft", 0)
	key("End", taught.Stops()-1)
	key("ArrowLeft", taught.Stops()-2)
	b.wait(t, `location.hash === "#lesson&v=1&at=7&shipped=length"`)
	assert.Contains(t, b.text(t, "talk-attempt"), "Not yet")
	require.NoError(t, b.Eval(`const el = document.getElementById("talk-drag"); el.value = 0.3246; el.dispatchEvent(new Event("input", {bubbles: true}))`, nil))
	assert.Contains(t, b.text(t, "talk-attempt"), "That works")

	// The canvas stops drawing, and a single shot has no steps.
	b.atRest(t)
	require.NoError(t, b.Eval(`location.hash = "v=1&bridge=9in"`, nil))
	b.wait(t, `document.getElementById("talk").hidden`)
	require.NoError(t, b.Eval(`document.dispatchEvent(new KeyboardEvent("keydown", {key: "ArrowRight", bubbles: true}))`, nil))
	assert.Equal(t, "#v=1&bridge=9in", eval[string](t, b.Session, `return location.hash`))
}

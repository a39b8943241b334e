//go:build browser

package site_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// act focuses an element, activates it, and returns the focused element after the
// page has settled. It returns "" when the focus is lost.
const act = `
	const el = document.querySelector(arguments[0]);
	if (el.closest("details")) el.closest("details").open = true;
	el.focus();
	if (document.activeElement !== el) return "no focus to begin with";
	el.click();
	return new Promise((done) => setTimeout(() => {
		const at = document.activeElement;
		if (!at || at === document.body || !at.checkVisibility({visibilityProperty: true}) || at.matches(":disabled")) return done("");
		done([at.dataset.section || at.dataset.do || at.dataset.edit || at.id || at.localName, at.dataset.index].filter((part) => part !== undefined).join(" "));
	}, 300))`

// Updating a list does not lose the focus. It moves to the same control of the row
// that has moved up, or of the last row. When no row is left, it moves to the next
// control on the page.
func testKeyboardStays(t *testing.T, b *bench) {
	for _, section := range []struct {
		name string
		acts [][2]string // a selector, and the element focused afterwards
	}{
		{"measure", [][2]string{
			{`[data-do="delete-stroke"][data-index="2"]`, "delete-stroke 1"},
			{`[data-do="delete-stroke"][data-index="0"]`, "delete-stroke 0"},
			{`[data-do="delete-stroke"]`, "strokes-csv"},
		}},
		{"cues", [][2]string{
			{`#cues [type="checkbox"]:not(:disabled)`, "cue-tick-0 0"},
			{`[data-do="use-cue"]`, "use-cue 1"},
			{`[data-do="open-cue"]`, "open-cue 0"},
			{`[data-do="drop-cue"]`, "cue-tick-0 0"},
			{`[data-do="new-cue"]`, "cue-name-field"},
			{`[data-do="close-cue"]`, "new-cue"},
		}},
		{"instruments", [][2]string{
			{`[data-do="drop-reading"]`, "drop-reading 0"},
			{`[data-do="use-table"][data-index="2"]`, "use-table 2"},
			{`[data-do="drop-table"][data-index="1"]`, "drop-table 1"},
			{`[data-do="drop-table"][data-index="1"]`, "drop-table 0"},
			{`[data-do="drop-table"]`, "export"},
		}},
		{"lessons", [][2]string{
			{`[data-do="step-drop"][data-index="1"]`, "step-drop 1"},
			{`[data-do="step-drop"][data-index="1"]`, "step-drop 0"},
			{`[data-do="undo"]`, "undo"},
			{`[data-do="step-up"][data-index="1"]`, "step-up 0"},
			{`[data-do="lesson-on"]`, "lesson-back"}, // the lesson is at its last step
			{`[data-do="lesson-close"]`, "lessons"},
			{`[data-do="lesson-drop"][data-index="2"]`, "lesson-drop 1"},
			{`[data-do="lesson-drop"][data-index="0"]`, "lesson-drop 0"},
			{`[data-do="lesson-drop"]`, "lesson-new"},
		}},
		{"clearance", [][2]string{{`[data-do="caution-read"]`, "clearance"}}},
	} {
		b.unfold(t, section.name)
		for _, a := range section.acts {
			var at string
			require.NoError(t, b.Eval(act, &at, a[0]), a[0])
			assert.Equal(t, a[1], at, "%s: after %s", section.name, a[0])
		}
	}
	// Undo everything.
	var at string
	for range 200 {
		if !eval[bool](t, b.Session, `return !document.querySelector('[data-do="undo"]').disabled`) {
			break
		}
		require.NoError(t, b.Eval(`document.querySelector('[data-do="undo"]').focus(); document.querySelector('[data-do="undo"]').click()`, nil))
	}
	require.NoError(t, b.Eval(`return new Promise((done) => setTimeout(() => done(document.activeElement.dataset.do), 300))`, &at))
	assert.Equal(t, "redo", at, "with nothing more to undo")
}

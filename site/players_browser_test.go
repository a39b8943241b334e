//go:build browser

package site_test

import (
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/scripts/lib/webdriver"
	"pivotbench/wasm/store"
)

// A player is added by the form, plays what is suggested, and has a card that shows its
// intervals; a reload halfway loses neither him nor what is being typed.
func testPlayers(t *testing.T, b *bench) {
	b.show(t, "v=1")
	b.open(t, "players")
	b.press(t, `[data-do="new-player"]`)
	b.fill(t, "player-name-field", "Ann")
	b.fill(t, "player-bridge-field", "9 1/2")
	b.press(t, `#player-form [type="submit"]`)
	b.wait(t, `document.getElementById("player-next").textContent.startsWith("Next: ")`)
	require.Equal(t, "9.5in", b.kept(t).Players[0].Bridge)
	assert.Equal(t, []string{"Ann"}, b.texts(t, "#players strong"))

	first := b.text(t, "player-next")
	b.press(t, `[data-do="other-turn"]`)
	b.wait(t, `document.getElementById("player-next").textContent !== `+strconv.Quote(first))
	for i, mark := range []string{"-1 1/4", "0.5"} {
		b.fill(t, "turn-mark", mark)
		b.press(t, `[data-do="add-turn"]`)
		b.wait(t, `document.querySelector("#player-facts dd")?.textContent === "`+strconv.Itoa(i+1)+`"`)
	}
	assert.Equal(t, "-1.25in", b.kept(t).Turns[0].Mark)
	b.choose(t, "#turn-read", "gate")
	b.wait(t, `document.getElementById("player-next").textContent.includes("at the gate")`)
	b.press(t, `[data-do="gate-turn"][data-outcome="clean"]`)
	b.wait(t, `document.querySelector("#player-facts dd")?.textContent === "3"`)
	assert.Equal(t, "clean", b.kept(t).Turns[2].See)
	b.wait(t, `document.querySelectorAll("#player-card table tbody td").length === 12`)
	assert.Regexp(t, `^(-?\d+\s%|open$)`, b.texts(t, "#player-card table tbody td")[1])
	b.choose(t, "#player-card-show", "parallel")
	b.wait(t, `document.querySelector("#player-card table tbody td").textContent.includes("tips")`)

	// A second Ann is refused where she is typed, not above the section.
	b.press(t, `[data-do="new-player"]`)
	b.fill(t, "player-name-field", " ann")
	b.press(t, `#player-form [type="submit"]`)
	assert.Contains(t, b.text(t, "player-faults"), "there is a player called Ann already")
	assert.True(t, eval[bool](t, b.Session, `return document.getElementById("notices").hidden`))
	b.press(t, `[data-do="close-player"]`)

	// Everybody's card is a page of its own, also while one of them is shown.
	b.press(t, `[data-do="new-player"]`)
	b.fill(t, "player-name-field", "Bert")
	b.press(t, `#player-form [type="submit"]`)
	b.wait(t, `document.getElementById("player-title").textContent === "Bert" && document.getElementById("player-next").textContent.startsWith("Next: ")`)
	b.choose(t, "#turn-read", "1mm")
	b.wait(t, `document.getElementById("player-next").textContent.includes("the line at")`)
	b.fill(t, "turn-mark", "1")
	b.press(t, `[data-do="add-turn"]`)
	b.wait(t, `document.querySelector("#player-facts dd")?.textContent === "1"`)
	require.NoError(t, b.Eval(`window.print = () => { window.asked = true }`, nil))
	b.press(t, `[data-do="print-class"]`)
	b.wait(t, `window.asked`)
	assert.Equal(t, 2, eval[int](t, b.Session, `return document.querySelectorAll("#class-cards article").length`))
	if b.Engine == webdriver.Chromium { // whose PDFs tell their pages in plain text
		pdf, err := b.Print()
		require.NoError(t, err)
		pages := regexp.MustCompile(`/Type\s*/Page\b`).FindAll(pdf, -1)
		assert.Len(t, pages, 2)
		assert.Greater(t, len(regexp.MustCompile(`/Type\s*/Font\b`).FindAll(pdf, -1)), 0, "there is text on them")
	} else {
		require.NoError(t, b.Eval(`dispatchEvent(new Event("afterprint"))`, nil))
	}
	b.wait(t, `document.getElementById("class-cards").children.length === 0`)
	b.press(t, `[data-do="choose-player"]`)
	b.wait(t, `document.getElementById("player-title").textContent === "Ann"`)

	// In turn: Enter notes the stroke and passes the turn on, and the field is ready for the
	// next player; taking the stroke back gives the turn back.
	b.press(t, `[data-do="take-turns"]`)
	head := func(words string) {
		t.Helper()
		b.wait(t, `document.getElementById("round-head").textContent === `+strconv.Quote(words)+` && document.getElementById("player-next").textContent.startsWith("Next: ")`)
	}
	head("Ann: stroke 4")
	b.fill(t, "turn-mark", "1")
	require.NoError(t, b.Eval(`document.getElementById("turn-mark").focus()`, nil))
	require.NoError(t, b.Keys(webdriver.KeyEnter))
	head("Bert: stroke 2")
	assert.Equal(t, "turn-mark", eval[string](t, b.Session, `return document.activeElement.id`))
	assert.Equal(t, "Ann, stroke 4: 1.0 in", b.text(t, "round-last"))
	b.press(t, `[data-do="take-back-turn"]`)
	head("Ann: stroke 4")
	b.press(t, `#round-names li:nth-child(2) button`)
	head("Bert: stroke 2")
	b.press(t, `[data-do="sit-out"]`)
	head("Ann: stroke 4")
	assert.Equal(t, []string{"Ann · 3", "Bert · out"}, b.texts(t, "#round-names button"))
	b.press(t, `[data-do="leave-turns"]`)
	assert.Equal(t, []string{"Ann", "Bert"}, b.texts(t, "#players strong"))

	// The link of a player carries the strokes to another phone.
	link := eval[string](t, b.Session, `
		let text;
		Object.defineProperty(navigator, "clipboard", {configurable: true, value: {writeText: async (t) => { text = t }}});
		document.querySelector('[data-do="copy-player"]').click();
		return text`)
	brought, err := store.ReadPlayer(link)
	require.NoError(t, err)
	assert.Equal(t, b.kept(t).TurnsOf("Ann"), brought.Turns)
	b.press(t, `[data-do="code-player"]`)
	b.wait(t, `document.querySelector("#code[open] svg path:last-child")?.getAttribute("d").length > 0`)
	b.press(t, `[data-do="code-close"]`)

	b.press(t, `[data-do="edit-player"]`)
	b.fill(t, "player-notes-field", "half typed")
	b.wait(t, `document.getElementById("player-next").textContent.startsWith("Next: ")`)
	b.press(t, `[data-do="film-turn"]`) // a phone may load the page again when its camera opens
	b.again(t)
	b.wait(t, `document.getElementById("film-turn-words").checkVisibility() && document.getElementById("film-turn-words").textContent.startsWith("For Ann: ")`)
	b.press(t, `[data-do="film-turn-leave"]`)
	b.wait(t, `document.getElementById("player").checkVisibility() && document.getElementById("player-title").textContent === "Ann"`)
	b.wait(t, `document.getElementById("player-notes-field")?.value === "half typed"`)
	b.press(t, `[data-do="drop-player"]`)
	b.wait(t, `document.getElementById("player").hidden`)
	assert.Len(t, b.kept(t).Turns, 1, "Bert's")
}

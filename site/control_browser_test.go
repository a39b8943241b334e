//go:build browser

package site_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/scripts/lib/webdriver"
)

const bridgeSlider = `input[type="range"][data-set="bridge"]`

func (b *bench) entries(t *testing.T) int {
	t.Helper()
	return eval[int](t, b.Session, "return history.length")
}

func TestControls(t *testing.T) {
	inAll(t, releaseHandler(t), tests{
		"SliderByKeys":    testSliderByKeys,
		"SliderByPointer": testSliderByPointer,
		"FieldTakesWords": testFieldTakesWords,
	}, one, tests{
		"FieldRefuses":        testFieldRefuses,
		"Units":               testUnits,
		"UndoAndRedo":         testUndoAndRedo,
		"Look":                testLook,
		"Presets":             testPresets,
		"LinksKeepEverything": testLinksKeepEverything,
	})
}

func testSliderByKeys(t *testing.T, b *bench) {
	b.show(t, "v=1")
	before := b.value(t, "heading")
	require.NoError(t, b.Eval(`document.querySelector(arguments[0]).focus()`, nil, bridgeSlider))
	require.NoError(t, b.Keys(webdriver.KeyArrowRight, webdriver.KeyArrowRight, webdriver.KeyArrowRight))
	b.wait(t, `document.querySelector('[data-reading="heading"]').dataset.value !== `+quoted(before))
	assert.Equal(t, "12.3", b.field(t, "bridge"))
	b.waitHash(t, "v=1&bridge=12.3in")
	assertReadings(t, "v=1&bridge=12.3in", b.readings(t))

	// Consecutive presses are one gesture.
	entries := b.entries(t)
	require.NoError(t, b.Eval(`const el = document.querySelector(arguments[0]);
		for (const value of [13, 13.2, 13.5]) {
			el.value = value;
			el.dispatchEvent(new Event("input", {bubbles: true}));
			el.dispatchEvent(new Event("change", {bubbles: true}));
		}`, nil, bridgeSlider))
	b.waitHash(t, "v=1&bridge=13.5in")
	assert.Equal(t, entries+1, b.entries(t))
}

func testSliderByPointer(t *testing.T, b *bench) {
	b.show(t, "v=1")
	entries := b.entries(t)
	el, err := b.Find(bridgeSlider)
	require.NoError(t, err)
	r, err := el.Rect()
	require.NoError(t, err)
	y := r.Y + r.Height/2
	// The thumb is 26 px wide and moves over the rest of the track.
	thumb := r.X + 13 + (r.Width-26)*(12-2)/(40-2)
	require.NoError(t, b.Drag(webdriver.Mouse, thumb, y, thumb+(r.Width-26)/4, y, 8))
	b.wait(t, `location.hash.includes("bridge=")`)
	s, _ := native(t, b.hash(t))
	assert.InDelta(t, 12+38/4., float64(s.Bridge)/0.0254, 2)
	assert.Equal(t, entries+1, b.entries(t))
	assertReadings(t, b.hash(t), b.readings(t))
}

func testFieldTakesWords(t *testing.T, b *bench) {
	b.show(t, "v=1")
	for _, tc := range []struct{ text, link, tidy string }{
		{"9 1/2 in", "v=1&bridge=9.5in", "9.5"},
		{"24 cm", "v=1&bridge=0.24m", "9.4"},
		{"10", "v=1&bridge=10in", "10.0"},
	} {
		b.write(t, "bridge", tc.text)
		require.NoError(t, b.Keys(webdriver.KeyEnter))
		b.wait(t, `location.hash.includes("bridge")`)
		s, _ := native(t, tc.link)
		b.wait(t, `location.hash === "#`+s.Format()+`"`)
		assertReadings(t, tc.link, b.readings(t))
		assert.Empty(t, b.notices(t))
		require.NoError(t, b.Keys(webdriver.KeyTab))
		b.wait(t, `document.getElementById("f-bridge").value === `+quoted(tc.tidy))
	}
}

func testFieldRefuses(t *testing.T, b *bench) {
	b.show(t, "v=1")
	for _, tc := range []struct {
		text string
		says []string
	}{
		{"nonsense", []string{"Bridge", "“nonsense”", "2.0 in to 40.0 in", "kept"}},
		{"99 in", []string{"“99 in”", "40.0 in"}},
		{"7 mph", []string{"“7 mph”"}},
		{"NaN", []string{"“NaN”"}},
	} {
		b.write(t, "bridge", tc.text)
		assert.Empty(t, b.notices(t), "nothing is said while text is still typed: %s", tc.text)
		require.NoError(t, b.Keys(webdriver.KeyEnter))
		b.wait(t, `!document.getElementById("notices").hidden`)
		for _, part := range tc.says {
			assert.Contains(t, b.notices(t), part)
		}
		assert.Equal(t, tc.text, b.field(t, "bridge"), "the text is the user's to mend")
		assert.Equal(t, "true", eval[string](t, b.Session, `return document.getElementById("f-bridge").ariaInvalid`))
		require.NoError(t, b.Keys(webdriver.KeyTab))
		assert.Equal(t, tc.text, b.field(t, "bridge"), "leaving the field keeps it too")
		b.write(t, "bridge", "12")
		require.NoError(t, b.Keys(webdriver.KeyEnter))
		b.wait(t, `document.getElementById("notices").hidden`)
	}
	assertReadings(t, "v=1", b.readings(t))
}

func testUnits(t *testing.T, b *bench) {
	b.show(t, "v=1")
	b.choose(t, "#f-units", "cm")
	b.waitHash(t, "v=1&units=cm")
	assert.Equal(t, "30.48", b.field(t, "bridge"))
	assert.Equal(t, "101.6", eval[string](t, b.Session, `return document.querySelector('`+bridgeSlider+`').max`), "the ends are whole millimetres")
	assertReadings(t, "v=1&units=cm", b.readings(t))
	b.write(t, "bridge", "25")
	require.NoError(t, b.Keys(webdriver.KeyEnter))
	s, _ := native(t, "v=1&units=cm&bridge=25cm")
	b.waitHash(t, s.Format())
	b.choose(t, "#f-units", "in")
	s.Units = "in"
	b.waitHash(t, s.Format())
	assertReadings(t, s.Format(), b.readings(t))
}

func testUndoAndRedo(t *testing.T, b *bench) {
	b.load(t, "v=1", "board")
	disabled := func(do string) bool {
		return eval[bool](t, b.Session, `return document.querySelector('[data-do="`+do+`"]').disabled`)
	}
	assert.True(t, disabled("undo"))
	assert.True(t, disabled("redo"))
	b.choose(t, "#f-bridge", "9")
	b.waitHash(t, "v=1&bridge=9in")
	b.choose(t, "#f-side", "0.2")
	b.waitHash(t, "v=1&side=0.2&bridge=9in")

	b.press(t, `[data-do="undo"]`)
	b.waitHash(t, "v=1&bridge=9in")
	assertReadings(t, "v=1&bridge=9in", b.readings(t))
	require.NoError(t, b.Eval(`document.activeElement.blur()`, nil))
	require.NoError(t, b.Chord(webdriver.KeyControl, "z"))
	b.waitHash(t, "v=1")
	assert.True(t, disabled("undo"))
	require.NoError(t, b.Chord(webdriver.KeyControl, "y"))
	b.waitHash(t, "v=1&bridge=9in")
	require.NoError(t, b.Chord(webdriver.KeyControl, webdriver.KeyShift, "z"))
	b.waitHash(t, "v=1&side=0.2&bridge=9in")
	r := eval[webdriver.Rect](t, b.Session, `return document.getElementById("table").getBoundingClientRect().toJSON()`)
	require.NoError(t, b.Drag(webdriver.Mouse, r.X+6, r.Y+r.Height/2, r.X+6, r.Y+r.Height/2, 1))
	require.NoError(t, b.Chord(webdriver.KeyControl, "z"))
	b.waitHash(t, "v=1&bridge=9in") // after a click on the canvas too
	b.press(t, `[data-do="redo"]`)
	b.waitHash(t, "v=1&side=0.2&bridge=9in")
	assert.True(t, disabled("redo"))
	assert.Equal(t, "0.20", b.field(t, "side"))
}

// An example shot opens as it is listed.
func testPresets(t *testing.T, b *bench) {
	for i, p := range scenario.Presets {
		b.show(t, "v=1&bridge=11in")
		require.NoError(t, b.Eval(`document.querySelectorAll(".presets a")[arguments[0]].click()`, nil, i))
		s, _ := native(t, p.Link)
		b.wait(t, `document.getElementById("board").href.endsWith("#"+`+quoted(s.Format())+`)`)
		assert.Empty(t, b.notices(t), p.Label)
	}
}

func testLook(t *testing.T, b *bench) {
	b.show(t, "v=1")
	frames := `document.getElementById("table").contentWindow.framesDrawn`
	drawn := eval[int](t, b.Session, "return "+frames)
	b.press(t, `[data-stretch="10"]`)
	b.wait(t, frames+" > "+quoted(string(rune('0'+min(drawn, 9)))))
	b.choose(t, "#theme", "dark")
	left, err := b.Find("#left")
	require.NoError(t, err)
	require.NoError(t, b.Eval(`arguments[0].closest("details").open = true`, nil, left))
	require.NoError(t, left.Click())

	const look = `const d = document.documentElement.dataset;
		return [d.theme, d.hand, document.getElementById("table").contentDocument.documentElement.dataset.theme,
			...Array.from(document.querySelectorAll("[data-stretch]"), (el) => el.getAttribute("aria-pressed"))].join(" ")`
	const want = "dark left dark false false true"
	b.wait(t, `document.getElementById("table").contentDocument.documentElement.dataset.theme === "dark"`)
	assert.Equal(t, want, eval[string](t, b.Session, look))
	assert.Contains(t, []string{"", "v=1"}, b.hash(t), "a look is never in the link")
	require.NoError(t, b.Reload())
	b.wait(t, `document.documentElement.dataset.state === "board"`)
	b.wait(t, `document.getElementById("table").contentDocument.documentElement.dataset.theme === "dark"`)
	assert.Equal(t, want, eval[string](t, b.Session, look))
	require.NoError(t, b.Eval(`localStorage.clear()`, nil))
}

func testLinksKeepEverything(t *testing.T, b *bench) {
	b.show(t, "v=1")
	for _, set := range [][2]string{
		{"name", "Wall & <b>7</b> é"}, {"table", "8ft"}, {"ball", "snooker"}, {"cloth", "worn"}, {"pivot", "14.3"},
		{"cuemass", "19.5 oz"}, {"tip", "9.1"}, {"side", "-0.337"}, {"height", "0.11"}, {"elev", "4.7"}, {"stroke", "5.5"},
		{"bridge", "23.7 cm"}, {"grip", "27.3"}, {"back", "0.9"}, {"front", "0.1"}, {"dist", "41.3"}, {"gate", "22.2"}, {"gap", "3.333"},
		{"hop", "0.4"}, {"slide", "0.21"},
	} {
		b.choose(t, "#f-"+set[0], set[1])
	}
	b.wait(t, `location.hash.includes("slide=")`)
	assert.Empty(t, b.notices(t))
	want, link := b.readings(t), b.hash(t)
	assertReadings(t, link, want)

	first, err := b.Tab()
	require.NoError(t, err)
	_, err = b.NewTab()
	require.NoError(t, err)
	require.NoError(t, b.Get(b.address+"#"+link))
	b.wait(t, `document.documentElement.dataset.state === "live" || document.documentElement.dataset.state === "board"`)
	assert.Equal(t, want, b.readings(t), "to the last digit")
	assert.Equal(t, link, b.hash(t))
	assert.Empty(t, b.notices(t))
	assert.Equal(t, "Wall & <b>7</b> é", b.field(t, "name"))
	require.NoError(t, b.CloseTab())
	require.NoError(t, b.SwitchToTab(first))
}

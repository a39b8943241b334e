//go:build browser

package site_test

import (
	"fmt"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/scripts/lib/webdriver"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

const hopLink = "v=1&side=0&elev=40deg&speed=9mph&gate=12in&gap=2in"

// Tests the Clearance section the way an instructor uses it.
func TestClearance(t *testing.T) {
	inOne(t, releaseHandler(t), tests{
		"Cautions": testCautions,
		"Figures":  testHopFigures,
		"Strokes":  testHopStrokes,
		"SideView": testSideView,
		"Layout":   testHopLayout,
	})
}

const cautionShown = `document.getElementById("caution").getClientRects().length > 0`

// The cautions appear each time the section opens until they are dismissed, and
// appear again in the next session.
func testCautions(t *testing.T, b *bench) {
	b.load(t, hopLink, "board")
	require.NoError(t, b.Eval(`sessionStorage.clear()`, nil))
	b.open(t, "clearance")
	b.wait(t, cautionShown)
	text := eval[string](t, b.Session, `return document.getElementById("caution").textContent`)
	for _, part := range []string{"faces", "cloth", "Ask the house", "foul under most rules", "follow its rules", "qualified instructor"} {
		assert.Contains(t, text, part)
	}
	b.open(t, "shot")
	b.open(t, "clearance")
	assert.True(t, eval[bool](t, b.Session, `return `+cautionShown))
	b.press(t, `[data-do="caution-read"]`)
	b.wait(t, `!(`+cautionShown+`)`)
	b.open(t, "shot")
	b.open(t, "clearance")
	assert.False(t, eval[bool](t, b.Session, `return `+cautionShown), "dismissed for the session")
	require.NoError(t, b.Eval(`sessionStorage.clear()`, nil))
	require.NoError(t, b.Reload())
	b.wait(t, `document.documentElement.dataset.state !== "still"`)
	b.open(t, "clearance")
	b.wait(t, cautionShown)
}

// The page's figures are equal to those of the native program.
func testHopFigures(t *testing.T, b *bench) {
	b.show(t, hopLink)
	b.open(t, "clearance")
	s, _ := scenario.Parse(hopLink)
	contacts := view.ContactsOf(&s, new(store.Records))
	want := view.Clear(&s, &contacts)
	b.wait(t, `document.getElementById("hop-head").textContent === `+quoted(want.Head))
	b.wait(t, `document.querySelectorAll("#hop-facts dd").length === `+strconv.Itoa(len(want.Facts)))
	got := eval[[]string](t, b.Session, `return Array.from(document.querySelectorAll("#hop-facts dd"), (el) => el.textContent)`)
	for i, f := range want.Facts {
		assert.Equal(t, f.Value, got[i], f.Name)
	}
	rows := eval[[][]string](t, b.Session, `return Array.from(document.querySelectorAll("#hop-cues tbody tr"), (row) => Array.from(row.children, (el) => el.textContent.replaceAll("\u00a0", " ")))`)
	for i, r := range view.CompareHops(&s, &contacts).Rows {
		assert.Equal(t, []string{r.Name, r.Speed, r.Clears, r.Rises, r.Lands, r.Squirt}, rows[i])
	}

	// A recorded hop narrows the figures at once, until it is removed.
	const said = `document.getElementById("hop-contacts").textContent`
	b.wait(t, said+`.startsWith("Not measured")`)
	b.press(t, `[data-do="note-hop"][data-saw="cleared"]`)
	b.wait(t, said+`.startsWith("Going by 1 hop ")`)
	b.press(t, `#hop-seen [data-do="drop-hop"]`)
	b.wait(t, said+`.startsWith("Not measured")`)

	b.show(t, "v=1&side=0&elev=0deg&gap=2in")
	b.wait(t, `document.getElementById("hop-head").textContent === "Hits left blocker first"`)
	b.press(t, `[data-do="hop-speed"]`)
	b.wait(t, `document.getElementById("notices").textContent.includes("does not leave the cloth")`)
}

// A tap sets the lowest stroke, and the map responds to a tap and a drag. Each can
// be undone.
func testHopStrokes(t *testing.T, b *bench) {
	const light = hopLink + "&cuemass=280g&bounce=0.87"
	b.show(t, light)
	b.open(t, "clearance")
	s, _ := scenario.Parse(light)
	contacts := view.ContactsOf(&s, new(store.Records))
	slow, err := view.SlowestHop(&s, &contacts)
	require.NoError(t, err)
	b.press(t, `[data-do="hop-speed"]`)
	slower := s
	require.Nil(t, scenario.Find("speed").Set(&slower, slow.Text, ""))
	b.waitHash(t, slower.Format())
	assert.Contains(t, eval[string](t, b.Session, `return document.getElementById("hop-head").textContent`), "Clears")
	b.press(t, `[data-do="undo"]`)
	b.waitHash(t, s.Format())

	const ring = `document.querySelector('#hop-map [data-handle="stroke"]')`
	b.wait(t, ring+` !== null`)
	where := func() [2]float64 {
		return eval[[2]float64](t, b.Session, `document.getElementById("hop-map").scrollIntoView({block: "center"});
			const r = `+ring+`.getBoundingClientRect();
			return [r.left + r.width / 2, r.top + r.height / 2]`)
	}
	at := where()
	require.NoError(t, b.Drag(webdriver.Mouse, at[0], at[1], at[0]+40, at[1]-30, 4))
	b.wait(t, `parseFloat(document.getElementById("h-elev").value) > 42 && parseFloat(document.getElementById("h-speed").value) > 10`)
	b.press(t, `[data-do="undo"]`)
	b.waitHash(t, s.Format())
	// The map is updated with a delay.
	b.wait(t, fmt.Sprintf(`(() => { const r = %s.getBoundingClientRect(); return Math.abs(r.left + r.width / 2 - %v) < 1; })()`, ring, at[0]))
	at = where()
	require.NoError(t, b.Gesture(webdriver.Mouse).Move(at[0]-60, at[1]-60).Down().Up().Do())
	b.wait(t, `parseFloat(document.getElementById("h-elev").value) < 36 && parseFloat(document.getElementById("h-speed").value) > 12`)
	b.press(t, `[data-do="undo"]`)
	b.waitHash(t, s.Format())
}

// The side view is below the plan for a shot that hops, and in the Clearance section
// for any shot. The lowest handle of the plan shows where the plan ends.
func testSideView(t *testing.T, b *bench) {
	for _, c := range []struct{ link, section, low string }{
		{"v=1&side=0&gate=12in", "shot", "> 0.8"},
		{hopLink, "shot", "< 0.7"},
		{"v=1&side=0&gate=12in", "clearance", "< 0.7"},
		{"v=1&side=0&gate=12in", "shot", "> 0.8"},
	} {
		b.show(t, c.link)
		b.open(t, c.section)
		b.wait(t, `(() => {
			const frame = document.getElementById("table");
			const r = frame.contentDocument.querySelector('[data-handle="grip"]').getBoundingClientRect();
			return (r.top + r.height / 2) / frame.clientHeight `+c.low+`; })()`)
	}
}

// The section and the sheet with its side view fit every screen.
func testHopLayout(t *testing.T, b *bench) {
	b.show(t, hopLink)
	b.open(t, "clearance")
	b.wait(t, `document.querySelector("#hop-map svg") !== null`)
	if b.Engine != webdriver.Chromium {
		assertLayout(t, b.Session)
		return
	}
	for _, screen := range screens {
		require.NoError(t, b.Viewport(screen.w, screen.h, 1, screen.w < 900))
		b.wait(t, `innerWidth === `+strconv.Itoa(screen.w)+` && document.getElementById("table").contentWindow.innerWidth === document.getElementById("paper").clientWidth`)
		b.waitSheet(t)
		assertLayout(t, b.Session)
	}
	require.NoError(t, b.Viewport(1280, 800, 1, false))
}

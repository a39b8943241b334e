//go:build browser

package site_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/margin"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// Tests the sections beside the shot the way their users work.
func TestSections(t *testing.T) {
	inOne(t, releaseHandler(t), tests{
		"AimIt":        testAimIt,
		"AimCard":      testAimCard,
		"RoomForError": testMargin,
		"Measure":      testMeasure,
		"Marks":        testMarks,
		"Sitting":      testSitting,
		"Players":      testPlayers,
	})
}

func (b *bench) metres(t *testing.T, name string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(b.value(t, name), 64)
	require.NoError(t, err)
	return v
}

func testAimIt(t *testing.T, b *bench) {
	b.open(t, "shot")
	b.show(t, "v=1&bridge=9in")
	require.Greater(t, b.metres(t, "arrival"), 0.01)
	b.press(t, `[data-do="aim"]`)
	assert.InDelta(t, 0, b.metres(t, "arrival"), 0.0005, "as near as a whole per cent takes it")
	assert.True(t, eval[bool](t, b.Session, `return !document.querySelector('[data-do="unfaint"]').hidden`), "the shot before is seen")
	b.press(t, `[data-do="undo"]`)
	b.waitHash(t, "v=1&bridge=9in")
	assert.Greater(t, b.metres(t, "arrival"), 0.01)
}

// A cell of the card opens its shot on the table, with an aim that allows for throw.
func testAimCard(t *testing.T, b *bench) {
	b.show(t, "v=1&bridge=9in&cut=15deg&gate=0in")
	b.open(t, "card")
	b.wait(t, `document.querySelectorAll("#card-table tbody td").length === 30`)
	b.choose(t, "#card-show", "heading")
	b.wait(t, `document.querySelector("#card-table tbody td").textContent.includes("°")`)
	b.choose(t, "#card-show", "share")
	b.wait(t, `document.querySelector("#card-table tbody td").textContent.includes("%")`)
	assert.True(t, eval[bool](t, b.Session, `return document.querySelectorAll("#card-chart path").length > 3`))
	b.press(t, "#card-table tbody tr:nth-child(3) td:nth-child(4) a")
	b.wait(t, `document.documentElement.dataset.section === "shot" && document.getElementById("detail").textContent.startsWith("Object ball pocketed")`)
	assert.Equal(t, "24.0", b.field(t, "object"))
	assert.InDelta(t, 36*0.0254, eval[float64](t, b.Session, `return parseFloat(document.getElementById("f-dist").value) * 0.0254`), 1e-9)
}

func testMargin(t *testing.T, b *bench) {
	b.load(t, "v=1", "board")
	require.NoError(t, b.Eval(`document.getElementById("band").closest("details").open = true`, nil))
	b.wait(t, `document.getElementById("chances-note").textContent.includes("10000 strokes")`)
	shares := eval[[]string](t, b.Session, `return Array.from(document.querySelectorAll("#chances dd"), (el) => el.textContent)`)
	m := app.Start()
	for i, c := range view.Chances(&m.Scene, margin.NewSampler(10000), false) {
		assert.Equal(t, c.Value, shares[i], c.Name)
	}
	b.press(t, "#band")
	assert.True(t, eval[bool](t, b.Session, `return document.getElementById("band").checked`))
	b.press(t, "#band")
}

// Strokes recorded with two taps each give the same result as the sitting package,
// and are still there after a reload.
func testMeasure(t *testing.T, b *bench) {
	b.load(t, "v=1&speed=12mph", "board")
	b.open(t, "measure")
	b.press(t, `[data-do="clear-strokes"]`) // from another test
	b.choose(t, "#measuring", "House 4")
	for i, outcome := range []string{"right", "left", "clean"} {
		b.wait(t, `document.getElementById("next").textContent.startsWith("Next")`)
		b.press(t, `[data-do="take-next"]`)
		b.press(t, `[data-outcome="`+outcome+`"]`)
		b.wait(t, `document.querySelectorAll("#strokes tr[data-stroke]").length === `+strconv.Itoa(i+1))
		b.wait(t, `document.querySelector("#facts dd") && document.querySelector("#facts dd").textContent === "`+strconv.Itoa(i+1)+`"`)
	}
	b.press(t, `[data-do="clear-strokes"]`)
	b.fill(t, "mark-line", "30")
	for _, marks := range [][2]string{{"0.4", "-1 1/8, -1 1/4, -1.2"}, {"-0.4", "1.1 1.2 1 1/8"}} {
		b.show(t, "v=1&side="+marks[0]+"&elev=1deg&speed=12mph&back=0")
		b.open(t, "measure")
		b.fill(t, "mark-text", marks[1])
		b.press(t, `[data-do="add-mark"]`)
	}
	b.wait(t, `document.querySelector("#facts dd").textContent === "6"`)
	records, err := store.Decode(eval[string](t, b.Session, `return localStorage.getItem("pivotbench-kept")`))
	require.NoError(t, err)
	require.Len(t, records.Strokes, 6)
	assert.Equal(t, []string{"House 4", "", "-1.125in", "30in", "3mm"}, []string{records.Strokes[0].Cue, records.Strokes[0].See, records.Strokes[0].Mark, records.Strokes[0].At, records.Strokes[0].Read})
	m := app.Update(app.Start(), app.Open{Link: b.hash(t)})
	m = app.Update(app.Update(m, app.Restore{Kept: records}), app.MeasureCue{Name: "House 4"})
	sitting := view.NewSitting(m.SetUp, m.Scene.PivotSpin)
	for _, k := range records.Strokes {
		sitting = sitting.Add(k)
	}
	head := view.Weigh(&m, sitting).Head
	said := `document.getElementById("finding").textContent`
	b.wait(t, said+` === `+quoted(head))

	require.NoError(t, b.Reload())
	b.wait(t, `document.documentElement.dataset.state !== "still"`)
	b.open(t, "measure")
	b.wait(t, said+` === `+quoted(head))
	b.press(t, `[data-do="delete-stroke"][data-index="0"]`)
	b.wait(t, `document.querySelectorAll("#strokes tr[data-stroke]").length === 5`)
	b.press(t, `[data-do="undo"]`)
	b.wait(t, said+` === `+quoted(head))

	// A wrongly recorded stroke is corrected with the controls, and the current shot
	// is then restored.
	bench := eval[string](t, b.Session, `return location.hash`)
	b.press(t, `[data-do="edit-stroke"][data-index="1"]`)
	b.wait(t, `!document.getElementById("editing").hidden`)
	b.choose(t, "#m-speed", "11")
	b.press(t, `[data-do="add-mark"]`)
	b.wait(t, `document.getElementById("editing").hidden`)
	corrected, err := store.Decode(eval[string](t, b.Session, `return localStorage.getItem("pivotbench-kept")`))
	require.NoError(t, err)
	assert.Contains(t, corrected.Strokes[1].Link, "speed=11mph")
	assert.Equal(t, bench, eval[string](t, b.Session, `return location.hash`))
	b.press(t, `[data-do="undo"]`) // undo restoring the shot
	b.press(t, `[data-do="undo"]`) // undo the correction
	b.press(t, `[data-do="undo"]`) // undo setting its speed
	b.press(t, `[data-do="undo"]`) // undo loading the stroke
	b.wait(t, said+` === `+quoted(head))

	b.press(t, `[data-do="save-measured"]`)
	b.open(t, "cues")
	b.press(t, `[data-do="use-cue"][data-index="0"]`)
	b.wait(t, `location.hash.includes("pivot=")`)
	pivot := sitting.Post.Pivot(0).Median
	assert.InDelta(t, pivot, eval[float64](t, b.Session, `return parseFloat(document.getElementById("f-pivot").value) * 0.0254`), 0.0013)
	assert.Regexp(t, `pivot=\d+(\.\d)?in`, eval[string](t, b.Session, `return location.hash`), "to a tenth of an inch, as it is said")

	// Of a long list the newest strokes have rows, and the others when they are asked for.
	b.open(t, "measure")
	b.fill(t, "mark-text", strings.Repeat("1 ", 60))
	b.press(t, `[data-do="add-mark"]`)
	rows := `[...document.querySelectorAll("#strokes tr[data-stroke]")].map((row) => row.dataset.stroke)`
	b.wait(t, rows+`.length === 50 && `+rows+`[0] === "65"`)
	b.press(t, `[data-do="older-strokes"]`)
	b.wait(t, rows+`.join() === [...Array(66).keys()].reverse().join()`)
	b.wait(t, `document.querySelector('[data-do="older-strokes"]').hidden`)
	b.press(t, `[data-do="undo"]`)
	b.wait(t, rows+`.length === 6`)
}

// Marks of an older version become strokes after their shot has been set.
func testMarks(t *testing.T, b *bench) {
	b.load(t, "v=1&speed=12mph", "board")
	b.open(t, "measure")
	b.takes(t, "records.json", `{"v": 2, "tries": [], "cues": [], "marks": {"rail": "50 in", "right": "-1.9 -2.2", "left": "2.4 1.8", "otherRight": "", "otherLeft": ""}, "readings": [], "tables": []}`)
	b.wait(t, `!document.getElementById("old-marks").hidden || !document.querySelector('[data-panel="measure"] [data-import]').hidden`)
	require.NoError(t, b.Eval(`const ask = document.querySelector('[data-panel="measure"] [data-do="import-replace"]'); if (ask.offsetParent) ask.click()`, nil))
	b.wait(t, `!document.getElementById("old-marks").hidden`)
	b.press(t, `[data-do="old-marks-add"]`)
	b.wait(t, `document.getElementById("old-marks").hidden && document.querySelectorAll("#strokes tr[data-stroke]").length === 4`)
	assert.Contains(t, b.texts(t, "#strokes tr[data-stroke]")[0], "1.80 in right at 50 in")
}

// open opens a section.
func (b *bench) open(t *testing.T, section string) {
	t.Helper()
	if !eval[bool](t, b.Session, `return location.href.startsWith(`+quoted(b.address)+`) && document.documentElement.dataset.state !== "still"`) {
		b.load(t, "v=1", "board")
	}
	b.press(t, `.tabs [data-section="`+section+`"]`)
	b.wait(t, `!document.querySelector('[data-panel="`+section+`"]').hidden`)
}

//go:build browser

package site_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// Tests the saved cues of a class the way its instructor uses them.
func TestCues(t *testing.T) {
	inOne(t, releaseHandler(t), tests{
		"Compare": testCompareCues,
		"Record":  testCueRecord,
		"Link":    testCueLink,
		"Many":    testManyCues,
		"Narrow":  testTablesOnAPhone,
	})
}

func classCue(name, pivot, from, to, when string) store.CueRecord {
	return store.CueRecord{Name: name, Pivot: pivot, From: from, To: to, At: "0.5", How: "gate", Link: "v=1", When: when}
}

var classRack = []store.CueRecord{
	classCue("House 4", "9.6in", "9in", "10.3in", "2026-11-10T19:00:00Z"),
	classCue("house 4", "9.9in", "9.2in", "10.7in", "2026-11-17T19:00:00Z"),
	classCue("Slender", "18.6in", "17in", "20.6in", "2026-11-17T19:30:00Z"),
	{Name: "New arrival", How: "none", Link: "v=1", When: "2026-11-24T19:00:00Z"},
}

// keep opens a link and the Cues section on a device that has these cues saved.
func (b *bench) keep(t *testing.T, link string, cues []store.CueRecord) {
	t.Helper()
	if !eval[bool](t, b.Session, `return location.href.startsWith(`+quoted(b.address)+`)`) {
		b.load(t, "v=1", "board")
	}
	require.NoError(t, b.Eval(`localStorage.setItem("pivotbench-kept", arguments[0])`, nil, store.Records{Cues: cues}.Encode()))
	b.load(t, link, "board")
	b.open(t, "cues")
}

func (b *bench) storedCues(t *testing.T) []store.CueRecord {
	t.Helper()
	records, err := store.Decode(b.stored(t, "pivotbench-kept"))
	require.NoError(t, err)
	return records.Cues
}

// texts returns the texts of the elements that match a selector.
func (b *bench) texts(t *testing.T, selector string) []string {
	t.Helper()
	return eval[[]string](t, b.Session, `return Array.from(document.querySelectorAll(`+quoted(selector)+`), (el) => el.textContent.replaceAll("\u00a0", " "))`)
}

const rows = `document.querySelectorAll("#cues > li").length`

func testCompareCues(t *testing.T, b *bench) {
	b.keep(t, "v=1", classRack)
	rack := view.ListCues(classRack)
	assert.Equal(t, []string{"House 4", "Slender", "New arrival"}, b.texts(t, "#cues > li > strong"))
	for i, line := range b.texts(t, "#cues > li > span") {
		assert.Equal(t, view.CueLine(&rack[i], classRack, "in", func(when string) string {
			return eval[string](t, b.Session, `return new Date(`+quoted(store.Day(when)+"T00:00")+`).toLocaleDateString()`)
		}), line)
	}
	assert.Equal(t, []bool{false, false, true}, eval[[]bool](t, b.Session, `return Array.from(document.querySelectorAll("#cues input"), (el) => el.disabled)`), "there is nothing to compare of a cue that is not measured")

	b.press(t, `[data-do="use-cue"][data-index="0"]`)
	b.wait(t, `location.hash.includes("name=House")`)
	b.press(t, "#cue-tick-1")
	b.wait(t, `location.hash.includes("cue2=")`)
	b.wait(t, `!document.getElementById("compared").hidden`)

	s, problems := scenario.Parse(b.hash(t))
	require.Empty(t, problems)
	assert.Equal(t, [5]scenario.CueSpec{rack[1].On(&s)}, s.More)
	entries, left := view.Entries(&s, rack)
	require.Empty(t, left)
	var cells []string
	for _, row := range view.CompareTable(entries).Rows {
		cells = append(cells, row.Cells...)
	}
	assert.Equal(t, cells, b.texts(t, "#compare-table tbody td"))
	d := view.Differences(&s, entries)[0]
	assert.Equal(t, []string{d.Name, d.Value}, []string{b.texts(t, "#differences dt")[0], b.texts(t, "#differences dd")[0]})
	assert.Equal(t, view.Switching(&s, &entries[0], &entries[1]).Head, b.texts(t, "#switch-head")[0])
	b.choose(t, "#switch-from", "1")
	b.choose(t, "#switch-to", "0")
	b.wait(t, `document.getElementById("switch-head").textContent === `+quoted(view.Switching(&s, &entries[1], &entries[0]).Head))
	assert.Equal(t, view.Choosing(&s, entries).Head, b.texts(t, "#choose-head")[0])
	assert.Len(t, b.texts(t, "#effort-table tbody tr"), 2)
	assert.Equal(t, 2, eval[int](t, b.Session, `return document.querySelectorAll("#squirts .s-way[stroke-width='2']:not(.f-grid), #squirts .s-cue2[stroke-width='2']").length / 2`), "a curve and a line of the legend for each")

	// When it becomes the current cue, the former current cue replaces it.
	b.press(t, `[data-do="use-cue"][data-index="1"]`)
	b.wait(t, `location.hash.includes("name=Slender")`)
	s, _ = scenario.Parse(b.hash(t))
	assert.Equal(t, "House 4", s.More[0].Name)
	assert.Zero(t, s.More[1])
	b.press(t, `[data-do="undo"]`)
	b.press(t, `[data-do="undo"]`)
	b.wait(t, `!location.hash.includes("cue2=") && document.getElementById("compared").hidden`)

	// The cues chosen to switch between are still chosen after a reload.
	b.press(t, `[data-do="redo"]`)
	b.wait(t, `!document.getElementById("compared").hidden`)
	b.again(t)
	b.wait(t, `!document.getElementById("compared").hidden`)
	s, _ = scenario.Parse(b.hash(t))
	entries, _ = view.Entries(&s, rack)
	assert.Equal(t, []string{"1", "0"}, eval[[]string](t, b.Session, `return Array.from(document.querySelectorAll("#switch-from, #switch-to"), (el) => el.value)`))
	assert.Equal(t, view.Switching(&s, &entries[1], &entries[0]).Head, b.texts(t, "#switch-head")[0])
}

func testCueRecord(t *testing.T, b *bench) {
	b.keep(t, "v=1&units=cm", classRack)
	b.press(t, `[data-do="new-cue"]`)
	for field, text := range map[string]string{"name": "Visitor", "pivot": "30", "from": "31", "shaft": "ash", "cuemass": "18 oz"} {
		b.choose(t, `[data-field="`+field+`"]`, text)
	}
	b.press(t, "#cue-form [type=submit]")
	b.wait(t, `document.getElementById("cue-faults").textContent.includes("does not contain")`)
	assert.Equal(t, classRack, b.storedCues(t), "nothing is kept of a record with a fault")
	b.choose(t, `[data-field="from"]`, "")
	b.press(t, "#cue-form [type=submit]")
	b.wait(t, rows+` === 4 && document.getElementById("cue-form").hidden`)
	got := b.storedCues(t)[4]
	assert.Equal(t, "Visitor", got.Name)
	assert.Equal(t, "typed", got.How)
	assert.Equal(t, "ash", got.Shaft)
	s, _ := scenario.Parse(got.Link)
	assert.InDelta(t, 18*0.028349523125, float64(s.CueMass), 1e-12)

	// A renamed measurement is a separate cue until it gets its old name back.
	b.press(t, "#cue-open-0")
	b.press(t, `[data-do="edit-cue"][data-index="1"]`)
	b.choose(t, `[data-field="name"]`, "House 5")
	b.press(t, "#cue-form [type=submit]")
	b.wait(t, rows+` === 5`)
	assert.Equal(t, classRack[1].Pivot, b.storedCues(t)[1].Pivot, "what was not touched is as it was")
	b.press(t, `[data-do="undo"]`)
	b.wait(t, rows+` === 4`)
	b.press(t, `[data-do="drop-cue"][data-index="0"]`)
	b.wait(t, `document.querySelectorAll('#cues [data-do="edit-cue"]').length === 1`)
	b.press(t, `[data-do="undo"]`)
	b.wait(t, `document.querySelectorAll('#cues [data-do="edit-cue"]').length === 2`)
	assert.Equal(t, classRack, b.storedCues(t)[:4])
}

// A cue's link saves nothing until the user accepts it, and leaves the shot as it is.
func testCueLink(t *testing.T, b *bench) {
	sent := classRack[2]
	sent.Link, sent.Notes = "v=1&cuemass=520g", "straight, wiped weekly"
	b.keep(t, "v=1&bridge=9in", classRack[:1])
	require.NoError(t, b.Eval(`location.hash = arguments[0]`, nil, sent.Fragment()))
	b.wait(t, `!document.getElementById("cue-offer").hidden`)
	b.waitHash(t, "v=1&bridge=9in")
	assert.Contains(t, b.texts(t, "#cue-offer-words")[0], "Slender: pivot length 18.6 in")
	assert.Len(t, b.storedCues(t), 1)
	b.press(t, `[data-do="keep-offer"]`)
	b.wait(t, rows+` === 2 && document.getElementById("cue-offer").hidden`)
	assert.Equal(t, sent, b.storedCues(t)[1])

	// The page is opened by such a link, and then by a truncated one.
	b.load(t, sent.Fragment(), "board")
	b.wait(t, `document.documentElement.dataset.section === "cues" && !document.getElementById("cue-offer").hidden`)
	b.waitHash(t, "v=1")
	b.press(t, `[data-do="drop-offer"]`)
	assert.Len(t, b.storedCues(t), 2)
	require.NoError(t, b.Eval(`location.hash = arguments[0]`, nil, strings.TrimSuffix(sent.Fragment(), "end")))
	b.wait(t, `!document.getElementById("notices").hidden`)
	assert.Contains(t, b.notices(t), "cut short")
	b.waitHash(t, "v=1")
}

// A thousand records can be searched; the list shows some of them.
func testManyCues(t *testing.T, b *bench) {
	var many []store.CueRecord
	for i := range 1000 {
		many = append(many, classCue("Cue "+strconv.Itoa(i), "12in", "11in", "13in", "2026-11-17T19:00:00Z"))
	}
	b.keep(t, "v=1", many)
	b.wait(t, rows+` === 40`)
	assert.Contains(t, b.texts(t, "#cues-note")[0], "960 more")
	require.NoError(t, b.Eval(`const el = document.getElementById("cue-find"); el.value = "cue 99"; el.dispatchEvent(new Event("input"))`, nil))
	b.wait(t, rows+` === 11`)
	b.press(t, `#cues > li:last-child [data-do="use-cue"]`)
	b.wait(t, `location.hash.includes("name=Cue%20999")`)
	assert.False(t, eval[bool](t, b.Session, `const el = document.querySelector(".panel"); return el.scrollWidth > el.clientWidth + 1`))
}

// On a phone no table is wider than the screen, in either unit system. Only
// Chromium's window can be that narrow.
func testTablesOnAPhone(t *testing.T, b *bench) {
	if !eval[bool](t, b.Session, `return navigator.userAgent.includes("Chrome")`) {
		t.Skip("its window is wider than a phone")
	}
	defer func() { require.NoError(t, b.Viewport(1280, 800, 1, false)) }()
	for _, units := range []string{"in", "cm"} {
		link := "v=1&name=House%204&pivot=9.6in&side=0.5&cue2=19in,0.5,520g,10.6mm,0.8,Slender&cue3=13in,0.5,540g,10.6mm,0.75,Club%207&units=" + units
		for _, wide := range []int{390, 320} {
			require.NoError(t, b.Viewport(wide, 700, 1, true))
			b.show(t, link)
			for section, table := range map[string]string{"cues": "switch-table", "clearance": "hop-cues", "card": "card-table", "measure": "strokes"} {
				b.open(t, section)
				if section == "measure" {
					b.press(t, `[data-outcome="clean"]`)
				}
				b.wait(t, `document.querySelectorAll("#`+table+` tbody tr").length > 0`)
				assert.Empty(t, eval[[]string](t, b.Session, `return Array.from(document.querySelectorAll(".scroll")).filter((el) => el.scrollWidth > el.clientWidth)
					.map((el) => el.firstElementChild.id + " by " + (el.scrollWidth - el.clientWidth))`), "%s at %d in %s", section, wide, units)
			}
		}
	}
}

package view_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/lesson"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// The buttons of lists have different names, even where records look alike: two of one
// cue and day, two cues without a name, two hops that did the same, a lesson and a copy
// of it.
func TestButtonsOfListsHaveOneNameEach(t *testing.T) {
	four := record("House 4", "9.6in", "9in", "10.3in", 10)
	nameless := record("", "12in", "11in", "13in", 11)
	squirt := lesson.Shipped[0].Lesson
	m := after(
		app.SaveCue{Cue: four}, app.SaveCue{Cue: four}, app.SaveCue{Cue: nameless}, app.SaveCue{Cue: nameless},
		app.KeepLesson{Lesson: squirt}, app.KeepLesson{Lesson: squirt}, app.EndLesson{},
		app.AddReading{Reading: store.Reading{Of: store.OfSpeed, Length: "1.27m", Time: "0.6s", By: "thumb"}},
		app.AddReading{Reading: store.Reading{Of: store.OfSpeed, Length: "1.27m", Time: "0.6s", By: "thumb"}},
		app.AddReading{Reading: store.Reading{Of: store.OfRest, Length: "2m", Time: "6s", By: "thumb"}},
		app.AddHop{Saw: "cleared", When: "2026-11-24T19:00:00Z"}, app.AddHop{Saw: "cleared", When: "2026-11-24T19:01:00Z"},
	)
	require.Empty(t, m.Notices)
	names := map[string]int{}
	for _, c := range view.ListCues(m.Kept.Cues) {
		opened := app.Update(m, app.ShowRecords{Cue: c.ID()})
		rows := view.CueListOf(&opened, view.ListCues(m.Kept.Cues), "", store.Day).Rows
		for i := range rows {
			if !rows[i].Open {
				continue
			}
			names[view.UseName(rows[i].Title)]++
			names[rows[i].CompareName()]++
			names[rows[i].RecordsName()]++
			for j := range rows[i].Records {
				r := &rows[i].Records[j]
				names[r.EditName()]++
				names[r.LinkName()]++
				names[r.DeleteName()]++
			}
		}
	}
	assert.Len(t, names, 3*3+4*3, "three cues, four records")
	for i := range lesson.Shipped {
		row := view.LessonRowOf(&lesson.Shipped[i].Lesson)
		names[row.OpenName(0)]++
	}
	for i := range m.Kept.Lessons {
		row := view.LessonRowOf(&m.Kept.Lessons[i])
		names[row.OpenName(i+1)]++
		names[row.DeleteName(i+1)]++
	}
	for _, of := range store.Timings {
		for _, r := range view.ReadingLines(&m, of) {
			names[r.DeleteName()]++
		}
	}
	hops, _ := view.SeenHops(&m.Scene, &m.Kept)
	require.Len(t, hops, 2)
	for i := range hops {
		names[hops[i].DeleteName()]++
	}
	for name, n := range names {
		assert.Equal(t, 1, n, name)
	}
}

// Tables call a reading and a control by the label that it has on the page.
func TestTablesUseTheNamesOfThePage(t *testing.T) {
	m := after(app.Open{Link: "v=1&cue2=19in,0.5,520g,10.6mm,0.8,Slender"})
	list, _ := view.Entries(&m.Scene, nil)
	assert.Equal(t, []string{"squirt", "natural pivot at this offset", "bridge for this shot", "back-hand share"}, view.CompareTable(list).Columns)
	efforts := view.Efforts(&m.Scene, list).Columns
	assert.Equal(t, []string{phrase.KeyName("cuemass"), phrase.KeyName("bounce"), phrase.ReadingName("cue-speed")}, efforts[:3])
	assert.Contains(t, view.Choosing(&m.Scene, list).Table.Columns, phrase.ReadingName("spin-ratio"))
	assert.Contains(t, view.CardOf(&m.Scene, view.ShowHeading).Title, "Cue angle")
	assert.Contains(t, view.CardOf(&m.Scene, view.ShowShare).Title, "Back-hand share")
	assert.Contains(t, view.CardOf(&m.Scene, view.ShowShare).Facts[0], "pivot length")
	for _, f := range view.CueForm(&store.CueRecord{}, "in") {
		if f.Key == "pivot" {
			assert.Equal(t, "Pivot length", f.Label)
		}
	}
}

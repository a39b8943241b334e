package app_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/lesson"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
)

// fullVisit has everything in it, with characters that a pair is made of.
func fullVisit(t *testing.T) (app.Model, app.Visit) {
	t.Helper()
	cue := store.CueRecord{Name: "House & 3", Pivot: "12in", At: "0.5", How: "typed", Link: "v=1&tip=9mm", When: "2026-11-24T19:00:00Z", Notes: "two\nlines = 100 %"}
	m := app.Update(app.Start(), app.Open{Link: "v=1&bridge=10in&units=cm"})
	m = app.Update(m, app.SaveCue{Cue: cue})
	m = app.Update(m, app.NoteStroke{See: "clean", When: "2026-11-24T19:01:00Z"})
	mine := lesson.Lesson{Title: "Mine", Steps: []lesson.Step{{Link: "v=1&bridge=8in", Caption: "Short."}, {Link: "v=1&cut=20deg"}}}
	m = app.Update(m, app.KeepLesson{Lesson: mine, At: 1})
	m = app.Update(m, app.NoteStroke{Cue: "House & 3", Mark: "-1.9in", At: "30in", Read: "3mm", When: "2026-11-24T19:02:00Z"})
	m = app.Update(m, app.MeasureCue{Name: "House & 4"})
	m = app.Update(m, app.EditStroke{Stroke: m.Kept.Strokes[1]})
	m = app.Update(m, app.OpenCueForm{Cue: m.Kept.Cues[0]})
	m = app.Update(m, app.OpenPlayerForm{New: true})
	m = app.Update(m, app.SavePlayerForm{Player: store.Player{Name: "Ann & Co", Hand: "left", Bridge: "10in; 9.5in; 10.5in", Notes: "a = b\n100 %", When: "2026-11-24T19:03:00Z"}})
	m = app.Update(m, app.OpenPlayerForm{Player: m.Kept.Players[0]})
	m = app.Update(m, app.TakeTurns{On: true})
	m.Round.Out = []string{"bert & co", "cleo"}
	m.Round.Noted = []store.Turn{{Player: "Ann & Co", Stroke: m.Kept.Strokes[1]}, {Player: "Cleo", Stroke: store.Stroke{Link: "v=1&bridge=8in", Film: store.Film{Launch: "1deg", Speed: "4mph", Cov: "1 0 1"}}}}
	m = app.Update(m, app.ChooseSwitch{From: 2, To: 0})
	m.Look.Band = true
	m = app.Update(m, app.OpenSection{Name: "cues"})
	return m, m.Visit("cm", []app.Field{{Name: "speed-length", Text: "152.4"}, {Name: "caption 0", Text: "half & half\n= "}, {Name: "empty"}})
}

func TestVisitsAreTakenUpAsTheyWereLeft(t *testing.T) {
	m, visit := fullVisit(t)
	require.True(t, visit.CueForm.On && visit.PlayerForm.On && visit.Player != "" && visit.Round.On && visit.Round.Out != nil && visit.Correction.On && visit.Back.On && visit.Own && visit.Switch.On)
	again := app.ParseVisit(visit.Format())
	assert.Equal(t, visit, again)
	for range 3 {
		again = app.ParseVisit(again.Format())
	}
	assert.Equal(t, visit, again, "however often the page is loaded")

	next := app.Update(app.Start(), app.Restore{Kept: m.Kept})
	next = app.Update(next, app.First{Link: m.Settled.Format()})
	next = app.Update(next, app.Return{Visit: again})
	assert.Equal(t, visit, next.Visit("cm", visit.Fields))
	assert.Equal(t, m.Scene, next.Scene)
	assert.Equal(t, "House & 3", next.Measuring, "the cue of the stroke that is being corrected")
	assert.Equal(t, "House & 4", app.Update(next, app.LeaveStroke{}).Measuring)

	// A form holds what was typed in its own units, and it can be saved still when
	// its record is gone; a stroke that is gone is not corrected.
	assert.Equal(t, "cm", app.Update(next, app.Set{Key: "units", Text: "in"}).CueForm.Units)
	gone := app.Update(app.Start(), app.Return{Visit: again})
	assert.True(t, gone.CueForm.On)
	assert.False(t, gone.Correction.On)
	assert.False(t, gone.Own)
	saved := app.Update(gone, app.SaveCueForm{Cue: again.CueForm.Cue})
	assert.Len(t, saved.Kept.Cues, 1)
	assert.True(t, gone.PlayerForm.On)
	assert.Empty(t, gone.Player, "nobody of that name is here")

	none := app.Start()
	assert.Equal(t, app.Visit{Section: "shot", Units: "in"}, app.ParseVisit(none.Visit("in", nil).Format()))
}

// Some fields take any text, and say only when it is saved that it is too long: it
// stays until its user has cut it.
func TestALongDraftComesBackWhole(t *testing.T) {
	long := strings.Repeat("a line of notes\n", 10_000)
	m := app.Start()
	visit := m.Visit("in", []app.Field{{Name: "speed-length", Text: "60"}, {Name: "cue-notes-field", Text: long}, {Name: "cue-name", Text: "House 3"}})
	assert.Equal(t, visit, app.ParseVisit(visit.Format()))

	// Where the tab has no room for it, the rest comes back.
	rest := []app.Field{{Name: "speed-length", Text: "60"}, {Name: "cue-name", Text: "House 3"}}
	assert.Equal(t, rest, visit.WithoutLongest().Fields)
	assert.Len(t, visit.Fields, 3)
	assert.Equal(t, rest[:1], visit.WithoutLongest().WithoutLongest().Fields)
}

// The lesson that is open comes back whole, however long its captions are.
func TestALongLessonComesBackWhole(t *testing.T) {
	long := lesson.Lesson{Title: "Mine"}
	for range lesson.MostSteps {
		long.Steps = append(long.Steps, lesson.Step{Link: "v=1", Caption: strings.Repeat("漢", lesson.LongestWords)})
	}
	m := app.Update(app.Start(), app.KeepLesson{Lesson: long})
	require.True(t, m.Own, m.Notices)
	visit := m.Visit("in", nil)
	next := app.Update(app.Start(), app.Restore{Kept: m.Kept})
	next = app.Update(next, app.Return{Visit: app.ParseVisit(visit.Format())})
	assert.True(t, next.Own)
	assert.True(t, next.Lesson.Lesson.Equal(&long))
}

func TestAVisitThatCantBeReadIsNone(t *testing.T) {
	for _, text := range []string{"", "shot", "lessons own lesson&v=1&shipped=squirt&at=-5", "visit", "visit&v=3&section=cues", "\x00", "null"} {
		assert.Equal(t, app.Visit{}, app.ParseVisit(text), text)
	}
	odd := app.ParseVisit("visit&v=2&section=cues&units=ell&field=speed-length&text=1&cueunits=in&cue=a&cue=b&lesson=lesson&text=%zz")
	assert.Equal(t, "cues", odd.Section)
	assert.Empty(t, odd.Fields, "a length in no unit")
	assert.False(t, odd.CueForm.On, "a record cut short")
	for _, cut := range []string{"visit&v=2&switch=1", "visit&v=2&switch=1 x", "visit&v=2&stroke=0", "visit&v=2&stroke=&stroke=v%3D1&stroke=clean&strokeback=v%3D1", "visit&v=2&try=v%3D1&try=clean&try=&tryback=v%3D1"} {
		assert.Equal(t, app.Visit{}, app.ParseVisit(cut), cut)
	}
}

// FuzzVisit opens the page on any text at all: it starts, and what it read reads
// back.
func FuzzVisit(f *testing.F) {
	f.Add("visit&v=2&section=lessons&lesson=lesson%26v%3D1%26shipped%3Dsquirt%26at%3D-5&own=1&back=x")
	f.Add("visit&v=2&measuring=a&stroke=1&stroke=2&stroke=3&stroke=4&stroke=5&stroke=6&stroke=7&stroke=8&stroke=9&strokeback=&cueunits=cm&cue=&cue=&field=&text=&units=cm")
	f.Add("visit&v=2&section=cues&switch=-1 99")
	f.Fuzz(func(t *testing.T, text string) {
		visit := app.ParseVisit(text)
		m := app.Update(app.Start(), app.Return{Visit: visit})
		sound(t, &m)
		for _, e := range []app.Event{app.Halt{At: m.Lesson.At}, app.EndLesson{}, app.LeaveStroke{}, app.Undo{}} {
			m = app.Update(m, e)
			sound(t, &m)
		}
		again := app.ParseVisit(visit.Format())
		again.Lesson, visit.Lesson = lesson.Link{}, lesson.Link{} // whose link has a test of its own
		again.Own, visit.Own = false, false
		require.Equal(t, visit, again)
	})
}

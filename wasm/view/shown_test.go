package view_test

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/instrument"
	"pivotbench/core/lesson"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// after is the model after some events.
func after(events ...app.Event) app.Model {
	m := app.Start()
	for _, e := range events {
		m = app.Update(m, e)
	}
	return m
}

func TestPlayBar(t *testing.T) {
	rest := after()
	bar := view.PlayOf(&rest)
	assert.True(t, bar.Can)
	assert.Equal(t, "Play", bar.Button)
	assert.Empty(t, bar.Moment)
	runs := after(app.Run{}, app.Tick{By: 0.25})
	bar = view.PlayOf(&runs)
	assert.Equal(t, "Pause", bar.Button)
	assert.NotEmpty(t, bar.Moment)
	from, _ := strconv.ParseFloat(bar.From, 64)
	at, _ := strconv.ParseFloat(bar.Time, 64)
	assert.InDelta(t, 0.25, at-from, 1e-12)
	miscue := after(app.Open{Link: "v=1&side=0.79&chalk=0.1"})
	assert.Equal(t, view.PlayBar{Button: "Play"}, view.PlayOf(&miscue), "there is nothing to play")
}

func TestAimAndVerdictOfAModel(t *testing.T) {
	m := after()
	aim := view.AimOf(&m)
	assert.True(t, aim.Can)
	assert.Contains(t, aim.Words, "Turn the cue")
	v := view.VerdictOf(&m, m.Play())
	said := phrase.Verdict(&m.Scene, &m.Play().Reading)
	assert.Equal(t, view.Verdict{Head: said.Head, Detail: said.Detail, Value: "clean"}, v)

	off := after(app.Open{Link: "v=1&side=0.79&chalk=0.1"})
	assert.False(t, view.AimOf(&off).Can)
	assert.NotEmpty(t, view.VerdictOf(&off, off.Play()).Why)

	potted := after(app.Show{Look: app.Look{Stretch: 4, Theme: "system", Object: true}})
	assert.Equal(t, view.Potting(&potted.Scene, potted.Play()), view.VerdictOf(&potted, potted.Play()).Detail)
}

func TestStrokesAreListedNewestFirst(t *testing.T) {
	before := after(app.Open{Link: "v=1&bridge=9in&side=-0.4"}, app.MeasureCue{Name: "House 4"})
	noted := app.Update(before, app.NoteStroke{Cue: "House 4", See: "left", When: "2026-11-24T19:00:00Z"})
	assert.Equal(t, "stroke 1 noted: hit left, bridge 9.0 in, left english 0.40 R, 7.0 mph", view.NotedWords(&before, &noted))
	m := app.Update(noted, app.SetAll{Sets: []app.Setting{{Key: "back", Text: "0"}, {Key: "side", Text: "0.4"}}})
	marked := app.Update(m, app.NoteStroke{Mark: "-1.9in", At: "30in", Read: "3mm"})
	assert.Equal(t, "stroke 2 noted: 1.90 in left at 30 in, parallel, right english 0.40 R, 7.0 mph", view.NotedWords(&m, &marked))
	rows := view.StrokeRows(&marked, 0, len(marked.Kept.Strokes))
	assert.Equal(t, []view.StrokeRow{
		{Index: 1, Number: "2", Cue: "unnamed", Hands: "parallel", English: "0.40", Mark: "1.90 in left at 30 in", Sitting: view.SittingHead{Strokes: 1}},
		{Index: 0, Number: "1", Cue: "House 4", Hands: "9.0 in", English: "−0.40", See: "left", Sitting: view.SittingHead{When: "2026-11-24T19:00:00Z", Strokes: 1}},
	}, rows)
	assert.Equal(t, "Unknown day, 1 stroke", rows[0].Sitting.Words(""))
	assert.Equal(t, "24/11/2026, 1 stroke", rows[1].Sitting.Words("24/11/2026"))
	assert.Zero(t, view.StrokeRows(&noted, 0, len(noted.Kept.Strokes))[0].Sitting, "one sitting needs no heading")
	assert.Equal(t, []string{"House 4"}, view.CueNames(&marked))

	assert.Empty(t, view.CorrectionWords(&marked))
	for i, tap := range []string{"then tap its result", "then add its mark again"} {
		editing := app.Update(marked, app.EditStroke{Stroke: marked.Kept.Strokes[i]})
		assert.Contains(t, view.CorrectionWords(&editing), "Correcting stroke "+strconv.Itoa(i+1)+":")
		assert.Contains(t, view.CorrectionWords(&editing), tap)
		corrected := app.Update(editing, app.NoteStroke{See: "right"})
		assert.Equal(t, "corrected", view.NotedWords(&editing, &corrected))
	}
	refused := app.Update(marked, app.NoteStroke{See: "sideways"})
	assert.Empty(t, view.NotedWords(&marked, &refused))
}

// Marks as people type them, and the line they are on.
func TestMarksAreReadAsTheyAreTyped(t *testing.T) {
	read := func(text, line string, with ...app.Event) (marks []unit.Length, at unit.Length, err error) {
		m := after(append(with, app.SetMarking{Marking: app.Marking{Text: text, Line: line}})...)
		return m.Marks()
	}
	for text, want := range map[string][]string{
		"-1 31/32, -1 7/8": {"-1.96875in", "-1.875in"},
		"-1.9 -2.2":        {"-1.9in", "-2.2in"},
		"-48 mm; 2 cm":     {"-1.8897637795275593in", "0.7874015748031497in"},
		"1/2":              {"0.5in"},
		"2, -3 1/4 in":     {"2in", "-3.25in"},
	} {
		marks, at, err := read(text, "")
		if assert.NoError(t, err, text) && assert.Len(t, marks, len(want), text) {
			assert.InDelta(t, float64(30*unit.Inch), float64(at), 1e-12, "the gate's")
			for i := range want {
				w, _ := unit.Parse(want[i], unit.LengthKind, "")
				assert.InDelta(t, w, float64(marks[i]), 1e-12, text)
			}
		}
	}
	_, at, err := read("1", "120 cm")
	assert.NoError(t, err)
	assert.InDelta(t, 1.2, float64(at), 1e-12)
	for _, bad := range [][2]string{{"", ""}, {"left", ""}, {"1", "far"}} {
		_, _, err := read(bad[0], bad[1])
		assert.Error(t, err, bad)
	}
	metric := []app.Event{app.Set{Key: "units", Text: "cm"}, app.Settle{}, app.Set{Key: "gate", Text: "0cm"}}
	marks, at, err := read("-4.8", "", metric...)
	assert.NoError(t, err)
	assert.InDelta(t, -0.048, float64(marks[0]), 1e-12, "bare numbers are in the reader's unit")
	assert.Equal(t, after(metric...).Scene.Dist, at, "without a gate, the target's")
}

// The list of cues: what is ticked, what can be used, whose records are in sight.
func TestCueList(t *testing.T) {
	four := record("House 4", "9.6in", "9in", "10.3in", 10)
	slender := record("Slender", "18.6in", "17in", "20.6in", 11)
	unmeasured := record("Unmeasured", "", "", "", 12)
	unmeasured.How = "none"
	m := after(app.SaveCue{Cue: four}, app.SaveCue{Cue: slender}, app.SaveCue{Cue: unmeasured})
	listed := view.ListCues(m.Kept.Cues)
	m = app.Update(m, app.UseCue{Cue: listed[0].On(&m.Scene), TipWidth: listed[0].Gear.TipWidth, Chalk: listed[0].Gear.Chalk})
	m = app.Update(m, app.Compare{Cues: view.Ticked(&m.Scene, &listed[1])})
	m = app.Update(m, app.ShowRecords{Cue: listed[1].ID()})
	list := view.CueListOf(&m, listed, "", store.Day)
	assert.False(t, list.None || list.Finder)
	one, two, three := list.Rows[0], list.Rows[1], list.Rows[2]
	assert.True(t, one.Bench && one.Ticked && one.Can && !one.Open)
	assert.True(t, !two.Bench && two.Ticked && two.Can && two.Open)
	assert.Equal(t, []view.RecordRow{{Index: 1, Cue: "Slender", Number: 1, Day: store.Day(slender.When), Line: view.CueRecord(slender, "in")}}, two.Records)
	assert.False(t, three.Bench || three.Ticked || three.Can)
	assert.Contains(t, list.Note, "Tick cues to compare them")

	found := view.CueListOf(&m, listed, " SLEN", store.Day)
	assert.Len(t, found.Rows, 1)
	assert.Equal(t, 1, found.Rows[0].Index)
	assert.True(t, view.CueListOf(&m, nil, "", store.Day).None)

	var many []store.CueRecord
	for i := range view.MostListed + 3 {
		many = append(many, record("Cue "+strconv.Itoa(i), "9.6in", "9in", "10.3in", 10))
	}
	m.Kept.Cues = many
	long := view.CueListOf(&m, view.ListCues(many), "", store.Day)
	assert.Len(t, long.Rows, view.MostListed)
	assert.Equal(t, "3 more. Type part of a name to find them.", long.Note)
	assert.True(t, long.Finder)
}

func TestOffersAndSavingInWords(t *testing.T) {
	four := record("House 4", "9.6in", "9in", "10.3in", 10)
	m := after(app.Bring{Link: "#" + four.Fragment()})
	assert.Equal(t, "This link holds House 4: "+view.CueRecord(four, "in")+".", view.OfferWords(&m))
	m.Offer.Cue.Name = ""
	assert.Contains(t, view.OfferWords(&m), "a cue with no name")
	m = app.Update(m, app.SaveCue{Cue: four})
	assert.Equal(t, "Saved to your cues", view.SavedWords(&m))
	m = app.Update(m, app.SaveCue{Cue: record("house 4", "9.7in", "9in", "10.3in", 11)})
	assert.Equal(t, "Saved. House 4 now has 2 records", view.SavedWords(&m))
}

func TestRecordsFoot(t *testing.T) {
	m := after()
	foot := view.RecordsFootOf(&m)
	assert.Contains(t, foot.Kept, "are saved on this device")
	assert.True(t, foot.Import == "" && foot.Aside == "" && !foot.Unread)
	m = after(app.NoteStroke{See: "clean"}, app.Stored{Refused: true},
		app.OfferImport{Name: "tuesday.json", Kept: store.Records{Strokes: []store.Stroke{{Link: "v=1", See: "left"}}}})
	foot = view.RecordsFootOf(&m)
	assert.Equal(t, app.Unkept, foot.Kept)
	assert.Contains(t, foot.Import, "tuesday.json has 1 stroke")
	m = app.Update(m, app.ReplaceByImport{})
	assert.Contains(t, view.RecordsFootOf(&m).Aside, "Replaced by an import: 1 stroke")
}

// A stop of a lesson: its words, where it is, and the question's control.
func TestStops(t *testing.T) {
	none := after()
	assert.Zero(t, view.StopOf(&none))
	l := lesson.Lesson{
		Title: "Bridge", Steps: []lesson.Step{{Link: "v=1&bridge=8in", Caption: "Short."}},
		Question: lesson.Question{Text: "Where?", Key: "bridge", Goal: lesson.Arrives},
	}
	m := after(app.KeepLesson{Lesson: l})
	stop := view.StopOf(&m)
	assert.True(t, stop.Open && stop.Own && stop.First && !stop.Last && !stop.Asks)
	assert.Equal(t, []string{"Bridge", "1 of 3", "Short.", "Next ›"}, []string{stop.Title, stop.Place, stop.Words, stop.OnLabel})
	assert.Contains(t, stop.Wall, "units=in", "the wall shows the reader's units")
	m = app.Update(m, app.Halt{At: 1})
	stop = view.StopOf(&m)
	assert.True(t, stop.Asks)
	assert.Equal(t, "Show answer", stop.OnLabel)
	assert.Equal(t, "Bridge", stop.Answer.Label)
	assert.InDelta(t, 8*0.0254, stop.Answer.Value, 1e-12)
	assert.NotEmpty(t, stop.Answer.Attempt)
	m = app.Update(m, app.Halt{At: 2})
	assert.True(t, view.StopOf(&m).Last)
	assert.Equal(t, view.LessonRow{Title: "Bridge", Steps: "1 step and a question"}, view.LessonRowOf(&l))
	assert.Equal(t, view.LessonRow{Title: "untitled lesson", Steps: "0 steps"}, view.LessonRowOf(&lesson.Lesson{}))
}

// The table of instruments is whole: each says something when nothing is read yet,
// the timed ones are those that readings can be of, and no other name is one.
func TestInstrumentsAreOneTable(t *testing.T) {
	m := after()
	var timed []string
	for i := range view.Instruments {
		of := &view.Instruments[i]
		assert.Same(t, of, view.InstrumentOf(of.Name))
		said := of.Say(view.Input{Scene: &m.Scene, Text: func(field string) string {
			for _, f := range of.Fields {
				if f.ID == field && f.Choices != nil {
					return f.Choices[0].Value
				} else if f.ID == field {
					return f.Text
				}
			}
			t.Errorf("%s asks for a field %q that it has not", of.Name, field)
			return ""
		}})
		assert.Empty(t, said.Head, of.Name)
		assert.NotEmpty(t, said.Note, of.Name)
		if of.Presses != nil {
			timed = append(timed, of.Name)
		}
	}
	assert.Equal(t, store.Timings, timed)
	assert.Nil(t, view.InstrumentOf("balloon"))

	level := view.InstrumentOf("elev").Say(view.Input{Scene: &m.Scene, Zero: []instrument.Tilt{{}}, Along: []instrument.Tilt{{Beta: 0.1}}})
	assert.Equal(t, "5.5deg", level.Sets[0].Text, "a phone along the cue")
	assert.NotEmpty(t, view.Insecure(false))
	assert.Empty(t, view.Insecure(true))
}

func TestListedReadingsAndTables(t *testing.T) {
	m := after(
		app.AddReading{Reading: store.Reading{Of: store.OfRest, Length: "2m", Time: "6s", By: "thumb"}},
		app.AddReading{Reading: store.Reading{Of: store.OfSpeed, Length: "1.27m", Time: "0.6s", By: "sound"}},
		app.SaveMeasured{Table: "Four", When: "2026-11-24T19:00:00+00:00", Sets: []app.Setting{{Key: "roll", Text: "0.0113"}}},
	)
	lines := view.ReadingLines(&m, store.OfSpeed)
	assert.Len(t, lines, 1)
	assert.Equal(t, 1, lines[0].Index)
	assert.Contains(t, lines[0].Head, "by sound")
	tables := view.TableLines(&m, store.Day)
	assert.Equal(t, "Four", tables[0].Head)
	assert.Contains(t, tables[0].Line, "2026-11-24")
}

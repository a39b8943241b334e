package app_test

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"pivotbench/core/lesson"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
)

// A tape is a row of bytes read as a user's doings. At its end it gives noughts.
type tape struct{ rest []byte }

func (t *tape) byte() int {
	if len(t.rest) == 0 {
		return 0
	}
	b := t.rest[0]
	t.rest = t.rest[1:]
	return int(b)
}

func (t *tape) text() string {
	n := min(t.byte()%24, len(t.rest))
	text := strings.ToValidUTF8(string(t.rest[:n]), "\u00a0é\u200d") // as browsers give it
	t.rest = t.rest[n:]
	return text
}

func pick[T any](t *tape, list []T) T { return list[t.byte()%len(list)] }

// setting is a control with a value that may do, or with anything at all.
func (t *tape) setting() app.Setting {
	k := pick(t, scenario.Keys())
	if t.byte()%4 == 0 {
		return app.Setting{Key: k.Name, Text: t.text()}
	}
	share := float64(t.byte()) / 255
	return app.Setting{Key: k.Name, Text: unit.Exact(k.Min+share*(k.Max-k.Min), k.Quantity, k.Unit)}
}

func (t *tape) link() string {
	if t.byte()%2 == 0 {
		return pick(t, scenario.Presets).Link
	}
	return t.text()
}

// index is one of a list, or just beyond it.
func (t *tape) index() int { return t.byte()%5 - 1 }

// entry is one of a list, or one that is not on it.
func entry[T any](t *tape, list []T) (one T) {
	if i := t.index(); i >= 0 && i < len(list) {
		return list[i]
	}
	return one
}

// imported is a file with more of the same.
func imported(t *tape, m *app.Model) app.Event {
	k := m.Kept
	k.Cues = append(slices.Clip(k.Cues), store.CueRecord{Name: "House 7", How: "none", Link: "v=1"})
	return app.OfferImport{Name: t.text(), Kept: k, Log: t.byte()%2 == 0}
}

var phases = []app.Phase{app.DragStart, app.DragMove, app.DragEnd, app.DragCancel}

// event is the next thing the user does. What the page checks before it hands it
// on is checked here.
func (t *tape) event(m *app.Model) app.Event {
	const when = "2026-11-24T19:00:00Z"
	cue := store.Typed(&m.Scene, when)
	cue.Name, cue.Notes = t.text(), t.text() // as typed, into a field that may hold anything
	reading := store.Reading{Of: pick(t, store.Timings), Length: "50in", Time: "0.6s", Third: "90in", ThirdTime: "1.4s", By: pick(t, store.Bys), When: when}
	course := pick(t, lesson.Shipped).Lesson
	switch t.byte() % kinds {
	case 0:
		if t.byte()%4 == 0 {
			return app.UsePreset{Preset: pick(t, scenario.Presets)}
		}
		return app.Open{Link: t.link()}
	case 1, 2, 3:
		s := t.setting()
		return app.Set{Key: s.Key, Text: s.Text, Bare: "in", Draft: t.byte()%2 == 0}
	case 4, 5, 6:
		return app.Drag{Phase: pick(t, phases), Sets: []app.Setting{t.setting(), t.setting()}}
	case 7, 8:
		return app.Undo{}
	case 9:
		return app.Redo{}
	case 10:
		return app.Show{Look: app.Look{Stretch: t.byte(), Theme: pick(t, []string{"system", "dark", "none"}), Object: t.byte()%2 == 0}}
	case 11:
		k := t.stroke()
		return app.NoteStroke{Cue: k.Cue, See: k.See, Mark: k.Mark, At: k.At, Read: k.Read, When: k.When}
	case 12:
		now := t.stroke()
		now.Link = t.link()
		return pick(t, []app.Event{app.EditStroke{Stroke: entry(t, m.Kept.Strokes)}, app.LeaveStroke{}, app.ChangeStroke{Was: entry(t, m.Kept.Strokes), Stroke: now}})
	case 13:
		return app.Drop[store.Stroke]{Record: entry(t, m.Kept.Strokes)}
	case 14:
		return app.SetMarks{Marks: store.Marks{Rail: t.text(), Right: t.text(), Left: t.text()}}
	case 15:
		return app.SaveCue{Cue: cue}
	case 16:
		return pick(t, []app.Event{app.OpenCueForm{Cue: entry(t, m.Kept.Cues)}, app.OpenCueForm{Cue: cue, New: true}, app.SaveCueForm{Cue: cue}, app.CloseCueForm{}})
	case 17:
		return app.Drop[store.CueRecord]{Record: entry(t, m.Kept.Cues)}
	case 18:
		return app.UseCue{Cue: m.Scene.OnBench(), TipWidth: m.Scene.TipWidth, Chalk: m.Scene.Chalk, Beside: []scenario.CueSpec{m.Scene.OnBench()}}
	case 19:
		if t.byte()%4 == 0 {
			return app.ChooseSwitch{From: t.index(), To: t.index()}
		}
		return app.Compare{Cues: []scenario.CueSpec{m.Scene.OnBench(), m.Scene.OnBench()}}
	case 20:
		return app.AddReading{Reading: reading}
	case 21:
		return app.Drop[store.Reading]{Record: entry(t, m.Kept.Readings)}
	case 22:
		return app.ClearReadings{Of: reading.Of}
	case 23:
		return app.SaveTable{Table: store.TableOf(&m.Scene, t.text(), when)}
	case 24:
		return app.Drop[store.Table]{Record: entry(t, m.Kept.Tables)}
	case 25:
		return app.UseTable{Table: entry(t, m.Kept.Tables)}
	case 26:
		sets := []app.Setting{t.setting(), t.setting()}
		sure := app.Sureness{Key: pick(t, app.Sures).Key, Error: float64(t.byte()) / 1000}
		return pick(t, []app.Event{app.SetAll{Sets: sets}, app.TakeNext{Sets: sets}, app.UseReading{Sets: sets, Sure: []app.Sureness{sure}}, app.SetSure{Key: sure.Key, Text: "0.1"}})
	case 27:
		return app.Teach{Link: lesson.Link{Lesson: course, At: t.index()}}
	case 28:
		return app.Halt{At: t.index()}
	case 29:
		return app.Reply{Value: float64(t.byte()) / 100, Done: t.byte()%2 == 0}
	case 30:
		course.Title = t.text()
		return pick(t, []app.Event{app.KeepLesson{Lesson: course, At: t.index()}, app.EditLesson{Lesson: course}})
	case 31:
		return pick(t, []app.Event{app.Drop[lesson.Lesson]{Record: entry(t, m.Kept.Lessons)}, app.TeachOwn{Lesson: entry(t, m.Kept.Lessons)}})
	case 32:
		return pick(t, []app.Event{app.Revise{Lesson: course}, app.Reopen{Link: lesson.Link{Lesson: course, At: t.index()}, Back: app.Bench{On: t.byte()%2 == 0, Scene: m.Scene}}})
	case 33:
		return app.AimIt{Pocket: t.byte()%2 == 0}
	case 34:
		return pick(t, []app.Event{app.Beside{}, app.Unfaint{}, app.Dismiss{}, app.EndLesson{}, app.ClearStrokes{All: t.byte()%2 == 0, Cue: t.name()}, imported(t, m), app.AddImport{}, app.ReplaceByImport{}, app.DropImport{}, app.BringBack{}, app.LetGo{}, app.Elsewhere{Base: m.Kept, Kept: m.Aside}})
	case 35:
		return pick(t, []app.Event{app.Run{}, app.Pause{}, app.Rest{}, app.Slow{On: true}, app.Step{}, app.Step{Back: true}, app.Tick{By: 0.1}, app.Seek{To: 0.3}})
	case 36:
		return pick(t, []app.Event{app.MeasureCue{Name: t.name()}, app.RenameCue{Was: t.name(), Name: t.name()}, app.TakeDoor{Name: "measure"},
			app.SetGear{Key: "table", Text: pick(t, []string{"7ft", "snooker", "none"})}, app.KeepGear{Parts: m.Other()}, app.UseGear{}, app.OpenExample{}, app.ShowExample{Text: exampleText}, app.LeaveExample{},
			app.SetMarking{Marking: app.Marking{Text: t.text(), Line: t.text()}}, app.NoteMarks{}, app.TakeBack{}, app.MoveAcross{Strokes: []store.Stroke{entry(t, m.Kept.Strokes)}},
			app.AtTable{On: t.byte()%2 == 0}, app.AskCue{}, app.ReadBy{Mark: t.byte()%2 == 0}})
	}
	return app.Settle{}
}

// exampleText is the least that can be shown as an example.
const exampleText = `{"v": 3, "strokes": [], "cues": [], "readings": [], "tables": [], "lessons": [{"title": "Example: one", "steps": [{"link": "v=1&bridge=9in", "caption": ""}]}]}`

// kinds is one more than there are kinds of events: the last is a gesture's end.
const kinds = 38

// name is a cue's: one of a few, so that they meet, or anything.
func (t *tape) name() string { return pick(t, []string{"", "House 4", "house 4", "House 7", t.text()}) }

// stroke is one as it may come from a form.
func (t *tape) stroke() store.Stroke {
	k := store.Stroke{Cue: t.name(), When: t.text()}
	switch t.byte() % 4 {
	case 0:
		k.See = pick(t, []string{"left", "clean", "right", "gone"})
	case 1:
		k.Mark, k.At, k.Read = "-1.9in", pick(t, []string{"30in", "9m"}), "3mm"
	default:
		k.See, k.Mark, k.At, k.Read = t.text(), t.text(), t.text(), t.text()
	}
	return k
}

// FuzzEvents has a user do anything in any order. What he did can be undone and
// done again, what is on the bench travels as a link, and what is kept as a
// file.
func FuzzEvents(f *testing.F) {
	f.Add([]byte("a drag, and back"))
	event := func(kind int, rest ...byte) []byte { // of a cue without a name
		return append([]byte{0, 0, 0, 0, 0, byte(kind)}, rest...)
	}
	saved := []byte{1, 'a', 0, 0, 0, 0, 15}
	atGate, marked := event(11, 0, 1, 0, 0, 1), event(11, 0, 3, 0, 1, 0)
	read, table := event(20), event(23, 1, 'a')
	grabbed, undo := event(4, 0, 3, 1, 90, 3, 1, 90), event(7)
	for kind := range kinds {
		// Lists need an entry: each kind of event after what it acts on.
		acted := slices.Concat(saved, atGate, marked, read, table)
		for seed := range uint64(3) {
			random, args := rand.New(rand.NewPCG(uint64(kind), seed)), make([]byte, 16)
			for i := range args {
				args[i] = byte(random.IntN(5))
			}
			f.Add(slices.Concat(acted, event(kind, args...), undo))
		}
		editing := event(12, 0, 1, 0, 0, 1, 0, 0, 1, 1, 0)
		f.Add(slices.Concat(acted, editing, event(kind, 0, 1, 0, 0, 1, 0, 0, 2, 2, 2), undo))
		f.Add(slices.Concat(grabbed, event(kind, 5, 1, 200, 7, 1, 10), event(4, 2, 3, 1, 9)))
	}
	f.Fuzz(func(t *testing.T, doings []byte) {
		m := app.Start()
		events := tape{doings}
		for range 60 {
			if len(events.rest) == 0 {
				break
			}
			m = app.Update(m, events.event(&m))
			sound(t, &m)
		}
		m = app.Update(m, app.Drag{Phase: app.DragCancel})
		undone(t, m)
	})
}

// sound is what holds of a model after anything.
func sound(t *testing.T, m *app.Model) {
	require.LessOrEqual(t, len(m.Past), 200)
	again, problems := scenario.Parse(m.Scene.Format())
	require.Empty(t, problems, m.Scene.Format())
	require.True(t, m.Scene == again, m.Scene.Format())
	file := m.Kept.Encode()
	records, err := store.Decode(file)
	require.NoError(t, err, file)
	require.Equal(t, file, records.Encode())
	require.Empty(t, store.NameFaults("cue", m.Measuring))
}

// undone undoes all there is to undo, and does it again.
func undone(t *testing.T, m app.Model) {
	now := app.Update(m, app.Settle{})
	back := now
	for i := len(now.Past) - 1; i >= 0; i-- {
		back = app.Update(back, app.Undo{})
		require.Equal(t, now.Past[i], app.Snapshot{Scene: back.Scene, Kept: back.Kept, Measuring: back.Measuring, SetUp: back.SetUp})
		require.Equal(t, back.Scene, back.Settled)
	}
	more := app.Update(back, app.Undo{})
	require.True(t, more.Scene == back.Scene && more.Changes == back.Changes, "there is no more")
	for range now.Past {
		back = app.Update(back, app.Redo{})
	}
	require.Equal(t, now.Scene, back.Scene)
	require.Equal(t, now.Kept, back.Kept)
	require.Equal(t, now.Measuring, back.Measuring)
	require.Equal(t, now.SetUp, back.SetUp)
	require.Equal(t, now.Past, back.Past)
}

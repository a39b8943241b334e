package app_test

import (
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
	switch t.byte() % 36 {
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
		return app.Note{Outcome: pick(t, []string{"left", "clean", "right", "gone"}), When: t.text()}
	case 12:
		return pick(t, []app.Event{app.EditTry{Try: entry(t, m.Kept.Tries)}, app.LeaveTry{},
			app.ChangeTry{Was: entry(t, m.Kept.Tries), Try: store.Try{Link: m.Scene.Format(), Outcome: pick(t, store.Outcomes), When: when}}})
	case 13:
		return app.Drop[store.Try]{Record: entry(t, m.Kept.Tries)}
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
		return app.SetAll{Sets: []app.Setting{t.setting(), t.setting()}}
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
		return pick(t, []app.Event{app.Beside{}, app.Unfaint{}, app.Dismiss{}, app.EndLesson{}, app.ClearTries{}, imported(t, m), app.AddImport{}, app.ReplaceByImport{}, app.DropImport{}, app.BringBack{}, app.LetGo{}, app.Elsewhere{Base: m.Kept, Kept: m.Aside}})
	case 35:
		return pick(t, []app.Event{app.Run{}, app.Pause{}, app.Rest{}, app.Slow{On: true}, app.Step{}, app.Step{Back: true}, app.Tick{By: 0.1}, app.Seek{To: 0.3}})
	}
	return app.Settle{}
}

// FuzzEvents has a user do anything in any order. What he did can be undone and
// done again, what is on the bench travels as a link, and what is kept as a
// file.
func FuzzEvents(f *testing.F) {
	f.Add([]byte("a drag, and back"))
	for kind := range 36 {
		// Cues need a name, lists an entry: each kind of event after what it acts on.
		f.Add([]byte{0, 0, 0, 0, 15, 0, 0, 0, 0, 11, 1, 0, 0, 0, 0, 20, 0, 0, 0, 0, 23, 0, 0, 0, 0, 0, byte(kind), 1, 1, 1, 1, 1, 1, 1, 0, 0, 0, 0, 7})
		f.Add([]byte{0, 0, 0, 0, 4, 0, 3, 1, 90, 3, 1, 90, 0, 0, 0, 0, byte(kind), 5, 1, 200, 7, 1, 10, 0, 0, 0, 0, 4, 3})
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
}

// undone undoes all there is to undo, and does it again.
func undone(t *testing.T, m app.Model) {
	now := app.Update(m, app.Settle{})
	back := now
	for i := len(now.Past) - 1; i >= 0; i-- {
		back = app.Update(back, app.Undo{})
		require.Equal(t, now.Past[i], app.Snapshot{Scene: back.Scene, Kept: back.Kept})
		require.Equal(t, back.Scene, back.Settled)
	}
	more := app.Update(back, app.Undo{})
	require.True(t, more.Scene == back.Scene && more.Changes == back.Changes, "there is no more")
	for range now.Past {
		back = app.Update(back, app.Redo{})
	}
	require.Equal(t, now.Scene, back.Scene)
	require.Equal(t, now.Kept, back.Kept)
	require.Equal(t, now.Past, back.Past)
}

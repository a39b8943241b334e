package app

import (
	"pivotbench/core/lesson"
	"pivotbench/wasm/store"
)

// A Record is an entry in one of the lists of records.
type Record interface {
	store.Stroke | store.CueRecord | store.Reading | store.Table | store.Hop | store.Player | store.Turn | lesson.Lesson
}

// Drop deletes a record from its list, and with a player his strokes. If the list does not have the record, only the
// notices change.
type Drop[T Record] struct{ Record T }

func (e Drop[T]) update(m Model) Model {
	k, ok, what := m.Kept, false, ""
	switch one := any(e.Record).(type) {
	case store.Stroke:
		what = "stroke"
		k.Strokes, ok = store.Swap(k.Strokes, one)
	case store.CueRecord:
		what = "record"
		k.Cues, ok = store.Swap(k.Cues, one)
	case store.Reading:
		what = "reading"
		k.Readings, ok = store.Swap(k.Readings, one)
	case store.Table:
		what = "table"
		k.Tables, ok = store.Swap(k.Tables, one)
	case store.Hop:
		what = "hop"
		k.Hops, ok = store.Swap(k.Hops, one)
	case store.Player:
		what = "player"
		k.Players, ok = store.Swap(k.Players, one)
		k.Turns = k.TurnsNotOf(one.Name)
	case store.Turn:
		what = "stroke"
		k.Turns, ok = store.Swap(k.Turns, one)
	case lesson.Lesson:
		what = "lesson"
		k.Lessons, ok = store.SwapLesson(k.Lessons, one)
	}
	if !ok {
		return m.gone(what)
	}
	return m.keep(k)
}

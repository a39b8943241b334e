// Package store defines the records that stay on the device and travel in files:
// strokes, marks, cues, timings, tables, hops, lessons and players. It is plain Go and does not
// need a browser.
package store

import (
	"pivotbench/core/lesson"
	"pivotbench/wasm/codec"
)

// Records holds everything that stays on the device and travels in a file. Records are
// never changed in place: a change makes new lists.
type Records struct {
	V        int // version of the file they were read from
	Strokes  []Stroke
	Cues     []CueRecord
	Marks    Marks
	Readings []Reading
	Tables   []Table
	Hops     []Hop
	Checks   []Check

	Lessons []lesson.Lesson // the user's own lessons
	Players []Player
	Turns   []Turn // the players' strokes
}

func (k *Records) fields(f codec.Fields) {
	f.Whole("v", &k.V)
	codec.List(f, "strokes", mostRead, &k.Strokes, (*Stroke).fields)
	codec.List(f, "cues", mostRead, &k.Cues, (*CueRecord).fields)
	codec.Record(f, "marks", true, &k.Marks, (*Marks).fields)
	codec.List(f, "readings", mostRead, &k.Readings, (*Reading).fields)
	codec.List(f, "tables", mostRead, &k.Tables, (*Table).fields)
	codec.ListIfAny(f, "hops", mostRead, &k.Hops, (*Hop).fields)
	codec.ListIfAny(f, "checks", mostRead, &k.Checks, (*Check).fields)
	codec.ListIfAny(f, "lessons", mostRead, &k.Lessons, lessonFields)
	codec.ListIfAny(f, "players", mostRead, &k.Players, (*Player).fields)
	codec.ListIfAny(f, "turns", mostRead, &k.Turns, (*Turn).fields)
}

// Package store is what stays on the device and travels in a file: strokes,
// marks, cues, timings, tables and hops. Plain Go, no browser.
package store

import (
	"pivotbench/core/lesson"
	"pivotbench/wasm/codec"
)

// Records are what stays on the device and travels in a file. They are never
// changed in place.
type Records struct {
	V        int
	Strokes  []Stroke
	Cues     []CueRecord
	Marks    Marks
	Readings []Reading
	Tables   []Table
	Hops     []Hop

	Lessons []lesson.Lesson // one's own
}

func (k *Records) fields(f codec.Fields) {
	f.Whole("v", &k.V)
	codec.List(f, "strokes", mostRead, &k.Strokes, (*Stroke).fields)
	codec.List(f, "cues", mostRead, &k.Cues, (*CueRecord).fields)
	codec.Record(f, "marks", true, &k.Marks, (*Marks).fields)
	codec.List(f, "readings", mostRead, &k.Readings, (*Reading).fields)
	codec.List(f, "tables", mostRead, &k.Tables, (*Table).fields)
	codec.ListIfAny(f, "hops", mostRead, &k.Hops, (*Hop).fields)
	codec.ListIfAny(f, "lessons", mostRead, &k.Lessons, lessonFields)
}

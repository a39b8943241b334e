package view_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

func TestImportWords(t *testing.T) {
	file := store.Records{Strokes: make([]store.Stroke, 12), Cues: make([]store.CueRecord, 1)}
	here := store.Records{Strokes: make([]store.Stroke, 3)}
	assert.Equal(t, "hall.json has 12 strokes, 1 cue record. This device has 3 strokes. Add the new records, or replace all records here?",
		view.ImportWords(&app.Import{Name: "hall.json", Kept: file}, &here))
	assert.Equal(t, "The file has 12 strokes, 1 cue record. Add them to the 3 strokes on this device, or replace those?",
		view.ImportWords(&app.Import{Log: true, Kept: file}, &here))
	assert.Equal(t, "Replaced by an import: no records. They stay on this device until you delete them.", view.AsideWords(&store.Records{}))
}

package show_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/wasm/app"
	"pivotbench/wasm/kept"
	"pivotbench/wasm/show"
)

func TestImportWords(t *testing.T) {
	file := kept.Records{Tries: make([]kept.Try, 12), Cues: make([]kept.Cue, 1)}
	here := kept.Records{Tries: make([]kept.Try, 3)}
	assert.Equal(t, "hall.json has 12 tries, 1 cue record. This device has 3 tries. Add what is new, or replace everything here?",
		show.ImportWords(&app.Import{Name: "hall.json", Kept: file}, &here))
	assert.Equal(t, "The file has 12 tries, 1 cue record. Add them to the 3 tries on this device, or replace those?",
		show.ImportWords(&app.Import{Log: true, Kept: file}, &here))
	assert.Equal(t, "Set aside by an import: no records. They stay on this device until you delete them.", show.AsideWords(&kept.Records{}))
}

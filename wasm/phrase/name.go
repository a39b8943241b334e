package phrase

import (
	"unicode"
	"unicode/utf8"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
)

// ReadingName returns the name of a reading within a sentence or a table. It is the label
// that the reading has everywhere.
func ReadingName(name string) string {
	for i := range shot.Specs {
		if shot.Specs[i].Name == name {
			return lower(shot.Specs[i].Label)
		}
	}
	return ""
}

// KeyName returns the name of a key within a sentence or a table. It is the label of the
// key's control.
func KeyName(key string) string { return lower(scenario.Find(key).Label) }

func lower(label string) string {
	first, size := utf8.DecodeRuneInString(label)
	return string(unicode.ToLower(first)) + label[size:]
}

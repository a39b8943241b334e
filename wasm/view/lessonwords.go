package view

import (
	"pivotbench/wasm/phrase"
)

// The words of the Lessons section that its stops do not have.
const (
	NewLesson     = "New lesson"
	OpenButton    = "Open"
	ShowButton    = "Show"
	ReplaceButton = "Replace with current shot"
	StepReplaced  = "The step now has the current shot. Undo brings the old one back"
	TextCut       = "The text was too long. Its end was left out"
)

// The full names of the fields and buttons of a step, by its number.
func CaptionName(n string) string    { return "Caption of step " + n }
func ShowName(n string) string       { return ShowButton + " step " + n }
func ReplaceName(n string) string    { return ReplaceButton + ": step " + n }
func UpName(n string) string         { return "Move step " + n + " up" }
func DownName(n string) string       { return "Move step " + n + " down" }
func DeleteStepName(n string) string { return DeleteButton + " step " + n }

// An Insert is a value that a caption can hold: its name in braces, and its label.
type Insert struct{ Name, Label string }

// Inserts are the values that the form of a lesson offers to put into a caption.
func Inserts() (out []Insert) {
	for _, name := range []string{"squirt", "swerve", "heading", "launch", "arrival", "throw", "pivot-natural", "pivot-effective", "share-back"} {
		out = append(out, Insert{name, phrase.ReadingName(name)})
	}
	for _, key := range []string{"side", "bridge", "speed", "elev"} {
		out = append(out, Insert{key, phrase.KeyName(key)})
	}
	return out
}

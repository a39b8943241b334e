package store

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"pivotbench/wasm/codec"
)

// columns lists the columns of a stroke log. tryColumns lists those of the logs that
// earlier copies of the bench wrote.
var (
	columns    = []string{"cue", "link", "see", "mark", "at", "read", "when"}
	tryColumns = []string{"link", "outcome", "when"}
)

// StrokesCSV returns strokes as comma-separated values (RFC 4180).
func StrokesCSV(log []Stroke) string {
	rows := [][]string{columns}
	for _, k := range log {
		rows = append(rows, []string{k.Cue, k.Link, k.See, k.Mark, k.At, k.Read, k.When})
	}
	return codec.WriteCSV(rows)
}

func lineName(line int) string { return "line " + strconv.Itoa(line) }

// row returns the stroke in a line's fields, which have either set of columns.
func row(f []string) Stroke {
	if len(f) == len(tryColumns) {
		return Stroke{Link: f[0], See: f[1], When: f[2]}
	}
	return Stroke{Cue: f[0], Link: f[1], See: f[2], Mark: f[3], At: f[4], Read: f[5], When: f[6]}
}

// decodeCSV reads a log of strokes. The error names every invalid stroke up to a limit,
// or the first line that does not have the format of a log.
func decodeCSV(text string) ([]Stroke, error) {
	var log []Stroke
	var wrong faults
	var head []string
	count := -1 // the header row is not a stroke
	err := codec.ReadCSV(text, func(line int, fields []string) error {
		count++
		switch {
		case count == 0 && !slices.Equal(fields, columns) && !slices.Equal(fields, tryColumns):
			return errors.New(lineName(line) + ": read “" + clip(strings.Join(fields, ",")) + "”, expected the columns " + strings.Join(columns, ",") + " or " + strings.Join(tryColumns, ","))
		case count == 0:
			head = slices.Clone(fields)
		case len(fields) != len(head):
			return errors.New(lineName(line) + ": read " + strconv.Itoa(len(fields)) + " fields, expected " + strings.Join(head, ","))
		case count <= most:
			for i := range fields { // the JSON reader does the same
				fields[i] = strings.ToValidUTF8(fields[i], "\ufffd")
			}
			k := row(fields).Clean()
			for _, what := range k.Faults() {
				wrong.add(lineName(line), what)
			}
			log = append(log, k)
		}
		return nil
	})
	switch {
	case err != nil:
		return nil, errors.New("this is not a list of strokes: " + err.Error())
	case count > most:
		return nil, errors.New(strconv.Itoa(count) + " strokes, allowed: up to " + strconv.Itoa(most))
	case wrong != nil:
		return nil, errors.Join(wrong...)
	}
	return log, nil
}

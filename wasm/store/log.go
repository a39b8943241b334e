package store

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"pivotbench/wasm/codec"
)

// columns are those of a log of tries.
var columns = []string{"link", "outcome", "when"}

// TriesCSV writes tries as comma-separated values (RFC 4180).
func TriesCSV(log []Try) string {
	rows := [][]string{columns}
	for _, t := range log {
		rows = append(rows, []string{t.Link, t.Outcome, t.When})
	}
	return codec.WriteCSV(rows)
}

// decodeCSV reads a log of tries. An error names every line that is wrong, or
// the first that is none of a log.
func decodeCSV(text string) ([]Try, error) {
	var log []Try
	var wrong faults
	count := -1 // the columns are no try
	err := codec.ReadCSV(text, func(line int, fields []string) error {
		count++
		where := "line " + strconv.Itoa(line)
		switch {
		case count == 0 && !slices.Equal(fields, columns):
			return errors.New(where + ": read “" + clip(strings.Join(fields, ",")) + "”, expected the columns " + strings.Join(columns, ","))
		case len(fields) != len(columns):
			return errors.New(where + ": read " + strconv.Itoa(len(fields)) + " fields, expected " + strings.Join(columns, ","))
		case count > 0 && count <= most:
			for i := range fields { // as the reader of JSON has it
				fields[i] = strings.ToValidUTF8(fields[i], "\ufffd")
			}
			t := Try{fields[0], fields[1], fields[2]}.Clean()
			for _, what := range t.Faults() {
				wrong.add(where, what)
			}
			log = append(log, t)
		}
		return nil
	})
	switch {
	case err != nil:
		return nil, errors.New("not a log of tries: " + err.Error())
	case count > most:
		return nil, errors.New(strconv.Itoa(count) + " tries, allowed: up to " + strconv.Itoa(most))
	case wrong != nil:
		return nil, errors.Join(wrong...)
	}
	return log, nil
}

package app

import (
	"encoding/csv"
	"encoding/json"
	"errors"
	"slices"
	"strconv"
	"strings"

	"pivotbench/core/scenario"
)

// logVersion is that of the files a log travels in.
const logVersion = 1

// A logFile is a log as JSON: {"v": 1, "tries": [{"link", "outcome", "when"}]}.
type logFile struct {
	V     int      `json:"v"`
	Tries []Logged `json:"tries"`
}

// EncodeLog writes a log as JSON.
func EncodeLog(log []Logged) string {
	text, err := json.MarshalIndent(logFile{logVersion, log}, "", " ")
	if err != nil {
		panic(err) // strings and numbers can always be written
	}
	return string(text)
}

// mostTries is more than anybody notes down; a file with more is not ours.
const mostTries = 5000

// DecodeLog reads a log from JSON, or from CSV with the columns link, outcome
// and when. On errors, which name their lines or tries, there is no log.
func DecodeLog(text string) ([]Logged, error) {
	text = strings.TrimSpace(strings.TrimPrefix(text, "\uFEFF"))
	if text == "" {
		return nil, errors.New("the file is empty")
	}
	if text[0] != '{' {
		return decodeCSV(text)
	}
	var f logFile
	if err := json.Unmarshal([]byte(text), &f); err != nil {
		return nil, errors.New("not a log of tries: " + err.Error())
	}
	if f.V != logVersion {
		return nil, errors.New("version " + strconv.Itoa(f.V) + " of the file; this copy reads version " + strconv.Itoa(logVersion))
	}
	return f.Tries, checkLog(f.Tries, func(i int) string { return "try " + strconv.Itoa(i+1) })
}

var columns = []string{"link", "outcome", "when"}

func decodeCSV(text string) ([]Logged, error) {
	r := csv.NewReader(strings.NewReader(text))
	r.FieldsPerRecord = len(columns)
	rows, err := r.ReadAll()
	if err != nil {
		return nil, errors.New("not a log of tries: " + err.Error())
	}
	if !slices.Equal(rows[0], columns) {
		return nil, errors.New("line 1: read “" + strings.Join(rows[0], ",") + "”, expected the columns " + strings.Join(columns, ","))
	}
	log := make([]Logged, 0, len(rows)-1)
	for _, row := range rows[1:] {
		log = append(log, Logged{row[0], row[1], row[2]})
	}
	return log, checkLog(log, func(i int) string { return "line " + strconv.Itoa(i+2) })
}

// checkLog names every try that can't be taken.
func checkLog(log []Logged, where func(int) string) error {
	if len(log) > mostTries {
		return errors.New(strconv.Itoa(len(log)) + " tries; a log has at most " + strconv.Itoa(mostTries))
	}
	var wrong []error
	for i, l := range log {
		if !slices.Contains(Outcomes, l.Outcome) {
			wrong = append(wrong, errors.New(where(i)+": outcome “"+l.Outcome+"”, allowed: "+strings.Join(Outcomes, ", ")))
		}
		_, problems := scenario.Parse(l.Link)
		for _, p := range problems {
			wrong = append(wrong, errors.New(where(i)+": "+p.Error()))
		}
		if len(wrong) > 20 {
			return errors.Join(append(wrong, errors.New("and more"))...)
		}
	}
	return errors.Join(wrong...)
}

// LogCSV writes a log as comma-separated values (RFC 4180).
func LogCSV(log []Logged) string {
	var text strings.Builder
	w := csv.NewWriter(&text)
	_ = w.Write(columns) // a Builder takes everything
	for _, l := range log {
		_ = w.Write([]string{l.Link, l.Outcome, l.When})
	}
	w.Flush()
	return text.String()
}

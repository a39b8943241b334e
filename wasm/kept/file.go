package kept

import (
	"encoding/csv"
	"encoding/json"
	"errors"
	"slices"
	"strconv"
	"strings"

	"pivotbench/core/scenario"
)

// version is that of the file records travel in. A copy of the bench from
// before it was 2 refuses the file, rather than lose what it does not know;
// version 1 has less in it, and is read as it is.
const version = 2

// Encode writes records as JSON: {"v": 2, "tries": [...], "cues": [...], "lessons": [...]}.
func (k Records) Encode() string {
	k.V = version
	return encode(k)
}

// encode writes a value as JSON, its links readable.
func encode(v any) string {
	var text strings.Builder
	w := json.NewEncoder(&text)
	w.SetEscapeHTML(false)
	w.SetIndent("", " ")
	if err := w.Encode(v); err != nil {
		panic(err) // strings and numbers can always be written
	}
	return text.String()
}

// most is more tries or cues than anybody has, and MostBytes than their text
// is long; a file with more is not ours.
const (
	most      = 5000
	MostBytes = 4 << 20
)

// CheckSize refuses a file that is too long to be read at all.
func CheckSize(bytes int) error {
	if bytes <= MostBytes {
		return nil
	}
	return errors.New("the file has " + strconv.Itoa(bytes>>20) + " MB; records of this bench have at most " + strconv.Itoa(MostBytes>>20))
}

// Decode reads records from JSON, or tries from CSV with the columns link,
// outcome and when: these are all there is then, and V is 0. On errors, which name every line or entry that is wrong,
// nothing is read.
func Decode(text string) (Records, error) {
	if err := CheckSize(len(text)); err != nil {
		return Records{}, err
	}
	text = strings.TrimSpace(strings.TrimPrefix(text, "\uFEFF"))
	if text == "" {
		return Records{}, errors.New("the file is empty")
	}
	if text[0] != '{' {
		tries, err := decodeCSV(text)
		return Records{Tries: tries}, err
	}
	var k Records
	if err := json.Unmarshal([]byte(text), &k); err != nil {
		return Records{}, errors.New("not records of this bench: " + clip(err.Error()))
	}
	if k.V < 1 || k.V > version {
		return Records{}, errors.New("version " + strconv.Itoa(k.V) + " of the file; this copy reads versions 1 to " + strconv.Itoa(version))
	}
	err := errors.Join(
		checkTries(k.Tries, func(i int) string { return "try " + strconv.Itoa(i+1) }),
		checkCues(k.Cues),
		checkLessons(k.Lessons),
		checkReadings(k.Readings),
		checkTables(k.Tables),
	)
	if err != nil {
		return Records{}, err
	}
	return k, nil
}

var columns = []string{"link", "outcome", "when"}

func decodeCSV(text string) ([]Try, error) {
	r := csv.NewReader(strings.NewReader(text))
	r.FieldsPerRecord = len(columns)
	rows, err := r.ReadAll()
	if err != nil {
		return nil, errors.New("not a log of tries: " + err.Error())
	}
	if !slices.Equal(rows[0], columns) {
		return nil, errors.New("line 1: read “" + clip(strings.Join(rows[0], ",")) + "”, expected the columns " + strings.Join(columns, ","))
	}
	log := make([]Try, 0, len(rows)-1)
	for _, row := range rows[1:] {
		log = append(log, Try{row[0], row[1], row[2]})
	}
	if err := checkTries(log, func(i int) string { return "line " + strconv.Itoa(i+2) }); err != nil {
		return nil, err
	}
	return log, nil
}

// clip keeps what a message quotes to a length that can be read.
func clip(text string) string {
	const longest = 160
	if len(text) <= longest {
		return text
	}
	return strings.ToValidUTF8(text[:longest], "") + "…"
}

// faults gathers what is wrong, as much of it as a reader can use.
type faults []error

func (f *faults) add(where, what string) {
	const enough = 20
	if len(*f) < enough {
		*f = append(*f, errors.New(where+": "+what))
	} else if len(*f) == enough {
		*f = append(*f, errors.New("and more"))
	}
}

// link checks a scenario's text.
func (f *faults) link(where, text string) {
	_, problems := scenario.Parse(text)
	for _, p := range problems {
		f.add(where, p.Error())
	}
}

// checkTries names every try that can't be taken.
func checkTries(log []Try, where func(int) string) error {
	if len(log) > most {
		return errors.New(strconv.Itoa(len(log)) + " tries; a file has at most " + strconv.Itoa(most))
	}
	var f faults
	for i, l := range log {
		if !slices.Contains(Outcomes, l.Outcome) {
			f.add(where(i), "outcome “"+clip(l.Outcome)+"”, allowed: "+strings.Join(Outcomes, ", "))
		}
		f.link(where(i), l.Link)
	}
	return errors.Join(f...)
}

// checkCues names every cue that can't be taken.
func checkCues(cues []Cue) error {
	if len(cues) > most {
		return errors.New(strconv.Itoa(len(cues)) + " cues; a file has at most " + strconv.Itoa(most))
	}
	var f faults
	for i := range cues {
		where := "cue " + strconv.Itoa(i+1)
		f.link(where, cues[i].Link)
		for _, what := range cues[i].Faults() {
			f.add(where, what)
		}
	}
	return errors.Join(f...)
}

// TriesCSV writes tries as comma-separated values (RFC 4180).
func TriesCSV(log []Try) string {
	var text strings.Builder
	w := csv.NewWriter(&text)
	_ = w.Write(columns) // a Builder takes everything
	for _, l := range log {
		_ = w.Write([]string{l.Link, l.Outcome, l.When})
	}
	w.Flush()
	return text.String()
}

package kept

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"pivotbench/core/scenario"
	"pivotbench/wasm/plain"
)

// version is that of the file records travel in. A copy of the bench from
// before it was 2 refuses the file, rather than lose what it does not know;
// version 1 has less in it, and is read as it is.
const version = 2

// Encode writes records as JSON: {"v": 2, "tries": [...], "cues": [...], "lessons": [...]}.
func (k Records) Encode() string {
	k.V = version
	return plain.WriteJSON(k.fields)
}

// most is more tries, cues, readings or tables than anybody has, and MostBytes
// than their text is long; a file with more is not ours.
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
// outcome and when: these are all there is then, and V is 0. On errors, which
// name every line or entry that is wrong, nothing is read.
func Decode(text string) (Records, error) {
	if err := CheckSize(len(text)); err != nil {
		return Records{}, err
	}
	begin, _ := plain.Trim(text)
	if begin == "" {
		return Records{}, errors.New("the file is empty")
	}
	if begin[0] != '{' {
		tries, err := decodeCSV(text)
		return Records{Tries: tries}, err
	}
	var k Records
	wrong := plain.ReadJSON(text, k.fields)
	switch {
	case wrong != nil && k.V <= version: // a later version may look otherwise
		return Records{}, errors.New("not records of this bench: " + wrong.Error())
	case k.V < 1 || k.V > version:
		return Records{}, errors.New("version " + strconv.Itoa(k.V) + " of the file; this copy reads versions 1 to " + strconv.Itoa(version))
	}
	err := errors.Join(
		checkTries(k.Tries),
		checkCues(k.Cues),
		checkLessons(k.Lessons),
		checkReadings(k.Readings),
		checkTables(k.Tables),
		checkHops(k.Hops),
	)
	if err != nil {
		return Records{}, err
	}
	return k, nil
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

// try checks a try.
func (f *faults) try(where string, t Try) {
	if !slices.Contains(Outcomes, t.Outcome) {
		f.add(where, "outcome “"+clip(t.Outcome)+"”, allowed: "+strings.Join(Outcomes, ", "))
	}
	f.link(where, t.Link)
}

// checkTries names every try that can't be taken.
func checkTries(log []Try) error {
	var f faults
	for i, t := range log {
		f.try("try "+strconv.Itoa(i+1), t)
	}
	return errors.Join(f...)
}

// checkCues names every cue that can't be taken.
func checkCues(cues []Cue) error {
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

package store

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"pivotbench/core/lesson"
	"pivotbench/core/scenario"
	"pivotbench/wasm/codec"
)

// version is that of the file records travel in. A copy of the bench from before
// it was 3 refuses the file, rather than lose what it does not know. Versions 1
// and 2 have tries where this one has strokes; version 1 also has fewer lists.
const version = 3

// Encode writes records as JSON: {"v": 3, "strokes": [...], "cues": [...], "lessons": [...]}.
func (k Records) Encode() string {
	k.V = version
	return codec.WriteJSON(k.fields)
}

// The most of each list that is kept, which is more than anybody has, and the
// most bytes of them all. Reading takes more of each: nothing that an earlier
// copy wrote is lost for its number.
const (
	most      = 5000
	mostRead  = 2 * most
	MostBytes = 4 << 20
)

// CheckSize refuses a file that is too long to be read at all.
func CheckSize(bytes int) error {
	if bytes <= MostBytes {
		return nil
	}
	return errors.New("the file has " + strconv.Itoa(bytes>>20) + " MB; records of this bench have at most " + strconv.Itoa(MostBytes>>20))
}

// A file is records as they are read, of any version.
type file struct {
	Records
	tries []Stroke
}

func (k *file) fields(f codec.Fields) {
	k.Records.fields(f)
	codec.List(f, "tries", mostRead, &k.tries, tryFields)
}

// read reads records from JSON, with what earlier versions call tries among the
// strokes. On an error, V alone is worth something.
func read(text string) (Records, error) {
	var k file
	err := codec.ReadJSON(text, k.fields)
	if k.tries != nil {
		k.Strokes = slices.Concat(k.Strokes, k.tries)
	}
	return k.Records, err
}

// Decode reads records from JSON, or strokes from CSV: these are all there is
// then, and V is 0. On errors, which name every line or entry that is wrong,
// nothing is read.
func Decode(text string) (Records, error) {
	if err := CheckSize(len(text)); err != nil {
		return Records{}, err
	}
	begin, _ := codec.Trim(text)
	if begin == "" {
		return Records{}, errors.New("the file is empty")
	}
	if begin[0] != '{' {
		strokes, err := decodeCSV(text)
		return Records{Strokes: strokes}, err
	}
	k, wrong := read(text)
	switch {
	case wrong != nil && k.V <= version: // a later version may look otherwise
		return Records{}, errors.New("not records of this bench: " + wrong.Error())
	case k.V < 1 || k.V > version:
		return Records{}, errors.New("version " + strconv.Itoa(k.V) + " of the file; this copy reads versions 1 to " + strconv.Itoa(version))
	}
	good, _, err := k.sift()
	if err != nil {
		return Records{}, err
	}
	return good, nil
}

// Restore reads what the device kept. What of it can't be read comes back as the
// text lost, to be set aside, and err says why; everything else is read.
func Restore(text string) (k Records, lost string, err error) {
	k, wrong := read(text)
	switch {
	case wrong != nil:
		return Records{}, text, errors.New("not records of this bench: " + wrong.Error())
	case k.V < 1 || k.V > version:
		return Records{}, text, errors.New("version " + strconv.Itoa(k.V) + " of the records; this copy reads versions 1 to " + strconv.Itoa(version))
	}
	k, bad, err := k.sift()
	if err != nil {
		lost = bad.Encode()
	}
	return k, lost, err
}

// sift cleans all texts, and parts the entries that can be taken from those that
// can't, whose faults err names.
func (k Records) sift() (good, bad Records, err error) {
	var f faults
	good = k
	good.Marks = k.Marks.Clean()
	stroke := "stroke"
	if k.V < version {
		stroke = "try" // as the file has it
	}
	good.Strokes, bad.Strokes = sift(&f, stroke, k.Strokes, Stroke.Clean, (*Stroke).Faults)
	good.Cues, bad.Cues = sift(&f, "cue", k.Cues, CueRecord.Clean, (*CueRecord).Faults)
	good.Readings, bad.Readings = sift(&f, "reading", k.Readings, Reading.Clean, (*Reading).Faults)
	good.Tables, bad.Tables = sift(&f, "table", k.Tables, Table.Clean, (*Table).Faults)
	good.Hops, bad.Hops = sift(&f, "hop", k.Hops, Hop.Clean, (*Hop).Faults)
	good.Lessons, bad.Lessons = sift(&f, "lesson", k.Lessons, lesson.Lesson.Clean, LessonFaults)
	return good, bad, errors.Join(f...)
}

func sift[T any](f *faults, name string, list []T, clean func(T) T, wrong func(*T) []string) (good, bad []T) {
	good = list[:0:0]
	for i, was := range list {
		entry := clean(was)
		found := wrong(&entry)
		for _, what := range found {
			f.add(name+" "+strconv.Itoa(i+1), what)
		}
		if found == nil {
			good = append(good, entry)
		} else {
			bad = append(bad, was)
		}
	}
	return good, bad
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

// linkFaults returns what is wrong with a scenario's text.
func linkFaults(text string) []string {
	_, problems := scenario.Parse(text)
	return inWords(problems)
}

func inWords(problems []*scenario.Problem) (out []string) {
	for _, p := range problems {
		out = append(out, p.Error())
	}
	return out
}

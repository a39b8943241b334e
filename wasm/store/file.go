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

// version is the version of the file format for records. A copy of the bench that reads
// only earlier versions refuses the file, so that it does not drop what it does not
// know. Versions 1 and 2 have tries in place of strokes. Version 1 also has fewer lists.
const version = 3

// Encode writes records as JSON: {"v": 3, "strokes": [...], "cues": [...], "lessons": [...]}.
func (k Records) Encode() string {
	k.V = version
	return codec.WriteJSON(k.fields)
}

// Limits on the number of entries in a list (most when adding, mostRead when reading)
// and on the size of a file in bytes. They are more than anyone needs. Reading accepts
// longer lists, so that everything an earlier copy wrote can still be read.
const (
	most      = 5000
	mostRead  = 2 * most
	MostBytes = 4 << 20
)

// CheckSize returns an error for a file that is too large to read.
func CheckSize(bytes int) error {
	if bytes <= MostBytes {
		return nil
	}
	return errors.New("the file is too large: it has " + strconv.Itoa(bytes>>20) + " MB, and a records file has at most " + strconv.Itoa(MostBytes>>20))
}

// A file holds the records of a file of any version.
type file struct {
	Records
	tries []Stroke
}

func (k *file) fields(f codec.Fields) {
	k.Records.fields(f)
	codec.List(f, "tries", mostRead, &k.tries, tryFields)
}

// read reads records from JSON and adds the tries of earlier versions to the strokes.
// On an error, only V is valid.
func read(text string) (Records, error) {
	var k file
	err := codec.ReadJSON(text, k.fields)
	if k.tries != nil {
		k.Strokes = slices.Concat(k.Strokes, k.tries)
	}
	return k.Records, err
}

// Decode reads records from JSON, or strokes from CSV. From CSV, the result has only
// strokes and V is 0. On an error, which names every invalid line or entry up to a
// limit, it returns no records.
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
	case wrong != nil && k.V <= version: // a later version may have another format
		return Records{}, errors.New("this is not a Pivotbench records file: " + wrong.Error())
	case k.V < 1 || k.V > version:
		return Records{}, errors.New("the file is of version " + strconv.Itoa(k.V) + ", but this copy of Pivotbench reads versions 1 to " + strconv.Itoa(version))
	}
	good, _, err := k.sift()
	if err != nil {
		return Records{}, err
	}
	return good, nil
}

// Restore reads the records saved on the device. It returns the entries that cannot be
// read as the text lost, so that the caller can set them aside, and err says why they
// cannot be read. All other entries are in k.
func Restore(text string) (k Records, lost string, err error) {
	k, wrong := read(text)
	switch {
	case wrong != nil:
		return Records{}, text, errors.New("this is not a Pivotbench records file: " + wrong.Error())
	case k.V < 1 || k.V > version:
		return Records{}, text, errors.New("the records are of version " + strconv.Itoa(k.V) + ", but this copy of Pivotbench reads versions 1 to " + strconv.Itoa(version))
	}
	k, bad, err := k.sift()
	if err != nil {
		lost = bad.Encode()
	}
	return k, lost, err
}

// sift cleans all texts and separates the valid entries from the invalid ones. The
// error names what is wrong with the invalid ones.
func (k Records) sift() (good, bad Records, err error) {
	var f faults
	good = k
	good.Marks = k.Marks.Clean()
	good.Strokes, bad.Strokes = sift(&f, "stroke", k.Strokes, Stroke.Clean, (*Stroke).Faults)
	good.Cues, bad.Cues = sift(&f, "cue", k.Cues, CueRecord.Clean, (*CueRecord).Faults)
	good.Readings, bad.Readings = sift(&f, "reading", k.Readings, Reading.Clean, (*Reading).Faults)
	good.Tables, bad.Tables = sift(&f, "table", k.Tables, Table.Clean, (*Table).Faults)
	good.Hops, bad.Hops = sift(&f, "hop", k.Hops, Hop.Clean, (*Hop).Faults)
	good.Checks, bad.Checks = sift(&f, "check", k.Checks, Check.Clean, (*Check).Faults)
	good.Lessons, bad.Lessons = sift(&f, "lesson", k.Lessons, lesson.Lesson.Clean, LessonFaults)
	good.Players, bad.Players = sift(&f, "player", k.Players, Player.Clean, (*Player).Faults)
	good.Turns, bad.Turns = sift(&f, "player's stroke", k.Turns, Turn.Clean, (*Turn).Faults)
	return good, bad, errors.Join(f...)
}

// sift separates the valid entries of one list from the invalid ones, and adds the
// faults to f. It cleans the valid ones and leaves the others as they are.
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

// clip shortens a text for a message that quotes it.
func clip(text string) string {
	const longest = 160
	if len(text) <= longest {
		return text
	}
	return strings.ToValidUTF8(text[:longest], "") + "…"
}

// faults collects error messages, up to as many as a reader can use.
type faults []error

func (f *faults) add(where, what string) {
	const enough = 20
	if len(*f) < enough {
		*f = append(*f, errors.New(where+": "+what))
	} else if len(*f) == enough {
		*f = append(*f, errors.New("and there are more errors"))
	}
}

// linkFaults describes everything that is wrong with a scenario's link.
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

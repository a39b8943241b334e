package store

import (
	"slices"
	"strings"

	"pivotbench/core/unit"
	"pivotbench/wasm/codec"
)

// A Reading is one timing of a ball, as it was taken. Values carry their units,
// as in a link.
type Reading struct {
	Of        string // speed, rest or marks: what it is a reading for
	Length    string // to the mark, to where the ball rested, or to the second mark
	Time      string // that it took to there
	Third     string // from the first mark to the third, and its time
	ThirdTime string
	Topspin   string // of a speed: Rω/v as the tip let go
	By        string // thumb, sound or typed
	When      string
}

func (r *Reading) fields(f codec.Fields) {
	f.Text("of", &r.Of)
	f.Text("length", &r.Length)
	f.Text("time", &r.Time)
	f.TextIfAny("third", &r.Third)
	f.TextIfAny("thirdtime", &r.ThirdTime)
	f.TextIfAny("topspin", &r.Topspin)
	f.Text("by", &r.By)
	f.Text("when", &r.When)
}

// What a reading is for.
const (
	OfSpeed = "speed"
	OfRest  = "rest"
	OfMarks = "marks"
)

// What readings are for, and how they are taken.
var (
	Timings = []string{OfSpeed, OfRest, OfMarks}
	Bys     = []string{"thumb", "sound", "typed"}
)

// Clean returns the reading with its texts as they are kept and read.
func (r Reading) Clean() Reading {
	r.When = clean(r.When)
	return r
}

// Faults returns what is wrong with a reading, in words.
func (r *Reading) Faults() (out []string) {
	word := func(what, read string, allowed []string) {
		if !slices.Contains(allowed, read) {
			out = append(out, what+" “"+clip(read)+"”, allowed: "+strings.Join(allowed, ", "))
		}
	}
	quantity := func(text string, kind unit.Kind, needed bool) {
		if _, err := unit.Parse(text, kind, ""); err != nil && (needed || text != "") {
			out = append(out, err.Error())
		}
	}
	word("of", r.Of, Timings)
	word("by", r.By, Bys)
	quantity(r.Length, unit.LengthKind, true)
	quantity(r.Time, unit.SpanKind, true)
	quantity(r.Third, unit.LengthKind, r.Of == OfMarks)
	quantity(r.ThirdTime, unit.SpanKind, r.Of == OfMarks)
	quantity(r.Topspin, unit.Ratio, false)
	return out
}

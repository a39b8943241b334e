package store

import (
	"slices"
	"strings"

	"pivotbench/core/unit"
	"pivotbench/wasm/codec"
)

// A Reading is one timing of a ball. Values carry their units, as in a link.
type Reading struct {
	Of        string // what the reading is for: one of Timings
	Length    string // distance to the mark, to where the ball stopped, or from the first mark to the second
	Time      string // time to travel Length
	Third     string // distance from the first mark to the third; only needed if Of is marks
	ThirdTime string // time from the first mark to the third; only needed if Of is marks
	Topspin   string // for a speed: Rω/v when the ball leaves the tip; may be empty
	By        string // how the time was taken: one of Bys
	When      string // date and time
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

// The values of Reading.Of.
const (
	OfSpeed = "speed"
	OfRest  = "rest"
	OfMarks = "marks"
)

// The values that Reading.Of and Reading.By may have.
var (
	Timings = []string{OfSpeed, OfRest, OfMarks}
	Bys     = []string{"thumb", "sound", "typed"}
)

// Clean returns the reading with its texts normalized for storage.
func (r Reading) Clean() Reading {
	r.When = clean(r.When)
	return r
}

// Faults describes everything that is wrong with a reading. It returns nil for a valid
// reading.
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

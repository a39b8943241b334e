package store

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"pivotbench/core/cues"
	"pivotbench/core/scenario"
	"pivotbench/core/stat"
	"pivotbench/core/typed"
	"pivotbench/core/unit"
	"pivotbench/wasm/codec"
)

// A CueRecord is one measurement of a cue, or one set of typed values. Measurements of
// the same cue at different times are separate records, because a new tip changes the
// cue. Records with the same name belong to the same cue. Values carry their units, as
// in a link.
type CueRecord struct {
	Name  string
	Pivot string // natural pivot length; empty means not measured yet
	From  string // lower end of the 90 % interval; empty means unknown
	To    string // upper end of the 90 % interval; empty means unknown, or open for marks
	At    string // tip offset at which the pivot length holds, in ball radii
	How   string // how the pivot length was found: one of Hows
	Link  string // scenario with the cue's other values and the ball's
	When  string // date and time of the measurement

	// How the error depends on that of other measurements. Both are empty for a pivot
	// length that was typed in, and in records of earlier copies.
	Sitting string // names the sitting: when its first stroke was recorded
	Shared  string // cues.Share.By as shares of the whole error: numbers separated by spaces

	// Notes for people. No computation uses them.
	Shaft    string // material of the shaft
	Taper    string
	Ferrule  string
	Hardness string // hardness of the tip
	Notes    string // care and condition
}

func (c *CueRecord) fields(f codec.Fields) {
	f.Text("name", &c.Name)
	f.Text("pivot", &c.Pivot)
	f.Text("from", &c.From)
	f.Text("to", &c.To)
	f.Text("at", &c.At)
	f.Text("how", &c.How)
	f.Text("link", &c.Link)
	f.Text("when", &c.When)
	f.TextIfAny("sitting", &c.Sitting)
	f.TextIfAny("shared", &c.Shared)
	f.TextIfAny("shaft", &c.Shaft)
	f.TextIfAny("taper", &c.Taper)
	f.TextIfAny("ferrule", &c.Ferrule)
	f.TextIfAny("hardness", &c.Hardness)
	f.TextIfAny("notes", &c.Notes)
}

// Hows lists the ways to find a cue's pivot length. A record with "none" has no pivot
// length yet.
var Hows = []string{"gate", "marks", "typed", "none"}

// gear lists the scenario keys that a record holds: those of the cue, and those of the
// ball with which its pivot length was measured.
var gear = []string{"ball", "diam", "mass", "cuemass", "tip", "tipwidth", "bounce", "chalk"}

// GearLink returns the part of a scenario that a record holds, as a link.
func GearLink(s *scenario.Scenario) string {
	only := scenario.Default()
	for _, name := range gear {
		k := scenario.Find(name)
		_ = k.Set(&only, k.Value(s), "") // a value read from a scenario is always valid
	}
	return only.Format()
}

// Measured returns the record of a measurement: the scenario's cue with the measured
// pivot length and its interval. mass is the same as an end mass, with what it shares
// with other measurements of the named sitting.
func Measured(s *scenario.Scenario, pivot stat.Summary[float64], mass cues.EndMass, how, sitting, when string) CueRecord {
	c := Typed(s, when)
	k := scenario.Find("pivot")
	whole := func(v float64, round func(float64) float64) string {
		return k.Written(k.Stepped(v, s.Units, round), s.Units)
	}
	c.Pivot, c.From, c.To = whole(pivot.Median, math.Round), whole(pivot.From, math.Floor), whole(pivot.To, math.Ceil)
	c.How, c.Shared = how, formatShared(mass)
	c.Sitting, _ = typed.Line(sitting, shortNote)
	return c
}

// Typed returns the record of the current cue with the pivot length that was typed.
func Typed(s *scenario.Scenario, when string) CueRecord {
	return CueRecord{
		Name: s.Name, Pivot: scenario.Find("pivot").Value(s), At: scenario.Find("pivotspin").Value(s),
		How: "typed", Link: GearLink(s), When: when,
	}
}

// Length formats a length for a record: with its unit, and precisely enough to read
// back as the same value.
func Length(v float64) string { return unit.Exact(v, unit.LengthKind, "in") }

// The maximum number of characters in a note.
const (
	shortNote = 60
	longNote  = 1000
)

// notes returns the record's notes for people and the maximum length of each.
func (c *CueRecord) notes() []struct {
	name string
	at   *string
	most int
} {
	return []struct {
		name string
		at   *string
		most int
	}{
		{"date", &c.When, shortNote}, {"sitting", &c.Sitting, shortNote}, {"shaft", &c.Shaft, shortNote}, {"taper", &c.Taper, shortNote},
		{"ferrule", &c.Ferrule, shortNote}, {"tip hardness", &c.Hardness, shortNote}, {"notes", &c.Notes, longNote},
	}
}

// Clean returns the record with its texts normalized for storage: without characters
// that cannot be displayed. It does not shorten them; Faults checks their lengths.
func (c CueRecord) Clean() CueRecord {
	c.Name, c.Sitting, c.Shared = clean(c.Name), clean(c.Sitting), clean(c.Shared)
	for _, n := range c.notes() {
		if n.most == longNote {
			*n.at, _ = typed.Lines(*n.at, len(*n.at))
		} else {
			*n.at = clean(*n.at)
		}
	}
	return c
}

// clean returns a text as a single line of any length.
func clean(text string) string {
	line, _ := typed.Line(text, len(text))
	return line
}

// Faults describes everything that is wrong with a record. It returns nil for a valid
// record.
func (c *CueRecord) Faults() []string {
	out := linkFaults(c.Link)
	scene := scenario.Default()
	set := func(key, text string) {
		if p := scenario.Find(key).Set(&scene, text, ""); p != nil {
			p.Kept = ""
			out = append(out, p.Error())
		}
	}
	set("name", c.Name)
	if !slices.Contains(Hows, c.How) {
		out = append(out, "how it was measured (how): “"+clip(c.How)+"”, allowed: "+strings.Join(Hows, ", "))
	}
	switch measured := c.How != "none"; {
	case measured:
		set("pivot", c.Pivot)
		set("pivotspin", c.At)
		out = append(out, c.interval()...)
		out = append(out, c.sharedFaults()...)
	case c.Pivot != "" || c.From != "" || c.To != "":
		out = append(out, "there is a pivot length: choose how it was measured")
	}
	for _, n := range c.notes() {
		if utf8.RuneCountInString(*n.at) > n.most {
			out = append(out, n.name+": "+strconv.Itoa(utf8.RuneCountInString(*n.at))+" characters, allowed: up to "+strconv.Itoa(n.most))
		}
	}
	return out
}

// interval describes everything that is wrong with the ends of the interval. An empty
// lower end reads as 0, and an empty upper end as infinity.
func (c *CueRecord) interval() (faults []string) {
	read := func(text string, open float64) float64 {
		if text == "" {
			return open
		}
		v, err := unit.Parse(text, unit.LengthKind, "")
		if err != nil {
			faults = append(faults, "the interval: "+err.Error())
		}
		return v
	}
	from, to := read(c.From, 0), read(c.To, math.Inf(1))
	pivot, err := unit.Parse(c.Pivot, unit.LengthKind, "")
	if faults == nil && err == nil && !(from <= pivot && pivot <= to) {
		faults = append(faults, "the interval from “"+c.From+"” to “"+c.To+"” does not contain the pivot length “"+c.Pivot+"”")
	}
	return faults
}

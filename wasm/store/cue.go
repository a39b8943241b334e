package store

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"pivotbench/core/scenario"
	"pivotbench/core/stat"
	"pivotbench/core/typed"
	"pivotbench/core/unit"
	"pivotbench/wasm/codec"
)

// A CueRecord is a cue as it was measured, or typed in, once. Measurements of one cue
// at different times stay apart: a new tip changes it. Records of one name are
// of one cue. Values carry their units, as in a link.
type CueRecord struct {
	Name  string
	Pivot string // natural pivot length; empty: not measured yet
	From  string // its 90 % interval; empty: not known
	To    string
	At    string // the offset it holds at, in ball radii
	How   string // gate, marks, typed or none
	Link  string // the cue's other values, and the ball's: a scenario
	When  string

	// What is noted for people; nothing is computed of it.
	Shaft    string // its material
	Taper    string
	Ferrule  string
	Hardness string // of the tip
	Notes    string // care, condition
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
	f.TextIfAny("shaft", &c.Shaft)
	f.TextIfAny("taper", &c.Taper)
	f.TextIfAny("ferrule", &c.Ferrule)
	f.TextIfAny("hardness", &c.Hardness)
	f.TextIfAny("notes", &c.Notes)
}

// Hows are the ways a cue's pivot length was got.
var Hows = []string{"gate", "marks", "typed", "none"}

// gear are the keys of a scenario that a record holds: the cue's, and those of
// the ball its pivot length was measured on.
var gear = []string{"ball", "diam", "mass", "cuemass", "tip", "tipwidth", "bounce", "chalk"}

// GearLink is the part of a scenario that a record holds, as a link.
func GearLink(s *scenario.Scenario) string {
	only := scenario.Default()
	for _, name := range gear {
		k := scenario.Find(name)
		_ = k.Set(&only, k.Value(s), "") // what a scenario has can be set
	}
	return only.Format()
}

// Measured is the record of what tries at the gate came to.
func Measured(s *scenario.Scenario, pivot stat.Summary[float64], how, when string) CueRecord {
	c := Typed(s, when)
	c.Pivot, c.From, c.To = Length(pivot.Median), Length(pivot.From), Length(pivot.To)
	c.How = how
	return c
}

// Typed is the record of the cue on the bench as it was typed in.
func Typed(s *scenario.Scenario, when string) CueRecord {
	return CueRecord{
		Name: s.Name, Pivot: scenario.Find("pivot").Value(s), At: scenario.Find("pivotspin").Value(s),
		How: "typed", Link: GearLink(s), When: when,
	}
}

// Length is a length as a record holds it: with its unit, and reading back to
// the same value.
func Length(v float64) string { return unit.Exact(v, unit.LengthKind, "in") }

// The most characters of a short note, and of the long one.
const (
	shortNote = 60
	longNote  = 1000
)

// notes are the record's texts for people, and how long each may be.
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
		{"date", &c.When, shortNote}, {"shaft", &c.Shaft, shortNote}, {"taper", &c.Taper, shortNote},
		{"ferrule", &c.Ferrule, shortNote}, {"tip hardness", &c.Hardness, shortNote}, {"notes", &c.Notes, longNote},
	}
}

// Clean returns the record with its texts as they are kept and read: in
// characters that can be shown. Their lengths are left to Faults.
func (c CueRecord) Clean() CueRecord {
	c.Name = clean(c.Name)
	for _, n := range c.notes() {
		if n.most == longNote {
			*n.at, _ = typed.Lines(*n.at, len(*n.at))
		} else {
			*n.at = clean(*n.at)
		}
	}
	return c
}

// clean is a text as one line, however long.
func clean(text string) string {
	line, _ := typed.Line(text, len(text))
	return line
}

// Faults returns what is wrong with a record, in words.
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
		out = append(out, "how “"+clip(c.How)+"”, allowed: "+strings.Join(Hows, ", "))
	}
	switch measured := c.How != "none"; {
	case measured:
		set("pivot", c.Pivot)
		set("pivotspin", c.At)
		out = append(out, c.interval()...)
	case c.Pivot != "" || c.From != "" || c.To != "":
		out = append(out, "how “none”, but there is a pivot length: say how it was got")
	}
	for _, n := range c.notes() {
		if utf8.RuneCountInString(*n.at) > n.most {
			out = append(out, n.name+": "+strconv.Itoa(utf8.RuneCountInString(*n.at))+" characters, allowed: up to "+strconv.Itoa(n.most))
		}
	}
	return out
}

// interval is what is wrong with the ends of the interval. Marks may leave its
// upper end open.
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
		faults = append(faults, "the interval from “"+c.From+"” to “"+c.To+"” does not hold the pivot length “"+c.Pivot+"”")
	}
	return faults
}

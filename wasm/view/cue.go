package view

import (
	"strconv"
	"strings"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/store"
)

// hows gives in words how a pivot length was measured, by its name in records.
var hows = map[string]string{"gate": "at a gate", "marks": "by marks", "typed": "typed in", "none": ""}

// CueRecord returns a cue record in words, in the reader's units.
func CueRecord(c store.CueRecord, units string) string {
	if c.Pivot == "" {
		return "not measured yet"
	}
	long := scenario.DisplayOf(unit.LengthKind, units)
	said := phrase.KeyName("pivot") + " " + long.Format(float64(length(c.Pivot))) + " at " + c.At + " R"
	if c.From != "" && c.To != "" {
		said += ", " + phrase.Within(&scenario.Scenario{Units: units}, length(c.From), length(c.To))
	} else if c.From != "" {
		said += ", " + phrase.Within(&scenario.Scenario{Units: units}, length(c.From), 2*phrase.Endless)
	}
	return said + ", " + hows[c.How]
}

// CueLine returns a saved cue in one line: its pivot length from all its
// measurements in use, and their number. day formats the day of a time in the
// device's date format.
func CueLine(c *ListedCue, records []store.CueRecord, units string, day func(when string) string) string {
	if c.Err != nil {
		return c.Err.Error()
	}
	last := records[c.Records[len(c.Records)-1]]
	if len(c.Used) == 1 {
		return CueRecord(records[c.Used[0]], units) + ", " + day(last.When)
	}
	long := scenario.DisplayOf(unit.LengthKind, units)
	sh := c.Gear.Shot()
	b := c.Known.Pivot(sh.Ball, sh.Cue.Tip, c.Gear.PivotSpin)
	return phrase.KeyName("pivot") + " " + long.Format(float64(b.Median)) + " at " + records[c.Used[len(c.Used)-1]].At + " R, " +
		phrase.Within(&scenario.Scenario{Units: units}, b.From, b.To) + ", from " + strconv.Itoa(len(c.Used)) + " measurements, " + day(last.When)
}

// ChangeWords says that a cue's measurements changed by more than their intervals
// allow. It is empty when they did not.
func ChangeWords(c *ListedCue, records []store.CueRecord, day func(when string) string) string {
	if len(c.Changed) == 0 {
		return ""
	}
	last := records[c.Changed[len(c.Changed)-1]]
	return "This cue changed on " + day(last.When) + ": its new pivot length does not agree with the older ones. " +
		"A new tip, ferrule or shaft can do that, and so can a mistake. Pivotbench uses the measurements from that day on."
}

// CueNotes returns the descriptive fields of a record, which no computation uses.
func CueNotes(c *store.CueRecord) string {
	var out []string
	for _, n := range []struct{ name, text string }{
		{"shaft", c.Shaft}, {"taper", c.Taper}, {"ferrule", c.Ferrule}, {"tip", c.Hardness}, {"notes", c.Notes},
	} {
		if n.text != "" {
			out = append(out, n.name+": "+n.text)
		}
	}
	return strings.Join(out, "; ")
}

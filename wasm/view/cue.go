package view

import (
	"strconv"
	"strings"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/store"
)

// hows are the ways a pivot length was got, in words.
var hows = map[string]string{"gate": "by the gate", "marks": "by marks", "typed": "typed in", "none": ""}

// CueRecord is a record in words, in the reader's units.
func CueRecord(c store.CueRecord, units string) string {
	if c.Pivot == "" {
		return "not measured yet"
	}
	long := scenario.DisplayOf(unit.LengthKind, units)
	said := "pivot " + long.Format(float64(length(c.Pivot))) + " at " + c.At + " R"
	if c.From != "" && c.To != "" {
		said += ", " + phrase.Within(&scenario.Scenario{Units: units}, length(c.From), length(c.To))
	} else if c.From != "" {
		said += ", " + phrase.Within(&scenario.Scenario{Units: units}, length(c.From), 2*phrase.Endless)
	}
	return said + ", " + hows[c.How]
}

// CueLine is a cue of the rack in a line: its pivot length by all its
// measurements, and how many there are. day writes the day of a moment as the
// device writes dates.
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
	return "pivot " + long.Format(float64(b.Median)) + " at " + records[c.Used[len(c.Used)-1]].At + " R, " +
		phrase.Within(&scenario.Scenario{Units: units}, b.From, b.To) + ", by " + strconv.Itoa(len(c.Used)) + " measurements, " + day(last.When)
}

// ChangeWords points out that a cue is not what it was; empty: it is.
func ChangeWords(c *ListedCue, records []store.CueRecord, day func(when string) string) string {
	if len(c.Changed) == 0 {
		return ""
	}
	last := records[c.Changed[len(c.Changed)-1]]
	return "Changed by " + day(last.When) + ": further from what was measured before than the intervals allow. " +
		"A new tip, ferrule or shaft does that, or a mistake; what is told here is of the measurements from then on."
}

// CueNotes are the facts of a record that are noted and not computed with.
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

package view

import (
	"strings"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/store"
)

// A CueField is one field of the form that edits a record.
type CueField struct {
	Key, Label, Unit string
	Text             string
	Choices          [][2]string // values and labels of a menu; nil for other fields
	Long             bool        // the field has several lines
	Date             bool        // a date such as 2026-11-24
	Number           bool
}

// LabelWords returns the field's label with its unit.
func (f *CueField) LabelWords() string {
	if f.Unit == "" {
		return f.Label
	}
	return f.Label + ", " + f.Unit
}

// A cueText is a text field of a record, with a pointer to its value.
type cueText struct {
	CueField
	at *string
}

// shown returns the field's text in the form. For a time it is the day.
func (t cueText) shown() string {
	if t.Date {
		return store.Day(*t.at)
	}
	return *t.at
}

// cueTexts returns the text fields of a record.
func cueTexts(c *store.CueRecord) []cueText {
	return []cueText{
		{CueField{Key: "hardness", Label: "Tip hardness"}, &c.Hardness},
		{CueField{Key: "shaft", Label: "Shaft material"}, &c.Shaft},
		{CueField{Key: "taper", Label: "Taper"}, &c.Taper},
		{CueField{Key: "ferrule", Label: "Ferrule"}, &c.Ferrule},
		{CueField{Key: "notes", Label: "Notes on care and condition", Long: true}, &c.Notes},
		{CueField{Key: "when", Label: "Date measured", Date: true}, &c.When},
	}
}

// cueGear lists the fields that are keys of a scenario.
var cueGear = []string{
	"cuemass", "tip", "tipwidth", "bounce", "chalk",
}

// cueLengths returns the length fields of a record, with pointers to their values.
func cueLengths(c *store.CueRecord) []struct {
	key, label string
	at         *string
} {
	return []struct {
		key, label string
		at         *string
	}{
		{"pivot", scenario.Find("pivot").Label, &c.Pivot}, {"from", "90 % interval from", &c.From}, {"to", "90 % interval to", &c.To},
	}
}

// CueForm returns the fields of the form that edits a record, in the reader's units.
func CueForm(c *store.CueRecord, units string) []CueField {
	out := []CueField{{Key: "name", Label: "Name", Text: c.Name}}
	for _, l := range cueLengths(c) {
		out = append(out, CueField{Key: l.key, Label: l.label, Unit: units, Number: true, Text: shownLength(*l.at, units)})
	}
	out = append(out,
		CueField{Key: "at", Label: scenario.Find("pivotspin").Label + ", in ball radii", Number: true, Text: c.At},
		CueField{Key: "how", Label: "How measured", Text: c.How, Choices: [][2]string{
			{"gate", hows["gate"]}, {"marks", hows["marks"]}, {"typed", hows["typed"]}, {"none", "not measured"},
		}})
	scene, _ := scenario.Parse(c.Link)
	scene.Units = units
	for _, g := range cueGear {
		d, v := gearValue(&scene, g)
		out = append(out, CueField{Key: g, Label: scenario.Find(g).Label, Unit: d.Unit, Number: true, Text: d.Number(v)})
	}
	for _, t := range cueTexts(c) {
		t.Text = t.shown()
		out = append(out, t.CueField)
	}
	return out
}

func gearValue(s *scenario.Scenario, key string) (scenario.Display, float64) {
	k := scenario.Find(key)
	v, _ := k.Number(s)
	return k.Display(s.Units), v
}

// shownLength returns a record's length as the form shows it. It is empty when text
// is empty.
func shownLength(text, units string) string {
	if text == "" {
		return ""
	}
	return scenario.DisplayOf(unit.LengthKind, units).Number(float64(length(text)))
}

// ReadCueForm returns a record with the values typed into its form. Fields that were
// not changed keep their full precision. faults describes the fields that can't be
// read or are not allowed.
func ReadCueForm(c store.CueRecord, typed map[string]string, units string) (read store.CueRecord, faults []string) {
	read = c
	read.Name, read.How = strings.TrimSpace(typed["name"]), typed["how"]
	if typed["at"] != "" || typed["pivot"] != "" {
		read.At = typed["at"]
	}
	for _, l := range cueLengths(&read) {
		text := strings.TrimSpace(typed[l.key])
		if text == shownLength(*l.at, units) {
			continue
		}
		*l.at = ""
		if text == "" {
			continue
		}
		v, err := unit.Parse(text, unit.LengthKind, units)
		if err != nil {
			faults = append(faults, l.label+": "+err.Error())
			continue
		}
		*l.at = store.Length(v)
	}
	scene, _ := scenario.Parse(c.Link)
	scene.Units = units
	for _, g := range cueGear {
		d, v := gearValue(&scene, g)
		if typed[g] == d.Number(v) {
			continue
		}
		if p := scenario.Find(g).Set(&scene, typed[g], d.Unit); p != nil {
			p.Key = scenario.Find(g).Label
			faults = append(faults, p.Error())
		}
	}
	read.Link = store.GearLink(&scene)
	for _, t := range cueTexts(&read) {
		text := strings.TrimSpace(typed[t.Key])
		if text == t.shown() || t.Date && text == "" { // a browser shows an unreadable date as empty
			continue
		}
		*t.at = text
	}
	switch {
	case read.Pivot == "" && faults == nil:
		read.How, read.From, read.To = "none", "", ""
	case read.How == "none":
		read.How = "typed"
	}
	if read.Pivot != c.Pivot || read.From != c.From || read.To != c.To || read.At != c.At || read.How != c.How {
		read.Sitting, read.Shared = "", "" // no longer what the sitting said
	}
	return read, append(faults, read.Faults()...)
}

package app

import (
	"slices"
	"strconv"
	"strings"

	"pivotbench/core/lesson"
	"pivotbench/core/link"
	"pivotbench/core/scenario"
	"pivotbench/wasm/store"
)

// A Visit is what a page that is loaded again in the same tab takes up: where its
// user was, and what was typed there and not done. The shot is in the address, and
// what was done is in the records.
type Visit struct {
	Section      string
	Lesson       lesson.Link // the open one; no stops: none is
	Own          bool        // it is one of the user's own
	Back         Bench
	Correction   Correction
	Measuring    string // the name of the cue that is being measured
	CueForm      CueForm
	Switch       Switch
	Object, Band bool    // of the look
	Units        string  // in or cm: the units of the lengths in Fields
	Fields       []Field // what stands in fields that the model does not know
}

// A Field is the text in a field of the page.
type Field struct{ Name, Text string }

const (
	visitKind    = "visit"
	visitVersion = "2"

	// mostFields is more than the page has.
	mostFields = 500
)

// Visit returns what the page is to take up again.
func (m *Model) Visit(units string, fields []Field) Visit {
	return Visit{
		Section: m.Section, Lesson: m.Lesson, Own: m.Own, Back: m.Back, Correction: m.Correction, Measuring: m.Measuring, CueForm: m.CueForm, Switch: m.Switch,
		Object: m.Look.Object, Band: m.Look.Band, Units: units, Fields: fields,
	}
}

// WithoutLongest returns the visit without the longest text that stands in a field,
// for a tab that has no room for all of them.
func (v Visit) WithoutLongest() Visit {
	longest := 0
	for i, f := range v.Fields {
		if len(f.Text) > len(v.Fields[longest].Text) {
			longest = i
		}
	}
	v.Fields = slices.Delete(slices.Clone(v.Fields), longest, longest+1)
	return v
}

// Return takes up a visit. A stroke or a lesson that was deleted meanwhile is left
// alone. The form of a deleted record stays, since what stands in it can be saved
// as a new one.
type Return struct{ Visit Visit }

func (e Return) update(m Model) Model {
	v := e.Visit
	m = Reopen{Link: v.Lesson, Own: v.Own, Back: v.Back}.update(m)
	m = OpenSection{v.Section}.update(m)
	m.Look.Object, m.Look.Band = v.Object, v.Band
	m.CueForm = v.CueForm
	if name, faults := cueName(v.Measuring); faults == nil {
		m.Measuring = name
	}
	if v.Switch.On {
		m = ChooseSwitch{From: v.Switch.From, To: v.Switch.To}.update(m)
	}
	if v.Correction.On && slices.Contains(m.Kept.Strokes, v.Correction.Stroke) {
		m.Correction = v.Correction
	}
	return m
}

// Format is the visit as text: pairs of a key and a value, as in a link. A record
// is the pairs of its parts in their order.
func (v Visit) Format() string {
	var text strings.Builder
	text.WriteString(visitKind)
	write := func(key, value string) {
		text.WriteString("&" + key + "=" + link.Escape(value))
	}
	flag := func(key string, on bool) {
		if on {
			write(key, "1")
		}
	}
	write("v", visitVersion)
	write("section", v.Section)
	if v.Lesson.Lesson.Stops() > 0 {
		write("lesson", v.Lesson.Format())
		flag("own", v.Own)
	}
	if v.Back.On {
		write("back", v.Back.Scene.Format())
		flag("backobject", v.Back.Object)
	}
	if v.Correction.On {
		for _, part := range correctionParts(&v.Correction) {
			write("stroke", *part)
		}
		write("strokeback", v.Correction.Back.Format())
	}
	write("measuring", v.Measuring)
	if v.CueForm.On {
		flag("cuenew", v.CueForm.New)
		write("cueunits", v.CueForm.Units)
		for _, part := range cueParts(&v.CueForm.Cue) {
			write("cue", *part)
		}
	}
	if v.Switch.On {
		write("switch", strconv.Itoa(v.Switch.From)+" "+strconv.Itoa(v.Switch.To))
	}
	flag("object", v.Object)
	flag("band", v.Band)
	write("units", v.Units)
	for _, f := range v.Fields {
		write("field", f.Name)
		write("text", f.Text)
	}
	return text.String()
}

// correctionParts and cueParts are the texts of a correction and of a record, in
// the order they are written.
func correctionParts(c *Correction) []*string {
	k := &c.Stroke
	return []*string{&k.Cue, &k.Link, &k.See, &k.Mark, &k.At, &k.Read, &k.When, &c.Cue}
}

func cueParts(c *store.CueRecord) []*string {
	return []*string{
		&c.Name, &c.Pivot, &c.From, &c.To, &c.At, &c.How, &c.Link, &c.When,
		&c.Shaft, &c.Taper, &c.Ferrule, &c.Hardness, &c.Notes,
	}
}

// ParseVisit reads a visit. What can't be read is left out, and of a text that is
// none, as an older or a newer version may have left it, the visit is empty.
func ParseVisit(text string) Visit {
	var v Visit
	kind, rest, _ := strings.Cut(text, "&")
	version, rest, _ := strings.Cut(rest, "&")
	if kind != visitKind || version != "v="+visitVersion {
		return v
	}
	var stroke, cue int
	for _, pair := range strings.Split(rest, "&") {
		key, raw, _ := strings.Cut(pair, "=")
		value, on := link.Unescape(raw), raw == "1"
		switch key {
		case "section":
			v.Section = value
		case "lesson":
			v.Lesson, _ = lesson.ParseLink(value)
		case "own":
			v.Own = on
		case "back":
			v.Back.On = true
			v.Back.Scene, _ = scenario.Parse(value)
		case "backobject":
			v.Back.Object = on
		case "measuring":
			v.Measuring = value
		case "stroke":
			stroke = take(correctionParts(&v.Correction), stroke, value)
		case "strokeback":
			v.Correction.On = true
			v.Correction.Back, _ = scenario.Parse(value)
		case "cuenew":
			v.CueForm.New = on
		case "cueunits":
			v.CueForm.On, v.CueForm.Units = isUnits(value), value
		case "cue":
			cue = take(cueParts(&v.CueForm.Cue), cue, value)
		case "switch":
			v.Switch = parseSwitch(value)
		case "object":
			v.Object = on
		case "band":
			v.Band = on
		case "units":
			v.Units = value
		case "field":
			v.Fields = append(v.Fields, Field{Name: value})
		case "text":
			if n := len(v.Fields); n > 0 {
				v.Fields[n-1].Text = value
			}
		}
	}
	if !v.Correction.On || stroke < len(correctionParts(&v.Correction)) {
		v.Correction = Correction{}
	}
	if !v.CueForm.On || cue < len(cueParts(&v.CueForm.Cue)) {
		v.CueForm = CueForm{}
	}
	if !isUnits(v.Units) || len(v.Fields) > mostFields {
		v.Units, v.Fields = "", nil
	}
	return v
}

// take puts a value in the next part of a record.
func take(parts []*string, at int, value string) int {
	if at < len(parts) {
		*parts[at] = value
	}
	return at + 1
}

// parseSwitch reads the two places of a switch; the text of none is one that was
// not chosen.
func parseSwitch(text string) Switch {
	from, to, _ := strings.Cut(text, " ")
	s := Switch{On: true}
	var errs [2]error
	s.From, errs[0] = strconv.Atoi(from)
	s.To, errs[1] = strconv.Atoi(to)
	if errs != [2]error{} {
		return Switch{}
	}
	return s
}

func isUnits(text string) bool { return text == "in" || text == "cm" }

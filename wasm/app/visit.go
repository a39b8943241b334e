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

// A Visit is the state that a page restores when it is reloaded in the same tab: what
// the user had open, and text that was typed but not saved. It does not have the shot,
// which is in the address, or the records, which are on the device.
type Visit struct {
	Section      string
	Starting     bool
	Door         string
	Example      bool        // whether it is a visit to the example
	Home         string      // the visit to the user's own page behind it, as text
	HomeLink     string      // the shot of that page
	Lesson       lesson.Link // the open lesson; no stops means that none is open
	Own          bool        // whether the lesson is one of the user's own
	Back         Bench
	Correction   Correction
	Measuring    string // name of the measured cue
	Marking      Marking
	Table        Table
	CueForm      CueForm
	PlayerForm   PlayerForm
	Player       string // key of the chosen player
	Round        Round
	Film         bool // whether a film was open
	FilmTurn     FilmTurn
	Switch       Switch
	Object, Band bool    // those of the look
	Units        string  // in or cm: the units of the lengths in Fields
	Fields       []Field // text in fields that is not part of the model
}

// A Field is the text in a field of the page.
type Field struct{ Name, Text string }

const (
	visitKind    = "visit"
	visitVersion = "2"

	// mostFields is the maximum number of fields, more than the page has.
	mostFields = 500
)

// Visit returns the visit that restores the model's state and the given fields.
func (m *Model) Visit(units string, fields []Field) Visit {
	v := Visit{
		Section: m.Section, Starting: m.Starting, Door: m.Door, Lesson: m.Lesson, Own: m.Own, Back: m.Back, Correction: m.Correction, Measuring: m.Measuring, Marking: m.Marking, Table: m.Table, CueForm: m.CueForm, PlayerForm: m.PlayerForm, Player: m.Player, Round: m.Round, Film: m.Film.Step != FilmShut, FilmTurn: m.FilmTurn, Switch: m.Switch,
		Object: m.Look.Object, Band: m.Look.Band, Units: units, Fields: fields,
	}
	if m.Home != nil {
		v.Example, v.Home, v.HomeLink = true, m.Home.Visit.Format(), m.Home.Model.Settled.Format()
	}
	return v
}

// WithoutLongest returns the visit without its longest field, for a tab that does not
// have room for all of them. The visit must have a field.
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

// Return restores the state of a visit. It does not restore the correction of a stroke
// that no longer exists, and a lesson that is no longer among the user's own opens as
// any other lesson. It restores the form of a deleted record, because the user can save
// its contents as a new record. A visit to the example opens that, empty until
// ShowExample.
type Return struct{ Visit Visit }

func (e Return) update(m Model) Model {
	v := e.Visit
	if v.Example {
		return m.returned(v)
	}
	m = Reopen{Link: v.Lesson, Own: v.Own, Back: v.Back}.update(m)
	m = OpenSection{v.Section}.update(m)
	m.Starting, m.Door = v.Starting, v.Door
	m.Look.Object, m.Look.Band = v.Object, v.Band
	m.CueForm, m.PlayerForm = v.CueForm, v.PlayerForm
	m = ChoosePlayer{v.Player}.update(m)
	m.Round = v.Round
	if m.FilmTurn = v.FilmTurn; m.FilmTurn.Player != "" && m.Section != "measure" && m.Section != "shot" {
		m = m.filmLeft()
	}
	if name, faults := cueName(v.Measuring); faults == nil {
		m.Measuring = name
	}
	if v.Film {
		m.Film.Why = filmGone
	}
	m.Marking, m.Table = v.Marking, v.Table
	m.Table.On = v.Table.On && m.Section == "measure"
	if v.Switch.On {
		m = ChooseSwitch{From: v.Switch.From, To: v.Switch.To}.update(m)
	}
	if v.Correction.On && slices.Contains(m.Kept.Strokes, v.Correction.Stroke) {
		m.Correction = v.Correction
	}
	return m
}

// Format returns the visit as text: pairs of a key and a value, as in a link. A record
// is written as one pair for each of its parts, in order.
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
	flag("starting", v.Starting)
	if v.Door != "" {
		write("door", v.Door)
	}
	if v.Example {
		write("home", v.Home)
		write("homelink", v.HomeLink)
	}
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
	for _, part := range markingParts(&v.Marking) {
		write("marking", *part)
	}
	flag("table", v.Table.On)
	flag("named", v.Table.Named)
	flag("bymark", v.Table.ByMark)
	if v.CueForm.On {
		flag("cuenew", v.CueForm.New)
		write("cueunits", v.CueForm.Units)
		for _, part := range cueParts(&v.CueForm.Cue) {
			write("cue", *part)
		}
	}
	if v.Player != "" {
		write("player", v.Player)
	}
	flag("round", v.Round.On)
	for _, key := range v.Round.Out {
		write("out", key)
	}
	for i := range v.Round.Noted {
		for _, part := range turnParts(&v.Round.Noted[i]) {
			write("noted", *part)
		}
	}
	flag("film", v.Film)
	if v.FilmTurn.Player != "" {
		write("filmback", v.FilmTurn.Back.Format())
		write("filmed", v.FilmTurn.Player)
	}
	if v.PlayerForm.On {
		flag("playernew", v.PlayerForm.New)
		write("playerunits", v.PlayerForm.Units)
		for _, part := range v.PlayerForm.Player.Texts() {
			write("playerpart", *part)
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

// markingParts returns the texts of a marking in the order in which they are written.
func markingParts(m *Marking) []*string { return []*string{&m.Text, &m.Line, &m.Read} }

// correctionParts returns the texts of a correction in the order in which they are
// written.
func correctionParts(c *Correction) []*string {
	k := &c.Stroke
	return []*string{&k.Cue, &k.Link, &k.See, &k.Mark, &k.At, &k.Read, &k.When, &c.Cue, &c.Mark.Text, &c.Mark.Line, &c.Mark.Read, &k.Film.Launch, &k.Film.Speed, &k.Film.Cov}
}

// turnParts returns the texts of a player's stroke in the order in which they are written.
func turnParts(t *store.Turn) []*string {
	return []*string{&t.Player, &t.Cue, &t.Link, &t.See, &t.Mark, &t.At, &t.Read, &t.When, &t.Film.Launch, &t.Film.Speed, &t.Film.Cov}
}

// cueParts returns the texts of a cue's record in the order in which they are written.
func cueParts(c *store.CueRecord) []*string {
	return []*string{
		&c.Name, &c.Pivot, &c.From, &c.To, &c.At, &c.How, &c.Link, &c.When,
		&c.Shaft, &c.Taper, &c.Ferrule, &c.Hardness, &c.Notes,
	}
}

// ParseVisit reads the text of a visit. It leaves out parts that cannot be read. The
// visit is empty if the text is from another version or is not a visit.
func ParseVisit(text string) Visit {
	var v Visit
	kind, rest, _ := strings.Cut(text, "&")
	version, rest, _ := strings.Cut(rest, "&")
	if kind != visitKind || version != "v="+visitVersion {
		return v
	}
	var stroke, cue, marking, part, noted int
	for _, pair := range strings.Split(rest, "&") {
		key, raw, _ := strings.Cut(pair, "=")
		value, on := link.Unescape(raw), raw == "1"
		switch key {
		case "section":
			v.Section = value
		case "starting":
			v.Starting = on
		case "door":
			v.Door = value
		case "home":
			v.Example, v.Home = true, value
		case "homelink":
			v.HomeLink = value
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
		case "marking":
			marking = take(markingParts(&v.Marking), marking, value)
		case "table":
			v.Table.On = on
		case "named":
			v.Table.Named = on
		case "bymark":
			v.Table.ByMark = on
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
		case "player":
			v.Player = value
		case "round":
			v.Round.On = on
		case "out":
			v.Round.Out = append(v.Round.Out, value)
		case "noted":
			if noted%len(turnParts(&store.Turn{})) == 0 {
				v.Round.Noted, noted = append(v.Round.Noted, store.Turn{}), 0
			}
			noted = take(turnParts(&v.Round.Noted[len(v.Round.Noted)-1]), noted, value)
		case "film":
			v.Film = on
		case "filmback":
			v.FilmTurn.Back, _ = scenario.Parse(value)
		case "filmed":
			v.FilmTurn.Player = value
		case "playernew":
			v.PlayerForm.New = on
		case "playerunits":
			v.PlayerForm.On, v.PlayerForm.Units = isUnits(value), value
		case "playerpart":
			part = take(v.PlayerForm.Player.Texts(), part, value)
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
	if !v.PlayerForm.On || part < len(v.PlayerForm.Player.Texts()) {
		v.PlayerForm = PlayerForm{}
	}
	if !isUnits(v.Units) || len(v.Fields) > mostFields {
		v.Units, v.Fields = "", nil
	}
	return v
}

// take sets part at of a record to a value, if there is one, and returns the index of the
// next part.
func take(parts []*string, at int, value string) int {
	if at < len(parts) {
		*parts[at] = value
	}
	return at + 1
}

// parseSwitch reads the two places of a switch. It returns a Switch that is not chosen
// if the text cannot be read.
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

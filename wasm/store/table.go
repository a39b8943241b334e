package store

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"pivotbench/core/scenario"
	"pivotbench/wasm/codec"
)

// A Table is a table as it was found on one day: cloth changes with wear and
// damp. Link is a scenario, of which only the table, the ball, the cloth and their
// overrides count.
type Table struct {
	Name string
	Link string
	When string
}

func (t *Table) fields(f codec.Fields) {
	f.Text("name", &t.Name)
	f.Text("link", &t.Link)
	f.Text("when", &t.When)
}

// TableOf is the record of the table on the bench.
func TableOf(s *scenario.Scenario, name, when string) Table {
	only := scenario.Default()
	takeTable(&only, s)
	return Table{Name: name, Link: only.Format(), When: when}
}

// Lay puts the record's table under a scenario's shot.
func (t Table) Lay(s *scenario.Scenario) {
	from, _ := scenario.Parse(t.Link)
	takeTable(s, &from)
}

func takeTable(to, from *scenario.Scenario) {
	to.Table, to.Ball, to.Cloth, to.Own = from.Table, from.Ball, from.Cloth, from.Own
}

// Measured is the record with a value measured put in: a key and its text. A
// table measured earlier that day has its other values too; else they are those
// of the named cloth and ball on the bench, since what was measured on another
// day need not hold.
func (k Records) Measured(s *scenario.Scenario, name, when, key, text string) (Table, error) {
	base := scenario.Default()
	base.Table, base.Ball, base.Cloth = s.Table, s.Ball, s.Cloth
	if i := k.tableAt(name, when); i >= 0 {
		k.Tables[i].Lay(&base)
	}
	if p := scenario.Find(key).Set(&base, text, ""); p != nil {
		return Table{}, p
	}
	return TableOf(&base, name, when), nil
}

// WithTable is the records with a table: in place of that of the same name and
// day, or after the others.
func (k Records) WithTable(t Table) Records {
	if i := k.tableAt(t.Name, t.When); i >= 0 {
		k.Tables = slices.Clone(k.Tables)
		k.Tables[i] = t
		return k
	}
	k.Tables = append(slices.Clip(k.Tables), t)
	return k
}

// tableAt is where the record of a name and a day is; -1: there is none.
func (k Records) tableAt(name, when string) int {
	return slices.IndexFunc(k.Tables, func(t Table) bool { return t.Name == name && Day(t.When) == Day(when) })
}

// Day returns the date of a moment on the device that noted it, as 2006-01-02.
// Earlier copies noted moments in UTC, which say nothing of that: then it is the
// date here.
func Day(when string) string {
	day := when[:min(len(when), len(time.DateOnly))]
	if t, err := time.Parse(time.RFC3339, when); err == nil && strings.HasSuffix(when, "Z") {
		day = t.Local().Format(time.DateOnly)
	}
	return day
}

// Earlier compares two moments or dates: negative when a is the earlier one. Moments
// were noted in different time zones, so their texts are not in order. A date alone
// begins at midnight here, and what is no date comes first.
func Earlier(a, b string) int {
	instant := func(when string) time.Time {
		if t, err := time.Parse(time.RFC3339, when); err == nil {
			return t
		}
		t, _ := time.ParseInLocation(time.DateOnly, when, time.Local)
		return t
	}
	return cmp.Or(instant(a).Compare(instant(b)), strings.Compare(a, b))
}

// Clean returns the record with its texts as they are kept and read.
func (t Table) Clean() Table {
	t.Name, t.When = clean(t.Name), clean(t.When)
	return t
}

// Faults returns what is wrong with a record, in words.
func (t *Table) Faults() []string {
	return slices.Concat(linkFaults(t.Link), NameFaults("name", t.Name))
}

package store

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"pivotbench/core/scenario"
	"pivotbench/wasm/codec"
)

// A Table is the state of a table on one day. Each day has its own record, because cloth
// changes with wear and humidity. Link is a scenario; only its table, ball and cloth and
// their overrides are used.
type Table struct {
	Name string
	Link string // the table, ball and cloth
	When string // date and time
}

func (t *Table) fields(f codec.Fields) {
	f.Text("name", &t.Name)
	f.Text("link", &t.Link)
	f.Text("when", &t.When)
}

// TableOf returns the record of a scenario's table.
func TableOf(s *scenario.Scenario, name, when string) Table {
	only := scenario.Default()
	takeTable(&only, s)
	return Table{Name: name, Link: only.Format(), When: when}
}

// Lay replaces a scenario's table, ball and cloth with those of the record.
func (t Table) Lay(s *scenario.Scenario) {
	from, _ := scenario.Parse(t.Link)
	takeTable(s, &from)
}

func takeTable(to, from *scenario.Scenario) {
	to.Table, to.Ball, to.Cloth, to.Own = from.Table, from.Ball, from.Cloth, from.Own
}

// Measured returns the record of a table with a measured value, given as a key and its
// text. The other values come from the record of the same name and day, if there is one.
// Otherwise they are the standard values of the scenario's named table, ball and cloth,
// because measurements from another day may not hold. It changes no records.
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

// WithTable returns the records with a table added. It replaces the record of the same
// name and day, if there is one.
func (k Records) WithTable(t Table) Records {
	if i := k.tableAt(t.Name, t.When); i >= 0 {
		k.Tables = slices.Clone(k.Tables)
		k.Tables[i] = t
		return k
	}
	k.Tables = append(slices.Clip(k.Tables), t)
	return k
}

// tableAt returns the index of the record of a name and day, or -1 if there is none.
func (k Records) tableAt(name, when string) int {
	return slices.IndexFunc(k.Tables, func(t Table) bool { return t.Name == name && Day(t.When) == Day(when) })
}

// Day returns the date of a moment as 2006-01-02, in the time zone of the device that
// recorded it. Earlier copies recorded moments in UTC, without that time zone. For those,
// Day uses the local time zone.
func Day(when string) string {
	day := when[:min(len(when), len(time.DateOnly))]
	if t, err := time.Parse(time.RFC3339, when); err == nil && strings.HasSuffix(when, "Z") {
		day = t.Local().Format(time.DateOnly)
	}
	return day
}

// Earlier compares two moments or dates. It returns a negative number if a is earlier
// than b. It does not compare the texts alone, because moments may be in different time
// zones. A date without a time is midnight local time. A text that is not a date sorts
// before all dates.
func Earlier(a, b string) int {
	instant := func(when string) time.Time {
		t, _ := moment(when)
		return t
	}
	return cmp.Or(instant(a).Compare(instant(b)), strings.Compare(a, b))
}

// Clean returns the record with its texts normalized for storage.
func (t Table) Clean() Table {
	t.Name, t.When = clean(t.Name), clean(t.When)
	return t
}

// Faults describes everything that is wrong with a record. It returns nil for a valid
// record.
func (t *Table) Faults() []string {
	return slices.Concat(linkFaults(t.Link), NameFaults("name", t.Name))
}

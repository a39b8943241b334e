package view

import (
	"strconv"
	"strings"

	"pivotbench/wasm/app"
)

// MostListed is how many cues the list shows: with more, one finds by name.
const MostListed = 40

// A CueList is the list of the Cues section.
type CueList struct {
	Rows   []CueRow
	Note   string
	Finder bool // there are so many that they can be looked for by name
	None   bool // there are no cues at all
}

// A CueRow is a cue of it.
type CueRow struct {
	Index       int // among all cues
	ID          string
	Title, Line string
	Change      string // that it is not what it was; empty: it is
	Bench       bool   // it is the one on the bench
	Ticked      bool   // it is compared, or on the bench
	Can         bool   // it can be used, and compared unless it is on the bench
	Open        bool   // its records are in sight
	Records     []RecordRow
}

// A RecordRow is a record of a cue.
type RecordRow struct {
	Index            int // among all records
	Day, Line, Notes string
}

// CueListOf returns the list for a model whose cues are listed already, of those
// whose name has a text in it. day writes the day of a moment as the device does.
func CueListOf(m *app.Model, listed []ListedCue, find string, day func(when string) string) CueList {
	list := CueList{None: len(listed) == 0, Finder: len(listed) > MostListed/4}
	find = strings.ToLower(strings.TrimSpace(find))
	found := 0
	for i := range listed {
		if !strings.Contains(listed[i].Key, find) {
			continue
		}
		if found++; found <= MostListed {
			list.Rows = append(list.Rows, cueRow(m, listed, i, day))
		}
	}
	switch {
	case found > MostListed:
		list.Note = strconv.Itoa(found-MostListed) + " more: type part of a name to find them."
	case !list.None:
		list.Note = "Ticked cues are compared with the one on the bench. Records of one name are measurements of one cue: rename one to keep it apart."
	}
	return list
}

func cueRow(m *app.Model, listed []ListedCue, i int, day func(string) string) CueRow {
	cue, records := &listed[i], m.Kept.Cues
	row := CueRow{
		Index: i, ID: cue.ID(), Title: cue.Title(), Line: CueLine(cue, records, m.Scene.Units, day),
		Change: ChangeWords(cue, records, day), Can: cue.Err == nil, Open: m.OpenedCue == cue.ID(),
	}
	row.Bench = row.Can && cue.OnBench(&m.Scene)
	row.Ticked = row.Bench || row.Can && cue.InComparison(&m.Scene) >= 0
	if row.Open {
		for _, at := range cue.Records {
			r := &records[at]
			row.Records = append(row.Records, RecordRow{at, day(r.When), CueRecord(*r, m.Scene.Units), CueNotes(r)})
		}
	}
	return row
}

// ID tells cues of the list apart, those without a name too.
func (c *ListedCue) ID() string {
	if c.Key == "" {
		return "#" + strconv.Itoa(c.Records[0])
	}
	return c.Key
}

// OfferWords say what cue a link brought.
func OfferWords(m *app.Model) string {
	name := m.Offer.Cue.Name
	if name == "" {
		name = "a cue without a name"
	}
	return "The link brings " + name + ": " + CueRecord(m.Offer.Cue, m.Scene.Units) + "."
}

// SavedWords say of the newest record that it was saved, and with how many others.
func SavedWords(m *app.Model) string {
	newest := len(m.Kept.Cues) - 1
	for _, cue := range ListCues(m.Kept.Cues) {
		if n := len(cue.Records); n > 1 && cue.Records[n-1] == newest {
			return "saved: there are " + strconv.Itoa(n) + " records of " + cue.Name + " now"
		}
	}
	return "saved to the cues"
}

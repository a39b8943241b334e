package view

import (
	"strconv"
	"strings"

	"pivotbench/wasm/app"
)

// MostListed is the largest number of cues that the list shows. When there are more,
// the user searches by name.
const MostListed = 40

// A CueList is the list of saved cues in the Cues section.
type CueList struct {
	Rows   []CueRow
	Note   string
	Finder bool // there are enough cues to offer a search by name
	None   bool // there are no cues at all
}

// A CueRow is a cue of a CueList.
type CueRow struct {
	Index       int // index among all cues
	ID          string
	Title, Line string
	Change      string // says that its measurements changed; empty when they did not
	Bench       bool   // it is the current cue
	Ticked      bool   // it is in the comparison or is the current cue
	Can         bool   // it can be used, and compared unless it is the current cue
	Open        bool   // its records are shown
	Records     []RecordRow
}

// A RecordRow is a record of a cue.
type RecordRow struct {
	Index            int    // index among all cue records
	Cue              string // title of its cue
	Number           int    // among the records of its cue, from 1
	Day, Line, Notes string
}

// CueListOf returns the list of the cues whose name contains find, ignoring case.
// listed are all cues of the model. day formats the day of a time in the device's
// date format.
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
		list.Note = strconv.Itoa(found-MostListed) + " more. Type part of a name to find them."
	case !list.None:
		list.Note = "Tick cues to compare them with the current cue. Same name, same cue: rename a record to keep it apart."
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
		for i, at := range cue.Records {
			r := &records[at]
			row.Records = append(row.Records, RecordRow{at, row.Title, i + 1, day(r.When), CueRecord(*r, m.Scene.Units), CueNotes(r)})
		}
	}
	return row
}

// ID returns a text that identifies a cue in the list, even one without a name.
func (c *ListedCue) ID() string {
	if c.Key == "" {
		return "#" + strconv.Itoa(c.Records[0])
	}
	return c.Key
}

// OfferWords describes the cue that a link contains.
func OfferWords(m *app.Model) string {
	name := m.Offer.Cue.Name
	if name == "" {
		name = "a cue with no name"
	}
	return "This link holds " + name + ": " + CueRecord(m.Offer.Cue, m.Scene.Units) + "."
}

// SavedWords says that the newest cue record was saved, and how many records its cue
// has when there are several.
func SavedWords(m *app.Model) string {
	newest := len(m.Kept.Cues) - 1
	for _, cue := range ListCues(m.Kept.Cues) {
		if n := len(cue.Records); n > 1 && cue.Records[n-1] == newest {
			return "Saved. " + cue.Name + " now has " + strconv.Itoa(n) + " records"
		}
	}
	return "Saved to your cues"
}

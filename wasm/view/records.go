package view

import (
	"strconv"
	"strings"

	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
)

// Count returns the numbers of records in words, such as "12 strokes, 1 cue record".
func Count(k *store.Records) string {
	var out []string
	for _, c := range []struct {
		n         int
		one, many string
	}{
		{len(k.Strokes), "stroke", "strokes"}, {len(k.Cues), "cue record", "cue records"}, {len(k.Readings), "reading", "readings"},
		{len(k.Tables), "table", "tables"}, {len(k.Hops), "hop", "hops"}, {len(k.Lessons), "lesson", "lessons"},
		{len(k.Players), "player", "players"}, {len(k.Turns), "player's stroke", "players' strokes"},
	} {
		switch c.n {
		case 0:
		case 1:
			out = append(out, "1 "+c.one)
		default:
			out = append(out, strconv.Itoa(c.n)+" "+c.many)
		}
	}
	if out == nil {
		return "no records"
	}
	return strings.Join(out, ", ")
}

// ImportWords asks whether to add the records of a chosen file or replace those on
// the device.
func ImportWords(i *app.Import, here *store.Records) string {
	name := i.Name
	if name == "" {
		name = "The file"
	}
	said := name + " has " + Count(&i.Kept) + ". "
	if i.Log {
		return said + "Add them to the " + strconv.Itoa(len(here.Strokes)) + " strokes on this device, or replace those?"
	}
	return said + "This device has " + Count(here) + ". Add what is new, or replace everything here?"
}

// AsideWords describes the records that an import replaced.
func AsideWords(aside *store.Records) string {
	return "Set aside by an import: " + Count(aside) + ". They stay on this device until you delete them."
}

// A RecordsFoot is the content of the footer of sections that save records.
type RecordsFoot struct {
	Kept   string // how the records are saved
	Unread bool   // some records on the device can't be read
	Import string // the question about a chosen file; empty when there is no file
	Aside  string // describes the records that an import replaced; empty when there are none
}

// RecordsFootOf returns the footer for a model.
func RecordsFootOf(m *app.Model) RecordsFoot {
	foot := RecordsFoot{Kept: "Strokes, cues, readings, tables and lessons are kept on this device as they are made.", Unread: m.Unread}
	if m.Unkept {
		foot.Kept = app.Unkept
	}
	if m.Import.On {
		foot.Import = ImportWords(&m.Import, &m.Kept)
	}
	if m.HasAside {
		foot.Aside = AsideWords(&m.Aside)
	}
	return foot
}

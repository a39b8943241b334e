package view

import (
	"strconv"
	"strings"

	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
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
		{len(k.Checks), "check of the set-up", "checks of the set-up"}, {len(k.Players), "player", "players"}, {len(k.Turns), "player's stroke", "players' strokes"},
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
		return said + "Add them to the " + phrase.Count(len(here.Strokes), "stroke", "strokes") + " on this device, or replace those?"
	}
	return said + "This device has " + Count(here) + ". Add the new records, or replace all records here?"
}

// AsideWords describes the records that an import replaced.
func AsideWords(aside *store.Records) string {
	return "Replaced by an import: " + Count(aside) + ". They stay on this device until you delete them."
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
	foot := RecordsFoot{Kept: "Your strokes, cues, readings, tables and lessons are saved on this device as you go.", Unread: m.Unread}
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

// What the footer says of files.
const (
	FileUnreadable  = "This file can't be read"
	NothingImported = "Nothing was imported."
	AllowStorage    = "Your browser may ask to store data. Allow it, so that your records stay when space runs short"
)

// ImportedWords says what the device has after an import.
func ImportedWords(k *store.Records) string {
	return "This device now has " + Count(k) + ". Undo takes it back"
}

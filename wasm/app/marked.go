package app

import (
	"slices"
	"strconv"
	"strings"

	"pivotbench/core/link"
	"pivotbench/core/unit"
	"pivotbench/wasm/store"
)

// mostMarked is the maximum number of marks, and of bands, on a sheet. More would hide
// each other.
const mostMarked = 60

// A Marked is a mark on the sheet.
type Marked struct {
	Cue      int         // index of its cue in OnSheet.Cues
	At, Line unit.Length // position of the ball's centre sideways, and of the line down the table
}

// A Band is where nine strokes in ten of a cue are expected to cross a line.
type Band struct {
	Cue            int // index of its cue in OnSheet.Cues
	From, To, Line unit.Length
	Next           bool // whether it is that of the current shot, rather than of strokes already played
}

// An OnSheet is what the sheet shows of a sitting.
type OnSheet struct {
	Cues   []string // names of the cues, in the order of their first stroke
	Marks  []Marked
	Bands  []Band
	Placed Marked // where the mark of the next stroke is; Line is 0 if none is placed now
}

// Expect takes over the bands, once they are computed. A band's cue is its index among
// the cues of the sitting that is shown, in the order of their first stroke.
type Expect struct{ Bands []Band }

func (e Expect) update(m Model) Model {
	m.Bands = e.Bands
	return m
}

// OnSheet returns what the sheet shows of the sitting that is shown, while the section for measuring is
// open. Otherwise it returns what the last Mirror had.
func (m *Model) OnSheet() OnSheet {
	if m.Section != "measure" {
		return parseOnSheet(m.Marked)
	}
	out := OnSheet{Bands: m.Bands}
	all := m.Sittings()
	for _, i := range all[Shown(all)].Strokes {
		k := &m.Kept.Strokes[i]
		cue := out.cue(k.Cue)
		at, err := unit.Parse(k.Mark, unit.LengthKind, "")
		line, errLine := unit.Parse(k.At, unit.LengthKind, "")
		if err == nil && errLine == nil {
			out.Marks = append(out.Marks, Marked{cue, unit.Length(at), unit.Length(line)})
		}
	}
	out.Marks = out.Marks[max(0, len(out.Marks)-mostMarked):]
	if m.Table.On && !m.Table.ByMark {
		return out
	}
	if line := m.MarkLine(); line > 0 && line <= m.Scene.GearTable().Length {
		out.Placed = Marked{Cue: out.cue(m.Measuring), Line: line}
		if at, _, err := m.Marks(); err == nil {
			out.Placed.At = at[len(at)-1]
		}
	}
	return out
}

// cue returns the index of a cue, and adds the cue if it is new.
func (o *OnSheet) cue(name string) int {
	for i, other := range o.Cues {
		if store.CueKey(other) == store.CueKey(name) {
			return i
		}
	}
	o.Cues = append(o.Cues, name)
	return len(o.Cues) - 1
}

// format returns it as text for a Mirror: pairs of a key and a value, as in a link.
// Lengths are in metres.
func (o OnSheet) format() string {
	var pairs []string
	length := func(v unit.Length) string { return strconv.FormatFloat(float64(v), 'f', 4, 64) }
	write := func(key string, words ...string) {
		pairs = append(pairs, key+"="+link.Escape(strings.Join(words, " ")))
	}
	for _, name := range o.Cues {
		write("cue", name)
	}
	for _, v := range o.Marks {
		write("mark", strconv.Itoa(v.Cue), length(v.At), length(v.Line))
	}
	for _, v := range o.Bands {
		write("band", strconv.Itoa(v.Cue), length(v.From), length(v.To), length(v.Line), strconv.FormatBool(v.Next))
	}
	if p := o.Placed; p.Line > 0 {
		write("placed", strconv.Itoa(p.Cue), length(p.At), length(p.Line))
	}
	return strings.Join(pairs, "&")
}

// parseOnSheet reads the text of format. It skips what cannot be read.
func parseOnSheet(text string) (out OnSheet) {
	for _, pair := range strings.Split(text, "&") {
		key, raw, _ := strings.Cut(pair, "=")
		value := link.Unescape(raw)
		if key == "cue" {
			out.Cues = append(out.Cues, value)
			continue
		}
		cue, lengths, rest, ok := figures(value, map[string]int{"mark": 2, "placed": 2, "band": 3}[key])
		switch {
		case !ok || cue >= len(out.Cues):
		case key == "mark" && len(out.Marks) < mostMarked:
			out.Marks = append(out.Marks, Marked{cue, lengths[0], lengths[1]})
		case key == "placed":
			out.Placed = Marked{cue, lengths[0], lengths[1]}
		case key == "band" && len(out.Bands) < mostMarked:
			out.Bands = append(out.Bands, Band{cue, lengths[0], lengths[1], lengths[2], slices.Equal(rest, []string{"true"})})
		}
	}
	return out
}

// figures reads the index of a cue and n lengths, of which the last is the distance of a
// line, and returns the remaining words.
func figures(value string, n int) (cue int, lengths []unit.Length, rest []string, ok bool) {
	words := strings.Fields(value)
	if n == 0 || len(words) <= n {
		return 0, nil, nil, false
	}
	cue, err := strconv.Atoi(words[0])
	for _, word := range words[1 : 1+n] {
		v, errLength := strconv.ParseFloat(word, 64)
		if errLength != nil || !(v > -100 && v < 100) {
			return 0, nil, nil, false
		}
		lengths = append(lengths, unit.Length(v))
	}
	return cue, lengths, words[1+n:], err == nil && cue >= 0 && lengths[n-1] > 0
}

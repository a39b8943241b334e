package view

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/store"
)

// seenWords gives a stroke's outcome at the gate in the words of the buttons.
var seenWords = map[string]string{"left": "hit left", "clean": "clean", "right": "hit right"}

// SeenWords returns a stroke's outcome at the gate in words, from its name in
// records.
func SeenWords(see string) string { return seenWords[see] }

// A StrokeRow is a stroke as the Measure section lists it.
type StrokeRow struct {
	Index                       int // index among all strokes
	Number, Cue, Hands, English string
	See                         string      // outcome at the gate, by its name in records; empty for a mark
	Mark                        string      // the mark in words; empty for a stroke at a gate
	Sitting                     SittingHead // of the sitting that the list goes on with here; zero: of the same as before
}

// SameAtEnd returns how many rows at the end of a list are the same as before.
func SameAtEnd(before, now []StrokeRow) (n int) {
	for n < min(len(before), len(now)) && before[len(before)-1-n] == now[len(now)-1-n] {
		n++
	}
	return n
}

// listed is how many strokes the list shows at first, and how many more it then takes at a
// time. A phone writes so many in a tenth of a second.
const listed = 50

// FirstListed returns the index of the first stroke that the list shows. first was that of
// the list before, and before and now are the numbers of strokes. Strokes that are noted one
// by one add to those listed; of another list the newest are shown.
func FirstListed(first, before, now int) int {
	if now > before+listed || now < first+listed/2 || before == 0 {
		return max(0, now-listed)
	}
	return first
}

// Older returns the index of the first stroke that the list shows when it takes more.
func Older(first int) int { return max(0, first-listed) }

// A SittingHead is the heading of a sitting in the list of strokes.
type SittingHead struct {
	When    string // when its first stroke was recorded; empty if that is not known
	Strokes int
}

// Words returns the heading. day is the day of When.
func (h *SittingHead) Words(day string) string {
	if h.When == "" {
		day = "unknown day"
	}
	return phrase.Upper(day) + ", " + phrase.Count(h.Strokes, "stroke", "strokes")
}

// StrokeRows returns the strokes of a model in the half-open range of indices from, to, the
// newest first. They have headings if the strokes of the model are of several sittings.
func StrokeRows(m *app.Model, from, to int) []StrokeRow {
	strokes := m.Kept.Strokes
	heads := make([]*SittingHead, len(strokes))
	sittings := 0
	for _, t := range m.Sittings() {
		for n, i := range t.Strokes {
			if n == 0 {
				sittings++
				heads[i] = &SittingHead{strokes[i].When, len(t.Strokes)}
			}
			heads[i] = heads[t.Strokes[0]]
		}
	}
	rows := make([]StrokeRow, 0, to-from)
	for i := to - 1; i >= from; i-- {
		k := &strokes[i]
		s, _ := scenario.Parse(k.Link)
		s.Units = m.Scene.Units
		row := StrokeRow{Index: i, Number: strconv.Itoa(i + 1), Cue: phrase.CueName(k.Cue, 0), Hands: handsOf(&s), English: scenario.Find("side").Shown(&s), See: k.See}
		if k.Cue == "" {
			row.Cue = "unnamed"
		}
		if k.Mark != "" {
			row.Mark = markShown(&s, k)
		}
		if sittings > 1 && (i == len(strokes)-1 || heads[i] != heads[i+1]) {
			row.Sitting = *heads[i]
		}
		rows = append(rows, row)
	}
	return rows
}

// handsOf returns how english was applied: "parallel", or the bridge length of a
// back-hand stroke.
func handsOf(s *scenario.Scenario) string {
	if s.Back == 0 {
		return "parallel"
	}
	return scenario.Find("bridge").Shown(s)
}

// markShown returns a mark in words.
func markShown(s *scenario.Scenario, k *store.Stroke) string {
	return phrase.Sideways(s, length(k.Mark)) + " at " + phrase.Brief(phrase.Length(s, length(k.At)))
}

// CorrectionWords says which stroke is being corrected. It is empty when none is.
func CorrectionWords(m *app.Model) string {
	if !m.Correction.On {
		return ""
	}
	n := strconv.Itoa(slices.Index(m.Kept.Strokes, m.Correction.Stroke) + 1)
	if m.Correction.Stroke.Film != (store.Film{}) {
		return "Correcting stroke " + n + ": set it below as it was played, then keep what the film shows, or note it again."
	}
	if m.Correction.Stroke.Mark != "" {
		return "Correcting stroke " + n + ": set it below as it was played, then add its mark again."
	}
	return "Correcting stroke " + n + ": set it below as it was played, then tap its result."
}

// NotedWords describes the strokes that an event recorded or corrected, from the models
// before and after the event. It is empty when nothing was recorded; a notice then says
// why.
func NotedWords(before, after *app.Model) string {
	switch {
	case after.Changes == before.Changes:
		return ""
	case before.Correction.On:
		return "corrected"
	}
	if n := len(after.Kept.Turns); n > len(before.Kept.Turns) {
		return "noted: " + turnWords(after, n-1)
	}
	if n := len(after.Kept.Strokes) - len(before.Kept.Strokes); n > 1 {
		return strconv.Itoa(n) + " strokes noted"
	}
	last := len(after.Kept.Strokes) - 1
	k := after.Kept.Strokes[last]
	s, _ := scenario.Parse(k.Link)
	s.Units = after.Scene.Units
	said := "stroke " + strconv.Itoa(last+1) + " noted: "
	if k.Mark != "" {
		said += markShown(&s, &k)
	} else {
		said += seenWords[k.See]
	}
	hands := "parallel"
	if s.Back != 0 {
		hands = "bridge " + scenario.Find("bridge").Shown(&s)
	}
	english := "no english"
	if s.Side != 0 {
		hand := "right"
		if s.Side < 0 {
			hand = "left"
		}
		english = hand + " english " + unit.Round(math.Abs(s.Side), unit.Ratio, "", 2) + " R"
	}
	pace := "speed"
	if s.ByStroke {
		pace = "stroke"
	}
	return said + ", " + hands + ", " + english + ", " + scenario.Find(pace).Shown(&s)
}

// placesOf returns the indices of some strokes in the list, in order. Two strokes may be
// alike. Those that are no longer in the list are left out.
func placesOf(m *app.Model, strokes []store.Stroke) (out []int) {
	left := slices.Clone(strokes)
	for i, k := range m.Kept.Strokes {
		if at := slices.Index(left, k); at >= 0 {
			left, out = slices.Delete(left, at, at+1), append(out, i)
		}
	}
	return out
}

// CheckFirst says, in the place of the next stroke, that there is a question about some
// strokes. It is empty when there are none.
func CheckFirst(m *app.Model, asked []store.Stroke) string {
	which := placesOf(m, asked)
	if which == nil {
		return ""
	}
	return "Before the next stroke, check " + strings.ToLower(strokesNamed(which)) + ": left or right? The question is below."
}

// OtherSideWords asks about strokes that fit far better on the other side of the aim line.
// It is empty when there are none.
func OtherSideWords(m *app.Model, strokes []store.Stroke) string {
	var names []string
	for _, i := range placesOf(m, strokes) {
		k := &m.Kept.Strokes[i]
		seen := seenWords[k.See]
		if k.Mark != "" {
			seen = phrase.Sideways(&m.Scene, length(k.Mark))
		}
		names = append(names, "stroke "+strconv.Itoa(i+1)+", "+seen)
	}
	const check = " Check the side you noted, and the english."
	switch n := len(names); {
	case n == 0:
		return ""
	case n == 1:
		return "Left or right? " + phrase.Upper(names[0]) + ", fits far better on the other side of the aim line." + check
	case n > mostNamed+1:
		names = append(names[:mostNamed], strconv.Itoa(n-mostNamed)+" more")
	}
	return "Left or right? These fit far better on the other side of the aim line: " + strings.Join(names, "; ") + "." + check
}

// OldMarks says that there are marks from an older version of the program, which did
// not save their shot. It is empty when there are none.
func OldMarks(m *app.Model) string {
	if m.Kept.Marks == (store.Marks{}) {
		return ""
	}
	return "There are marks on a rail from an older version, " + m.Kept.Marks.Rail + " away: right english “" + m.Kept.Marks.Right + "”, left english “" + m.Kept.Marks.Left +
		"”. The shot was not kept with them. Set speed, elevation, english and cue as they were, then add them."
}

// CueNames returns suggestions for the name of the cue being measured: the names in
// the strokes, newest first, then those of the saved cues.
func CueNames(m *app.Model) []string {
	var names []string
	add := func(name string) {
		if name != "" && !slices.ContainsFunc(names, func(n string) bool { return store.CueKey(n) == store.CueKey(name) }) {
			names = append(names, name)
		}
	}
	for i := len(m.Kept.Strokes) - 1; i >= 0; i-- {
		add(m.Kept.Strokes[i].Cue)
	}
	for i := range m.Kept.Cues {
		add(m.Kept.Cues[i].Name)
	}
	return names
}

// MeasuredCues returns the records of what each sitting says of the cue being measured,
// the oldest first, without those that are saved already. now is the moment.
func MeasuredCues(m *app.Model, t *Sitting, now string) (out []store.CueRecord) {
	s := m.Scene
	s.Name = m.Measuring
	cue := t.Cue(m.Measuring)
	all := t.of(m.Measuring, true)
	for i, one := range all {
		if !one.ok {
			continue
		}
		when := one.last
		if when == "" || i == len(all)-1 && t.Post.Strokes(cue) > 0 {
			when = now
		}
		record := store.Measured(&s, one.pivot, one.mass, one.how, one.sitting, when)
		if !slices.ContainsFunc(m.Kept.Cues, func(c store.CueRecord) bool { return sameMeasurement(&c, &record) }) {
			out = append(out, record)
		}
	}
	return out
}

// sameMeasurement reports whether two records are of the same strokes.
func sameMeasurement(a, b *store.CueRecord) bool {
	return store.CueKey(a.Name) == store.CueKey(b.Name) && a.Sitting != "" && a.Sitting == b.Sitting &&
		a.Pivot == b.Pivot && a.From == b.From && a.To == b.To
}

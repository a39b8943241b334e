package view

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"pivotbench/core/cues"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
)

// Findings is a result in one sentence, the table of figures behind it, and a note.
type Findings struct {
	Head  string
	Table Table
	Note  string
}

// mostChanges is the largest number of shots shown for a change of cue.
const mostChanges = 6

// Switched returns the two cues to switch between. The first and second entries
// stand in for cues that were not chosen or are no longer compared. There must be
// at least two entries.
func Switched(entries []Entry, chosen app.Switch) (from, to *Entry) {
	from, to = &entries[0], &entries[1]
	for i := range entries {
		e := &entries[i]
		if chosen.On && e.Place == chosen.From {
			from = e
		}
		if chosen.On && e.Place == chosen.To {
			to = e
		}
	}
	return from, to
}

// Switching returns how a player must change the aim when changing from one cue to
// another, on the shots of the aim card.
func Switching(s *scenario.Scenario, from, to *Entry) Findings {
	sh := s.Shot()
	dists, speeds := cardGrid(s)
	changes := cues.Switch(&sh, &from.Cue, &to.Cue, s.Scatter, dists, speeds)
	var f Findings
	again, played := 0, 0
	for _, c := range changes {
		if c.Err == nil {
			played++
		}
		if c.Relearn() {
			again++
		}
	}
	switch worst := changes[0]; {
	case played == 0:
		f.Head = phrase.Upper(worst.Err.Error())
		return f
	case again == 0:
		f.Head = "No change to your aim"
		f.Note = "The largest change on the aim card is " + phrase.Small(s, float64(unit.Abs(worst.Shift))) + " at the target. You would notice " + phrase.Small(s, float64(worst.Notice)) + " or more."
	default:
		f.Head = "With " + to.Name + ", aim up to " + aimWords(s, worst.Shift)
		f.Note = "You would notice the change on " + strconv.Itoa(again) + " of the " + phrase.Count(played, "shot", "shots") + " on the aim card."
	}
	if left := len(changes) - played; left > 0 {
		f.Note += " " + strconv.Itoa(left) + " can't be played with both cues."
	}
	f.Table.Columns = []string{"change of aim", "in tips", phrase.ReadingName("share-back")}
	for _, c := range changes[:min(played, mostChanges)] {
		f.Table.Rows = append(f.Table.Rows, Row{
			phrase.Brief(phrase.Length(s, c.Dist)) + ", " + speedWords(s, c.Speed),
			[]string{
				aimWords(s, c.Shift), unit.Round(math.Abs(c.Widths), unit.Ratio, "", 1),
				orDash(c.From, phrase.Percent) + " → " + orDash(c.To, phrase.Percent),
			},
		})
	}
	return f
}

// aimWords returns a change of aim in words, such as "0.47 in further right". shift
// is positive to the right.
func aimWords(s *scenario.Scenario, shift unit.Length) string {
	size := phrase.Small(s, float64(unit.Abs(shift)))
	switch {
	case size == phrase.Small(s, 0):
		return "the same"
	case shift > 0:
		return size + " further right"
	}
	return size + " further left"
}

const missFromTip = "miss from tip wander"

// Choosing returns how well each cue suits the player's bridge and table, at the speeds of
// the aim card.
func Choosing(s *scenario.Scenario, list []Entry) Findings {
	_, speeds := cardGrid(s)
	return choosing(s, list, speeds, ", the speeds of the aim card and your errors under Shot")
}

// choosing returns how well each cue suits a player at some speeds. whose ends a
// sentence with whose numbers these are.
func choosing(s *scenario.Scenario, list []Entry, speeds []unit.Speed, whose string) Findings {
	sh := s.Shot()
	measured := make([]cues.Candidate, len(list))
	for i := range list {
		measured[i] = list[i].Cue
	}
	fits := cues.Choose(&sh, measured, s.Scatter, speeds)
	f := Findings{Table: Table{Columns: []string{"back hand alone works", "worst miss", missFromTip, phrase.ReadingName("spin-ratio")}}}
	var alone []string
	least, best := unit.Length(math.Inf(1)), ""
	for i := range fits {
		fit := &fits[i]
		if fit.Err != nil {
			f.Table.Rows = append(f.Table.Rows, Row{list[i].Name, []string{"–", "–", "–", "–"}})
			f.Note += list[i].Name + ": " + fit.Err.Error() + ". "
			continue
		}
		if len(fit.Alone) > 0 {
			alone = append(alone, list[i].Name+" "+aloneWords(s, fit))
		}
		if fit.Stray < least {
			least, best = fit.Stray, list[i].Name
		}
		f.Table.Rows = append(f.Table.Rows, Row{list[i].Name, []string{
			aloneWords(s, fit),
			phrase.Small(s, float64(unit.Abs(fit.Off))) + " at " + speedWords(s, fit.Worst),
			phrase.Small(s, float64(fit.Stray)),
			unit.Round(fit.Spin, unit.Ratio, "", 2),
		}})
	}
	if best == "" {
		f.Head = "None of these cues can play this shot"
		return f
	}
	shown := func(key string) string { return phrase.Brief(scenario.Find(key).Shown(s)) }
	f.Head = "Back hand alone with a " + shown("bridge") + " bridge: "
	if alone == nil {
		f.Head += "none of these"
	} else {
		f.Head += strings.Join(alone, "; ")
	}
	f.Note += "For a target " + shown("dist") + " away" + whose + ". “" + missFromTip + "” is the miss at the target if the tip strays by " +
		shown("scatter.tip") + ", one standard deviation. It is least with " + best + ". " + sameForAll(list, fits)
	return f
}

func speedWords(s *scenario.Scenario, v unit.Speed) string {
	return phrase.Brief(scenario.DisplayOf(unit.SpeedKind, s.Units).Format(float64(v)))
}

// aloneWords returns in words the speeds at which a player would not notice the
// error of back-hand english alone.
func aloneWords(s *scenario.Scenario, fit *cues.Fit) string {
	switch {
	case fit.All:
		return "at all speeds"
	case len(fit.Alone) == 0:
		return "no"
	}
	each := make([]string, len(fit.Alone))
	for i, v := range fit.Alone {
		each[i] = speedWords(s, v)
	}
	return "at " + strings.Join(each, ", ")
}

// sameForAll returns a note on the most spin before a miscue, which does not depend
// on the cue.
func sameForAll(list []Entry, fits []cues.Fit) string {
	var spins, narrow []string
	for i := range fits {
		if fits[i].Err != nil {
			continue
		}
		if spin := unit.Round(fits[i].MostSpin, unit.Ratio, "", 2); !slices.Contains(spins, spin) {
			spins = append(spins, spin)
		}
		if fits[i].Edge {
			narrow = append(narrow, list[i].Name)
		}
	}
	text := "The most spin before a miscue is the same with every cue: a spin-to-speed ratio of " + strings.Join(spins, " or ") +
		". It depends on tip friction alone, not on squirt."
	if narrow != nil {
		text += " With " + strings.Join(narrow, ", ") + " the edge of the tip comes first."
	}
	return text
}

// Efforts returns a table of the stroke that gives the same ball speed with each
// cue.
func Efforts(s *scenario.Scenario, list []Entry) Table {
	sh := s.Shot()
	measured := make([]cues.Candidate, len(list))
	for i := range list {
		measured[i] = list[i].Cue
	}
	t := Table{Columns: []string{phrase.KeyName("cuemass"), phrase.KeyName("bounce"), phrase.ReadingName("cue-speed"), "change", "energy passed on"}}
	for i, e := range cues.Efforts(&sh, measured) {
		at := &list[i].Scene
		row := Row{list[i].Name, []string{scenario.Find("cuemass").Shown(at), scenario.Find("bounce").Shown(at), "–", "–", "–"}}
		if e.Err == nil {
			more := phrase.Percent(e.More)
			if e.More >= 0.005 {
				more = "+" + more
			}
			speed := scenario.DisplayOf(unit.SpeedKind, s.Units)
			row.Cells[2], row.Cells[3], row.Cells[4] = speed.Format(float64(e.Stroke)), more, phrase.Percent(e.Share)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

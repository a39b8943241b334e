package view

import (
	"strings"

	"pivotbench/core/cues"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/store"
)

// A Table is figures in words.
type Table struct {
	Columns []string
	Rows    []Row
}

// A Row of a table.
type Row struct {
	Head  string
	Cells []string
}

// An Entry is a cue in a comparison: the one on the bench, which is the first,
// or one beside it.
type Entry struct {
	Name    string
	Place   int // 0: on the bench, 1: the first beside it
	Cue     cues.Candidate
	Assumed bool // how well it is known is not, but assumed
	Scene   scenario.Scenario
}

// Entries are the cues of a scenario. One that is on the rack as it is here is
// known as well as its measurements say. err tells of those left out.
func Entries(s *scenario.Scenario, listed []ListedCue) (list []Entry, left []string) {
	for i, c := range append([]scenario.CueSpec{s.OnBench()}, s.More[:]...) {
		if c.Pivot == 0 {
			continue
		}
		e := Entry{Name: phrase.CueName(c.Name, i), Place: i, Scene: s.With(c)}
		sh := e.Scene.Shot()
		e.Cue.Gear = sh.Cue
		if known := sameCue(s, &c, listed); known != nil {
			e.Cue.Known = known.Known.EndMass
		} else {
			var err error
			e.Assumed = true
			if e.Cue.Known, err = cues.Measured(sh.Ball, sh.Cue, 0, 0); err != nil {
				left = append(left, e.Name+" is left out: "+err.Error())
				continue
			}
		}
		list = append(list, e)
	}
	return list, left
}

// nearPivot is as far as the pivot length of a cue may be off when it is put on
// the bench, to half a step of the coarser units.
const nearPivot = 0.051 * unit.Inch

// sameCue is the cue of the rack that a scenario has, if it was not changed
// since; nil if there is none.
func sameCue(s *scenario.Scenario, c *scenario.CueSpec, cues []ListedCue) *ListedCue {
	for i := range cues {
		r := &cues[i]
		if r.Err != nil || r.Key != store.CueKey(c.Name) {
			continue
		}
		on, key := r.On(s), scenario.Find("pivot")
		at := min(max(r.pivotOn(s), unit.Length(key.Min)), unit.Length(key.Max))
		if on.PivotSpin == c.PivotSpin && on.Tip == c.Tip && max(at-c.Pivot, c.Pivot-at) < nearPivot {
			return r
		}
	}
	return nil
}

// InComparison reports whether a cue of the rack is one of a scenario's
// further cues, and which; −1 if not.
func (c *ListedCue) InComparison(s *scenario.Scenario) int {
	for i := range s.More {
		if s.More[i].Pivot != 0 && sameCue(s, &s.More[i], []ListedCue{*c}) != nil {
			return i
		}
	}
	return -1
}

// OnBench reports whether a cue of the rack is the one on the bench.
func (c *ListedCue) OnBench(s *scenario.Scenario) bool {
	own := s.OnBench()
	return sameCue(s, &own, []ListedCue{*c}) != nil
}

// Ticked returns the cues that stand beside the one on the bench once a cue of
// the rack is ticked, or unticked if it is one of them already.
func Ticked(s *scenario.Scenario, cue *ListedCue) []scenario.CueSpec {
	beside := besides(s, cue.InComparison(s))
	if cue.InComparison(s) < 0 {
		beside = append(beside, cue.On(s))
	}
	return beside
}

// Used returns the cues that stand beside the bench once a cue of the rack lies
// on it. A cue out of the comparison changes places with the one on the bench,
// if that is of the rack too. Another was never chosen, and its place on the
// list of the compared could not be unticked.
func Used(s *scenario.Scenario, cues []ListedCue, cue *ListedCue) []scenario.CueSpec {
	at, bench := cue.InComparison(s), s.OnBench()
	beside := besides(s, at)
	if at >= 0 && !cue.OnBench(s) && sameCue(s, &bench, cues) != nil {
		beside = append([]scenario.CueSpec{bench}, beside...)
	}
	return beside
}

// besides are the further cues of a scenario, without one of them; −1: all.
func besides(s *scenario.Scenario, without int) []scenario.CueSpec {
	var out []scenario.CueSpec
	for i, cue := range s.More {
		if cue.Pivot != 0 && i != without {
			out = append(out, cue)
		}
	}
	return out
}

// CompareTable is what the cues make of the shot.
func CompareTable(list []Entry) Table {
	t := Table{Columns: []string{"squirt", "natural pivot", "pivot for this shot", "back-hand share"}}
	for i := range list {
		e := &list[i]
		var res shot.Result
		sh := e.Scene.Shot()
		shot.Play(&sh, &res)
		r, s := &res.Reading, &e.Scene
		t.Rows = append(t.Rows, Row{e.Name, []string{
			orDash(r.Squirt, func(v unit.Angle) string { return degrees(v) }),
			orDash(r.PivotNatural, func(v unit.Length) string { return phrase.Length(s, v) }),
			orDash(r.PivotEffective, func(v unit.Length) string { return phrase.Length(s, v) }),
			orDash(r.ShareBack, phrase.Percent),
		}})
	}
	return t
}

// orDash is an answer in words, or a dash for none.
func orDash[T ~float64](a shot.Answer[T], words func(T) string) string {
	if a.Err() != nil {
		return "–"
	}
	return words(a.Value)
}

func degrees(a unit.Angle) string {
	return scenario.Display{Quantity: unit.AngleKind, Unit: "°", Decimals: 2}.Format(float64(unit.Abs(a)))
}

// landings are where the difference of two cues is told.
var landings = []unit.Length{2 * unit.Foot, 4 * unit.Foot, 6 * unit.Foot}

// landingNames are those distances in the reader's units.
func landingNames(s *scenario.Scenario) []string {
	if s.Units == "cm" {
		return []string{"61 cm", "122 cm", "183 cm"}
	}
	return []string{"2 ft", "4 ft", "6 ft"}
}

// Differences holds the first cue against each other.
func Differences(s *scenario.Scenario, list []Entry) []Fact {
	var out []Fact
	for i := 1; i < len(list); i++ {
		out = append(out, difference(s, &list[0], &list[i]))
	}
	return out
}

func difference(s *scenario.Scenario, a, b *Entry) Fact {
	sh := s.Shot()
	lands := cues.Landings(&sh, &a.Cue, &b.Cue, s.Scatter, landings)
	worst, most := cues.Same, unit.Length(0)
	var parts []string
	for i, l := range lands {
		if l.Err != nil {
			parts = append(parts, "at "+landingNames(s)[i]+" "+l.Err.Error())
			continue
		}
		worst = max(worst, l.Likeness())
		most = max(most, l.Apart.To, -l.Apart.From)
		parts = append(parts, "at "+landingNames(s)[i]+" "+apart(s, &l))
	}
	d := Fact{Name: a.Name + " and " + b.Name + ": " + likenessWords(s, worst, most)}
	if lands[0].Err != nil {
		d.Name = a.Name + " and " + b.Name + ": " + lands[0].Err.Error()
	}
	d.Value = lessWords(a, b) + " Off the same stroke the ball lands apart: " + strings.Join(parts, "; ") + "."
	if a.Assumed || b.Assumed {
		d.Value += " A pivot length without an interval is taken as good to " + phrase.Percent(cues.Assumed) + "."
	}
	return d
}

// apart is a landing in words: how far apart, its interval, what shows.
func apart(s *scenario.Scenario, l *cues.Landing) string {
	mid, from, to := l.Apart.Median, l.Apart.From, l.Apart.To
	if mid < 0 {
		mid, from, to = -mid, -to, -from
	}
	short := func(v unit.Length) string { return phrase.Small(s, float64(v)) }
	return short(mid) + " (90 %: " + short(from) + " to " + short(to) + "; noticed from " + short(l.Notice) + ")"
}

func likenessWords(s *scenario.Scenario, v cues.Likeness, most unit.Length) string {
	switch v {
	case cues.Same:
		return "no difference a player would notice"
	case cues.Alike:
		return "no difference a player would notice, as far as it is known: it may be up to " + phrase.Small(s, float64(most))
	case cues.Perhaps:
		return "perhaps a difference: measure both better to know"
	}
	return "a difference a player notices"
}

// lessWords says which of two deflects less, and how surely.
func lessWords(a, b *Entry) string {
	p := cues.Less(a.Cue.Known, b.Cue.Known)
	name := a.Name
	if p < 0.5 {
		p, name = 1-p, b.Name
	}
	switch {
	case p < 0.505:
		return "Which deflects less is an even chance."
	case p > 0.995:
		return name + " deflects less, surely."
	}
	return name + " deflects less with a chance of " + phrase.Percent(p) + "."
}

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

// A Table is a table of figures as text.
type Table struct {
	Columns []string
	Rows    []Row
}

// A Row is a row of a Table.
type Row struct {
	Head  string
	Cells []string
}

// An Entry is a cue in a comparison. The first is the current cue; the others are
// the scenario's further cues.
type Entry struct {
	Name    string
	Place   int // 0: the current cue, 1: the first further cue
	Cue     cues.Candidate
	Assumed bool // the uncertainty of the pivot length is assumed
	Scene   scenario.Scenario
}

// Entries returns the cues of a scenario. A cue that is also in the saved list,
// unchanged, has the uncertainty of its measurements. left says which cues are left
// out, and why.
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
				left = append(left, e.Name+" is left out: "+err.Error()+".")
				continue
			}
		}
		list = append(list, e)
	}
	return list, left
}

// nearPivot is the largest rounding of a pivot length when a saved cue becomes the
// current cue: half a step of the coarser unit.
const nearPivot = 0.051 * unit.Inch

// sameCue returns the saved cue that a cue of a scenario is, or nil when there is
// none or the scenario's cue has been changed since.
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

// InComparison returns the index of a saved cue among a scenario's further cues, or
// −1 when it is not one of them.
func (c *ListedCue) InComparison(s *scenario.Scenario) int {
	for i := range s.More {
		if s.More[i].Pivot != 0 && sameCue(s, &s.More[i], []ListedCue{*c}) != nil {
			return i
		}
	}
	return -1
}

// OnBench reports whether a saved cue is the current cue.
func (c *ListedCue) OnBench(s *scenario.Scenario) bool {
	own := s.OnBench()
	return sameCue(s, &own, []ListedCue{*c}) != nil
}

// Ticked returns the scenario's further cues after a saved cue is added to the
// comparison, or removed when it is already in it.
func Ticked(s *scenario.Scenario, cue *ListedCue) []scenario.CueSpec {
	beside := besides(s, cue.InComparison(s))
	if cue.InComparison(s) < 0 {
		beside = append(beside, cue.On(s))
	}
	return beside
}

// Used returns the scenario's further cues after a saved cue becomes the current
// cue. When that cue was in the comparison, the former current cue replaces it
// there, but only if it is a saved cue too: otherwise the list would have no
// checkbox to remove it with.
func Used(s *scenario.Scenario, cues []ListedCue, cue *ListedCue) []scenario.CueSpec {
	at, bench := cue.InComparison(s), s.OnBench()
	beside := besides(s, at)
	if at >= 0 && !cue.OnBench(s) && sameCue(s, &bench, cues) != nil {
		beside = append([]scenario.CueSpec{bench}, beside...)
	}
	return beside
}

// besides returns the further cues of a scenario except the one with an index; −1
// leaves none out.
func besides(s *scenario.Scenario, without int) []scenario.CueSpec {
	var out []scenario.CueSpec
	for i, cue := range s.More {
		if cue.Pivot != 0 && i != without {
			out = append(out, cue)
		}
	}
	return out
}

// CompareTable returns the results of the shot with each cue.
func CompareTable(list []Entry) Table {
	t := Table{Columns: []string{phrase.ReadingName("squirt"), phrase.ReadingName("pivot-natural"), phrase.ReadingName("pivot-effective"), phrase.ReadingName("share-back")}}
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

// orDash returns an answer in words, or a dash when there is none.
func orDash[T ~float64](a shot.Answer[T], words func(T) string) string {
	if a.Err() != nil {
		return "–"
	}
	return words(a.Value)
}

func degrees(a unit.Angle) string {
	return scenario.Display{Quantity: unit.AngleKind, Unit: "°", Decimals: 2}.Format(float64(unit.Abs(a)))
}

// landings are the distances at which two cues are compared.
var landings = []unit.Length{2 * unit.Foot, 4 * unit.Foot, 6 * unit.Foot}

// landingNames returns the landings in the reader's units.
func landingNames(s *scenario.Scenario) []string {
	if s.Units == "cm" {
		return []string{"61 cm", "122 cm", "183 cm"}
	}
	return []string{"2 ft", "4 ft", "6 ft"}
}

// Differences compares the first cue with each of the others.
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
	d.Value = lessWords(a, b) + " With the same stroke the balls arrive this far apart: " + strings.Join(parts, "; ") + "."
	if a.Assumed || b.Assumed {
		d.Value += " A pivot length without an interval counts as good to " + phrase.Percent(cues.Assumed) + "."
	}
	return d
}

// apart returns in words how far apart the balls land, the 90 % interval, and the
// distance from which a player notices.
func apart(s *scenario.Scenario, l *cues.Landing) string {
	mid, from, to := l.Apart.Median, l.Apart.From, l.Apart.To
	if mid < 0 {
		mid, from, to = -mid, -to, -from
	}
	short := func(v unit.Length) string { return phrase.Small(s, float64(v)) }
	return short(mid) + " (90 %: " + phrase.Range(short(from), short(to)) + "; you notice " + short(l.Notice) + " or more)"
}

func likenessWords(s *scenario.Scenario, v cues.Likeness, most unit.Length) string {
	switch v {
	case cues.Same:
		return "no difference you would notice"
	case cues.Alike:
		return "no difference you would notice so far; it could be up to " + phrase.Small(s, float64(most))
	case cues.Perhaps:
		return "maybe a difference; more strokes with both would tell"
	}
	return "a difference you would notice"
}

// lessWords returns in words which of two cues squirts less, and how certain that
// is.
func lessWords(a, b *Entry) string {
	p := cues.Less(a.Cue.Known, b.Cue.Known)
	name := a.Name
	if p < 0.5 {
		p, name = 1-p, b.Name
	}
	switch {
	case p < 0.505:
		return "Either may squirt less."
	case p > 0.995:
		return name + " clearly squirts less."
	}
	return name + " squirts less: " + phrase.Percent(p) + " sure."
}

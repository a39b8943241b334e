package view_test

import (
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/lesson"
	"pivotbench/core/margin"
	"pivotbench/core/replay"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
	"pivotbench/scripts/lib/words"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/sheet"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// extremes are shots at the edges of what is allowed, in pairs and alone, and a
// few that are everyday.
func extremes() []string {
	out := []string{
		"v=1", "v=1&side=0", "v=1&gate=0in", "v=1&side=0.6", "v=1&height=-0.4&elev=45deg&speed=9mph&gap=0in&dist=20in&gate=12in",
		"v=1&back=0.35&front=0.65", "v=1&table=snooker&ball=snooker&gap=2.5in", "v=1&table=carom&ball=carom&cut=30deg", "v=1&stroke=9mph",
		"v=1&name=House%204&pivot=9.6in&cue2=19in,0.5,520g,10.6mm,0.8,Slender&cue3=60in,0.1,900g,40mm,0.98,&cue4=5in,0.6,200g,5mm,0.3,Club",
		"v=1&bridge=12.00787401574803in&gap=2.368110236220472in&side=0.41237&elev=3.3333deg", "v=1&side=0.01&height=0.01&elev=0deg",
		"v=1&scatter=0mm,0,0in,0deg,0deg", "v=1&scatter=20mm,1,10in,20deg,10deg",
		"v=1&speed=40mph&elev=85deg&side=0.8", "v=1&speed=0.2mph&dist=90in", "v=1&bridge=2in&back=5&front=-5&side=0.5", "v=1&pivot=60in&pivotspin=0.1&side=0.8",
		"v=1&pivot=5in&pivotspin=0.6&cuemass=200g&mass=300g", "v=1&slide=0.6&roll=0.05&spindown=60rad%2Fs2&hop=0.8&elev=30deg",
	}
	for _, k := range scenario.Keys() {
		if !k.IsNumber() {
			continue
		}
		for _, v := range []float64{k.Min, k.Max} {
			s := scenario.Default()
			k.Put(&s, v)
			s.Fit()
			out = append(out, s.Format())
		}
	}
	r := rand.New(rand.NewPCG(15, 18))
	for range 60 {
		s := scenario.Default()
		for _, k := range scenario.Keys() {
			if k.IsNumber() && r.IntN(3) == 0 {
				k.Put(&s, []float64{k.Min, k.Max, k.Min + (k.Max-k.Min)*r.Float64()}[r.IntN(3)])
			}
		}
		for i := range r.IntN(3) {
			s.More[i] = scenario.CueSpec{Pivot: unit.Length(5+55*r.Float64()) * unit.Inch, PivotSpin: 0.1 + 0.5*r.Float64(), Mass: 500 * unit.Gram, Tip: 10 * unit.Millimetre, Bounce: 0.3 + 0.6*r.Float64()}
		}
		s.Fit()
		out = append(out, s.Format())
	}
	return out
}

// A listener takes down all that is said of a shot.
type listener struct {
	weighs bool // a sitting too
	units  string
	said   map[string]string // the text, and where it stood
}

func (l *listener) hear(where string, texts ...string) {
	for _, text := range texts {
		l.said[text] = where
	}
}

func (l *listener) facts(where string, facts []view.Fact) {
	for _, f := range facts {
		l.hear(where, f.Name, f.Value)
	}
}

func (l *listener) table(where string, t view.Table) {
	l.hear(where, t.Columns...)
	for _, r := range t.Rows {
		l.hear(where, r.Head)
		l.hear(where, r.Cells...)
	}
}

func (l *listener) gauged(where string, g view.Gauged) { l.hear(where, g.Head, g.Note) }

// listen asks every view for all it has to say of a shot.
func (l *listener) listen(t *testing.T, link string) {
	s, problems := scenario.Parse(link)
	require.Empty(t, problems, link)
	s.Units = l.units
	res := new(shot.Result)
	sh := s.Shot()
	shot.Play(&sh, res)
	l.shot(&s, res)
	l.drawing(t, &s, res)
	l.cues(&s)
	if l.weighs {
		l.measure(&s)
	}
	l.instruments(&s)
	l.hop(&s)
}

func (l *listener) shot(s *scenario.Scenario, res *shot.Result) {
	r := &res.Reading
	for i := range shot.Specs {
		l.hear("reading "+shot.Specs[i].Name, view.ReadoutOf(&shot.Specs[i], r, s.Units).Text)
		l.hear("caption", phrase.Caption("{"+shot.Specs[i].Name+"}", s, r))
	}
	for _, k := range scenario.Keys() {
		if k.IsNumber() {
			l.hear("control "+k.Name, k.Shown(s), k.Allowed(s.Units), view.ControlOf(&k, s).Said(), phrase.Caption("{"+k.Name+"}", s, r))
		}
	}
	verdict := phrase.Verdict(s, r)
	l.hear("verdict", verdict.Head, verdict.Detail, view.Potting(s, res))
	for _, pocket := range []bool{false, true} {
		l.hear("aim", view.AimWords(s, app.Solve(s, res, pocket)))
	}
	l.hear("notices", app.Update(app.Model{Scene: *s, Settled: *s}, app.AimIt{}).Notices...)
	for _, what := range []string{view.ShowShare, view.ShowHeading, view.ShowShift} {
		v := view.CardOf(s, what)
		l.hear("card", v.Title, v.Note)
		l.hear("card", v.Facts...)
		l.hear("card", v.Columns...)
		for _, row := range v.Rows {
			l.hear("card", row.Head)
			for _, c := range row.Cells {
				l.hear("card", c.Text, c.Why)
			}
		}
	}
	l.facts("margin", view.Effects(s))
	l.facts("margin", view.Chances(s, margin.NewSampler(16), true))
	for _, goal := range lesson.Goals {
		q := lesson.Question{Key: "bridge", Goal: goal}
		said, _ := phrase.Attempt(&q, s)
		l.hear("lesson", said)
	}
	if len(l.said) < 2000 { // an answer is found by trying hundreds of values
		for _, key := range []string{"bridge", "side", "back", "elev"} {
			q := lesson.Question{Key: key, Goal: lesson.Arrives}
			l.hear("lesson", phrase.Answer(&q, s))
		}
	}
}

func (l *listener) drawing(t *testing.T, s *scenario.Scenario, res *shot.Result) {
	moments := []*replay.Frame{nil}
	sh := s.Shot()
	if line, err := replay.Of(&sh, res, s.GearTable(), true); err == nil {
		for _, at := range []unit.Span{0, 0.1, 9} {
			f := line.At(at)
			moments = append(moments, &f)
			l.hear("moment", phrase.Moment(s, &f))
		}
	}
	for _, frame := range moments {
		drawn := sheet.Draw(s, res, sheet.View{Width: 800, Height: 500, Below: 250, Stretch: 4, Object: true, Frame: frame, Earlier: s})
		for _, item := range drawn.Items {
			if text, ok := item.(sheet.Text); ok {
				l.hear("sheet", text.Words)
			}
		}
	}
}

func (l *listener) cues(s *scenario.Scenario) {
	list, left := view.Entries(s, nil)
	l.hear("cues", left...)
	if len(list) > 0 {
		l.table("compared", view.CompareTable(list))
		l.table("efforts", view.Efforts(s, list))
		for _, d := range view.Differences(s, list) {
			l.hear("differences", d.Name, d.Value)
		}
		for i := range list {
			f := view.Switching(s, &list[0], &list[i])
			l.hear("switching", f.Head, f.Note)
			l.table("switching", f.Table)
		}
		f := view.Choosing(s, list)
		l.hear("choosing", f.Head, f.Note)
		l.table("choosing", f.Table)
	}
	for _, ends := range [][2]string{{"9in", "11in"}, {"9in", ""}, {"", ""}, {"1in", "10000in"}} {
		records := []store.CueRecord{
			{Name: "House 4", Pivot: "10in", From: ends[0], To: ends[1], At: "0.5", How: "gate", Link: "v=1", When: "2026-11-20"},
			{Name: "House 4", Pivot: "10.2in", From: ends[0], To: ends[1], At: "0.5", How: "marks", Link: "v=1", When: "2026-11-21"},
		}
		for n := 1; n <= len(records); n++ {
			for _, c := range view.ListCues(records[:n]) {
				l.hear("rack", view.CueLine(&c, records, s.Units, store.Day), view.ChangeWords(&c, records, store.Day), view.CueRecord(records[0], s.Units))
			}
		}
		for _, f := range view.CueForm(&records[0], s.Units) {
			if f.Unit != "" && f.Unit != "mm" && f.Key != "to" { // what was typed stays as typed
				l.hear("cue form", f.Text+" "+f.Unit)
			}
		}
	}
	table := store.Table{Name: "Harbour Hall", Link: "v=1&table=" + s.Table + "&slide=0.2137&roll=0.0113", When: "2026-11-20"}
	l.hear("tables", view.TableRecord(table, s.Units))
}

func (l *listener) measure(s *scenario.Scenario) {
	m := app.Start()
	m.Scene, m.Settled, m.Measuring = *s, *s, "House 4"
	sitting := view.NewSitting(m.SetUp, s.PivotSpin)
	for n, k := range []store.Stroke{{See: "left"}, {Mark: "-1.9in", At: "30in", Read: "3mm"}, {Cue: "Slender", See: "clean"}} {
		f := view.Weigh(&m, sitting)
		l.hear("measure", f.Head, f.Next, view.Help(&m, sitting))
		l.facts("measure", f.Facts)
		l.facts("measure", f.Others)
		k.Link = s.Format()
		if k.Cue == "" {
			k.Cue = "House 4"
		}
		before := m
		m.Kept.Strokes = append(m.Kept.Strokes, k)
		m.Changes++
		l.hear("measure", view.NotedWords(&before, &m), view.Doubt(n, true, 0.9), view.Doubt(n, false, 0))
		for _, row := range view.StrokeRows(&m, 0, len(m.Kept.Strokes)) {
			l.hear("measure", row.Hands, row.English, row.Mark)
		}
		sitting = sitting.Add(k)
	}
	m.Kept.Marks = store.Marks{Rail: "50", Right: "-1.9 -2.2", Left: "2.4"}
	l.hear("measure", view.OldMarks(&m))
}

func (l *listener) instruments(s *scenario.Scenario) {
	readings := []store.Reading{
		timed("speed", "50in", "0.61s", "0"), timed("speed", "50in", "0.11s", "0"), timed("rest", "1m", "5s"), timed("marks", "50in", "0.6s", "100in", "1.4s"),
	}
	for n := range readings {
		list := readings[:n+1]
		l.gauged("speed", view.Speed(s, list))
		l.gauged("rest", view.Rolling(s, list, "rest"))
		l.gauged("marks", view.Rolling(s, list, "marks"))
		l.gauged("sliding", view.Sliding(s, list, "20in", "dies"))
		read, comes := view.Timing(s, list[n])
		l.hear("timing", read, comes)
	}
	l.gauged("elevation", view.Elevation(s, "1in", "3.3in", "30in", "", ""))
	for _, way := range view.Ways {
		l.gauged("offset", view.Offset(s, way, "7.77", "above"))
	}
	l.gauged("dome", view.Dome("13", "2.2"))
	g, facts := view.Ball(s, "57.1", false, "165")
	l.gauged("ball", g)
	l.facts("ball", facts)
}

func (l *listener) hop(s *scenario.Scenario) {
	contacts := view.ContactsOf(s, &store.Records{Hops: []store.Hop{{Link: s.Format(), Saw: "cleared"}}})
	l.hear("contacts", contacts.Said())
	c := view.Clear(s, &contacts)
	l.hear("clearance", c.Head, c.Detail)
	l.facts("clearance", c.Facts)
	h := view.CompareHops(s, &contacts)
	l.hear("hop", h.Head, h.Note, h.Why)
	for _, r := range h.Rows {
		l.hear("hop", r.Name, r.Speed, r.Squirt, r.Rises, r.Lands, r.Clears)
	}
}

// What no figure on the page may look like.
var (
	absurd  = regexp.MustCompile(`\d{5,}(\.\d+)? (in|cm|mm|mph|m/s|g)\b|\d{5,}(\.\d+)?°`)
	endless = regexp.MustCompile(`(?i)\b(inf|nan)\b|∞|\de[+-]?\d`)
	ofOne   = regexp.MustCompile(`(?:^|[^.,\d])1 (steps|tries|marks|readings|shots|cues|measurements|records|tables|lessons|strokes|others|more for)\b`)
	// digits are the decimals that are allowed, by the unit.
	digits = map[string]*regexp.Regexp{
		"in": regexp.MustCompile(`\d\.\d{3,} in\b`), "cm": regexp.MustCompile(`\d\.\d{3,} cm\b`), "mm": regexp.MustCompile(`\d\.\d{2,} mm\b`),
		"°": regexp.MustCompile(`\d\.\d{3,}°`), "mph": regexp.MustCompile(`\d\.\d{2,} mph`), "m/s": regexp.MustCompile(`\d\.\d{3,} m/s`),
		"%": regexp.MustCompile(`\d\.\d+ %`), "g": regexp.MustCompile(`\d\.\d{2,} g\b`), "bare": regexp.MustCompile(`\d\.\d{5,}`),
	}
	// foreign are the units of the others.
	foreign = map[string]*regexp.Regexp{
		"in": regexp.MustCompile(`\d (cm|m/s|m|km/h)\b`), "cm": regexp.MustCompile(`\d (in|ft|mph|oz)\b`),
	}
	millimetres = regexp.MustCompile(`\d mm\b`)
)

// inMillimetres is what is in millimetres whatever the units: what belongs to a
// tip.
var inMillimetres = []string{"control tip", "control tipwidth", "dome"}

// Every figure, in every view, at the edges of what is allowed, is one that a
// person would say, in the reader's units.
func TestEveryFigureIsFitToRead(t *testing.T) {
	for _, units := range []string{"in", "cm"} {
		l := &listener{units: units, said: map[string]string{}}
		for i, link := range extremes() {
			l.weighs = i%8 == 0 // which takes long
			l.listen(t, link)
		}
		assert.Greater(t, len(l.said), 1000)
		var grades []float64
		for text := range l.said {
			if len(strings.Fields(text)) >= 8 { // the others are labels and values
				grades = append(grades, words.Grade(text))
			}
		}
		slices.Sort(grades)
		assert.LessOrEqual(t, grades[len(grades)/2], 8.0, "half of all sentences are for readers of grade 8 or below, by Flesch and Kincaid")
		for text, where := range l.said {
			bad := func(what string) { t.Errorf("%s, in %s: %s: %q", where, units, what, text) }
			if strings.IndexFunc(text, func(r rune) bool { return unicode.IsControl(r) || r == unicode.ReplacementChar }) >= 0 {
				bad("a character that can't be read")
			}
			if old := words.Old(text); old != "" && !strings.Contains(text, "pivotspin") {
				bad("an old word, " + old)
			}
			if endless.MatchString(text) {
				bad("not a figure")
			}
			if absurd.MatchString(text) {
				bad("nobody has such a length")
			}
			if ofOne.MatchString(text) {
				bad("one of several")
			}
			for unit, many := range digits {
				if many.MatchString(text) && !(where == "ball" && unit != "bare") {
					bad("more decimals of " + unit + " than anybody reads")
				}
			}
			if text := strings.ReplaceAll(text, " ft pool", ""); foreign[units].MatchString(strings.ReplaceAll(text, " ft snooker", "")) {
				bad("units that were not asked for")
			}
			if units == "in" && millimetres.MatchString(text) && !strings.Contains(text, "tip") && !slices.Contains(inMillimetres, where) {
				bad("millimetres among inches")
			}
		}
	}
}

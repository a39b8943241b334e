package view_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/cues"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// record is a cue of Harbour Hall's Tuesday class, measured on a day in
// November.
func record(name, pivot, from, to string, day int) store.CueRecord {
	return store.CueRecord{
		Name: name, Pivot: pivot, From: from, To: to, At: "0.5", How: "gate", Link: "v=1",
		When: "2026-11-" + strconv.Itoa(day) + "T19:00:00+00:00",
	}
}

// Records of one name are one cue, whatever the order they came in and the
// case of its letters; those without a name are not.
func TestRackPutsNamesTogether(t *testing.T) {
	records := []store.CueRecord{
		record("House 4", "9.9in", "9.2in", "10.7in", 17),
		record("Slender", "18.6in", "17in", "20.6in", 11),
		record(" house 4", "9.6in", "9in", "10.3in", 10),
		record("", "12in", "", "", 12), record("", "12in", "", "", 13),
	}
	listed := view.ListCues(records)
	require.Len(t, listed, 4)
	assert.Equal(t, []string{"House 4", "Slender", "unnamed cue", "unnamed cue 2"},
		[]string{listed[0].Title(), listed[1].Title(), listed[2].Title(), listed[3].Title()})
	assert.Equal(t, []int{2, 0}, listed[0].Records, "oldest first")
	assert.Equal(t, []int{2, 0}, listed[0].Used)
	assert.Empty(t, listed[0].Changed)
	assert.Empty(t, view.ChangeWords(&listed[0], records, store.Day))

	var parts []cues.EndMass
	for _, i := range []int{2, 0} {
		s := scenario.Default()
		sh := s.Shot()
		sh.Cue.Pivot = unit.Length([]float64{9.9, 0, 9.6}[i]) * unit.Inch
		ends := [][2]unit.Length{{9.2, 10.7}, {}, {9, 10.3}}[i]
		e, err := cues.Measured(sh.Ball, sh.Cue, ends[0]*unit.Inch, ends[1]*unit.Inch)
		require.NoError(t, err)
		parts = append(parts, e)
	}
	want, err := cues.Combine(parts)
	require.NoError(t, err)
	assert.InDelta(t, want.Log, listed[0].Known.Log, 1e-12)
	assert.InDelta(t, want.Spread, listed[0].Known.Spread, 1e-12)
	line := view.CueLine(&listed[0], records, "in", store.Day)
	assert.Contains(t, line, "pivot length 9.7 in at 0.5 R")
	assert.Contains(t, line, "from 2 measurements, 2026-11-17")
	assert.Equal(t, "pivot length 47.2 cm at 0.5 R, probably 43.2 to 52.3 cm (90 %), at a gate, 2026-11-11", view.CueLine(&listed[1], records, "cm", store.Day))
}

// Cues that were measured in the same sitting are compared as there: their records know
// what they share. Saving a cue again in that sitting replaces what was saved before,
// since it is of the same strokes, and in another sitting adds to it.
func TestCuesOfOneSittingAreComparedAsThere(t *testing.T) {
	start := after(app.Open{Link: "v=1&speed=7mph&elev=4deg"})
	var noted []app.Event
	for i := range 6 {
		side, house, slender := "0.4", "-1in", "-0.85in"
		if i%2 == 1 {
			side, house, slender = "-0.4", "1in", "0.85in"
		}
		noted = append(append(noted, parallel("House 4", side, house)...), parallel("Slender", side, slender)...)
	}
	for i := range noted {
		if k, ok := noted[i].(app.NoteStroke); ok {
			k.When = "2026-11-24T19:00:00Z"
			noted[i] = k
		}
	}
	m, s := sat(t, start, noted...)
	joint := s.Post.Compare(1, 0)
	save := func(name, when string) store.CueRecord {
		m = app.Update(m, app.MeasureCue{Name: name})
		return view.MeasuredCues(&m, s, when)[0]
	}
	records := []store.CueRecord{save("House 4", "2026-11-24T20:00:00Z"), save("Slender", "2026-11-24T20:01:00Z"), save("House 4", "2026-11-24T20:02:00Z")}
	listed := view.ListCues(records)
	require.Len(t, listed, 2)
	assert.Equal(t, []int{0, 2}, listed[0].Records)
	assert.Equal(t, []int{2}, listed[0].Used)
	less := func(list []view.ListedCue) float64 { return cues.Less(list[1].Known.EndMass, list[0].Known.EndMass) }
	assert.InDelta(t, joint.Less, less(listed), 0.02)
	assert.Greater(t, less(listed), 0.9)

	for i := range records {
		records[i].Sitting, records[i].Shared = "", ""
	}
	assert.Equal(t, []int{0, 2}, view.ListCues(records)[0].Used)
	unknown := less(view.ListCues([]store.CueRecord{records[2], records[1]}))
	assert.Less(t, unknown, less(listed)-0.02, "older records don't know what they share")

	saved := save("House 4", "")
	fields := map[string]string{}
	for _, f := range view.CueForm(&saved, "in") {
		fields[f.Key] = f.Text
	}
	same, faults := view.ReadCueForm(saved, fields, "in")
	assert.Empty(t, faults)
	assert.Equal(t, saved, same)
	fields["to"] = "40"
	typed, faults := view.ReadCueForm(saved, fields, "in")
	assert.Empty(t, faults)
	assert.Empty(t, typed.Sitting+typed.Shared, "what is typed is not what the sitting said")
}

func TestRackPointsOutAChange(t *testing.T) {
	records := []store.CueRecord{
		record("Old faithful", "9.2in", "8.5in", "10in", 10), record("Old faithful", "13in", "12in", "14.2in", 17),
	}
	cue := view.ListCues(records)[0]
	assert.Equal(t, []int{1}, cue.Changed)
	assert.Equal(t, []int{1}, cue.Used)
	assert.Contains(t, view.ChangeWords(&cue, records, store.Day), "2026-11-17")
	assert.Contains(t, view.CueLine(&cue, records, "in", store.Day), "pivot length 13.0 in")
}

// A cue that is not measured yet, and one that can't be, are there all the
// same; one good record is enough.
func TestRackWithoutAMeasurement(t *testing.T) {
	blank := store.CueRecord{Name: "New arrival", How: "none", Link: "v=1"}
	odd := record("Odd", "1in", "", "", 10)
	listed := view.ListCues([]store.CueRecord{blank, odd})
	require.Len(t, listed, 2)
	assert.ErrorIs(t, listed[0].Err, cues.ErrNone)
	assert.Equal(t, "not measured yet", view.CueRecord(blank, "in"))
	if assert.Error(t, listed[1].Err) {
		assert.NotErrorIs(t, listed[1].Err, cues.ErrNone)
		assert.Equal(t, listed[1].Err.Error(), view.CueLine(&listed[1], []store.CueRecord{blank, odd}, "in", store.Day))
	}
	both := view.ListCues([]store.CueRecord{blank, record("New arrival", "12in", "", "", 12)})
	require.Len(t, both, 1)
	assert.NoError(t, both[0].Err)

	open := view.ListCues([]store.CueRecord{record("Straight", "30in", "20in", "", 10)})
	assert.NoError(t, open[0].Err, "the upper end is open")
}

// A thousand records are put together, each under its own name.
func TestRackOfAThousand(t *testing.T) {
	var records []store.CueRecord
	for i := range 1000 {
		records = append(records, record("Cue "+strconv.Itoa(i%500), "12in", "11in", "13in", 10+i%20))
	}
	cues := view.ListCues(records)
	require.Len(t, cues, 500)
	for _, c := range cues {
		assert.Len(t, c.Records, 2)
		assert.NoError(t, c.Err)
	}
}

// The same cue on another ball has another natural pivot length.
func TestRackCueOnAnotherBall(t *testing.T) {
	cue := view.ListCues([]store.CueRecord{record("House 4", "9.6in", "9in", "10.3in", 10)})[0]
	s := scenario.Default()
	on := cue.On(&s)
	assert.InDelta(t, 9.6, float64(on.Pivot/unit.Inch), 1e-9)
	s = s.With(on)
	assert.True(t, cue.OnBench(&s))
	assert.Equal(t, -1, cue.InComparison(&s))
	s.More[2] = on
	assert.Equal(t, 2, cue.InComparison(&s))
	s.Ball = "snooker"
	assert.False(t, cue.OnBench(&s), "that pivot length is of another cue on this ball")
	assert.NotEqual(t, on.Pivot, cue.On(&s).Pivot)
}

// What is not touched in the form stays as it was, to the last digit.
func TestCueFormRoundTrip(t *testing.T) {
	c := record("House 4", "9.612345in", "9.01in", "10.31in", 10)
	c.Link = "v=1&ball=snooker&cuemass=505.25g&tip=10.04mm"
	c.Shaft, c.Notes = "maple", "two\nlines"
	typed := func(units string) map[string]string {
		out := map[string]string{}
		for _, f := range view.CueForm(&c, units) {
			out[f.Key] = f.Text
			assert.NotEmpty(t, f.Label)
		}
		return out
	}
	for _, units := range []string{"in", "cm"} {
		got, faults := view.ReadCueForm(c, typed(units), units)
		assert.Empty(t, faults)
		assert.Equal(t, c, got)
	}
	change := typed("cm")
	change["pivot"], change["from"], change["to"] = "30", "", ""
	change["cuemass"], change["shaft"], change["how"] = "18 oz", "carbon fibre", "none"
	got, faults := view.ReadCueForm(c, change, "cm")
	assert.Empty(t, faults)
	assert.InDelta(t, 0.3, float64(lengthOf(t, got.Pivot)), 1e-12)
	assert.Empty(t, got.From)
	assert.Equal(t, "carbon fibre", got.Shaft)
	assert.Equal(t, "typed", got.How, "there is a pivot length")
	scene, problems := scenario.Parse(got.Link)
	assert.Empty(t, problems)
	assert.Equal(t, 18*unit.Ounce, scene.CueMass)
	assert.Equal(t, "snooker", scene.Ball)
	assert.InDelta(t, 10.04e-3, float64(scene.Tip), 1e-15)

	change["pivot"] = ""
	got, faults = view.ReadCueForm(c, change, "cm")
	assert.Empty(t, faults)
	assert.Equal(t, "none", got.How)
}

func TestCueInWords(t *testing.T) {
	c := record("House 4", "9.6in", "", "", 10)
	c.Shaft, c.Taper, c.Ferrule, c.Hardness, c.Notes = "maple", "long", "brass", "soft", "wiped weekly"
	assert.Equal(t, "shaft: maple; taper: long; ferrule: brass; tip: soft; notes: wiped weekly", view.CueNotes(&c))
	c.How, c.When = "typed", "June"
	assert.Equal(t, "pivot length 9.6 in at 0.5 R, typed in", view.CueRecord(c, "in"))
	assert.Equal(t, "June", store.Day(c.When))
}

func lengthOf(t *testing.T, text string) float64 {
	t.Helper()
	v, err := unit.Parse(text, unit.LengthKind, "")
	require.NoError(t, err)
	return v
}

func TestCueFormNamesWhatIsWrong(t *testing.T) {
	c := record("House 4", "9.6in", "9in", "10.3in", 10)
	typed := map[string]string{}
	for _, f := range view.CueForm(&c, "in") {
		typed[f.Key] = f.Text
	}
	typed["pivot"], typed["bounce"], typed["from"], typed["name"] = "12", "2", "long", strings.Repeat("x", 61)
	_, faults := view.ReadCueForm(c, typed, "in")
	said := strings.Join(faults, "\n")
	for _, want := range []string{"90 % interval from", "Tip bounce", "0.30 to 0.98", "name", "does not contain"} {
		assert.Contains(t, said, want)
	}
}

// A cue is put on the bench to a whole step, which keeps links short, and is
// known again there in either units.
func TestCuesGoOnTheBenchInWholeSteps(t *testing.T) {
	r := record("House 4", "9.6372in", "9in", "10.4in", 10)
	for _, units := range []string{"in", "cm"} {
		s := scenario.Default()
		s.Units = units
		cue := view.ListCues([]store.CueRecord{r})[0]
		s = s.With(cue.On(&s))
		assert.Contains(t, s.Format(), map[string]string{"in": "pivot=9.6in", "cm": "pivot=245mm"}[units])
		for _, s.Units = range []string{"in", "cm"} {
			assert.True(t, cue.OnBench(&s), "set in %s, seen in %s", units, s.Units)
		}
		s.Pivot += 0.1 * unit.Inch
		assert.False(t, cue.OnBench(&s))
	}
}

// The form has the day of a record, not its time stamp; the moment stays exact
// until another day is typed.
func TestCueFormHasADay(t *testing.T) {
	c := record("House 4", "9.6in", "9in", "10.4in", 10)
	c.When = "2026-11-24T19:05:31.250+00:00"
	read := func(day string) string {
		typed := map[string]string{}
		for _, f := range view.CueForm(&c, "in") {
			typed[f.Key] = f.Text
			assert.Equal(t, f.Key == "when", f.Date)
		}
		assert.Equal(t, "2026-11-24", typed["when"])
		if day != "" {
			typed["when"] = day
		}
		if day == "none" {
			typed["when"] = ""
		}
		got, faults := view.ReadCueForm(c, typed, "in")
		assert.Empty(t, faults)
		return got.When
	}
	assert.Equal(t, c.When, read(""))
	assert.Equal(t, c.When, read("none"))
	assert.Equal(t, "2026-11-20", read("2026-11-20"))
}

package view_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// compared is a scene with the first of some cues on the bench and the others
// beside it.
func compared(t *testing.T, link string, records ...store.CueRecord) (scenario.Scenario, []view.Entry) {
	t.Helper()
	s, problems := scenario.Parse(link)
	require.Empty(t, problems)
	cues := view.ListCues(records)
	for i := range cues {
		on := cues[i].On(&s)
		if i == 0 {
			s = s.With(on)
		} else {
			s.More[i-1] = on
		}
	}
	entries, left := view.Entries(&s, cues)
	require.Empty(t, left)
	require.Len(t, entries, len(cues))
	return s, entries
}

func TestEntriesAreKnownAsWellAsMeasured(t *testing.T) {
	house, slender := record("House 4", "9.6in", "9.5in", "9.7in", 10), record("Slender", "18.6in", "17in", "20.6in", 11)
	s, entries := compared(t, "v=1", house, slender)
	assert.False(t, entries[0].Assumed)
	assert.Less(t, entries[0].Cue.Known.Spread, 0.01)
	assert.Equal(t, "Slender", entries[1].Name)

	// Elsewhere, where nobody measured them, how well is assumed.
	entries, left := view.Entries(&s, nil)
	assert.Empty(t, left)
	for _, e := range entries {
		assert.True(t, e.Assumed)
	}
	// And so it is of a cue that was changed on the bench.
	s.Pivot += 2 * unit.Millimetre
	entries, _ = view.Entries(&s, view.ListCues([]store.CueRecord{house, slender}))
	assert.True(t, entries[0].Assumed)
	assert.False(t, entries[1].Assumed)

	plain := scenario.Default()
	entries, _ = view.Entries(&plain, nil)
	require.Len(t, entries, 1)
	assert.Equal(t, "current cue", entries[0].Name)

	odd := scenario.Default()
	odd.More[0] = odd.OnBench()
	odd.More[0].Pivot = unit.Inch
	entries, left = view.Entries(&odd, nil)
	assert.Len(t, entries, 1)
	require.Len(t, left, 1)
	assert.Contains(t, left[0], "cue 2 is left out: no cue can have this pivot length")
}

// Identical records are no difference, and nothing to relearn.
func TestIdenticalRecordsAreNoDifference(t *testing.T) {
	s, entries := compared(t, "v=1", record("First", "19in", "18.8in", "19.2in", 10), record("Second", "19in", "18.8in", "19.2in", 11))
	d := view.Differences(&s, entries)
	require.Len(t, d, 1)
	assert.Equal(t, "First and Second: no difference you would notice", d[0].Name)
	assert.Contains(t, d[0].Value, "Either may squirt less")
	f := view.Switching(&s, &entries[0], &entries[1])
	assert.Equal(t, "No change to your aim", f.Head)
	for _, row := range f.Table.Rows {
		assert.Equal(t, "the same", row.Cells[0])
		assert.Equal(t, "0.0", row.Cells[1])
	}
	// Known less well there is none either, but it is said how far that goes.
	s, entries = compared(t, "v=1", record("First", "19in", "12in", "30in", 10), record("Second", "19in", "12in", "30in", 11))
	assert.Contains(t, view.Differences(&s, entries)[0].Name, "so far; it could be up to")
}

// Common practice, no source: maple at 9.5 in squirts about twice as much as
// the lowest at 19 in.
func TestMapleAgainstTheLowest(t *testing.T) {
	s, entries := compared(t, "v=1&elev=0deg", record("Maple", "9.5in", "9in", "10in", 10), record("Low", "19in", "18in", "20in", 11))
	table := view.CompareTable(entries)
	require.Len(t, table.Rows, 2)
	assert.Len(t, table.Rows[0].Cells, len(table.Columns))
	read := func(text string) float64 {
		v, err := unit.Parse(strings.TrimSuffix(text, "°"), unit.Ratio, "")
		require.NoError(t, err)
		return v
	}
	assert.InDelta(t, 2, read(table.Rows[0].Cells[0])/read(table.Rows[1].Cells[0]), 0.2)
	d := view.Differences(&s, entries)[0]
	assert.Equal(t, "Maple and Low: a difference you would notice", d.Name)
	assert.Contains(t, d.Value, "Low clearly squirts less")
	assert.Contains(t, d.Value, "at 6 ft")
	f := view.Switching(&s, &entries[1], &entries[0])
	assert.Contains(t, f.Head, "With Maple, aim up to 2.05 in further right")
	assert.Contains(t, f.Note, "30 of the 30")
	back := view.Switching(&s, &entries[0], &entries[1])
	assert.Contains(t, back.Head, "With Low, aim up to")
	assert.True(t, strings.HasPrefix(f.Table.Rows[0].Head, "72 in"), "the worst first")
}

func TestDifferencesInBetween(t *testing.T) {
	s, entries := compared(t, "v=1", record("A", "12in", "9in", "16in", 10), record("B", "14in", "11in", "18in", 11))
	d := view.Differences(&s, entries)[0]
	assert.Contains(t, d.Name, "maybe a difference")
	assert.Regexp(t, `^B squirts less: \d\d % sure`, d.Value)
	assert.Regexp(t, `at 4 ft \d\.\d\d in \(90 %: −?\d\.\d\d to \d\.\d\d in; you notice \d\.\d\d in or more\)`, d.Value)
	assert.Regexp(t, `^With B, aim up to \d\.\d\d in further left`, view.Switching(&s, &entries[0], &entries[1]).Head)
	s.Units = "cm"
	d = view.Differences(&s, entries)[0]
	assert.Regexp(t, `at 122 cm \d+\.\d mm \(90 %: −?\d+\.\d to`, d.Value)
	assert.NotContains(t, d.Value, " in ")
	assert.Regexp(t, `^With B, aim up to \d+\.\d mm further left`, view.Switching(&s, &entries[0], &entries[1]).Head)

	assumed, left := view.Entries(&s, nil)
	require.Empty(t, left)
	assert.Contains(t, view.Differences(&s, assumed)[0].Value, "counts as good to 10 %")
}

func TestComparisonOfWhatCannotBePlayed(t *testing.T) {
	s, entries := compared(t, "v=1&side=0.7", record("A", "12in", "11in", "13in", 10), record("B", "14in", "13in", "15in", 11))
	assert.Contains(t, view.Differences(&s, entries)[0].Name, "edge of the tip hits first")
	assert.Contains(t, view.Switching(&s, &entries[0], &entries[1]).Head, "The edge of the tip hits first")
	assert.Equal(t, "None of these cues can play this shot", view.Choosing(&s, entries).Head)
	for _, row := range append(view.CompareTable(entries).Rows, view.Efforts(&s, entries).Rows...) {
		assert.Contains(t, row.Cells, "–")
	}
	// A slow ball gets to the near ones of the card only.
	s, entries = compared(t, "v=1&roll=0.05", record("A", "12in", "11in", "13in", 10), record("B", "14in", "13in", "15in", 11))
	assert.Contains(t, view.Switching(&s, &entries[0], &entries[1]).Note, "can't be played with both")
}

func TestChoosing(t *testing.T) {
	link := "v=1&elev=0deg&bridge=9.2in"
	s, entries := compared(t, link, record("Maple", "9.5in", "9in", "10in", 10), record("Low", "19in", "18in", "20in", 11))
	f := view.Choosing(&s, entries)
	assert.Equal(t, "Back hand alone with a 9.2 in bridge: Maple at all speeds", f.Head)
	assert.Contains(t, f.Note, "least with Maple")
	assert.Contains(t, f.Note, "the same with every cue: a spin-to-speed ratio of 1.29")
	require.Len(t, f.Table.Rows, 2)
	assert.Equal(t, "no", f.Table.Rows[1].Cells[0])
	for _, row := range f.Table.Rows {
		assert.Len(t, row.Cells, len(f.Table.Columns))
	}

	s, entries = compared(t, "v=1&bridge=20in", record("Maple", "9.5in", "9in", "10in", 10))
	assert.Contains(t, view.Choosing(&s, entries).Head, "none of these")
	s, entries = compared(t, "v=1&bridge=13.9in", record("Mid", "12in", "11in", "13in", 10))
	assert.Contains(t, view.Choosing(&s, entries).Head, "Mid at 7 mph")

	narrow := record("Narrow", "12in", "11in", "13in", 10)
	s, _ = compared(t, "v=1&tipwidth=10mm", narrow)
	entries, _ = view.Entries(&s, nil)
	assert.Contains(t, view.Choosing(&s, entries).Note, "With Narrow the edge of the tip comes first")
}

func TestEffortsInWords(t *testing.T) {
	heavy := record("Heavy", "12in", "11in", "13in", 11)
	heavy.Link = "v=1&cuemass=600g"
	s, entries := compared(t, "v=1", record("Usual", "12in", "11in", "13in", 10), heavy)
	table := view.Efforts(&s, entries)
	assert.Equal(t, "0 %", table.Rows[0].Cells[3])
	assert.Regexp(t, `^−\d %$`, table.Rows[1].Cells[3])
	assert.Regexp(t, `mph$`, table.Rows[1].Cells[2])
	_, entries = compared(t, "v=1", heavy, record("Usual", "12in", "11in", "13in", 12))
	assert.Regexp(t, `^\+\d %$`, view.Efforts(&s, entries).Rows[1].Cells[3])
}

// Only cues that somebody ticked or used stand in a comparison: each of them can
// be unticked.
func TestCompareAddsNoCueNobodyChose(t *testing.T) {
	cues := view.ListCues([]store.CueRecord{record("House 4", "9.6in", "9.5in", "9.7in", 10), record("Slender", "18.6in", "17in", "20.6in", 11)})
	s := scenario.Default()
	beside := view.Ticked(&s, &cues[0])
	require.Equal(t, []scenario.CueSpec{cues[0].On(&s)}, beside)
	copy(s.More[:], beside)
	assert.Empty(t, view.Ticked(&s, &cues[0]), "ticked again, it is unticked")

	// The cue of the empty link makes way for House 4. House 4 changes places with
	// Slender, and a cue used twice stands there once.
	assert.Empty(t, view.Used(&s, cues, &cues[0]))
	s = s.With(cues[0].On(&s))
	s.More = [5]scenario.CueSpec{cues[1].On(&s)}
	assert.Equal(t, []scenario.CueSpec{s.OnBench()}, view.Used(&s, cues, &cues[1]))
	s.More[1] = cues[0].On(&s)
	assert.Equal(t, []scenario.CueSpec{cues[1].On(&s)}, view.Used(&s, cues, &cues[0]))

	// A cue that is changed on the bench is no longer the one that was chosen.
	s.Pivot += unit.Inch
	s.More[1] = scenario.CueSpec{}
	assert.Empty(t, view.Used(&s, cues, &cues[1]))
}

// The cues to switch between are those chosen by their places; of one that is not
// compared any more, the first two stand in.
func TestSwitched(t *testing.T) {
	entries := []view.Entry{{Name: "House 3", Place: 0}, {Name: "Slender", Place: 1}, {Name: "Stout", Place: 3}}
	for _, c := range []struct {
		chosen   app.Switch
		from, to string
	}{
		{app.Switch{}, "House 3", "Slender"},
		{app.Switch{On: true, From: 3, To: 0}, "Stout", "House 3"},
		{app.Switch{On: true, From: 1, To: 1}, "Slender", "Slender"},
		{app.Switch{On: true, From: 2, To: 0}, "House 3", "House 3"},
		{app.Switch{On: true, From: 3, To: 5}, "Stout", "Slender"},
	} {
		from, to := view.Switched(entries, c.chosen)
		assert.Equal(t, []string{c.from, c.to}, []string{from.Name, to.Name}, c.chosen)
	}
}

package view_test

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/sitting"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// evening notes parallel strokes of a cue on a day in November: marks for right english
// and left english in turn.
func evening(t *testing.T, m app.Model, day int, cue string, marks ...string) app.Model {
	t.Helper()
	m = app.Update(m, app.MeasureCue{Name: cue})
	for i, mark := range marks {
		side := "0.4"
		if i%2 == 1 {
			side = "-0.4"
		}
		for _, e := range parallel(cue, side, mark) {
			if k, ok := e.(app.NoteStroke); ok {
				k.When = "2026-11-" + strconv.Itoa(day) + "T20:" + strconv.Itoa(10+i) + ":00.000+01:00"
				e = k
			}
			m = app.Update(m, e)
			require.Empty(t, m.Notices)
		}
	}
	return m
}

// followed is the sitting that a new log shows of a model.
func followed(t *testing.T, m app.Model) *view.Sitting {
	t.Helper()
	s, ok := new(view.Log).Follow(&m, always)
	require.True(t, ok)
	return s
}

var steady = []string{"-1.15in", "1.1in", "-1.2in", "1.15in", "-1.1in", "1.2in"}

// What three evenings say together of a cue is what their saved records say together, and
// more than one evening; but not as much as three times as many strokes on one evening
// would, since each evening's set-up is new and part of its error is the same.
func TestEveningsCountTogether(t *testing.T) {
	m := after(app.Open{Link: "v=1&speed=12mph&elev=1deg"})
	one := evening(t, m, 10, "House 4", steady...)
	first := view.Weigh(&one, followed(t, one))
	assert.Equal(t, view.Weigh(&one, func() *view.Sitting { _, s := sat(t, one); return s }()), first, "one evening is one sitting")

	m = evening(t, evening(t, one, 11, "House 4", steady...), 12, "House 4", steady...)
	s := followed(t, m)
	all := view.Weigh(&m, s)
	assert.Len(t, s.Noted, 6, "the newest evening is shown")
	assert.Contains(t, all.Facts, view.Fact{Name: "strokes", Value: "18 in 3 sittings"})
	assert.Less(t, width(t, all), width(t, first))
	once := evening(t, after(app.Open{Link: "v=1&speed=12mph&elev=1deg"}), 10, "House 4", append(append(steady, steady...), steady...)...)
	_, joint := sat(t, once)
	assert.NotEqual(t, width(t, view.Weigh(&once, joint)), width(t, all))
	_, likely, pivot := s.Density("house 4")
	assert.Equal(t, value(t, all.Exact.Value), pivot.Median)
	assert.InDelta(t, 1, slices.Max(likely), 0.05)
	_, likely, pivot = s.Density("another")
	assert.Nil(t, pivot)
	assert.InDelta(t, 1, slices.Min(likely), 1e-9, "all lengths are as likely as each other")
	assert.True(t, hasFact(all, "pivot length by this sitting alone"))
	assert.Empty(t, all.Since)

	records := view.MeasuredCues(&m, s, "2026-11-12T20:20:00.000+01:00")
	require.Len(t, records, 3)
	saved := app.Update(m, app.SaveCues{Cues: records})
	require.Empty(t, saved.Notices)
	listed := view.ListCues(saved.Kept.Cues)
	require.Len(t, listed, 1)
	assert.Equal(t, []int{0, 1, 2}, listed[0].Used)
	shot := m.Scene.Shot()
	together := listed[0].Known.Pivot(shot.Ball, shot.Cue.Tip, m.Scene.PivotSpin)
	assert.InEpsilon(t, value(t, all.Exact.Value), float64(together.Median), 0.01) // records are rounded
	assert.InEpsilon(t, value(t, all.Exact.From), float64(together.From), 0.02)
	assert.Empty(t, view.MeasuredCues(&saved, s, "2026-11-12T20:21:00.000+01:00"), "they are saved already")
	assert.Len(t, app.Update(saved, app.Undo{}).Kept.Cues, 0, "in one step")
	more := evening(t, saved, 13, "House 4", steady...)
	assert.Len(t, view.MeasuredCues(&more, followed(t, more), "2026-11-13T21:00:00.000+01:00"), 1)
}

func value(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}

func width(t *testing.T, f view.Finding) float64 {
	t.Helper()
	return value(t, f.Exact.To)/value(t, f.Exact.From) - 1
}

func hasFact(f view.Finding, name string) bool {
	for _, fact := range f.Facts {
		if fact.Name == name {
			return true
		}
	}
	return false
}

// A cue that came with a new tip is told apart, and only its newer strokes count.
func TestACueThatChangedBetweenEvenings(t *testing.T) {
	m := after(app.Open{Link: "v=1&speed=12mph&elev=1deg"})
	m = evening(t, m, 10, "House 4", steady...)
	m = evening(t, m, 11, "House 4", "-0.5in", "0.5in", "-0.55in", "0.5in", "-0.5in", "0.45in")
	s := followed(t, m)
	f := view.Weigh(&m, s)
	assert.Equal(t, "2026-11-11T20:10:00.000+01:00", f.Since)
	assert.Contains(t, view.SinceWords("11/11/2026"), "its strokes from 11/11/2026 on do not agree with the older ones")
	assert.Empty(t, view.SinceWords(""))
	assert.InEpsilon(t, s.Post.Pivot(0).Median, float64(f.Pivot), 1e-9)
	assert.Contains(t, f.Facts, view.Fact{Name: "strokes", Value: "12 in 2 sittings; 1 counts"})
}

// An evening with too few strokes does not count, and is no reason to call a cue measured.
func TestAnEveningThatSaysTooLittle(t *testing.T) {
	m := after(app.Open{Link: "v=1&speed=12mph&elev=1deg"})
	m = evening(t, m, 10, "House 4", "0in")
	m = app.Update(m, app.NoteStroke{Cue: "House 4", See: "left", When: "2026-11-11T20:10:00.000+01:00"})
	f := view.Weigh(&m, followed(t, m))
	assert.Equal(t, "Not measured yet: this cue needs more strokes in one sitting", f.Head)
	assert.Zero(t, f.Pivot)
	assert.Empty(t, view.MeasuredCues(&m, followed(t, m), ""))
	m = evening(t, m, 12, "House 4", steady...)
	f = view.Weigh(&m, followed(t, m))
	assert.Contains(t, f.Facts, view.Fact{Name: "strokes", Value: "8 in 3 sittings; 1 counts"})
	assert.NotZero(t, f.Pivot)
}

// A cue that is measured again on a day of its own, and a cue that is not of this sitting,
// have what they are known for. Two cues of two sittings are compared by all of it.
func TestCuesOfSeveralEvenings(t *testing.T) {
	m := after(app.Open{Link: "v=1&speed=12mph&elev=1deg"})
	slender := []string{"-0.8in", "0.85in", "-0.85in", "0.8in", "-0.8in", "0.85in"}
	m = evening(t, m, 10, "House 4", steady...)
	m = evening(t, m, 11, "Slender", slender...)
	four := app.Update(m, app.MeasureCue{Name: "House 4"})
	f := view.Weigh(&four, followed(t, four))
	assert.NotZero(t, f.Pivot)
	assert.Contains(t, f.Facts, view.Fact{Name: "strokes", Value: "6"})
	assert.Empty(t, f.Others, "it is not of this sitting")
	assert.NotEmpty(t, f.Sets)
	require.Len(t, view.MeasuredCues(&four, followed(t, four), "now"), 1)
	assert.Equal(t, "2026-11-10T20:15:00.000+01:00", view.MeasuredCues(&four, followed(t, four), "now")[0].When)

	m = evening(t, evening(t, m, 12, "House 4", steady[:2]...), 12, "Slender", slender[:2]...)
	f = view.Weigh(&m, followed(t, m))
	require.Len(t, f.Others, 1)
	assert.True(t, strings.HasPrefix(f.Others[0].Value, "Slender squirts less: 9"), f.Others[0].Value)
}

// Before the first stroke of a new day the last evening is still shown; the next stroke is
// chosen for a new set-up, from all that is known of the cue.
func TestTheMorningAfter(t *testing.T) {
	m := evening(t, after(app.Open{Link: "v=1&speed=12mph&elev=1deg"}), 10, "House 4", steady...)
	m = app.Update(m, app.UseReading{Sure: []app.Sureness{{Key: "elevation", Error: 0.002}}, When: "2026-11-10T20:30:00.000+01:00"})
	that := followed(t, m)
	next := app.Update(m, app.Clocked{When: "2026-11-11T08:00:00.000+01:00"})
	then := followed(t, next)
	assert.Equal(t, that.Post.Pivot(0), then.Post.Pivot(0))
	assert.Equal(t, view.Weigh(&m, that).Exact, view.Weigh(&next, then).Exact)
	assert.NotEmpty(t, view.Weigh(&next, then).Sets)
	assert.NotContains(t, view.Help(&m, that), "elevation")
}

// A log keeps what is still right: only the sitting that changed is worked out again. One
// that is told to stop is no further than it was, and goes on later.
func TestALogGoesOn(t *testing.T) {
	m := evening(t, after(app.Open{Link: "v=1&speed=12mph&elev=1deg"}), 10, "House 4", steady...)
	m = evening(t, m, 11, "House 4", steady...)
	var log view.Log
	steps := 0
	count := func() bool { steps++; return true }
	_, ok := log.Follow(&m, func() bool { steps++; return steps < 15 })
	require.False(t, ok)
	s, ok := log.Follow(&m, count)
	require.True(t, ok)
	whole := steps
	steps = 0
	again, _ := log.Follow(&m, count)
	assert.Zero(t, steps)
	assert.Equal(t, view.Weigh(&m, s), view.Weigh(&m, again))
	m = evening(t, m, 12, "House 4", steady[0])
	s, _ = log.Follow(&m, count)
	assert.Less(t, steps, whole/2, "the evening before is worked out already")
	assert.Len(t, s.Past, 2)
	assert.Len(t, s.Noted, 1)

	var doubtful []int
	m = app.Update(m, app.ChangeStroke{Was: m.Kept.Strokes[2], Stroke: m.Kept.Strokes[2].Across()})
	s, _ = log.Follow(&m, count)
	s.PastDoubts(func(stroke int, words string) {
		if words != "" {
			doubtful = append(doubtful, stroke)
			assert.Contains(t, words, "Stroke 3 contradicts the others")
		}
	})
	assert.Equal(t, []int{2}, doubtful)
	assert.Equal(t, 12, s.Place(0))
	assert.Equal(t, sitting.Habit, m.SittingOn().SetUp)
}

// The answer about a cue waits for the sittings that it and those of the sitting shown have
// strokes in, and for no others. Whoever asks for all sittings gets those too, and a
// computation that was stopped goes on where it was.
func TestALogWorksOutWhatIsAskedFirst(t *testing.T) {
	m := evening(t, after(app.Open{Link: "v=1&speed=12mph&elev=1deg"}), 10, "House 4", steady...)
	m = evening(t, m, 11, "Slender", steady...)
	m = evening(t, m, 12, "House 4", steady...)
	all := followed(t, m)
	require.Len(t, all.Past, 1)

	var log view.Log
	s, ok := log.Follow(&m, always)
	require.True(t, ok)
	done, of := log.Progress()
	assert.Equal(t, []int{12, 12}, []int{done, of}, "without those of Slender")
	before := view.Weigh(&m, s)
	s, ok = log.FollowAll(&m, always)
	require.True(t, ok)
	assert.Len(t, s.Past, 2)
	done, of = log.Progress()
	assert.Equal(t, []int{18, 18}, []int{done, of})
	assert.Equal(t, before, view.Weigh(&m, s))

	m = app.Update(m, app.MeasureCue{Name: "Slender"})
	s, _ = log.Follow(&m, func() bool { t.Error("that is known"); return true })
	assert.Len(t, s.Past, 2)
	assert.Contains(t, view.Weigh(&m, s).Facts, view.Fact{Name: "strokes", Value: "6"})

	whole, steps := 0, 0
	_, _ = new(view.Log).Follow(&m, func() bool { whole++; return true })
	var halting view.Log
	for n := 1; ; n++ {
		left := whole / 4
		_, ok := halting.Follow(&m, func() bool { steps++; left--; return left > 0 })
		done, of := halting.Progress()
		assert.LessOrEqual(t, done, of)
		if ok {
			assert.Equal(t, of, done)
			break
		}
		require.Less(t, n, 8, "it gets on")
	}
	assert.Less(t, steps, 2*whole)
}

// Strokes that are read from a list say what they say one by one, and how the answer grew is
// the same, at the moments that both have.
func TestAListOfStrokesAtOnce(t *testing.T) {
	m := after(app.Open{Link: "v=1&speed=12mph&elev=1deg"})
	for range 4 {
		m = evening(t, m, 10, "House 4", steady...)
		m = evening(t, m, 10, "Slender", "-0.8in", "0.85in", "-0.75in")
	}
	s, one := followed(t, m), view.NewSitting(m.SetUp, m.Scene.PivotSpin)
	for _, k := range m.Kept.Strokes {
		one = one.Add(k)
	}
	assert.Equal(t, one.Taken, s.Taken)
	assert.Equal(t, one.Cues, s.Cues)
	assert.InEpsilon(t, one.Post.Pivot(0).Median, s.Post.Pivot(0).Median, 1e-6)
	require.Len(t, s.Grown, 1)
	each, grown := one.Grown[0], s.Grown[0]
	assert.Less(t, len(grown.Less), len(each.Less), "a long list grows several strokes at a time")
	assert.Equal(t, each.Strokes[len(each.Strokes)-1], grown.Strokes[len(grown.Strokes)-1])
	for i, n := range grown.Strokes {
		at := slices.Index(each.Strokes, n)
		require.GreaterOrEqual(t, at, 0)
		assert.InDelta(t, each.Less[at], grown.Less[i], 1e-6)
	}
}

// While an answer is on its way its place says so, unless there is nothing to wait for. A
// long list says how far it is, in steps that a voice can follow.
func TestPending(t *testing.T) {
	m := evening(t, after(app.Open{Link: "v=1&speed=12mph&elev=1deg"}), 10, "House 4", steady...)
	f := view.Pending(&m, 3, 6)
	assert.Equal(t, "Working out the pivot length…", f.Head)
	assert.Equal(t, view.Estimate{Why: "Working out the pivot length"}, f.Exact)
	assert.Equal(t, "Working out the next stroke…", f.Next)
	assert.Equal(t, "Working out the pivot length: 30 % of 1000 strokes…", view.Pending(&m, 399, 1000).Head)
	m = app.Update(m, app.MeasureCue{Name: "Another"})
	assert.Equal(t, view.Weigh(&m, followed(t, m)).Head, view.Pending(&m, 0, 6).Head)
}

// A mark on the wrong side is asked about once it is noted, and no longer when the next
// stroke is.
func TestALogAsksAboutTheSide(t *testing.T) {
	m := evening(t, after(app.Open{Link: "v=1&speed=12mph&elev=1deg"}), 10, "House 4", steady...)
	var log view.Log
	_, _ = log.Follow(&m, always)
	assert.Empty(t, log.Mistaken)
	note := func(mark, when string) store.Stroke {
		for _, e := range parallel("House 4", "0.4", mark) {
			if k, ok := e.(app.NoteStroke); ok {
				k.When = when
				e = k
			}
			m = app.Update(m, e)
		}
		_, _ = log.Follow(&m, always)
		return m.Kept.Strokes[len(m.Kept.Strokes)-1]
	}
	wrong := note("1.15in", "2026-11-10T20:20:00.000+01:00")
	assert.Equal(t, []store.Stroke{wrong}, log.Mistaken)
	note("-1.15in", "2026-11-10T20:21:00.000+01:00")
	assert.Empty(t, log.Mistaken)
}

// A finding that is told to stop, at any step, is none.
func TestWeighingInSteps(t *testing.T) {
	m := evening(t, after(app.Open{Link: "v=1&speed=12mph&elev=1deg"}), 10, "House 4", steady...)
	s := followed(t, m)
	steps := 0
	f, ok := view.WeighWhile(&m, s, func() bool { steps++; return true })
	assert.True(t, ok)
	assert.Equal(t, view.Weigh(&m, s), f)
	for _, stop := range []int{0, steps / 2, steps - 1} {
		n := 0
		_, ok := view.WeighWhile(&m, s, func() bool { n++; return n <= stop })
		assert.False(t, ok, stop)
	}
}

// Strokes on the wrong side among others are named and asked about together, marks and
// gates alike; one tap puts them right, and those that are left as they are stay so.
func TestALogAsksAboutStrokesThatContradictEachOther(t *testing.T) {
	var noted []app.Event
	for i, mark := range []string{"-1.15in", "1.1in", "-1.2in", "1.15in", "1.2in", "-1.1in", "1.15in", "-1.2in"} {
		noted = append(noted, parallel("House 4", []string{"0.4", "-0.4"}[i%2], mark)...)
	}
	noted = append(noted, app.SetAll{Sets: []app.Setting{{Key: "side", Text: "0.4"}, {Key: "back", Text: "0"}}}, app.NoteStroke{Cue: "House 4", See: "right"})
	m, _ := sat(t, after(app.Open{Link: "v=1&speed=12mph&elev=1deg"}), noted...)
	var log view.Log
	s, ok := log.Follow(&m, always)
	require.True(t, ok)
	words, swapped := view.Fit(s, always)
	assert.Equal(t, "Strokes 5, 6, 7, 8 and 9 fit far better with left and right exchanged. Check the side you noted, and the english.", words)
	assert.Equal(t, m.Kept.Strokes[4:], swapped)
	log.Suspect(swapped)
	assert.ElementsMatch(t, swapped, log.Asked(&m))
	assert.Equal(t, "Before the next stroke, check strokes 5, 6, 7, 8 and 9: left or right? The question is below.", view.CheckFirst(&m, swapped))
	assert.Contains(t, view.OtherSideWords(&m, swapped), "stroke 5, 1.20 in right; stroke 6, 1.10 in left; stroke 7, 1.15 in right; stroke 8, 1.20 in left; stroke 9, hit right.")

	moved := app.Update(m, app.MoveAcross{Strokes: log.Asked(&m)})
	assert.Empty(t, log.Asked(&moved), "they are no longer as they were")
	assert.Empty(t, view.CheckFirst(&moved, swapped))
	assert.Equal(t, []string{"-1.2in", "left"}, []string{moved.Kept.Strokes[4].Mark, moved.Kept.Strokes[8].See})
	after, ok := log.Follow(&moved, always)
	require.True(t, ok)
	words, swapped = view.Fit(after, always)
	assert.Empty(t, words)
	assert.Empty(t, swapped)
	assert.Less(t, after.Post.Pivot(0).To, s.Post.Pivot(0).Median, "the pivot length was far too long")

	log.Leave(&m)
	assert.Empty(t, log.Asked(&m))
}

func TestMisfitsOfManyStrokes(t *testing.T) {
	var noted []app.Event
	for i := range 20 {
		mark := "-1.15in"
		if i < 10 {
			mark = "1.15in"
		}
		noted = append(noted, parallel("House 4", "0.4", mark)...) // several strokes alike
	}
	m, s := sat(t, after(app.Open{Link: "v=1&speed=12mph&elev=1deg"}), noted...)
	words, swapped := view.Fit(s, always)
	assert.Contains(t, words, "Strokes 1, 2, 3, 4, 5, 6 and 4 more fit far better")
	assert.Contains(t, view.OtherSideWords(&m, swapped), "stroke 6, 1.15 in right; 4 more.")
	moved := app.Update(m, app.MoveAcross{Strokes: swapped})
	for _, k := range moved.Kept.Strokes {
		assert.Equal(t, "-1.15in", k.Mark)
	}
}

// A new stroke is a new first row, and the rows of older ones stay as they are. A heading
// counts its strokes, so it is written again.
func TestRowsThatStay(t *testing.T) {
	m := evening(t, after(app.Open{Link: "v=1&speed=12mph&elev=1deg"}), 10, "House 4", steady...)
	before := view.StrokeRows(&m, 0, len(m.Kept.Strokes))
	m = evening(t, m, 10, "House 4", steady[0])
	now := view.StrokeRows(&m, 0, len(m.Kept.Strokes))
	assert.Equal(t, len(before), view.SameAtEnd(before, now), "one sitting has no heading")
	m = evening(t, m, 12, "House 4", steady[0])
	two := view.StrokeRows(&m, 0, len(m.Kept.Strokes))
	assert.Equal(t, len(now)-1, view.SameAtEnd(now, two), "the first now has the heading of its sitting")
	assert.Equal(t, len(two), view.SameAtEnd(two, two))
	assert.Zero(t, view.SameAtEnd(nil, two))
	m = app.Update(m, app.Set{Key: "units", Text: "cm"})
	assert.Zero(t, view.SameAtEnd(two, view.StrokeRows(&m, 0, len(m.Kept.Strokes))))
}

// The newest strokes of a long list have rows, and the older ones when they are asked for.
// A stroke that is noted has a row more; of another list the newest are shown again.
func TestRowsOfALongList(t *testing.T) {
	assert.Equal(t, 0, view.FirstListed(0, 0, 30))
	assert.Equal(t, 950, view.FirstListed(0, 0, 1000))
	assert.Equal(t, 950, view.FirstListed(950, 1000, 1001))
	assert.Equal(t, 950, view.FirstListed(950, 1000, 999))
	assert.Equal(t, 0, view.FirstListed(0, 1000, 1001), "all of them were asked for")
	assert.Equal(t, 1950, view.FirstListed(0, 1000, 2000))
	assert.Equal(t, 0, view.FirstListed(950, 1000, 12))
	assert.Equal(t, 900, view.Older(950))
	assert.Equal(t, 0, view.Older(20))

	m := evening(t, after(app.Open{Link: "v=1&speed=12mph&elev=1deg"}), 10, "House 4", steady...)
	m = evening(t, m, 12, "House 4", steady...)
	all := view.StrokeRows(&m, 0, 12)
	assert.Equal(t, all, append(view.StrokeRows(&m, 4, 12), view.StrokeRows(&m, 0, 4)...))
}

// Of marks of one shot in two places those in the one with fewer are named, and of single
// marks that fit nothing each.
func TestMisfitsOfSomeStrokes(t *testing.T) {
	said := func(marks ...string) string {
		var noted []app.Event
		for i, mark := range marks {
			noted = append(noted, parallel("House 4", []string{"0.4", "-0.4"}[i%2], mark)...)
		}
		_, s := sat(t, after(app.Open{Link: "v=1&speed=12mph&elev=1deg"}), noted...)
		words, swapped := view.Fit(s, always)
		assert.Empty(t, swapped)
		return words
	}
	assert.Equal(t, "Strokes 5, 9 and 11 land elsewhere than others of the same shot with the same cue. Check the cue, the bridge and the english.",
		said("-1.1in", "1.1in", "-1.15in", "1.12in", "-2.6in", "1.08in", "-1.05in", "1.15in", "-2.65in", "1.1in", "-2.55in", "1.05in", "-1.1in"))
	assert.Equal(t, "Strokes 5 and 8 do not fit the others and hardly count. Correct what you noted wrongly.",
		said("-1.1in", "1.1in", "-1.15in", "1.12in", "-9in", "1.08in", "-1.05in", "15in", "-1.12in", "1.1in"))
	assert.Equal(t, "Stroke 5 does not fit the others and hardly counts. Correct what you noted wrongly.",
		said("-1.1in", "1.1in", "-1.15in", "1.12in", "-9in", "1.08in", "-1.05in", "1.1in"))
}

package view_test

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

func track(launch, half unit.Angle, arrival unit.Length) app.FilmTrack {
	return app.FilmTrack{
		Launch:  stat.Estimate[unit.Angle]{Median: launch, Interval: stat.Around(launch, half)},
		Speed:   stat.NormalEstimate(11.4*unit.MilePerHour, 0.1),
		Arrival: stat.NormalEstimate(arrival, 0.001), Line: 30 * unit.Inch,
		Record: store.Stroke{Mark: "1in", At: "30in", Read: "1mm", Film: store.Film{Launch: "1deg", Speed: "11mph", Cov: "1 0 1 0 0 1"}},
	}
}

func TestFilmInOneLine(t *testing.T) {
	s := scenario.Default()
	for want, k := range map[string]app.FilmTrack{
		"2.9° left of the aim line (2.8 to 3.0), 11.4 mph, 1.10 in right at the gate":          track(-2.9*unit.Degree, 0.1*unit.Degree, 1.1*unit.Inch),
		"2.9° right of the aim line (2.8 to 3.0), 11.4 mph, 0.50 in left at the gate":          track(2.9*unit.Degree, 0.1*unit.Degree, -0.5*unit.Inch),
		"0.1° left of the aim line (0.1 right to 0.3 left), 11.4 mph, on the line at the gate": track(-0.1*unit.Degree, 0.2*unit.Degree, 0),
	} {
		assert.Equal(t, want, view.FilmResult(&s, &k))
	}
	k := track(0.05, 0.001, 0.02)
	k.Line = 20 * unit.Inch
	assert.Contains(t, view.FilmResult(&s, &k), " at 20 in")
	k.Line = s.Dist
	assert.Contains(t, view.FilmResult(&s, &k), " at the target")
	s.Units = "cm"
	k.Line = 60 * unit.Centimetre
	assert.Contains(t, view.FilmResult(&s, &k), "20.0 mm right at 60 cm")
}

// What can be done follows the steps.
func TestFilmSteps(t *testing.T) {
	stand := app.FilmStand{Marks: []app.FilmMark{{Ball: "cue"}}, Aim: []app.FilmPoint{{X: 1}, {X: 2}}}
	k := track(-0.05, 0.001, 0.02)
	k.Frames = []app.FilmFrame{{Off: 0.44, Used: true}, {Off: 9}}
	m := app.Start()
	shown := func(e app.Event) view.FilmView {
		m = app.Update(m, e)
		return view.FilmOf(&m)
	}
	v := shown(app.OpenFilm{})
	assert.Equal(t, view.FilmView{Words: "Opening the film…", Open: true, Readings: v.Readings}, v)
	v = shown(app.ShowFilm{Width: 1280, Height: 720})
	assert.True(t, v.Screen)
	v = shown(app.StandFilm{Stand: app.FilmStand{Marks: stand.Marks}})
	assert.Contains(t, v.Words, "Drag each mark onto its ball")
	v = shown(app.StandFilm{Stand: app.FilmStand{Marks: stand.Marks, Why: "No ball is found."}})
	assert.True(t, v.Marks && !v.CanRead)
	assert.Equal(t, "No ball is found.", v.Words)
	found := stand
	found.Found = true
	v = shown(app.StandFilm{Stand: found})
	assert.Contains(t, v.Words, "The balls are found.")
	assert.True(t, v.CanRead)
	v = shown(app.StandFilm{Stand: stand})
	assert.True(t, v.Marks && v.CanRead && !v.CanNote)
	v = shown(app.ReadFilm{})
	assert.True(t, v.Reading && !v.Marks && !v.CanRead)
	v = shown(app.AdvanceFilm{Share: 0.4})
	assert.Equal(t, "Reading the film…", v.Words, "which stays the same, so that it is read aloud once")
	assert.Equal(t, "40 %", v.Share)
	v = shown(app.FindStrokes{Begins: []float64{0.61, 4.2}})
	assert.Equal(t, []string{"Stroke 1, at 0.6 s", "Stroke 2, at 4.2 s"}, v.Strokes)
	assert.Empty(t, v.Result)
	assert.Equal(t, "Working out the stroke…", v.Words)
	assert.True(t, v.Reading, "which can be stopped too")
	for _, r := range v.Readings {
		assert.Empty(t, r.Value+r.From+r.To)
	}
	v = shown(app.TrackFilm{Track: k})
	assert.True(t, v.CanNote && !v.Noted && !v.Reading)
	assert.Equal(t, "1 of 2: 0.4 pixels off the path", v.Frame)
	assert.Equal(t, view.FilmReading{Name: "film-launch", Value: "-0.05", From: strconv.FormatFloat(float64(k.Launch.From), 'g', -1, 64), To: "-0.049"}, v.Readings[0])
	assert.Equal(t, "2 of 2: does not fit, left out", shown(app.ScrubFilm{Frame: 1}).Frame)
	assert.Equal(t, "2 of 2: struck out", shown(app.StrikeFrame{}).Frame)
	assert.Equal(t, "Put this frame back", view.StrikeWords(true))
	for i, ball := range view.FilmBalls {
		assert.Equal(t, app.FilmBalls[i], ball.Name)
	}
	v = shown(app.TakeFilm{})
	assert.True(t, v.Taking && v.Screen && v.Open)
	v = shown(app.FailFilm{Why: "No camera was found."})
	assert.Equal(t, view.FilmView{Words: "No camera was found.", Readings: v.Readings}, v)
}

// shownTrack is a model with a film whose stroke is known.
func shownTrack(k app.FilmTrack) app.Model {
	m := app.Start()
	for _, e := range []app.Event{
		app.OpenFilm{}, app.ShowFilm{Width: 1280, Height: 720},
		app.StandFilm{Stand: app.FilmStand{Aim: []app.FilmPoint{{X: -1}, {}}, Marks: []app.FilmMark{
			{Ball: "cue", At: app.FilmPoint{X: 300, Y: 400}, Radius: 20}, {Ball: "left", At: app.FilmPoint{X: 900.04, Y: 10}}, {Ball: "right", At: app.FilmPoint{X: 940, Y: 10}},
		}}},
		app.ReadFilm{}, app.FindStrokes{Begins: []float64{1}}, app.TrackFilm{Track: k},
	} {
		m = app.Update(m, e)
	}
	return m
}

// A film's speed can be used in the shot, as well as it is known. Slow motion has no speed.
func TestSpeedOfAFilm(t *testing.T) {
	k := track(-0.05, 0.001, 0.02)
	m := shownTrack(k)
	speed := view.FilmOf(&m).Speed
	assert.Equal(t, []app.Setting{{Key: "speed", Text: "11.4mph"}}, speed.Sets)
	assert.InDelta(t, 0.1/(11.4*0.44704), speed.Sure[0].Error, 1e-9) // one standard deviation of it, as a share
	k.Why = "It seems to be slow motion."
	m = shownTrack(k)
	v := view.FilmOf(&m)
	assert.Nil(t, v.Speed.Sets)
	assert.True(t, v.CanNote, "the direction is still good")
	assert.Equal(t, view.FilmReading{Name: "film-speed"}, v.Readings[1])
	assert.Equal(t, "It seems to be slow motion.", v.Words)
	assert.NotContains(t, v.Result, "mph")
}

// A stroke is noted once. Undo gives the button back.
func TestFilmIsNotedOnce(t *testing.T) {
	m := app.Update(shownTrack(track(-0.05, 0.001, 0.02)), app.NoteFilm{Cue: "House 4"})
	v := view.FilmOf(&m)
	assert.True(t, v.Noted && !v.CanNote)
	assert.Equal(t, "Noted. Leave the phone where it is for the next stroke.", v.Words)
	other := track(-0.05, 0.001, 0.03)
	other.Record.Film.Speed = "12mph"
	changed := app.Update(m, app.TrackFilm{Track: other})
	assert.Contains(t, view.FilmOf(&changed).Words, "Noted, as it was read before.")
	m = app.Update(m, app.Undo{})
	assert.True(t, view.FilmOf(&m).CanNote)
}

// The nearest mark within reach of a finger is taken, and labels stay in the picture.
func TestFilmMarks(t *testing.T) {
	m := app.Update(shownTrack(track(-0.05, 0.001, 0.02)), app.CorrectMarks{})
	f := &m.Film
	assert.Equal(t, "left", view.NearestMark(f, app.FilmPoint{X: 915, Y: 20}).Ball)
	assert.Equal(t, "right", view.NearestMark(f, app.FilmPoint{X: 925, Y: 20}).Ball)
	assert.Empty(t, view.NearestMark(f, app.FilmPoint{X: 600, Y: 200}).Ball)
	assert.Negative(t, view.FilmMarkOf(f, "cue").Above)
	assert.Positive(t, view.FilmMarkOf(f, "left").Above)
	assert.False(t, view.FilmMarkOf(f, "target").On)
	shown := view.FilmMarkOf(f, "cue")
	assert.Equal(t, []view.Attribute{
		{`#film-marks [data-ball="cue"]`, "transform", "translate(300 400)"}, {`#film-marks [data-ball="cue"] .ring`, "r", "20"},
		{`#film-marks [data-ball="cue"] .catch`, "r", "80"}, {`#film-marks [data-ball="cue"] .cross`, "d", "M-6.7 0H6.7M0-6.7V6.7"},
		{`#film-marks [data-ball="cue"] text`, "font-size", "45.7"}, {`#film-marks [data-ball="cue"] text`, "x", "0"}, {`#film-marks [data-ball="cue"] text`, "y", "-42.9"},
	}, shown.Attributes("cue"))
	for at, aside := range map[float64]float64{20: 89.7, 300: 0, 1270: -99.7} { // 8 letters of 45.7 pixels
		f.Marks[0].At.X = at
		assert.InDelta(t, aside, view.FilmMarkOf(f, "cue").Aside, 0.1)
	}
	assert.Equal(t, "900", view.FilmMarkText(f, "left", "x"))
	assert.Equal(t, "10", view.FilmMarkText(f, "left", "y"))
}

// The lines over the film name what each is, and which frames count.
func TestFilmLines(t *testing.T) {
	k := track(-0.05, 0.001, 0.02)
	k.Frames = []app.FilmFrame{{Used: true}, {At: app.FilmPoint{X: 7.25, Y: 8}}, {Used: true}}
	k.Path = []app.FilmPoint{{X: 1, Y: 2}, {X: 3, Y: 4}}
	m := shownTrack(k)
	m = app.Update(app.Update(m, app.ScrubFilm{Frame: 2}), app.StrikeFrame{})
	assert.Equal(t, `<polyline class="aim" points="-1,0 0,0 "/><polyline class="way" points="1,2 3,4 "/>`+
		`<circle class="seen" cx="0" cy="0" r="8"/><circle class="unused" cx="7.3" cy="8" r="8"/><circle class="struck now" cx="0" cy="0" r="8"/>`, view.FilmLines(&m.Film))
}

// A film of a long roll is an instrument: its rolling resistance is used in the shot as it is
// shown, and a friction that the film does not show is not offered.
func TestFilmMeasuresTheCloth(t *testing.T) {
	k := track(0, 0.001, 0)
	k.Roll = stat.NormalEstimate(0.01234, 0.0005)
	m := app.Start()
	for _, e := range []app.Event{
		app.OpenFilm{}, app.StandFilm{Stand: app.FilmStand{Aim: []app.FilmPoint{{}, {}}}}, app.ReadFilm{},
		app.FindStrokes{Begins: []float64{1}}, app.TrackFilm{Track: k},
	} {
		m = app.Update(m, e)
	}
	v := view.FilmOf(&m)
	assert.Equal(t, "Rolling resistance 0.0123 (90 %: 0.0115 to 0.0132)", v.Roll.Head)
	assert.Equal(t, view.Gauged{}, v.Slide)
	m = app.Update(m, app.UseReading{Sets: v.Roll.Sets, Sure: v.Roll.Sure})
	assert.InDelta(t, 0.0123, m.Scene.GearCloth().Roll, 1e-12)
	assert.Equal(t, app.FilmDone, m.Film.Step, "the balls lie where they did")

	k.Slide = stat.NormalEstimate(0.21, 0.008)
	k.Roll = stat.NormalEstimate(7.0, 0.1) // no cloth has that
	m = app.Update(m, app.TrackFilm{Track: k})
	v = view.FilmOf(&m)
	assert.Equal(t, view.Gauged{}, v.Roll)
	require.Len(t, v.Slide.Sure, 1)
	assert.Equal(t, "slide", v.Slide.Sure[0].Key)
	assert.InDelta(t, 0.008/0.21, v.Slide.Sure[0].Error, 1e-3)
}

// What a step brings is scrolled into sight, once; between steps nothing is.
func TestWhatOfAFilmIsInSight(t *testing.T) {
	stand := app.FilmStand{Marks: []app.FilmMark{{Ball: "cue"}}, Aim: []app.FilmPoint{{X: 1}, {X: 2}}}
	m := app.Start()
	for i, step := range []struct {
		event app.Event
		want  []string
	}{
		{app.TakeFilm{}, []string{"film-words", "film-screen"}},
		{app.OpenFilm{}, nil},
		{app.FailFilm{Why: "This is not a video."}, []string{"film-words"}},
		{app.OpenFilm{}, nil},
		{app.ShowFilm{Width: 1280, Height: 720}, nil},
		{app.StandFilm{Stand: stand}, []string{"film-words", "film-screen"}},
		{app.MarkFilm{Ball: "cue"}, nil},
		{app.StandFilm{Stand: app.FilmStand{Marks: stand.Marks, Why: "No ball is found."}}, nil},
		{app.StandFilm{Stand: stand}, nil},
		{app.ReadFilm{}, []string{"film-reading", "film-words"}},
		{app.AdvanceFilm{Share: 0.4}, nil},
		{app.FindStrokes{Why: "No stroke is seen."}, []string{"film-words"}},
		{app.ReadFilm{}, []string{"film-reading", "film-words"}},
		{app.FindStrokes{Begins: []float64{0.6, 4}}, nil},
		{app.TrackFilm{Track: track(-0.05, 0.001, 0.02)}, []string{"film-use", "film-result"}},
		{app.StrikeFrame{}, nil},
		{app.TrackFilm{Track: track(-0.05, 0.001, 0.03)}, nil},
		{app.PickStroke{}, nil},
		{app.TrackFilm{Track: track(-0.05, 0.001, 0.02)}, []string{"film-use", "film-result"}},
		{app.NoteFilm{}, nil},
		{app.CorrectMarks{}, []string{"film-words", "film-screen"}},
		{app.ShutFilm{}, nil},
	} {
		before := m.Film
		m = app.Update(m, step.event)
		assert.Equal(t, step.want, view.FilmSight(&before, &m.Film), "step %d: %T", i, step.event)
	}
	m = app.Start()
	m = app.Update(m, app.Return{Visit: app.Visit{Film: true}})
	assert.Equal(t, []string{"film-words"}, view.FilmSight(&app.Film{}, &m.Film), "after a reload")
}

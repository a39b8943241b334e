package view

import (
	"errors"
	"slices"
	"strconv"

	"pivotbench/core/scenario"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
)

// A FilmBall is a ball of a film: its name in the page's contract, its label, and what
// stands beside its mark.
type FilmBall struct{ Name, Label, Short string }

// FilmBalls lists the balls of app.FilmBalls.
var FilmBalls = []FilmBall{
	{"cue", "Cue ball", "Cue ball"}, {"target", "Target ball", "Target"}, {"left", "Left blocker (L)", "L"}, {"right", "Right blocker (R)", "R"},
}

// A FilmView is an open film as the Measure section shows it.
type FilmView struct {
	Words    string // what to do, what goes on, or what went wrong
	Result   string // the stroke in one line; empty if none is read
	Readings []FilmReading
	Open     bool // there is something to close
	Screen   bool // there is a picture
	Taking   bool // the camera films
	Marks    bool // marks can be moved
	Done     bool // the strokes of the film are known
	CanRead  bool
	Reading  bool   // the film is read, or its stroke worked out, which can be stopped
	Share    string // of the film that has been read
	CanNote  bool
	Noted    bool
	Speed    Gauged   // how to use the speed in the shot; empty if it is not known
	Roll     Gauged   // the rolling resistance; empty if the film does not show it
	Slide    Gauged   // the sliding friction, likewise
	Strokes  []string // names of the strokes in the film, if there are several
	Frame    string   // the shown frame in words; empty if there are none
	Struck   bool     // the shown frame is struck out
}

// A FilmReading is a value for scripts, with its 90 % interval in SI units. Its texts are
// empty if it is not known.
type FilmReading struct{ Name, Value, From, To string }

// FilmOf returns what is shown of the film.
func FilmOf(m *app.Model) FilmView {
	f, t := &m.Film, &m.Film.Track
	v := FilmView{
		Words: filmWords(m), Taking: f.Step == app.FilmTaking,
		Reading: f.Step == app.FilmReading || workedOut(f),
		Open:    f.Step != app.FilmShut,
		Screen:  f.Step == app.FilmTaking || f.Step != app.FilmShut && f.Width > 0,
		Marks:   f.Step == app.FilmMarking,
		Done:    f.Step == app.FilmDone,
		CanNote: t.Read() && !m.Noted(),
		Noted:   m.Noted(),
		Struck:  slices.Contains(f.Struck, f.Frame),
	}
	if v.Reading {
		v.Share = phrase.Percent(f.Share)
	}
	v.CanRead = v.Marks && f.Stand.Stood()
	v.Readings = []FilmReading{
		filmReading("film-launch", t.Launch, t.Read()),
		filmReading("film-speed", t.Speed, t.Read() && t.Why == ""),
		filmReading("film-arrival", t.Arrival, t.Read()),
	}
	if t.Read() {
		v.Result = FilmResult(&m.Scene, t)
	}
	if t.Read() && t.Why == "" {
		d := scenario.DisplayOf(unit.SpeedKind, m.Scene.Units)
		v.Speed = sure(Gauged{Sets: []app.Setting{setting("speed", t.Speed.Median, d)}}, "speed", t.Speed, t.Speed.Median)
	}
	v.Roll = filmCloth(m, "roll", t.Roll, rolling)
	v.Slide = sure(filmCloth(m, "slide", t.Slide, sliding), "slide", t.Slide, t.Slide.Median)
	if len(f.Begins) > 1 {
		for i, begin := range f.Begins {
			v.Strokes = append(v.Strokes, "Stroke "+strconv.Itoa(i+1)+", at "+unit.Round(begin, unit.Ratio, "", 1)+" s")
		}
	}
	if n := len(t.Frames); n > 0 && f.Step == app.FilmDone {
		v.Frame = strconv.Itoa(f.Frame+1) + " of " + strconv.Itoa(n)
		switch frame := t.Frames[f.Frame]; {
		case v.Struck:
			v.Frame += ": struck out"
		case !frame.Used && t.Read():
			v.Frame += ": does not fit, left out"
		case t.Read():
			v.Frame += ": " + unit.Round(frame.Off, unit.Ratio, "", 1) + " pixels off the path"
		}
	}
	return v
}

// filmCloth returns a friction that the film shows, as an instrument's result. It is empty if
// there is none, or one that no shot can have.
func filmCloth(m *app.Model, key string, e stat.Estimate[float64], d scenario.Display) Gauged {
	k := scenario.Find(key)
	if e.Median == 0 || e.Median < k.Min || e.Median > k.Max {
		return Gauged{}
	}
	g := answer(d, e, 1, nil, setting(key, e.Median, d))
	g.Head = k.Label + " " + g.Head
	return g
}

func filmReading[T ~float64](name string, e stat.Estimate[T], known bool) FilmReading {
	if !known {
		return FilmReading{Name: name}
	}
	text := func(v T) string { return strconv.FormatFloat(float64(v), 'g', -1, 64) }
	return FilmReading{name, text(e.Median), text(e.From), text(e.To)}
}

// filmWords says how far the work on a film has come, and what to do next.
func filmWords(m *app.Model) string {
	f := &m.Film
	switch {
	case f.Step == app.FilmReading:
		return "Reading the film…"
	case f.Why != "":
		return f.Why
	case f.Step == app.FilmTaking:
		return "Play the stroke, then stop filming."
	case f.Step == app.FilmOpening:
		return "Opening the film…"
	case f.Step == app.FilmMarking && f.Stand.Same:
		return "The phone has not moved, so the marks are set. Read the stroke."
	case f.Step == app.FilmMarking && f.Stand.Found:
		return "The balls are found. Check that each ring is on the ball its label names, and drag it if not. Then read the stroke."
	case f.Step == app.FilmMarking && !f.Stand.Stood():
		return "Drag each mark onto its ball, the one its label names. Close is enough: the exact outline is found for you."
	case f.Step == app.FilmMarking:
		return "Check that each ring fits its ball and that the dashed line is the aim line. Then read the stroke."
	case workedOut(f):
		return "Working out the stroke…"
	case f.Step == app.FilmDone && m.Noted() && !m.Counts(f.Track.Record.Film):
		return "Noted, as it was read before. To note it as it is read now, delete the noted stroke first."
	case f.Step == app.FilmDone && m.Noted():
		return "Noted. Leave the phone where it is for the next stroke."
	}
	return ""
}

// workedOut reports whether a stroke of the film is being worked out.
func workedOut(f *app.Film) bool {
	return f.Step == app.FilmDone && !f.Track.Read() && f.Why == ""
}

// FilmResult returns a stroke on film in one line, such as "2.9° left of the aim line
// (2.8 to 3.0), 11.4 mph, 1.1 in right at the gate".
func FilmResult(s *scenario.Scenario, t *app.FilmTrack) string {
	turn := scenario.Display{Quantity: unit.AngleKind, Unit: "°", Decimals: 1}
	pace := scenario.Find("speed").Display(s.Units)
	side := "right"
	from, to := t.Launch.From, t.Launch.To
	if t.Launch.Median < 0 {
		side, from, to = "left", -to, -from
	}
	said := turn.Format(float64(unit.Abs(t.Launch.Median))) + " " + side + " of the aim line ("
	if from < 0 {
		other := map[string]string{"left": "right", "right": "left"}[side]
		said += turn.Number(float64(-from)) + " " + other + " to " + turn.Number(float64(to)) + " " + side + ")"
	} else {
		said += turn.Number(float64(from)) + " to " + turn.Number(float64(to)) + ")"
	}
	if t.Why == "" {
		said += ", " + pace.Format(float64(t.Speed.Median))
	}
	where := " at " + phrase.Brief(phrase.Length(s, t.Line))
	if s.Gate > 0 && t.Line == s.Gate {
		where = " at the gate"
	} else if t.Line == s.Dist {
		where = " at the target"
	}
	return said + ", " + phrase.Sideways(s, t.Arrival.Median) + where
}

// FilmFailed says why a film cannot be opened or read.
func FilmFailed(err error) string { return phrase.Upper(err.Error()) + "." }

// Reasons why the part that reads films does not answer, and what is said of it.
var (
	ErrFilmNoWorker = errors.New("this browser can't run the part that reads films: update it, or use another browser")
	ErrFilmInOne    = errors.New("this copy in one file can't read films: open Pivotbench at its web address")
	ErrFilmNoReader = errors.New("the part that reads films did not arrive: choose the film again where there is a network")
	ErrFilmSilent   = errors.New("the part that reads films does not answer: choose the film again")
)

// ErrFilmEnded returns the error that the part that reads films ended. reason is the
// browser's.
func ErrFilmEnded(reason string) error {
	return errors.New("the part that reads films stopped (" + reason + "): choose the film again")
}

// FilmStopped says that the user has stopped the reading.
const FilmStopped = "Stopped. The marks stay: read the stroke again, or choose another film."

// What is said of the camera.
const (
	CameraRefused = "The camera was refused. Choose a video, or allow the camera for this page in the browser's settings."
	CameraNone    = "No camera was found. Choose a video."
)

// CameraMissing says that pages can't film here.
func CameraMissing(secure bool) string {
	return "Pages can't use a camera here" + Insecure(secure) + ". Film with the device's own camera and choose the video."
}

// CameraFailed says why the camera did not film.
func CameraFailed(err error) string {
	return "The camera did not film (" + err.Error() + "). Choose a video."
}

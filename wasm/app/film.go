package app

import (
	"math"
	"slices"
	"strconv"

	"pivotbench/core/gear"
	"pivotbench/core/scenario"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/wasm/store"
)

// A Film is a video of a stroke, while the user has it open. Its pictures stay with the
// browser. All points are in pixels of the film, counted from the corner of the top left
// pixel: x to the right, y down.
type Film struct {
	Step          FilmStep
	Width, Height float64
	Marks         []FilmMark // of the balls in the first picture, in the order of FilmBalls
	Typing        FilmTyping // in the field of a mark
	Stand         FilmStand  // where the camera stands, once the marks have shown that
	Share         float64    // of the film that has been read
	Begins        []float64  // when each stroke in the film begins, in seconds
	Stroke        int        // index of the chosen one
	Track         FilmTrack  // the chosen stroke
	Struck        []int      // frames of it that the user has struck out
	Frame         int        // the frame of it that is shown
	Noted         []FilmNote // the strokes of it that were noted
	Why           string     // what went wrong, or what to do
}

// A FilmStep is how far the work on a film has come.
type FilmStep int

// The steps.
const (
	FilmShut    FilmStep = iota // no film is open
	FilmTaking                  // the device's camera films
	FilmOpening                 // the browser opens it
	FilmMarking                 // the user checks where the balls are
	FilmReading                 // its frames are read
	FilmDone                    // its strokes are known
)

// FilmBalls lists the balls that can be marked, by their names in the page's contract.
var FilmBalls = []string{"cue", "target", "left", "right"}

// A FilmPoint is a place in a picture.
type FilmPoint struct{ X, Y float64 }

// A FilmMark is a ball that is marked in the first picture.
type FilmMark struct {
	Ball   string // one of FilmBalls
	At     FilmPoint
	Radius float64 // about its radius in pixels; 0 if that is not known
}

// A FilmNote is a stroke of the film as it was noted. It may be read otherwise since, when a
// frame was struck out or the shot was changed.
type FilmNote struct {
	Stroke int // its index
	Film   store.Film
}

// A FilmTyping is a coordinate that the user is typing.
type FilmTyping struct {
	Was  FilmMark // the mark before; its ball is empty if nobody types
	Axis string
	Text string // what was typed last and taken
}

// A FilmStand is what the marks say about the camera.
type FilmStand struct {
	Marks []FilmMark  // moved onto the balls' outlines
	Aim   []FilmPoint // the aim line, to draw
	Gate  []FilmPoint // the line of the gate, or of the target if there is none
	Same  bool        // it is the stand of the film before
	Found bool        // the balls were found without marks
	Why   string      // why the camera's place is not known; empty if it is
}

// Stood reports whether the camera's place is known.
func (s *FilmStand) Stood() bool { return len(s.Aim) > 0 }

// A FilmFrame is a frame in which the ball is seen moving.
type FilmFrame struct {
	Time float64 // in seconds of the film
	At   FilmPoint
	Off  float64 // distance from the fitted path in pixels
	Used bool    // it counts
}

// A FilmTrack is a stroke as the film shows it.
type FilmTrack struct {
	Launch  stat.Estimate[unit.Angle]
	Speed   stat.Estimate[unit.Speed]
	Arrival stat.Estimate[unit.Length] // sideways at Line
	Line    unit.Length
	Roll    stat.Estimate[float64] // rolling resistance; zero where the film does not show it
	Slide   stat.Estimate[float64] // sliding friction, likewise
	Frames  []FilmFrame
	Path    []FilmPoint
	Record  store.Stroke // without the cue, the link and the time
	Why     string       // why it could not be read or, if it could, why its speed is not known; may be empty
}

// Read reports whether the stroke could be read.
func (t *FilmTrack) Read() bool { return t.Record.Film != (store.Film{}) }

// TakeFilm turns the device's camera on, in place of the film before. The marks stay.
type TakeFilm struct{}

func (TakeFilm) update(m Model) Model {
	m.Film = Film{Step: FilmTaking, Marks: m.Film.Marks}
	return m
}

// OpenFilm opens a film in place of the one before. The marks stay, for a film from the
// same stand.
type OpenFilm struct{}

func (OpenFilm) update(m Model) Model {
	m.Film = Film{Step: FilmOpening, Marks: m.Film.Marks}
	m.Notices = nil
	return m
}

// ShowFilm records the size of a film whose first picture is shown.
type ShowFilm struct{ Width, Height float64 }

func (e ShowFilm) update(m Model) Model {
	if m.Film.Step == FilmOpening {
		m.Film.Width, m.Film.Height = e.Width, e.Height
	}
	return m
}

// StandFilm takes in what the marks say about the camera. It ends FilmOpening.
type StandFilm struct{ Stand FilmStand }

func (e StandFilm) update(m Model) Model {
	f := &m.Film
	if f.Step != FilmOpening && f.Step != FilmMarking {
		return m
	}
	if f.Step == FilmOpening {
		m.filmLaid = layoutOf(&m.Scene)
	}
	f.Step, f.Stand, f.Why = FilmMarking, e.Stand, e.Stand.Why
	if len(e.Stand.Marks) > 0 {
		f.Marks = e.Stand.Marks
	}
	return m
}

// MarkFilm moves the mark of a ball. What the old marks said is dropped. It changes
// nothing while the film is opened or read.
type MarkFilm struct {
	Ball string
	At   FilmPoint
}

func (e MarkFilm) update(m Model) Model {
	f := &m.Film
	i := slices.IndexFunc(f.Marks, func(k FilmMark) bool { return k.Ball == e.Ball })
	if i < 0 || f.Step != FilmMarking && f.Step != FilmDone {
		return m
	}
	m = m.unread("")
	f = &m.Film
	f.Stand = FilmStand{}
	f.Marks = slices.Clone(f.Marks)
	k := &f.Marks[i]
	to := FilmPoint{min(max(e.At.X, 0), f.Width), min(max(e.At.Y, 0), f.Height)}
	if math.Hypot(to.X-k.At.X, to.Y-k.At.Y) > k.Radius {
		k.Radius = 0 // it is on another ball now
	}
	k.At = to
	return m
}

// TypeFilmMark sets one coordinate of a mark, "x" or "y", from a text, which is a draft
// while the user is still typing. A text that is not a number within the picture puts the
// mark back to where it was and says why, or does nothing if it is a draft.
type TypeFilmMark struct {
	Ball, Axis, Text string
	Draft            bool
}

func (e TypeFilmMark) update(m Model) Model {
	i := slices.IndexFunc(m.Film.Marks, func(k FilmMark) bool { return k.Ball == e.Ball })
	if i < 0 {
		return m
	}
	typing := m.Film.Typing
	if typing.Was.Ball != e.Ball || typing.Axis != e.Axis {
		typing = FilmTyping{Was: m.Film.Marks[i], Axis: e.Axis}
	}
	at := m.Film.Marks[i].At
	to, most := &at.X, m.Film.Width
	if e.Axis == "y" {
		to, most = &at.Y, m.Film.Height
	}
	v, err := unit.Parse(e.Text, unit.Ratio, "")
	wrong := err != nil || !(v >= 0 && v <= most)
	switch {
	case wrong && e.Draft:
		return m
	case wrong:
		if at != typing.Was.At {
			m = MarkFilm{e.Ball, typing.Was.At}.update(m)
		}
		m.Notices = []string{"Mark of the " + filmBallNames[e.Ball] + ", " + e.Axis + ": “" + unit.Clip(e.Text) + "” is not in the picture. Type a number of pixels from 0 to " + strconv.FormatFloat(most, 'f', 0, 64) + "."}
	default:
		m.Notices = nil
		if *to != v && typing.Text != e.Text { // else the draft has moved it, and perhaps the outline was found since
			*to = v
			m = MarkFilm{e.Ball, at}.update(m)
		}
		typing.Text = e.Text
	}
	if !e.Draft {
		typing = FilmTyping{}
	}
	m.Film.Typing = typing
	return m
}

var filmBallNames = map[string]string{"cue": "cue ball", "target": "target ball", "left": "left blocker", "right": "right blocker"}

// CorrectMarks goes back from what was read to the marks.
type CorrectMarks struct{}

func (CorrectMarks) update(m Model) Model {
	if m.Film.Step != FilmDone {
		return m
	}
	return m.unread("")
}

// ReadFilm begins to read the frames. It needs a known stand.
type ReadFilm struct{}

func (ReadFilm) update(m Model) Model {
	if m.Film.Step != FilmMarking || !m.Film.Stand.Stood() {
		return m
	}
	m = m.unread("")
	m.Film.Step = FilmReading
	return m
}

// AdvanceFilm records the share of the film that has been read.
type AdvanceFilm struct{ Share float64 }

func (e AdvanceFilm) update(m Model) Model {
	if m.Film.Step == FilmReading {
		m.Film.Share = min(max(e.Share, m.Film.Share), 1)
	}
	return m
}

// FindStrokes takes in when the strokes of a film begin, or why there is none.
type FindStrokes struct {
	Begins []float64
	Why    string
}

func (e FindStrokes) update(m Model) Model {
	if m.Film.Step != FilmReading {
		return m
	}
	if len(e.Begins) == 0 {
		return m.unread(e.Why)
	}
	m.Film.Step, m.Film.Begins, m.Film.Why = FilmDone, e.Begins, e.Why
	return m
}

// TrackFilm takes in a stroke as the film shows it.
type TrackFilm struct{ Track FilmTrack }

func (e TrackFilm) update(m Model) Model {
	f := &m.Film
	if f.Step != FilmDone {
		return m
	}
	f.Why = e.Track.Why
	if !e.Track.Read() && len(f.Track.Frames) > 0 { // so that frames can be put back
		e.Track.Frames = f.Track.Frames
	}
	f.Track = e.Track
	f.Frame = min(f.Frame, max(0, len(f.Track.Frames)-1))
	return m
}

// PickStroke chooses another stroke of the film, by its index, and drops what is known of
// the one before.
type PickStroke struct{ Stroke int }

func (e PickStroke) update(m Model) Model {
	f := &m.Film
	f.Stroke, f.Track, f.Struck, f.Frame, f.Why = e.Stroke, FilmTrack{}, nil, 0, ""
	return m
}

// ScrubFilm shows a frame of the stroke.
type ScrubFilm struct{ Frame int }

func (e ScrubFilm) update(m Model) Model {
	m.Film.Frame = max(0, min(e.Frame, len(m.Film.Track.Frames)-1))
	return m
}

// StrikeFrame strikes out the shown frame, or puts it back.
type StrikeFrame struct{}

func (StrikeFrame) update(m Model) Model {
	f := &m.Film
	if f.Step != FilmDone || len(f.Track.Frames) == 0 {
		return m
	}
	if i := slices.Index(f.Struck, f.Frame); i >= 0 {
		f.Struck = slices.Delete(slices.Clone(f.Struck), i, i+1)
	} else {
		f.Struck = append(slices.Clip(f.Struck), f.Frame)
	}
	return m
}

// FailFilm says why the film cannot be opened or read. The marks stay, and a film that was
// opened does too.
type FailFilm struct{ Why string }

func (e FailFilm) update(m Model) Model {
	if m.Film.Step < FilmMarking {
		return LoseFilm(e).update(m)
	}
	return m.unread(e.Why)
}

// LoseFilm closes the film because it can be read no further. The marks stay, for when it is
// opened again.
type LoseFilm struct{ Why string }

func (e LoseFilm) update(m Model) Model {
	if m.Film.Step != FilmShut {
		m.Film = Film{Marks: m.Film.Marks, Why: e.Why}
	}
	return m
}

// ShutFilm closes the film.
type ShutFilm struct{}

func (ShutFilm) update(m Model) Model {
	m.Film = Film{}
	return m
}

// NoteFilm records the stroke of the film as a stroke of the current shot: of the player
// who is filmed, or else of a cue. A stroke is noted once, however it is read since.
type NoteFilm struct{ Cue, When string }

func (e NoteFilm) update(m Model) Model {
	if !m.Film.Track.Read() || m.Noted() {
		return m
	}
	k := m.Film.Track.Record
	var next Model
	if m.FilmTurn.Player != "" {
		next = m.noteFilmTurn(e.When)
	} else {
		next = NoteStroke{Cue: e.Cue, Mark: k.Mark, At: k.At, Read: k.Read, Film: k.Film, When: e.When}.update(m)
	}
	if next.Counts(k.Film) {
		next.Film.Noted = append(slices.Clip(next.Film.Noted), FilmNote{next.Film.Stroke, k.Film})
	}
	return next
}

// Noted reports whether the stroke that the film shows is among the strokes of a cue or of
// a player, as it is read now or as it was when it was noted.
func (m *Model) Noted() bool {
	f := &m.Film
	return f.Track.Read() && (m.Counts(f.Track.Record.Film) ||
		slices.ContainsFunc(f.Noted, func(n FilmNote) bool { return n.Stroke == f.Stroke && m.Counts(n.Film) }))
}

// Counts reports whether a filmed stroke is among those of a cue or of a player.
func (m *Model) Counts(film store.Film) bool {
	return slices.ContainsFunc(m.Kept.Strokes, func(k store.Stroke) bool { return k.Film == film }) ||
		slices.ContainsFunc(m.Kept.Turns, func(t store.Turn) bool { return t.Film == film })
}

// unread returns the model with the film's marks, but nothing of what they led to. why
// says what happened.
func (m Model) unread(why string) Model {
	f := m.Film
	m.Film = Film{Step: FilmMarking, Width: f.Width, Height: f.Height, Marks: f.Marks, Stand: f.Stand, Noted: f.Noted, Why: why}
	return m
}

// relaid returns the model without what a film said, if the balls of the shot lie
// elsewhere than when it was marked. It waits until the film is shown: the shot may be
// another for a while.
func (m Model) relaid() Model {
	now := layoutOf(&m.Scene)
	if m.Film.Step < FilmMarking || m.Section != "measure" || m.filmLaid == now {
		return m
	}
	m = m.unread(FilmRelaid)
	m.Film.Stand, m.filmLaid = FilmStand{}, now
	return m
}

// FilmRelaid says that the balls of the shot lie elsewhere than when the film was marked, until
// the stand is worked out anew from the marks.
const FilmRelaid = "The shot has its balls elsewhere now: check the marks."

// filmGone says what a reload has done to an open film.
const filmGone = "The page was loaded again, so the film is closed. Choose it again."

// A layout is what decides where the balls of a shot lie.
type layout struct {
	radius, dist unit.Length // of the ball, and of the target
	gate         gear.Gate
}

func layoutOf(s *scenario.Scenario) layout {
	sh := s.Shot()
	return layout{sh.Ball.Radius, sh.Dist, sh.Gate}
}

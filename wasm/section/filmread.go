//go:build js && wasm

package section

import (
	"strconv"
	"syscall/js"
	"time"

	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/message"
	"pivotbench/wasm/view"
)

// patient is how long an answer of the worker may take. Before the first one, the program
// has to be fetched.
const patient = time.Minute

// open opens a film, and asks whether it is made from the stand of the film before.
func (s *filming) open(file js.Value) {
	s.leave()
	turn := s.turn
	s.Do(app.OpenFilm{})
	go func() {
		film, err := device.OpenFilm(dom.ByID("film-video"), file)
		switch {
		case s.turn != turn:
			if film != nil {
				film.Shut()
			}
			return
		case err != nil:
			s.Do(app.FailFilm{Why: view.FilmFailed(err)})
			return
		}
		s.film = film
		width, height := film.Size()
		s.Do(app.ShowFilm{Width: width, Height: height})
		m := s.Model()
		first := message.FilmFirst{Link: m.Scene.Format(), Width: film.Width, Height: film.Height, Scale: film.Scale, Marks: m.Film.Marks}
		s.ask(turn, first.Object(), file, func(o message.Object) {
			times, cannot := message.ReadFilmTimes(o)
			switch {
			case !cannot:
				s.stands(o)
			case times.Why != "":
				s.fail(times.Why)
			default: // the worker can't decode it, so the page does
				s.times = times.Times
				pixels, err := film.First(s.times)
				if err != nil {
					s.fail(view.FilmFailed(err))
					return
				}
				s.ask(turn, first.Object(), pixels, s.stands)
			}
		})
	}()
}

// stands takes in what the worker says about the marks.
func (s *filming) stands(o message.Object) {
	if stand, ok := message.ReadFilmStand(o); ok {
		s.Do(app.StandFilm{Stand: stand.FilmStand})
	}
}

// stand has the camera's place worked out from the marks.
func (s *filming) stand() {
	m := s.Model()
	if m.Film.Step != app.FilmMarking || m.Film.Stand.Stood() || s.held.ball != "" {
		return
	}
	s.turn++
	marks := message.FilmMarks{Link: m.Scene.Format(), Marks: m.Film.Marks}
	go s.ask(s.turn, marks.Object(), js.Null(), s.stands)
}

// read reads the film from its start, and then its first stroke.
func (s *filming) read() {
	s.Do(app.ReadFilm{})
	if m := s.Model(); m.Film.Step != app.FilmReading || s.film == nil {
		return
	}
	s.turn++
	turn := s.turn
	go func() {
		frames := s.decoded
		if s.times != nil {
			frames = s.shown
		}
		if !frames(turn) {
			return
		}
		s.ask(turn, message.FilmEnd{}.Object(), js.Null(), func(o message.Object) {
			if found, ok := message.ReadFilmStrokes(o); ok {
				s.fitted = ""
				s.Do(app.FindStrokes{Begins: found.Begins, Why: found.Why}) // show has the first one fitted
			}
		})
	}()
}

// decoded has the worker read the frames that it decodes. It reports whether it has read
// all of them.
func (s *filming) decoded(turn int) bool {
	on, more := true, true
	for start := true; on && more; start = false {
		on = s.ask(turn, message.FilmNext{Start: start}.Object(), js.Null(), func(o message.Object) {
			took, _ := message.ReadFilmTook(o)
			more = took.More
			s.took(took.Why, took.Share)
		}) && s.reading()
	}
	return on
}

// shown hands the worker the frames that the page's video shows. It reports whether it has
// read all of them.
func (s *filming) shown(turn int) bool {
	film, start, on := s.film, true, true
	err := film.Frames(s.times, func(f device.FilmFrame) bool {
		frame := message.FilmFrame{Time: f.Time, Width: film.Width, Height: film.Height, Start: start}
		start = false
		on = s.ask(turn, frame.Object(), f.Pixels, func(o message.Object) {
			took, _ := message.ReadFilmTook(o)
			s.took(took.Why, f.Share)
		}) && s.reading()
		return on
	})
	if s.film == film {
		film.Seek(0) // the picture to which the marks belong
	}
	if s.turn == turn && err != nil {
		s.Do(app.FailFilm{Why: view.FilmFailed(err)})
	}
	return on && err == nil
}

// took takes in how much of the film the worker has read, or why it reads no more.
func (s *filming) took(why string, share float64) {
	if why != "" {
		s.Do(app.FailFilm{Why: why})
		return
	}
	s.Do(app.AdvanceFilm{Share: share})
}

func (s *filming) reading() bool {
	m := s.Model()
	return m.Film.Step == app.FilmReading
}

// fitFor returns the shot and the line for which a stroke would be fitted.
func (s *filming) fitFor(m *app.Model) string {
	return m.Scene.Format() + " " + strconv.FormatFloat(float64(m.MarkLine()), 'g', -1, 64)
}

// fit has the chosen stroke fitted, without the frames that are struck out.
func (s *filming) fit() {
	m := s.Model()
	if m.Film.Step != app.FilmDone {
		return
	}
	s.fitted = s.fitFor(&m)
	s.turn++
	fit := message.FilmFit{Link: m.Scene.Format(), Line: m.MarkLine(), Stroke: m.Film.Stroke, Struck: m.Film.Struck}
	go s.ask(s.turn, fit.Object(), js.Null(), func(o message.Object) {
		if track, ok := message.ReadFilmTrack(o); ok {
			s.Do(app.TrackFilm{Track: track.FilmTrack})
		}
	})
}

// ask sends the worker a message and hands on its answer, unless something else has begun.
// The film is closed if there is none, since what the worker knew of it is lost. It
// reports whether to go on. It must not be called from an event.
func (s *filming) ask(turn int, o message.Object, with js.Value, took func(message.Object)) bool {
	answer, err := s.answerTo(turn, o, with)
	switch {
	case s.turn != turn:
		return false
	case err != nil:
		s.leave()
		s.Do(app.LoseFilm{Why: view.FilmFailed(err)})
		return false
	}
	took(answer)
	return s.turn == turn
}

// answerTo sends the worker a message when it has answered the one before, and returns the
// answer. It sends nothing if something else has begun meanwhile.
func (s *filming) answerTo(turn int, o message.Object, with js.Value) (message.Object, error) {
	s.asking.Lock()
	defer s.asking.Unlock()
	if s.turn != turn {
		return nil, nil
	}
	if s.worker == nil {
		if err := s.start(); err != nil {
			return nil, err
		}
	}
	s.worker.Post(o, with)
	return s.hear(view.ErrFilmSilent)
}

// start starts the worker and waits until its program runs.
func (s *filming) start() (err error) {
	script := dom.Data(dom.ByID("loader"), "film")
	if script == "" {
		return view.ErrFilmInOne
	}
	s.answers = make(chan message.Object, 1)
	answers := s.answers
	tell := func(o message.Object) {
		select {
		case answers <- o:
		default: // nobody waits
		}
	}
	s.worker, err = device.StartWorker(script, tell, func() { tell(message.Failed{}.Object()) })
	if err != nil {
		return view.ErrFilmNoWorker
	}
	_, err = s.hear(view.ErrFilmNoReader)
	return err
}

// hear waits for a message of the worker. If none comes, or the worker has failed, it ends
// the worker; the next question starts another. silent is the error without a reason.
func (s *filming) hear(silent error) (message.Object, error) {
	select {
	case o := <-s.answers:
		if failed, is := message.ReadFailed(o); !is {
			return o, nil
		} else if failed.Reason != "" {
			silent = view.ErrFilmEnded(failed.Reason)
		}
	case <-time.After(patient):
	}
	s.worker.End()
	s.worker = nil
	return nil, silent
}

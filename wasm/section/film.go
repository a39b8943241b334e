//go:build js && wasm

package section

import (
	"errors"
	"strconv"
	"sync"
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/message"
	"pivotbench/wasm/view"
)

// filming is the part of Measure that reads a stroke from a film. The browser decodes the
// film and a worker of our own reads it.
type filming struct {
	Host
	film    *device.Film
	camera  *device.Camera
	turn    int // counts films and readings: what belongs to an earlier one is dropped
	asking  sync.Mutex
	worker  *device.Worker
	answers chan message.Object
	held    heldMark
	times   []float64 // of the frames, where the worker can't decode them; else nil
	frame   int       // index of the frame that the video shows
	fitted  string    // the shot and the line for which the stroke is fitted
	seen    app.Film  // the film as it was shown last
	stood   string    // the shot for which the stand was worked out anew
	whose   string    // whose stroke is filmed, and how it is played, in words
}

// filmGauges are what a film measures for the shot, by the buttons that use it there.
var filmGauges = map[string]func(*view.FilmView) view.Gauged{
	"film-speed": func(v *view.FilmView) view.Gauged { return v.Speed },
	"film-roll":  func(v *view.FilmView) view.Gauged { return v.Roll },
	"film-slide": func(v *view.FilmView) view.Gauged { return v.Slide },
}

func (s *filming) listen(h Host) {
	s.Host = h
	dom.Each(`input[data-file="film"]`, func(input js.Value) {
		dom.Listen(input, "change", func(js.Value) {
			if file := input.Get("files").Index(0); file.Truthy() {
				s.open(file)
			}
			input.Set("value", "") // so that the same film can be chosen again
		})
	})
	s.listenMarks()
	dom.On("film-take", func(js.Value) { s.takeFilm() })
	dom.On("film-cut", func(js.Value) { s.cutFilm() })
	dom.On("film-read", func(js.Value) { s.read() })
	dom.On("film-stop", func(js.Value) { s.fail(view.FilmStopped) })
	dom.On("film-marks", func(js.Value) { s.Do(app.CorrectMarks{}) })
	dom.On("film-shut", func(js.Value) { s.shut() })
	dom.Listen(dom.ByID("film"), "keydown", func(e js.Value) {
		m := s.Model()
		switch v := view.FilmOf(&m); {
		case e.Get("key").String() != "Escape":
		case v.Reading:
			s.fail(view.FilmStopped)
		case v.Taking:
			s.shut()
		}
	})
	for do, of := range filmGauges {
		dom.On(do, func(js.Value) {
			before := s.Model()
			v := view.FilmOf(&before)
			g := of(&v)
			s.Do(app.UseReading{Sets: g.Sets, Sure: g.Sure, When: device.Moment()})
			after := s.Model()
			s.Say(view.UsedWords(&before, &after))
		})
	}
	dom.On("film-turn-leave", func(js.Value) { s.Do(app.LeaveFilmTurn{}) })
	dom.On("film-strike", func(js.Value) {
		s.Do(app.StrikeFrame{})
		s.fit()
	})
	dom.Listen(dom.ByID("film-stroke"), "change", func(js.Value) {
		s.Do(app.PickStroke{Stroke: max(0, dom.ByID("film-stroke").Get("selectedIndex").Int())})
		s.fit()
	})
	dom.Listen(dom.ByID("film-frame"), "input", func(js.Value) {
		n, _ := strconv.Atoi(dom.Text("film-frame"))
		s.Do(app.ScrubFilm{Frame: n})
	})
}

// takeFilm turns the device's camera on and films.
func (s *filming) takeFilm() {
	s.leave()
	if !device.Films() {
		s.Say(view.CameraMissing(device.Secure()))
		return
	}
	turn := s.turn
	s.Do(app.TakeFilm{})
	device.OpenCamera(dom.ByID("film-video"), func(camera *device.Camera, err error) {
		switch {
		case s.turn != turn:
			if camera != nil {
				camera.Shut()
			}
		case err != nil:
			s.Do(app.FailFilm{Why: cameraWords(err)})
		default:
			s.camera = camera
		}
	})
}

// cameraWords says why the camera does not film.
func cameraWords(err error) string {
	switch {
	case errors.Is(err, device.ErrRefused):
		return view.CameraRefused
	case errors.Is(err, device.ErrNoCamera):
		return view.CameraNone
	}
	return view.CameraFailed(err)
}

// shut closes the film, or turns the camera off.
func (s *filming) shut() {
	s.leave()
	s.Do(app.ShutFilm{})
}

// cutFilm ends filming, and opens what was filmed.
func (s *filming) cutFilm() {
	camera := s.camera
	if camera == nil {
		return
	}
	s.camera = nil
	turn := s.turn
	camera.Cut(func(file js.Value) {
		if s.turn == turn {
			s.open(file)
		}
	})
}

// leave lets go of the film, of the camera, and of what is under way.
func (s *filming) leave() {
	s.turn++
	s.times, s.stood = nil, ""
	if s.film != nil {
		s.film.Shut()
		s.film = nil
	}
	if s.camera != nil {
		s.camera.Shut()
		s.camera = nil
	}
}

// fail ends what is under way, for a reason. The film stays open.
func (s *filming) fail(why string) {
	s.turn++
	s.Do(app.FailFilm{Why: why})
}

// show writes the film's part of the section.
func (s *filming) show(m *app.Model) {
	f := &m.Film
	v := view.FilmOf(m)
	dom.Say("film-words", v.Words)
	dom.Say("film-result", v.Result)
	dom.Hide("film-screen", !v.Screen)
	dom.Hide("film-over", v.Taking)
	dom.Hide("film-fields", !v.Marks)
	dom.Hide("film-reading", !v.Reading)
	offer := func(do string, on bool) { dom.Doer(do).Set("hidden", !on) }
	offer("film-take", !v.Taking)
	offer("film-cut", v.Taking)
	offer("film-shut", v.Open)
	offer("film-marks", v.Done)
	offer("film-note", v.CanNote || v.Noted) // so that the buttons stay where they are
	dom.Doer("film-note").Set("disabled", v.Noted)
	for do, of := range filmGauges {
		offer(do, of(&v).Sets != nil)
	}
	dom.Say("film-roll", v.Roll.Head)
	dom.Say("film-slide", v.Slide.Head)
	dom.Doer("film-read").Set("disabled", !v.CanRead)
	dom.ByID("film-share").Set("value", f.Share)
	dom.Say("film-percent", v.Share)
	for _, r := range v.Readings {
		data := dom.Find(`[data-reading="` + r.Name + `"]`).Get("dataset")
		data.Set("value", r.Value)
		data.Set("from", r.From)
		data.Set("to", r.To)
	}
	s.showWhose(m)
	s.showStrokes(v.Strokes)
	s.showFrames(f, v)
	s.showPicture(f)
	sight := view.FilmSight(&s.seen, f)
	if len(sight) > 0 && f.Step == app.FilmShut {
		dom.ByID("film").Set("open", true)
	}
	for _, id := range sight {
		dom.InSight(dom.ByID(id))
	}
	s.seen = *f
	if f.Step == app.FilmDone && !m.Dragging && s.fitted != s.fitFor(m) {
		s.fit() // another shot or line was set: what is expected of the stroke has changed
	}
	if f.Why == app.FilmRelaid && !m.Dragging && s.stood != m.Scene.Format() {
		s.stood = m.Scene.Format()
		s.stand()
	}
}

// showWhose says whose stroke is filmed, and opens this part of the page for a new one, as
// after a reload.
func (s *filming) showWhose(m *app.Model) {
	words := view.FilmTurnWords(m)
	if words != s.whose && words != "" {
		dom.ByID("film").Set("open", true)
	}
	s.whose = words
	dom.Say("film-turn-words", dom.Unbroken(words))
	dom.Hide("film-turn", words == "")
	dom.Set(dom.Doer("film-turn-leave"), "textContent", view.BackToPlayer(m))
	dom.Set(dom.Doer("film-note"), "textContent", view.FilmNoteWords(m))
}

// showStrokes writes the menu of strokes, if there are several.
func (s *filming) showStrokes(names []string) {
	menu := dom.ByID("film-stroke")
	dom.Hide("film-strokes", len(names) == 0)
	if menu.Get("length").Int() == len(names) {
		return
	}
	menu.Call("replaceChildren")
	for _, name := range names {
		dom.Put("option", name, menu)
	}
}

// showFrames writes the scrubber, and moves the video to its frame.
func (s *filming) showFrames(f *app.Film, v view.FilmView) {
	dom.Hide("film-frames", v.Frame == "")
	if v.Frame == "" {
		if s.film != nil && s.frame >= 0 && v.Marks {
			s.film.Seek(0) // the picture to which the marks belong
		}
		s.frame = -1
		return
	}
	dom.Say("film-frame-words", v.Frame)
	slider := dom.ByID("film-frame")
	slider.Set("max", len(f.Track.Frames)-1)
	slider.Set("value", f.Frame)
	slider.Call("setAttribute", "aria-valuetext", v.Frame)
	strike := dom.Doer("film-strike")
	strike.Set("textContent", view.StrikeWords(v.Struck))
	strike.Call("setAttribute", "aria-pressed", v.Struck)
	if s.film != nil && s.frame != f.Frame {
		s.frame = f.Frame
		const inside = 1e-3 // seconds into the frame, so that rounding does not show the one before
		s.film.Seek(f.Track.Frames[f.Frame].Time + inside)
	}
}

// showPicture draws marks, lines and track over the film.
func (s *filming) showPicture(f *app.Film) {
	if f.Width == 0 {
		return
	}
	over := dom.ByID("film-over")
	over.Call("setAttribute", "viewBox", "0 0 "+dom.Number(f.Width)+" "+dom.Number(f.Height))
	dom.ByID("film-lines").Set("innerHTML", view.FilmLines(f))
	focus := dom.Document.Get("activeElement")
	for _, ball := range app.FilmBalls {
		d := view.FilmMarkOf(f, ball)
		dom.Each(`.film [data-ball="`+ball+`"]`, func(el js.Value) { el.Call("toggleAttribute", "hidden", !d.On) })
		if !d.On {
			continue
		}
		for _, a := range d.Attributes(ball) {
			dom.Find(a.Of).Call("setAttribute", a.Name, a.Value)
		}
		for _, axis := range []string{"x", "y"} {
			if field := dom.ByID("film-" + ball + "-" + axis); !field.Equal(focus) {
				dom.Set(field, "value", view.FilmMarkText(f, ball, axis))
			}
		}
	}
}

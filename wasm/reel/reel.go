// Package reel reads films for the page: messages and luma in, answers out. It is the
// worker's program without the browser. Plain Go.
package reel

import (
	"errors"
	"slices"

	"pivotbench/core/film"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/message"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/store"
)

// A Reel is a film that is being read. The stand stays for the next film from the same
// place.
type Reel struct {
	scale   float64 // pixels of the film for one of a picture
	first   film.Picture
	stand   *film.Stand // nil if it is not known
	of      layout      // for which the stand is
	reader  *film.Reader
	strokes []*film.Stroke
}

// A layout is what the shot says about where the balls are.
type layout struct {
	link   string
	shot   shot.Shot
	across unit.Length
	balls  []film.Ball
}

func layoutOf(link string) layout {
	s, _ := scenario.Parse(link)
	sh := s.Shot()
	return layout{link, sh, s.GearTable().Width, film.Layout(&sh)}
}

// First takes the first picture of a film. If the film before was made from the same stand,
// it answers with that stand, else with marks to begin with: those of the film before,
// where there are any.
func (r *Reel) First(m message.FilmFirst, luma []byte) message.FilmStand {
	r.reader, r.strokes = nil, nil
	of, first, before := layoutOf(m.Link), picture(m.Width, m.Height, slices.Clone(luma)), r.stand
	if before != nil && (!r.of.places(of) || first.Width != r.first.Width || first.Height != r.first.Height) {
		before = nil
	}
	r.scale, r.first, r.of, r.stand = m.Scale, first, of, before
	if before == nil {
		return r.fresh(m.Marks)
	}
	if err := before.Check(r.first); err != nil {
		if stand := r.fresh(m.Marks); stand.Stood() {
			stand.Found = true
			return stand
		}
		return message.FilmStand{FilmStand: app.FilmStand{Marks: r.marks(before.Balls()), Why: words(err)}}
	}
	stand := r.stood()
	stand.Same = true
	return stand
}

// places reports whether two layouts have the same balls in the same places.
func (l layout) places(other layout) bool {
	if l.shot.Ball.Radius != other.shot.Ball.Radius || len(l.balls) != len(other.balls) {
		return false
	}
	for i := range l.balls {
		if l.balls[i].At != other.balls[i].At {
			return false
		}
	}
	return true
}

// fresh answers with a stand that has to be found: by the marks of an earlier film, if they
// fit this one too, or by looking for the balls. Failing both, it answers with marks to begin
// with.
func (r *Reel) fresh(given []app.FilmMark) message.FilmStand {
	if balls, left := r.marked(given); left == 0 {
		if stand := r.calibrate(balls); stand.Stood() {
			return stand
		}
	}
	if balls, err := film.Find(r.first, r.of.shot.Ball.Radius, r.of.balls); err == nil {
		if stand := r.calibrate(balls); stand.Stood() {
			stand.Found = true
			return stand
		}
	}
	return message.FilmStand{FilmStand: app.FilmStand{Marks: r.marks(r.begin(given))}}
}

// begin returns the balls with marks to begin with: those that are given, or as from above,
// with the cue ball at the left or the bottom, whichever way the picture is longer. The
// user moves them to where the balls are.
func (r *Reel) begin(given []app.FilmMark) []film.Ball {
	w, h := float64(r.first.Width), float64(r.first.Height)
	balls, left := r.marked(given)
	if left == 0 && !slices.ContainsFunc(balls, func(b film.Ball) bool { return b.Mark.X > w || b.Mark.Y > h }) {
		return balls
	}
	for i := range balls {
		b := &balls[i]
		ahead := 0.15 + 0.7*float64(b.At.Y/max(r.of.shot.Dist, r.of.shot.Gate.Dist))
		aside := 0.5
		switch b.Role {
		case film.Left:
			aside = 0.25
		case film.Right:
			aside = 0.75
		}
		b.Radius, b.Mark = 0, film.Point{X: ahead * w, Y: aside * h}
		if h > w {
			b.Mark = film.Point{X: aside * w, Y: (1 - ahead) * h}
		}
	}
	return balls
}

// marked returns the balls with the marks that are given, and the number of those left
// without one.
func (r *Reel) marked(given []app.FilmMark) (balls []film.Ball, left int) {
	balls = append(balls, r.of.balls...)
	left = len(balls)
	for i := range balls {
		for _, k := range given {
			if k.Ball == app.FilmBalls[balls[i].Role] {
				balls[i].Mark = film.Point{X: k.At.X / r.scale, Y: k.At.Y / r.scale}
				balls[i].Radius = k.Radius / r.scale
				left--
			}
		}
	}
	return balls, left
}

// Marks takes the marks that the user has set.
func (r *Reel) Marks(m message.FilmMarks) message.FilmStand {
	r.reader, r.strokes = nil, nil
	r.of = layoutOf(m.Link)
	balls, _ := r.marked(m.Marks)
	return r.calibrate(balls)
}

func (r *Reel) calibrate(balls []film.Ball) message.FilmStand {
	stand, err := film.Calibrate(r.first, r.of.shot.Ball.Radius, balls, nil)
	if err != nil {
		r.stand = nil
		return message.FilmStand{FilmStand: app.FilmStand{Marks: r.marks(balls), Why: words(err)}}
	}
	r.stand = stand
	return r.stood()
}

// stood returns what the stand shows: its marks, and the lines to draw.
func (r *Reel) stood() message.FilmStand {
	s := app.FilmStand{Marks: r.marks(r.stand.Balls())}
	sh := &r.of.shot
	far := sh.Dist
	for _, b := range r.of.balls {
		far = max(far, b.At.Y)
	}
	s.Aim = r.line(film.Place{}, film.Place{Y: far})
	line, half := sh.Gate.Dist, 4*sh.Ball.Radius
	if line == 0 {
		line = sh.Dist
	}
	s.Gate = r.line(film.Place{X: -half, Y: line}, film.Place{X: half, Y: line})
	return message.FilmStand{FilmStand: s}
}

// pieces is the number of straight pieces as which a line is drawn, since lenses bend.
const pieces = 12

func (r *Reel) line(from, to film.Place) (out []app.FilmPoint) {
	for i := range pieces + 1 {
		k := unit.Length(i) / pieces
		if p, ok := r.stand.Pixel(film.Place{X: from.X + k*(to.X-from.X), Y: from.Y + k*(to.Y-from.Y)}); ok {
			out = append(out, r.point(p))
		}
	}
	return out
}

func (r *Reel) point(p film.Point) app.FilmPoint {
	return app.FilmPoint{X: p.X * r.scale, Y: p.Y * r.scale}
}

func (r *Reel) marks(balls []film.Ball) (out []app.FilmMark) {
	for _, b := range balls {
		out = append(out, app.FilmMark{Ball: app.FilmBalls[b.Role], At: r.point(b.Mark), Radius: b.Radius * r.scale})
	}
	return out
}

// ErrNoStand means that frames came before the camera's place was known.
var ErrNoStand = errors.New("mark the balls in the first picture first")

// Frame takes a picture of the film.
func (r *Reel) Frame(m message.FilmFrame, luma []byte) message.FilmTook {
	return message.FilmTook{Why: words(r.frame(m, luma))}
}

func (r *Reel) frame(m message.FilmFrame, luma []byte) (err error) {
	if r.stand == nil {
		return ErrNoStand
	}
	if m.Start {
		r.strokes = nil
		if r.reader, err = film.NewReader(r.stand, r.first); err != nil {
			return err
		}
	}
	if r.reader == nil {
		return ErrNoStand
	}
	return r.reader.Add(picture(m.Width, m.Height, luma), unit.Span(m.Time))
}

// End answers with the strokes in the film.
func (r *Reel) End() message.FilmStrokes {
	if r.reader == nil {
		return message.FilmStrokes{Why: words(ErrNoStand)}
	}
	strokes, err := r.reader.Strokes()
	r.reader, r.strokes = nil, strokes
	out := message.FilmStrokes{Why: words(err)}
	for _, k := range strokes {
		out.Begins = append(out.Begins, float64(k.Begin))
	}
	return out
}

// Fit answers with a stroke as the film shows it.
func (r *Reel) Fit(m message.FilmFit) message.FilmTrack {
	if m.Stroke < 0 || m.Stroke >= len(r.strokes) {
		return message.FilmTrack{FilmTrack: app.FilmTrack{Why: words(film.ErrNoStroke)}}
	}
	k := r.strokes[m.Stroke]
	for i := range k.Frames {
		k.Frames[i].Struck = false
	}
	for _, i := range m.Struck {
		if i >= 0 && i < len(k.Frames) {
			k.Frames[i].Struck = true
		}
	}
	var t app.FilmTrack
	for _, f := range k.Frames {
		t.Frames = append(t.Frames, app.FilmFrame{Time: float64(f.Time), At: r.point(f.At)})
	}
	of := layoutOf(m.Link)
	res, err := k.Fit(film.ExpectOf(&of.shot))
	if err == nil {
		err = r.tell(&t, res, m.Line)
		tellCloth(&t, k)
	}
	t.Why = words(err)
	return message.FilmTrack{FilmTrack: t}
}

// nearer are the shares of the distance of a line at which the ball is looked for, should
// the film not show it that far.
var nearer = []float64{1, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3}

// tell fills a track in from a fit.
func (r *Reel) tell(t *app.FilmTrack, res *film.Result, line unit.Length) error {
	t.Launch, t.Speed = res.Launch, res.Speed
	for i, f := range res.Frames {
		t.Frames[i].Off, t.Frames[i].Used = f.Off*r.scale, f.Used
	}
	err := film.ErrNoLine
	for _, share := range nearer {
		t.Line = unit.Length(share) * line
		if t.Arrival, err = res.Arrival(t.Line); err == nil {
			break
		}
	}
	if err != nil {
		return err
	}
	for i := range pieces + 1 {
		y := unit.Length(i) / pieces * t.Line
		when, err := res.Path.AtLine(max(y, 1e-6))
		if err != nil {
			break
		}
		at, _ := res.Path.At(when)
		if p, ok := r.stand.Pixel(film.Place{X: unit.Length(at.Pos.X), Y: unit.Length(at.Pos.Y)}); ok {
			t.Path = append(t.Path, r.point(p))
		}
	}
	seen, err := res.Sight([]unit.Length{t.Line}, r.of.across)
	if err != nil {
		return err
	}
	t.Record = store.Filmed(seen)
	return res.SpeedErr
}

// tellCloth fills in what a film shows of the cloth: a long roll its rolling friction, a long
// slide its sliding friction.
func tellCloth(t *app.FilmTrack, k *film.Stroke) {
	f, err := k.Friction()
	if err != nil {
		return
	}
	t.Roll, t.Slide = f.Roll, f.Slide
}

// words returns an error as a sentence, or nothing.
func words(err error) string {
	if err == nil {
		return ""
	}
	return phrase.Upper(err.Error()) + "."
}

func picture(width, height int, luma []byte) film.Picture {
	return film.Picture{Width: width, Height: height, Stride: width, Luma: luma}
}

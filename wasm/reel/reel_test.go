package reel_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/film"
	"pivotbench/core/film/filmtest"
	"pivotbench/core/gear"
	"pivotbench/core/motion"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
	"pivotbench/wasm/app"
	"pivotbench/wasm/message"
	"pivotbench/wasm/reel"
)

// scale is that of a film of twice the size of the pictures.
const scale = 2

// A clip is a rendered film with the link of its shot. The renderer shares no code with
// package film.
type clip struct {
	take  filmtest.Take
	film  *filmtest.Film
	link  string
	first message.FilmFirst
	luma  []byte // of the first picture
}

func newClip(seed uint64) clip {
	return clipOf(filmtest.Random(rand.New(rand.NewPCG(seed, 5)), 640, 360))
}

func clipOf(take filmtest.Take) clip {
	c := clip{take: take}
	c.film = filmtest.New(&c.take.Scene)
	s := scenario.Default()
	s.Side, s.Height, s.Elev = c.take.Shot.Contact.Side, c.take.Shot.Contact.Height, c.take.Shot.Elevation
	for _, b := range c.take.Balls {
		switch b.Role {
		case film.Target:
			s.Dist = b.At.Y
		case film.Right:
			s.Gate, s.Gap = b.At.Y, 2*(b.At.X-unit.Length(c.take.Scene.Radius))
		}
	}
	c.link = s.Format()
	p, _ := c.film.Next()
	c.luma = slices.Clone(p.Luma)
	c.first = message.FilmFirst{Link: c.link, Width: p.Width, Height: p.Height, Scale: scale}
	return c
}

// marks returns the balls where the renderer has them, in pixels of the film.
func (c *clip) marks() (out []app.FilmMark) {
	for _, b := range c.take.Balls {
		x, y, deep := c.film.Pixel(vec.V{X: float64(b.At.X), Y: float64(b.At.Y)})
		out = append(out, app.FilmMark{
			Ball: app.FilmBalls[b.Role], At: app.FilmPoint{X: scale * x, Y: scale * y},
			Radius: scale * c.take.Scene.Focal * c.take.Scene.Radius / deep,
		})
	}
	return out
}

// With the balls marked, the aim line drawn over the film runs from the cue ball to the
// target, and the marks lie on the balls.
func TestAimLineRunsThroughTheBalls(t *testing.T) {
	for seed := range uint64(3) {
		c := newClip(seed)
		var r reel.Reel
		asked := r.First(c.first, c.luma)
		require.Len(t, asked.Marks, 4)
		truth := c.marks()
		stand := r.Marks(message.FilmMarks{Link: c.link, Marks: truth})
		require.True(t, stand.Stood(), "seed %d: %s", seed, stand.Why)
		near := func(want, got app.FilmPoint) {
			assert.Less(t, math.Hypot(got.X-want.X, got.Y-want.Y), scale*4.0, "seed %d: %v, want %v", seed, got, want)
		}
		near(truth[0].At, stand.Aim[0])
		near(truth[1].At, stand.Aim[len(stand.Aim)-1])
		for i, k := range stand.Marks {
			assert.Equal(t, truth[i].Ball, k.Ball)
			near(truth[i].At, k.At)
		}
	}
}

// The balls of a first film are found without marks, or marks are offered that the user has
// to move. A worker that begins anew takes the marks of the film before.
func TestBallsAreProposed(t *testing.T) {
	found := 0
	for seed := range uint64(3) {
		c := newClip(seed)
		var r reel.Reel
		stand := r.First(c.first, c.luma)
		require.Len(t, stand.Marks, 4)
		assert.Equal(t, stand.Found, stand.Stood())
		truth := c.marks()
		if stand.Found {
			found++
			for i, k := range stand.Marks {
				assert.Equal(t, truth[i].Ball, k.Ball)
				assert.Less(t, math.Hypot(k.At.X-truth[i].At.X, k.At.Y-truth[i].At.Y), scale*4.0, "seed %d: %s", seed, k.Ball)
			}
		}
		again := c.first
		again.Marks = truth
		stand = new(reel.Reel).First(again, c.luma)
		assert.True(t, stand.Stood() && !stand.Found && !stand.Same, "seed %d: %s", seed, stand.Why)
	}
	assert.NotZero(t, found)
}

// A phone that has moved between two films is noticed, and the balls are found where they
// are now; where they can't be, the user is told.
func TestMovedPhone(t *testing.T) {
	c, other := newClip(0), newClip(1)
	var r reel.Reel
	r.First(c.first, c.luma)
	stand := r.Marks(message.FilmMarks{Link: c.link, Marks: c.marks()})
	require.True(t, stand.Stood(), stand.Why)
	same := r.First(c.first, c.luma)
	assert.True(t, same.Same && !same.Found)

	away := slices.Clone(c.luma) // 12 pixels to the right
	for y := range c.first.Height {
		row := away[c.first.Width*y:][:c.first.Width]
		copy(row[12:], c.luma[c.first.Width*y:][:c.first.Width-12])
	}
	moved := r.First(c.first, away)
	require.True(t, moved.Found, moved.Why)
	assert.False(t, moved.Same)
	for i, k := range moved.Marks {
		assert.InDelta(t, stand.Marks[i].At.X+12*scale, k.At.X, scale*2)
	}

	elsewhere := c.first
	elsewhere.Marks = moved.Marks
	lost := r.First(elsewhere, other.luma) // another layout
	assert.False(t, lost.Stood())
	assert.Contains(t, lost.Why, "moved")
	assert.Len(t, lost.Marks, 4)
}

// A mark that is on no ball is refused by the ball's name, and the marks come back as they
// were set.
func TestMarkBesideItsBall(t *testing.T) {
	c := newClip(1)
	var r reel.Reel
	r.First(c.first, c.luma)
	marks := c.marks()
	marks[2], marks[3] = marks[3], marks[2]
	marks[2].Ball, marks[3].Ball = "left", "right"
	stand := r.Marks(message.FilmMarks{Link: c.link, Marks: marks})
	assert.False(t, stand.Stood())
	assert.Contains(t, stand.Why, "blocker: the balls in the picture do not lie where the shot has them")
	for i, k := range stand.Marks {
		assert.InDelta(t, marks[i].At.X, k.At.X, 1e-9)
	}
}

// Nothing is read before the balls are marked, and a picture of another size ends the
// reading with words.
func TestFramesThatCantBeTaken(t *testing.T) {
	c := newClip(2)
	var r reel.Reel
	frame := message.FilmFrame{Width: c.first.Width, Height: c.first.Height, Start: true}
	r.First(message.FilmFirst{Link: c.link, Width: 64, Height: 64, Scale: 1}, make([]byte, 64*64)) // black: no ball
	assert.Equal(t, "Mark the balls in the first picture first.", r.Frame(frame, c.luma).Why)
	assert.Equal(t, "Mark the balls in the first picture first.", r.End().Why)
	assert.NotEmpty(t, r.Fit(message.FilmFit{}).Why)
	r.First(c.first, c.luma)
	stand := r.Marks(message.FilmMarks{Link: c.link, Marks: c.marks()})
	require.True(t, stand.Stood(), stand.Why)
	assert.Equal(t, "Mark the balls in the first picture first.", r.Frame(message.FilmFrame{Width: 640, Height: 360}, c.luma).Why, "not the start")
	assert.Empty(t, r.Frame(frame, c.luma).Why)
	bad := message.FilmFrame{Time: 0.1, Width: 2, Height: 2}
	assert.Contains(t, r.Frame(bad, make([]byte, 16)).Why, "This frame is not a picture")
}

// read hands the film on.
func (c *clip) read(t *testing.T, r *reel.Reel) {
	t.Helper()
	for i := range c.film.Frames() - 1 {
		p, at := c.film.Next()
		took := r.Frame(message.FilmFrame{Time: at, Width: p.Width, Height: p.Height, Start: i == 0}, p.Luma)
		require.Empty(t, took.Why)
	}
}

// A long roll shows the cloth's rolling resistance, and too little of its sliding friction to
// be told.
func TestLongRollShowsTheCloth(t *testing.T) {
	take := filmtest.Random(rand.New(rand.NewPCG(2, 5)), 640, 360)
	const resistance, speed = 0.014, 0.42
	s := &take.Scene
	radius := unit.Length(s.Radius)
	s.Path = motion.Run(vec.V{Y: speed}, vec.V{X: -speed / s.Radius}, radius, gear.Cloth{Slide: 0.2, Roll: resistance, SpinDecay: 10, Rebound: 0.5})
	s.Rate, s.Exposure, s.Length = 15, 0.01, 3.5
	take.Shot.Contact.Side, take.Shot.Contact.Height, take.Shot.Elevation = 0, 0, 0
	c := clipOf(take)
	var r reel.Reel
	r.First(c.first, c.luma)
	stand := r.Marks(message.FilmMarks{Link: c.link, Marks: c.marks()})
	require.True(t, stand.Stood(), stand.Why)
	c.read(t, &r)
	require.Len(t, r.End().Begins, 1)
	track := r.Fit(message.FilmFit{Link: c.link, Line: 0.6})
	assert.InEpsilon(t, resistance, track.Roll.Median, 0.1, track.Why)
	assert.True(t, track.Roll.Holds(resistance), "%v", track.Roll)
	assert.Zero(t, track.Slide)
}

// A whole film is read: the launch is within half a degree of the renderer's, whose path
// comes from core/motion, and the stroke can be kept.
func TestStrokeOnFilm(t *testing.T) {
	c := newClip(2)
	var r reel.Reel
	r.First(c.first, c.luma)
	stand := r.Marks(message.FilmMarks{Link: c.link, Marks: c.marks()})
	require.True(t, stand.Stood(), stand.Why)
	c.read(t, &r)
	found := r.End()
	require.Len(t, found.Begins, 1, found.Why)
	track := r.Fit(message.FilmFit{Link: c.link, Line: 0.6})
	require.True(t, track.Read(), track.Why)
	assert.InDelta(t, c.take.Launch, float64(track.Launch.Median), float64(0.5*unit.Degree))
	assert.InEpsilon(t, c.take.Speed, float64(track.Speed.Median), 0.05)
	k := track.Record
	k.Link = c.link
	assert.Empty(t, k.Faults())
}

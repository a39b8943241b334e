package film

import (
	"math"

	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// A Reader takes the frames of a film in their order and finds its strokes. It keeps the
// first picture, a background of the same size, and for each frame of a stroke the few
// places where the ball may be.
type Reader struct {
	stand         *Stand
	lens          lens
	width, height int
	back          []float32 // luma without the moving ball, in the first picture's pixels
	seen          []uint8   // number of frames in it, up to deep
	hidden        []bool    // the cue ball's spot, whose background is not known
	patches       []patch   // balls that stand still
	spot          patch     // the cue ball on its spot
	cells         []cell
	spans         []span // of each row, where the ball may come
	like          *likeness
	swath         swath     // for fitBlob
	pixels        []pixel   // and this
	kept          int       // bytes of crops
	bright        float64   // mean luma of the cue ball
	light         float64   // how much brighter this frame is than the background
	shake         Point     // of this frame
	known         unit.Span // when the camera's place was last known
	learns        int       // frames that the background was learned from
	learned       unit.Span // when last
	begin, last   unit.Span // of the film
	frames        int
	sum           uint64 // of the last frame, to know duplicates
	resting       unit.Span
	stroke        *Stroke // that may be under way
	away          bool    // the cue ball has left its spot, and its stroke has been seen
	midway        bool    // it was under way in the first frame already
	strokes       []*Stroke
	err           error
}

// A cell is a place on the table where the ball is looked for.
type cell struct {
	at Place
	e  ellipse
}

// Limits of reading.
const (
	deep       = 12   // frames in the background
	candidates = 4    // places a frame
	mostMoved  = 0.03 // shake as a share of the picture's width
	blind      = 0.5  // seconds without any ball that stands still
)

// NewReader returns a reader of a film made from a stand. Its first picture is the film's;
// hand it to Add as well. Errors: ErrPicture; ErrMoved if the balls of the stand are not
// where they were; ErrDark.
func NewReader(s *Stand, first Picture) (*Reader, error) {
	if err := s.Check(first); err != nil {
		return nil, err
	}
	r := &Reader{stand: s, lens: s.camera.lens(), width: first.Width, height: first.Height}
	r.back = make([]float32, r.width*r.height)
	r.seen = make([]uint8, len(r.back))
	r.hidden = make([]bool, len(r.back))
	for y := range r.height {
		for x := range r.width {
			r.back[y*r.width+x] = float32(first.Luma[y*first.Stride+x])
		}
	}
	for i := range s.balls {
		if s.balls[i].Role == Cue {
			e := s.found[i].ellipse
			r.spot = newPatch(&first, &e)
			n := 0.0
			r.disc(e, 0.8, func(o int) { r.bright += float64(r.back[o]); n++ })
			r.bright /= n
			r.like = likenessOf(&first, e)
			r.clear(&e)
		} else {
			r.disc(s.found[i].ellipse, 1.1, func(o int) { r.hidden[o] = true })
			r.patches = append(r.patches, newPatch(&first, &s.found[i].ellipse))
		}
	}
	r.plan()
	ground, n := 0.0, 0.0
	for i := range r.cells {
		ground += r.backAt(r.cells[i].e.Point)
		n++
	}
	if n == 0 || r.bright-ground/n < faint {
		return nil, ErrDark
	}
	return r, nil
}

// faint is the least difference of luma between cue ball and cloth.
const faint = 20

// Check returns ErrMoved if the balls that stand still are not where the stand has them in
// the first picture of another film, and ErrCutStart if the cue ball is not on its spot.
func (s *Stand) Check(first Picture) error {
	if err := first.check(); err != nil {
		return err
	}
	if float64(first.Width) != s.camera.width || float64(first.Height) != s.camera.height {
		return ErrPicture
	}
	onSpot := true
	for i := range s.balls {
		e := s.found[i].ellipse
		o, ok := refine(&first, e, e.long)
		if ok && math.Hypot(o.X-e.X, o.Y-e.Y) < 0.15*e.long+1.5 {
			continue
		}
		if s.balls[i].Role != Cue {
			return ErrMoved
		}
		onSpot = false
	}
	if !onSpot {
		return ErrCutStart
	}
	return nil
}

// The corridor in which the ball is looked for: how far to either side of the aim line at
// the start, how much further with distance, and how far down the table.
const (
	corridorHalf  = 0.05
	corridorSlope = 0.16
	corridorLong  = 2.4
)

// plan lays out the cells of the corridor that are in the picture.
func (r *Reader) plan() {
	r.spans = make([]span, r.height)
	step := 0.5 * r.stand.radius
	for y := 1.5 * r.stand.radius; y < corridorLong; y += step {
		half := corridorHalf + corridorSlope*y
		for x := -half; x <= half; x += step {
			e, ok := r.lens.ball(vec.V{X: x, Y: y}, r.stand.radius)
			if ok && e.long > 2 && e.X > e.long && e.Y > e.long && e.X < float64(r.width)-e.long && e.Y < float64(r.height)-e.long {
				r.cells = append(r.cells, cell{Place{unit.Length(x), unit.Length(y)}, e})
				r.reach(&e)
			}
		}
	}
}

// Add reads the next frame. Errors: ErrPicture, ErrTimes; after one no more frames can be
// read, but Strokes has what was found before.
func (r *Reader) Add(p Picture, at unit.Span) error {
	if r.err != nil {
		return r.err
	}
	r.err = r.add(p, at)
	return r.err
}

func (r *Reader) add(p Picture, at unit.Span) error {
	if p.check() != nil || p.Width != r.width || p.Height != r.height {
		return ErrPicture
	}
	if !(at >= 0) || r.frames > 0 && at < r.last {
		return ErrTimes
	}
	sum := checksum(&p)
	again := r.frames > 0 && (sum == r.sum || at == r.last)
	r.sum, r.last = sum, at
	if again {
		return nil // the same frame again
	}
	if r.frames++; r.frames == 1 {
		r.begin = at
	}
	shake, ok := r.steady(&p)
	r.shake = shake
	if ok && math.Hypot(shake.X, shake.Y) < mostMoved*float64(r.width) {
		r.known = at
	} else if at-r.known > blind { // until the balls are seen again where they were
		r.away = r.settle() || r.away
		return nil
	}
	r.light = r.lightOf(&p)
	if r.rests(&p) {
		r.settle()
		r.resting, r.away = at, false
		r.learn(&p)
		return nil
	}
	if r.away {
		return nil
	}
	if r.stroke == nil {
		r.stroke = &Stroke{stand: r.stand, Begin: r.resting}
	}
	r.stroke.looked = append(r.stroke.looked, look{at, r.look(&p)})
	r.spare(at)
	return nil
}

// checksum tells frames apart.
func checksum(p *Picture) uint64 {
	sum := uint64(14695981039346656037)
	for y := 0; y < p.Height; y += 3 {
		for x := 0; x < p.Width; x += 7 {
			sum = (sum ^ uint64(p.Luma[y*p.Stride+x])) * 1099511628211 // FNV-1a
		}
	}
	return sum
}

// rests reports whether the cue ball is on its spot.
func (r *Reader) rests(p *Picture) bool {
	_, _, rms, ok := r.spot.shift(p, r.shake)
	return ok && rms < 10.5
}

// soon is the time within which a ball that left its spot may not have been seen yet, in
// seconds.
const soon = 0.2

// atOnce is the time in seconds from the first frame within which a stroke begins that began
// before it: where the ball was then is not its spot, but the bench was told so.
const atOnce = 0.02

// settle ends the stroke that may be under way, keeps it if the ball was seen on its way, and
// reports whether it did.
func (r *Reader) settle() (kept bool) {
	if r.stroke != nil && r.stroke.follow() {
		r.midway = r.midway || r.stroke.start()-r.begin < atOnce
		r.polish(r.stroke)
		r.strokes = append(r.strokes, r.stroke)
		kept = true
	}
	r.stroke, r.kept = nil, 0
	return kept
}

// Strokes returns the strokes that were seen so far, in order. Errors if there are none:
// ErrNoStroke, ErrCutStart, ErrCutEnd, ErrLost, ErrMoved, or what ended the reading.
func (r *Reader) Strokes() ([]*Stroke, error) {
	away := r.stroke
	r.settle()
	switch {
	case r.midway:
		return nil, ErrCutStart
	case len(r.strokes) > 0:
		return r.strokes, nil
	case r.err != nil:
		return nil, r.err
	case r.last-r.known > blind:
		return nil, ErrMoved
	case away == nil:
		return nil, ErrNoStroke
	case r.last-away.Begin < soon:
		return nil, ErrCutEnd
	}
	return nil, ErrLost
}

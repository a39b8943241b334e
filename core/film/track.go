package film

import (
	"math"

	"pivotbench/core/unit"
)

// A Stroke is one stroke of a film: the ball's places from frame to frame.
type Stroke struct {
	Begin  unit.Span // when the ball was last seen on its spot
	Frames []Frame   // in which the ball was seen on its way
	stand  *Stand
	looked []look
}

// A Frame is the ball in one frame of a film.
type Frame struct {
	Time   unit.Span
	At     Point   // outline's centre at mid-exposure, in the pixels of the first picture
	Blur   float64 // length of its way during the exposure, in pixels
	Struck bool    // struck out by a person: not to be used
	along  float64 // standard deviations
	across float64
	cos    float64 // direction of its way
	sin    float64
	place  Place
	from   *sighting // until it is polished
}

// The least and the greatest speed of a ball that is followed, in m/s.
const (
	slowest = 0.12
	fastest = 14
)

// nearStart is how far from its spot the ball is seen first at most.
const nearStart = 0.45

// meets reports whether a ball at a place is about to meet one that is known, so that it
// goes another way from there.
func (s *Stand) meets(at Place) bool {
	for _, b := range s.balls {
		if b.Role != Cue && math.Hypot(float64(b.At.X-at.X), float64(b.At.Y-at.Y)) < 2*s.radius+0.006 {
			return true
		}
	}
	return false
}

// follow picks from the places seen in each frame those of one ball that rolls away from
// the spot, and reports whether there is one.
func (k *Stroke) follow() bool {
	k.Frames = k.best()
	k.looked = nil
	return len(k.Frames) > 0
}

// best returns the places, one a frame, that look most like the ball's way, or nil.
func (k *Stroke) best() (best []Frame) {
	most := 0.0
	for i := range k.looked {
		j := i
		for range 3 { // the ball may not be seen in some of them
			if j = k.next(j); j == len(k.looked) {
				break
			}
			for a := range k.looked[i].seen {
				for b := range k.looked[j].seen {
					chain := k.chain(i, a, j, b)
					w := worth(chain)
					if len(best) > 0 && chain != nil && chain[0].Time > best[len(best)-1].Time {
						w *= laterWorth
					}
					if w > most {
						best, most = chain, w
					}
				}
			}
		}
	}
	return best
}

// laterWorth is how much less a way is worth that begins after the end of one that was found: the
// ball was put back, but not on its spot, and struck again.
const laterWorth = 0.25

// next returns which frame comes next that is far enough from another one to take a velocity
// from the two, or the number of frames.
func (k *Stroke) next(i int) int {
	n := i + 1
	for n < len(k.looked) && k.looked[n].at-k.looked[i].at < baseLeast {
		n++
	}
	return n
}

// Times in seconds: how far apart two places are at least from which a velocity is taken, where
// the film has frames so close to each other, and for how long the ball may be hidden on its
// way.
const (
	baseLeast  = 0.015
	hiddenMost = 0.135
)

// worth is how much a chain looks like the ball's way: many places, and far. The tip of the
// cue follows the ball a little, and a hand comes and goes.
func worth(chain []Frame) float64 {
	if len(chain) < 3 {
		return 0
	}
	far := float64(chain[len(chain)-1].place.Y - chain[0].place.Y)
	if far < leastWay {
		return 0
	}
	return far * float64(len(chain))
}

// start returns when the ball was on its spot, going by its first places.
func (k *Stroke) start() unit.Span {
	a, b := &k.Frames[0], &k.Frames[later(k.Frames, 0)]
	return a.Time - (b.Time-a.Time)*unit.Span(a.place.Y/(b.place.Y-a.place.Y))
}

// leastWay is the least distance in metres that a ball is followed for.
const leastWay = 0.12

// chain follows the ball from one of its places, at the velocity that leads to another one at
// first, as long as each next place is about where those before it lead.
func (k *Stroke) chain(i, a, j, b int) []Frame {
	first, second := &k.looked[i].seen[a], &k.looked[j].seen[b]
	dt := float64(k.looked[j].at - k.looked[i].at)
	speed := float64(second.place.Y-first.place.Y) / dt
	if !(speed > slowest && speed < fastest) || first.place.Y > nearStart {
		return nil
	}
	// The ball comes from its spot, and left it after it was last seen there.
	if bearing(first.place)-bearing(second.place) > 0.08 || bearing(second.place)-bearing(first.place) > 0.08 {
		return nil
	}
	began := float64(k.looked[i].at) - float64(first.place.Y)/speed
	if began < float64(k.looked[0].at)-1.5*dt-0.02 {
		return nil
	}
	vx, vy := float64(second.place.X-first.place.X)/dt, speed
	chain := []Frame{frame(k.looked[i].at, first)}
	for n := i + 1; n < len(k.looked); n++ {
		last := &chain[len(chain)-1]
		ahead := float64(k.looked[n].at - last.Time)
		if ahead > hiddenMost {
			break
		}
		before := &chain[earlier(chain, len(chain)-1)]
		if dt := float64(last.Time - before.Time); dt >= baseLeast {
			vx, vy = float64(last.place.X-before.place.X)/dt, float64(last.place.Y-before.place.Y)/dt
		}
		var next *sighting
		near := 1.0
		for m := range k.looked[n].seen {
			s := &k.looked[n].seen[m]
			along := (float64(s.place.Y-last.place.Y) - vy*ahead) / (0.012 + 0.3*math.Abs(vy)*ahead)
			across := (float64(s.place.X-last.place.X) - vx*ahead) / 0.014
			if d := math.Hypot(along, across); d < near {
				next, near = s, d
			}
		}
		if next == nil {
			continue
		}
		if k.stand.meets(next.place) {
			break
		}
		chain = append(chain, frame(k.looked[n].at, next))
	}
	return chain
}

// earlier returns which frame before another one is far enough from it in time to take a
// velocity from.
func earlier(frames []Frame, i int) int {
	n := max(i-1, 0)
	for n > 0 && frames[i].Time-frames[n].Time < baseLeast {
		n--
	}
	return n
}

// later is the same after it.
func later(frames []Frame, i int) int {
	n := min(i+1, len(frames)-1)
	for n < len(frames)-1 && frames[n].Time-frames[i].Time < baseLeast {
		n++
	}
	return n
}

func frame(at unit.Span, s *sighting) Frame {
	return Frame{Time: at, At: s.Point, Blur: s.blur, along: s.along, across: s.across, cos: s.cos, sin: s.sin, place: s.place, from: s}
}

func bearing(p Place) float64 { return math.Atan2(float64(p.X), float64(p.Y)) }

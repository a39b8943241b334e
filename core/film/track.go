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
	crop   *window
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
	var best []Frame
	most := 0.0
	for i := range k.looked {
		for a := range k.looked[i].seen {
			for j := i + 1; j < min(len(k.looked), i+4); j++ {
				for b := range k.looked[j].seen {
					chain := k.chain(i, a, j, b)
					if w := worth(chain); w > most {
						best, most = chain, w
					}
				}
			}
		}
	}
	k.Frames = best
	k.looked = nil
	return len(best) >= 3
}

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

// leastWay is the least distance in metres that a ball is followed for.
const leastWay = 0.12

// chain follows the ball from two of its places, as long as each next place is about where
// the two before it lead.
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
	chain := []Frame{frame(k.looked[i].at, first), frame(k.looked[j].at, second)}
	gap := 0
	for n := j + 1; n < len(k.looked) && gap < 5; n++ {
		last, before := &chain[len(chain)-1], &chain[len(chain)-2]
		dt := float64(last.Time - before.Time)
		vx, vy := float64(last.place.X-before.place.X)/dt, float64(last.place.Y-before.place.Y)/dt
		ahead := float64(k.looked[n].at - last.Time)
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
			gap++
			continue
		}
		gap = 0
		if k.stand.meets(next.place) {
			break
		}
		chain = append(chain, frame(k.looked[n].at, next))
	}
	return chain
}

func frame(at unit.Span, s *sighting) Frame {
	return Frame{Time: at, At: s.Point, Blur: s.blur, along: s.along, across: s.across, cos: s.cos, sin: s.sin, place: s.place, crop: s.crop}
}

func bearing(p Place) float64 { return math.Atan2(float64(p.X), float64(p.Y)) }

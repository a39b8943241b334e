// Package replay is a shot in time: what happens when, and where the cue and
// the balls are at any moment. It computes nothing of its own: positions are
// those of the paths.
package replay

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"pivotbench/core/contact"
	"pivotbench/core/gear"
	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// A Kind is what happens at a moment.
type Kind int

// The kinds. A ball is followed until it stops, drops, or meets what the model
// has no answer for: a blocker, which would roll away, or a cushion.
const (
	Forward       Kind = iota // the cue comes forward
	Tip                       // it meets the ball, which leaves
	Lands                     // the cue ball, after a hop long enough to be seen
	Rolls                     // its sliding ends
	Gate                      // it passes between the blockers
	TouchesLeft               // it meets the left blocker, and is followed no further
	TouchesRight              // the right one
	Target                    // it passes the target's distance
	Object                    // it meets the object ball
	Stops                     // it comes to rest
	Cushion                   // it reaches a cushion, and is followed no further
	ObjectDrops               // the object ball reaches its pocket
	ObjectStops               // it comes to rest
	ObjectCushion             // it reaches a cushion
)

// An Event is what happens, and when: in seconds since the tip met the ball.
type Event struct {
	When unit.Span
	Kind Kind
}

const (
	// seen is the shortest flight that is told: a ball rises a millimetre in it.
	seen = 30 * unit.Millisecond
	// drawn and through are how far the cue is drawn back and follows through,
	// in bridge lengths. Common practice, no source; nothing depends on them.
	drawn, through = 0.5, 0.3
)

// A Timeline is a shot from the cue coming forward, before 0, to the last ball
// being followed no further.
type Timeline struct {
	From, To unit.Span
	Events   []Event // in order

	res    *shot.Result
	end    unit.Span    // of the cue ball's free path
	pot    *shot.Pot    // the object ball met; nil: not
	after  *motion.Path // the cue ball's from there
	gone   unit.Span    // end of that
	object unit.Span    // end of the object ball's
	stick  stick
}

// Of is the timeline of a shot that has been played on a table, with or
// without its object ball there. The error is why the ball was never sent.
func Of(s *shot.Shot, res *shot.Result, table gear.Table, object bool) (*Timeline, error) {
	if res.Launched != nil {
		return nil, res.Launched
	}
	t := &Timeline{res: res, stick: stroke(s, res)}
	bed := Lay(table, s.Ball.Radius, max(s.Dist, s.Gate.Dist)+2*s.Ball.Radius)
	t.add(t.stick.from(), Forward)
	t.add(0, Tip)

	end := t.follow(s, &res.Path, bed)
	if object {
		pot := new(shot.Pot)
		if err := s.Sink(&res.Path, pot); err == nil && pot.When <= end.When {
			t.pot, end = pot, Event{pot.When, Object}
		}
	}
	t.end = end.When
	t.add(end.When, end.Kind)
	t.onTheWay(s, &res.Path)
	if t.pot != nil {
		t.afterObject(s, bed)
	}
	slices.SortStableFunc(t.Events, func(a, b Event) int { return cmp.Compare(a.When, b.When) })
	t.From, t.To = t.Events[0].When, t.Events[len(t.Events)-1].When
	return t, nil
}

func (t *Timeline) add(when unit.Span, kind Kind) {
	t.Events = append(t.Events, Event{when, kind})
}

// follow is how a way of the cue ball ends: at a blocker, a cushion, or at rest.
func (t *Timeline) follow(s *shot.Shot, p *motion.Path, bed Bed) Event {
	end := Event{p.Stop(), Stops}
	if when, ok := bed.leaves(p, 0, 0, s.Ball.Radius); ok {
		end = Event{when, Cushion}
	}
	if _, err := contact.Pass(p, s.Gate, s.Ball.Radius); err != nil {
		return end
	}
	left, right := contact.Posts(s.Gate, s.Ball.Radius)
	if when, err := contact.Meet(p, left, s.Ball.Radius); err == nil && when < end.When {
		end = Event{when, TouchesLeft}
	}
	if when, err := contact.Meet(p, right, s.Ball.Radius); err == nil && when < end.When {
		end = Event{when, TouchesRight}
	}
	return end
}

// onTheWay adds what the cue ball does before its free path ends.
func (t *Timeline) onTheWay(s *shot.Shot, p *motion.Path) {
	passes := func(when unit.Span, err error, kind Kind) {
		if err == nil && when > 0 && when < t.end {
			t.add(when, kind)
		}
	}
	for _, seg := range p.Segments() {
		if seg.Phase == motion.Fly && seg.Length >= seen {
			passes(seg.Begin+seg.Length, nil, Lands)
		}
	}
	if roll := p.RollStart(); roll < p.Stop() {
		passes(roll, nil, Rolls)
	}
	if s.Gate.Dist > 0 {
		when, err := p.AtLine(s.Gate.Dist)
		passes(when, err, Gate)
	}
	when, err := p.AtCircle(s.Dist)
	passes(when, err, Target)
}

// afterObject adds what becomes of both balls once they have met.
func (t *Timeline) afterObject(s *shot.Shot, bed Bed) {
	t.after = new(motion.Path)
	t.after.Follow(t.pot.Cue, s.Ball.Radius, s.Cloth)
	end := t.follow(s, t.after, bed)
	t.gone = t.end + end.When
	t.add(t.gone, end.Kind)

	at := s.ObjectAt()
	last := Event{t.pot.Object.Stop(), ObjectStops}
	if when, err := t.pot.Object.AtCircle(s.Object.Dist); err == nil && t.pot.In(s) {
		last = Event{when, ObjectDrops}
	} else if when, ok := bed.leaves(&t.pot.Object, at.X, at.Y, s.Ball.Radius); ok {
		last = Event{when, ObjectCushion}
	}
	t.object = t.end + last.When
	t.add(t.object, last.Kind)
}

// ErrNone is a step from the first event back, or from the last one on.
var ErrNone = errors.New("there is nothing further that way")

// Next is the first event after a moment.
func (t *Timeline) Next(now unit.Span) (Event, error) {
	for _, e := range t.Events {
		if e.When > now {
			return e, nil
		}
	}
	return Event{}, ErrNone
}

// Last is the last event before a moment.
func (t *Timeline) Last(now unit.Span) (Event, error) {
	for _, e := range slices.Backward(t.Events) {
		if e.When < now {
			return e, nil
		}
	}
	return Event{}, ErrNone
}

// Reached is the latest event by a moment, the first one before it.
func (t *Timeline) Reached(now unit.Span) Event {
	reached := t.Events[0]
	for _, e := range t.Events {
		if e.When <= now {
			reached = e
		}
	}
	return reached
}

// Clamp is a moment brought within the timeline.
func (t *Timeline) Clamp(now unit.Span) unit.Span {
	return unit.Span(math.Min(math.Max(float64(now), float64(t.From)), float64(t.To)))
}

// Package replay is the timeline of a shot: what happens when, and where the cue and the
// balls are at any moment. Positions are those of the paths; the package computes none of
// its own.
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

// A Kind is a kind of event.
type Kind int

// The kinds of event. A ball is followed until it stops, drops, or meets something that
// the model does not cover: a cushion, or a blocker, which would roll away.
const (
	Forward       Kind = iota // the cue begins to move forward
	Tip                       // the tip meets the ball
	Lands                     // the cue ball lands after a visible hop
	Rolls                     // the cue ball begins to roll
	Gate                      // the cue ball passes between the blockers
	TouchesLeft               // the cue ball meets the left blocker and is no longer followed
	TouchesRight              // the cue ball meets the right blocker and is no longer followed
	Target                    // the cue ball passes the target's distance
	Object                    // the cue ball meets the object ball
	Stops                     // the cue ball comes to rest
	Cushion                   // the cue ball reaches a cushion and is no longer followed
	ObjectDrops               // the object ball reaches its pocket
	ObjectStops               // the object ball comes to rest
	ObjectCushion             // the object ball reaches a cushion and is no longer followed
)

// An Event is a kind of event and its time since the tip met the ball.
type Event struct {
	When unit.Span
	Kind Kind
}

const (
	// seen is the shortest flight that becomes an event. A ball rises a millimetre in it.
	seen = 30 * unit.Millisecond
	// drawn and through are the lengths of the backswing and of the follow-through, in
	// bridge lengths. Common practice, no source; they only affect the picture.
	drawn, through = 0.5, 0.3
)

// A Timeline is a shot from the moment the cue moves forward, before 0, until no ball is
// followed any longer.
type Timeline struct {
	From, To unit.Span
	Events   []Event // in order

	res    *shot.Result
	end    unit.Span    // when the cue ball's free path ends
	pot    *shot.Pot    // the object ball, once met; nil if it is not
	after  *motion.Path // the cue ball's path after that
	gone   unit.Span    // when that path ends
	object unit.Span    // when the object ball's path ends
	stick  stick
}

// Of returns the timeline of a shot that has been played on a table, with its object ball
// if object is true. The error says why the cue ball was not sent.
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

// follow returns how a path of the cue ball ends: at a blocker, at a cushion, or at rest.
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

// onTheWay adds the events of the cue ball before its free path ends.
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

// afterObject adds the events of both balls after they meet.
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

// ErrNone means that there is no event in that direction.
var ErrNone = errors.New("the shot has no further events that way")

// Next returns the first event after a moment.
func (t *Timeline) Next(now unit.Span) (Event, error) {
	for _, e := range t.Events {
		if e.When > now {
			return e, nil
		}
	}
	return Event{}, ErrNone
}

// Last returns the last event before a moment.
func (t *Timeline) Last(now unit.Span) (Event, error) {
	for _, e := range slices.Backward(t.Events) {
		if e.When < now {
			return e, nil
		}
	}
	return Event{}, ErrNone
}

// Reached returns the latest event up to a moment, or the first one if the moment is
// earlier.
func (t *Timeline) Reached(now unit.Span) Event {
	reached := t.Events[0]
	for _, e := range t.Events {
		if e.When <= now {
			reached = e
		}
	}
	return reached
}

// Clamp limits a moment to the timeline.
func (t *Timeline) Clamp(now unit.Span) unit.Span {
	return unit.Span(math.Min(math.Max(float64(now), float64(t.From)), float64(t.To)))
}

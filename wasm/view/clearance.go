package view

import (
	"math"
	"slices"
	"strings"

	"pivotbench/core/contact"
	"pivotbench/core/hop"
	"pivotbench/core/motion"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
	"pivotbench/wasm/phrase"
)

// A Clearing is what the Clearance section shows for a shot.
type Clearing struct {
	Head, Detail string
	Facts        []Fact
}

// Clear evaluates a shot as a hop over the gate, over the range of possible contact
// times of tip and bed.
func Clear(s *scenario.Scenario, contacts *Contacts) Clearing {
	sh := s.Shot()
	flown, err := fly(&sh, contacts.ratios())
	if err != nil {
		return Clearing{Head: phrase.Upper(err.Error())}
	}
	c := Clearing{}
	c.Head, c.Detail = hopVerdict(s, &sh, flown)
	c.heights(s, &sh, flown)
	c.strokes(s, &sh, contacts)
	c.way(s, &sh, flown)
	c.again(flown)
	return c
}

func (c *Clearing) add(name, value string) { c.Facts = append(c.Facts, Fact{name, value}) }

// HopHead returns only the verdict. It is fast enough to be called for every frame.
func HopHead(s *scenario.Scenario, contacts *Contacts) (head, detail string) {
	sh := s.Shot()
	flown, err := fly(&sh, contacts.ratios())
	if err != nil {
		return phrase.Upper(err.Error()), ""
	}
	return hopVerdict(s, &sh, flown)
}

// flown is a simulated shot for one ratio of contact times.
type flown struct {
	press hop.Press
	path  motion.Path
	pass  contact.Passage
	gate  error
}

// fly simulates a shot for every ratio of the tip's contact time to the bed's.
func fly(sh *shot.Shot, ratios []float64) ([]flown, error) {
	out := make([]flown, len(ratios))
	for i, r := range ratios {
		f := &out[i]
		var cue unit.Speed
		var err error
		if f.press, cue, err = hop.Pressed(sh, r); err != nil {
			return nil, err
		}
		f.press.Follow(sh, cue, &f.path)
		f.pass, f.gate = contact.Pass(&f.path, sh.Gate, sh.Ball.Radius)
	}
	return out, nil
}

// spread returns the range of a quantity over all simulated shots, in words.
func spread(all []flown, of func(*flown) float64, say func(float64) string) string {
	low, high := math.Inf(1), math.Inf(-1)
	for i := range all {
		v := of(&all[i])
		low, high = min(low, v), max(high, v)
	}
	return phrase.Range(say(low), say(high))
}

// agreed returns the distinct texts of all simulated shots, joined by "or".
func agreed(all []flown, of func(*flown) string) string {
	var said []string
	for i := range all {
		if text := of(&all[i]); !slices.Contains(said, text) {
			said = append(said, text)
		}
	}
	return strings.Join(said, " or ")
}

// room returns the smaller of the clearances to the two blockers, in metres. It is
// negative for a touch.
func (f *flown) room() float64 { return float64(min(f.pass.Left, f.pass.Right)) }

// hopVerdict returns in words whether the ball clears the gate, and by how much.
func hopVerdict(s *scenario.Scenario, sh *shot.Shot, all []flown) (head, detail string) {
	if err := all[0].gate; err != nil {
		return phrase.Upper(err.Error()), ""
	}
	clean, short := 0, 0
	for i := range all {
		switch all[i].pass.Outcome {
		case contact.Clean:
			clean++
		case contact.Short:
			short++
		}
	}
	small := func(v float64) string { return phrase.Small(s, v) }
	switch {
	case short == len(all):
		return "Stops short of the gate", "The ball stops or turns away before the blockers"
	case clean == 0:
		touch := agreed(all, func(f *flown) string {
			return map[contact.Outcome]string{contact.Left: "left blocker", contact.Right: "right blocker", contact.Short: "nothing"}[f.pass.Outcome]
		})
		return "Hits " + touch + " first", "Too low by " + spread(all, func(f *flown) float64 { return -f.room() }, small) + ", ball to ball"
	case clean < len(all):
		return "May touch", "Between " + small(-least(all)) + " too low and " + small(most(all)) + " to spare. It depends on how long the tip and the table stay on the ball"
	}
	room := spread(all, (*flown).room, small) + " to spare"
	how := agreed(all, func(f *flown) string { return flightOver(f, sh) })
	switch {
	case how == onCloth:
		return "Clears on the cloth", phrase.Upper(room) + ", with no hop"
	case strings.Contains(how, " or "):
		return "Clears", phrase.Upper(room) + ", ball to ball, " + how
	}
	return "Clears " + how, phrase.Upper(room) + ", ball to ball"
}

const onCloth = "on the cloth"

// flightOver returns in words the flight in which the ball passes the gate.
func flightOver(f *flown, sh *shot.Shot) string {
	over, err := hop.Over(&f.path, sh.Gate.Dist)
	switch {
	case err != nil:
		return onCloth
	case over.Number > 3:
		return "on a later hop"
	}
	return "on the " + [...]string{1: "first", 2: "second", 3: "third"}[over.Number] + " hop"
}

func least(all []flown) float64 {
	v := all[0].room()
	for i := range all {
		v = min(v, all[i].room())
	}
	return v
}

func most(all []flown) float64 {
	v := all[0].room()
	for i := range all {
		v = max(v, all[i].room())
	}
	return v
}

// heights adds the height that each blocker requires of the ball's centre, and the
// height that the ball has.
func (c *Clearing) heights(s *scenario.Scenario, sh *shot.Shot, all []flown) {
	small := func(v float64) string { return phrase.Small(s, v) }
	var lefts, rights []hop.Need
	for i := range all {
		left, right, err := hop.Needs(&all[i].path, sh.Gate, sh.Ball.Radius)
		if err != nil {
			c.add("height at the blockers", err.Error())
			return
		}
		lefts, rights = append(lefts, left), append(rights, right)
	}
	for _, b := range []struct {
		name  string
		needs []hop.Need
	}{{"left blocker", lefts}, {"right blocker", rights}} {
		middle := b.needs[len(b.needs)/2]
		if middle.Height == 0 {
			c.add("height at "+b.name, "passes beside it")
			continue
		}
		low, high := middle.Has, middle.Has
		for _, n := range b.needs {
			low, high = min(low, n.Has), max(high, n.Has)
		}
		c.add("height at "+b.name, "needs "+small(float64(middle.Height))+", has "+phrase.Range(small(float64(low)), small(float64(high)))+"; the blocker is "+small(float64(2*sh.Ball.Radius-middle.Aside))+" in the way")
	}
}

// strokes adds the lowest speed and the lowest elevation that clear the gate.
func (c *Clearing) strokes(s *scenario.Scenario, sh *shot.Shot, contacts *Contacts) {
	whose := " of the ball"
	if s.ByStroke {
		whose = " of the cue"
	}
	limit := Hardest(s)
	c.add("lowest speed at "+pitch(s, s.Elev), leastSaid(hop.LeastSpeeds(sh, contacts.ratios()), func(v unit.Speed) string {
		if v > limit {
			return pace(s, v) + whose + ", beyond most players"
		}
		return pace(s, v) + whose
	}))
	c.add("lowest elevation at "+pace(s, s.Speed)+whose, leastSaid(hop.LeastElevations(sh, contacts.forMap()), func(a unit.Angle) string { return pitch(s, a) }))
}

// leastSaid returns in words the least value that may clear and the least that
// certainly clears.
func leastSaid[T ~float64](l hop.Least[T], say func(T) string) string {
	switch {
	case l.MayErr != nil:
		return l.MayErr.Error()
	case l.WillErr != nil:
		return say(l.May) + " may clear; " + l.WillErr.Error()
	case say(l.May) == say(l.Will):
		return say(l.Will)
	}
	return say(l.May) + " may clear, " + say(l.Will) + " will"
}

func pace(s *scenario.Scenario, v unit.Speed) string {
	return scenario.DisplayOf(unit.SpeedKind, s.Units).Format(float64(v))
}

func pitch(s *scenario.Scenario, a unit.Angle) string {
	return scenario.DisplayOf(unit.AngleKind, s.Units).Format(float64(a))
}

// way adds the first flight, the effect of english on it, and how the ball meets
// the object ball.
func (c *Clearing) way(s *scenario.Scenario, sh *shot.Shot, all []flown) {
	if _, _, cue, err := sh.Stroke(); err == nil && cue > hop.Hardest {
		c.add("this stroke", "a cue speed of "+pace(s, cue)+" is beyond most players, who reach about "+pace(s, hop.Hardest)+" with the butt low and less with it up")
	}
	small := func(v float64) string { return phrase.Small(s, v) }
	long := func(v float64) string { return phrase.Length(s, unit.Length(v)) }
	first := func(f *flown) hop.Flight {
		if flights := hop.Flights(&f.path, 0); len(flights) > 0 {
			return flights[0]
		}
		return hop.Flight{}
	}
	middle := &all[len(all)/2]
	if f := first(middle); f.Number == 0 {
		c.add("hop", "none: the ball stays on the cloth")
	} else {
		c.add("rises", spread(all, func(f *flown) float64 { at := first(f); return float64(at.Rise()) }, small))
		c.add("lands", spread(all, func(f *flown) float64 { at := first(f); return float64(at.Reach()) }, long)+" from the start")
		t := hop.Turning(&middle.path, &f)
		c.add("flies along", phrase.Turned(t.Air)+" of the aim line, squirt included")
		if s.Side != 0 {
			c.add("bends after landing", phrase.Turned(t.Rolls-t.Air)+"; english does not bend the path in the air")
		}
	}
	c.add("object ball at the target", agreed(all, func(f *flown) string {
		how, _ := hop.Meets(&f.path, sh.ObjectAt(), sh.Ball.Radius)
		return map[hop.Meeting]string{
			hop.Misses: "missed", hop.OnTheCloth: "hit on the cloth",
			hop.OnTheFly: "hit on the fly", hop.FliesOver: "flown over",
		}[how]
	}))
}

// again adds warnings when the cue may hit the ball twice or the tip may slip.
func (c *Clearing) again(all []flown) {
	twice, slips := false, false
	for i := range all {
		p := &all[i].press
		twice = twice || p.Touches > 1 || p.Follows
		slips = slips || p.Slipped > slipping
	}
	if twice {
		c.add("double hit", "the table may bounce the ball back into the cue: stop the stroke at the ball. These numbers leave out a second hit after the ball has left the tip")
	}
	if slips {
		c.add("tip", "may slip as the ball bounces up: chalk up, or hit nearer the centre")
	}
}

// slipping is the share of the tip's impulse that may slip without a warning. Less
// than this slips only as the tip leaves the ball.
const slipping = 0.1

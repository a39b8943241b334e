package sitting

import (
	"math"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// A Kind is how a stroke is to be seen.
type Kind int

// The kinds that a next stroke can be of.
const (
	ByGate Kind = iota
	ByMark
)

// Hands are the ways of dialling english in that are weighed: back hand alone,
// or both together.
type Hands int

// The hands.
const (
	BackHand Hands = iota
	Parallel
)

// A Choice is what a tester can do next: what the suggestions choose from. Every
// value is one that can be set on a table, and is set as it stands. How much english
// can be played without a miscue is margin.PlayableSide's to say, and no side here
// should be more.
type Choice struct {
	Kinds   []Kind
	Hands   []Hands
	Bridges []unit.Length
	Speeds  []unit.Speed
	Lines   []unit.Length // at which marks are made; a gate stands where the shot has it
	Sides   []float64     // contact offsets, more than 0, in ball radii: played to either side
	Read    unit.Length   // one standard deviation of reading a mark
}

// A Suggestion is a stroke that can be played next.
type Suggestion struct {
	Kind   Kind
	Hands  Hands
	Bridge unit.Length
	Speed  unit.Speed
	Line   unit.Length // of a mark
	Side   float64     // in ball radii, positive to the right
	Nats   float64     // the expected information about the logarithm of the pivot length
}

// Of returns the suggestion as a shot, s otherwise.
func (n Suggestion) Of(s shot.Shot) shot.Shot {
	s.Hands.Bridge, s.Speed, s.Contact.Side = n.Bridge, n.Speed, n.Side
	s.Hands.Back, s.Hands.Front = 1, 0
	if n.Hands == Parallel {
		s.Hands.Back = 0
	}
	return s
}

// A prospect is a suggestion with where its ball is expected. Turning the cue
// turns the whole path, and english to the left mirrors it, so the path of
// english to the right, dialled in without turning, serves for all of a speed,
// an offset and a line.
type prospect struct {
	Suggestion
	bearing *forecast // of english to the right, not turned, in radians
	head    turned    // the heading that the hands give
	half    float64   // of the corridor; 0: a mark
	read    float64   // of a mark
}

// turned is a heading to the right, and how it follows an error of the bridge
// and of the offset, to second order.
type turned struct{ mid, bridge, bridge2, offset, offset2 float64 }

// prospects are all that a choice allows with a cue.
func (p *Posterior) prospects(cue int, s *shot.Shot, c *Choice) []prospect {
	var out []prospect
	for _, kind := range c.Kinds {
		lines := c.Lines
		if kind == ByGate {
			lines = []unit.Length{s.Gate.Dist}
		}
		for _, line := range lines {
			for _, speed := range c.Speeds {
				for _, side := range c.Sides {
					out = p.family(out, cue, s, c, Suggestion{Kind: kind, Line: line, Speed: speed, Side: side})
				}
			}
		}
	}
	return out
}

// family adds the prospects that share a path.
func (p *Posterior) family(out []prospect, cue int, s *shot.Shot, c *Choice, of Suggestion) []prospect {
	at := *s
	at.Contact.Side, at.Speed, at.AimOff = of.Side, of.Speed, 0
	at.Hands.Back, at.Hands.Front = 0, 0
	if ref := p.Reference(cue); ref != 0 {
		at.Cue.PivotSpin = ref
	}
	if _, err := strike.Prepare(at.Ball, at.Cue, at.Contact); err == strike.ErrOffTip {
		return out
	}
	found, err := p.setUp.forecasts(&at, []measure{bearingAt(of.Line)})
	if err != nil {
		return out
	}
	for _, hands := range c.Hands {
		bridges := c.Bridges
		if hands == Parallel {
			bridges = []unit.Length{s.Hands.Bridge}
		}
		for _, b := range bridges {
			of.Hands, of.Bridge = hands, b
			head, ok := p.setUp.heading(of.Of(*s))
			if !ok {
				continue
			}
			next := prospect{Suggestion: of, bearing: &found[0], head: head}
			if of.Kind == ByGate {
				next.half = corridor(s)
			} else {
				next.read = float64(c.Read)
			}
			out = append(out, next)
			next.Side = -of.Side
			out = append(out, next)
		}
	}
	return out
}

// bearingAt measures the plan angle at which a path crosses a circle about its
// start.
func bearingAt(line unit.Length) measure {
	return func(p *motion.Path) (float64, error) {
		when, err := p.AtCircle(line)
		if err != nil {
			return 0, ErrNoCrossing
		}
		there, _ := p.At(when)
		return float64(motion.Bearing(there.Pos)), nil
	}
}

// heading returns the heading of english to the right and how it follows the
// set-up's errors; ok is false when the cue can't be turned so.
func (u SetUp) heading(s shot.Shot) (t turned, ok bool) {
	s.Contact.Side = math.Abs(s.Contact.Side)
	of := func(which int, z float64) float64 {
		at := u.off(s, which, z)
		turn, err := at.Hands.Apply(at.Axis(), at.Ball.Radius)
		if err != nil {
			return math.NaN()
		}
		return float64(turn.Heading)
	}
	t.mid = of(-1, 0)
	const reach = 1.5 // standard deviations
	curve := func(which int) (slope, bend float64) {
		up, down := of(which, reach), of(which, -reach)
		return (up - down) / (2 * reach), (up + down - 2*t.mid) / (2 * reach * reach)
	}
	t.bridge, t.bridge2 = curve(bridge)
	t.offset, t.offset2 = curve(offset)
	return t, !math.IsNaN(t.mid + t.bridge + t.bridge2 + t.offset + t.offset2)
}

// at is the heading with the unknowns at z.
func (t *turned) at(z *[allUnknowns]float64) float64 {
	b, o := z[bridge], z[offset]
	return t.mid + b*(t.bridge+b*t.bridge2) + o*(t.offset+o*t.offset2)
}

// bearingOf is the path's bearing for a pivot length at a place on the grid and the
// unknowns at z; never: the ball does not come to the line.
func (q *prospect) bearingOf(at float64, z *[allUnknowns]float64) float64 {
	k := min(max(int(at), 0), pivots-1)
	bearing := q.bearing.mid[k]
	if bearing == never {
		return never
	}
	// Between the grid's points.
	if part, to := at-0.5-float64(k), k+1; part < 0 && k > 0 && q.bearing.mid[k-1] != never {
		bearing += part * (bearing - q.bearing.mid[k-1])
	} else if part > 0 && to < pivots && q.bearing.mid[to] != never {
		bearing += part * (q.bearing.mid[to] - bearing)
	}
	terms := row(z)
	for n, by := range q.bearing.off(&terms) {
		bearing += by * q.bearing.blend[n][k]
	}
	return bearing
}

// crosses is the sideways position at the line, in metres, once the hands have
// turned a path of that bearing; never: the ball does not come there.
func (q *prospect) crosses(bearing float64, z *[allUnknowns]float64) float64 {
	if bearing == never {
		return never
	}
	way := bearing + q.head.at(z)
	if q.Side < 0 {
		way = -way
	}
	return float64(q.Line) * math.Tan(way+float64(AimSpread)*z[aim])
}

// where is both of them.
func (q *prospect) where(at float64, z *[allUnknowns]float64) float64 {
	return q.crosses(q.bearingOf(at, z), z)
}

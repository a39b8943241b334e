package sitting

import (
	"math"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// A Kind is how a stroke is observed.
type Kind int

// The kinds of a suggested stroke.
const (
	ByGate Kind = iota
	ByMark
)

// Hands is how english is applied in a suggested stroke: by the back hand alone,
// or by moving both hands together.
type Hands int

// The ways of applying english.
const (
	BackHand Hands = iota
	Parallel
)

// A Choice lists the values that the next stroke may take. Suggestions use them
// unchanged, so each should be a value that a player can set at the table. No side
// should exceed margin.PlayableSide, the most english without a miscue.
type Choice struct {
	Kinds   []Kind
	Hands   []Hands
	Bridges []unit.Length
	Speeds  []unit.Speed
	Lines   []unit.Length // distances of the lines for marks; a gate keeps the distance in the shot
	Sides   []float64     // contact offsets in ball radii, more than 0; each is considered to both sides
	Read    unit.Length   // standard deviation of reading a mark
}

// A Suggestion is a possible next stroke.
type Suggestion struct {
	Kind   Kind
	Hands  Hands
	Bridge unit.Length
	Speed  unit.Speed
	Line   unit.Length // distance of the line of a mark, or of the gate
	Side   float64     // in ball radii, positive to the right
	Nats   float64     // the expected information about the logarithm of the pivot length
}

// Of returns the shot s with the suggested hands, bridge, speed and side.
func (n Suggestion) Of(s shot.Shot) shot.Shot {
	s.Hands.Bridge, s.Speed, s.Contact.Side = n.Bridge, n.Speed, n.Side
	s.Hands.Back, s.Hands.Front = 1, 0
	if n.Hands == Parallel {
		s.Hands.Back = 0
	}
	return s
}

// A prospect is a suggestion with a forecast of its ball. Turning the cue rotates
// the whole path, and left english mirrors it. One forecast, for right english with
// the cue not turned, therefore serves every prospect with the same speed, offset
// and line.
type prospect struct {
	Suggestion
	bearing *forecast // for right english with the cue not turned, in radians
	head    turned    // heading of the cue due to the hands
	half    float64   // half-width of the gate's corridor, in metres; 0 for a mark
	read    float64   // standard deviation of reading a mark, in metres; 0 for a gate
}

// turned is the cue's heading for right english, in radians, with its first- and
// second-order coefficients in the bridge error and the offset error.
type turned struct{ mid, bridge, bridge2, offset, offset2 float64 }

// families returns the kinds, lines, speeds and offsets of the choice. The prospects of
// one family share a path.
func (c *Choice) families(s *shot.Shot) (out []Suggestion) {
	for _, kind := range c.Kinds {
		lines := c.Lines
		if kind == ByGate {
			lines = []unit.Length{s.Gate.Dist}
		}
		for _, line := range lines {
			for _, speed := range c.Speeds {
				for _, side := range c.Sides {
					out = append(out, Suggestion{Kind: kind, Line: line, Speed: speed, Side: side})
				}
			}
		}
	}
	return out
}

// family returns the prospects of a family with a cue. There are none when the contact
// is off the tip or no pivot length sends the ball to the line.
func (p *Posterior) family(cue int, s *shot.Shot, c *Choice, of Suggestion) (out []prospect) {
	at := *s
	at.Contact.Side, at.Speed, at.AimOff = of.Side, of.Speed, 0
	at.Hands.Back, at.Hands.Front = 0, 0
	if ref := p.Reference(cue); ref != 0 {
		at.Cue.PivotSpin = ref
	}
	if _, err := strike.Prepare(at.Ball, at.Cue, at.Contact); err == strike.ErrOffTip {
		return nil
	}
	found, err := p.memo.forecast(p.setUp, &at, of.Line, bearingAt)
	if err != nil {
		return nil
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
			next := prospect{Suggestion: of, bearing: found, head: head}
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

// bearing returns a measure of the plan angle, in radians, at which a path
// crosses a circle of radius line about its start.
func bearing(line unit.Length) measure {
	return func(p *motion.Path) (float64, error) {
		when, err := p.AtCircle(line)
		if err != nil {
			return 0, ErrNoCrossing
		}
		there, _ := p.At(when)
		return float64(motion.Bearing(there.Pos)), nil
	}
}

// heading returns the cue's heading for right english and its dependence on the
// set-up errors. ok is false when the hands can't turn the cue that way.
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

// at returns the heading with the unknowns at z, in radians.
func (t *turned) at(z *[allUnknowns]float64) float64 {
	b, o := z[bridge], z[offset]
	return t.mid + b*(t.bridge+b*t.bridge2) + o*(t.offset+o*t.offset2)
}

// bearingOf returns the bearing of the path, in radians, for a pivot length at a
// position on the grid and the unknowns at z. It returns never when the ball does
// not reach the line.
func (q *prospect) bearingOf(at float64, z *[allUnknowns]float64) float64 {
	k := min(max(int(at), 0), pivots-1)
	bearing := q.bearing.mid[k]
	if bearing == never {
		return never
	}
	// Interpolate linearly between grid points.
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

// crosses returns the sideways position at the line, in metres to the right, of a
// path with that bearing after the hands have turned the cue. It returns never
// when the bearing is never.
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

package sheet

import (
	"math"

	"pivotbench/core/contact"
	"pivotbench/core/hop"
	"pivotbench/core/motion"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
	"pivotbench/wasm/app"
)

const (
	sideShare = 0.34 // share of the glass for the view from the side
	planLeast = 185  // pixels without which the plan cannot be read
)

// below returns the height of the view from the side, under the plan. It is 0 if the ball
// stays on the cloth, unless the view is asked for, and if there is no room. It does not
// change while a handle is held.
func (g *Glass) below(m *app.Model) float64 {
	high := math.Round(sideShare * g.Height)
	switch {
	case g.pull != nil:
		return g.pull.view.Below
	case g.Height-high < planLeast, !m.Look.Side && !hops(&m.Scene):
		return 0
	}
	return high
}

// hops reports whether a shot flies high enough to be seen.
func hops(s *scenario.Scenario) bool {
	sh := s.Shot()
	var path motion.Path
	return sh.Send(&path) == nil && len(hop.Flights(&path, sh.Ball.Radius/2)) > 0
}

// A profile maps the vertical plane along the aim line to the sheet, with one scale for
// heights and distances.
type profile struct {
	pen
	scale  float64
	origin Point // of the cue ball's centre at rest
	radius float64
	top    float64       // bottom of the plan
	far    float64       // furthest visible distance along the table
	ways   []motion.Path // the ball's paths, over the contact times of a hop; one if it stays on the cloth
}

// fly computes the paths.
func (q *profile) fly() {
	if q.res.Launched != nil {
		return
	}
	if len(hop.Flights(&q.res.Path, 0)) == 0 {
		q.ways = []motion.Path{q.res.Path}
		return
	}
	sh, ratios := q.s.Shot(), q.v.Ratios
	if ratios.To == 0 {
		ratios = hop.Usual(sh.Cue.Tip).Ratios()
	}
	for _, r := range hop.Spaced(ratios, hop.Enough) {
		var way motion.Path
		if hop.Send(&sh, r, &way) == nil {
			q.ways = append(q.ways, way)
		}
	}
}

// typeSize returns the text size of the plan.
func (q *profile) typeSize() float64 {
	return typeSize(View{Width: q.v.Width, Height: q.top, Board: q.v.Board, Text: q.v.Text})
}

// side draws the shot to scale, as seen from the shooter's right.
func (p *pen) side() {
	if p.v.Below == 0 {
		return
	}
	q := p.newProfile()
	q.frame()
	q.blockers()
	q.flight()
	q.ballAndCue()
	q.labels()
	p.sheet.Items = append(p.sheet.Items, q.sheet.Items...)
}

func (p *pen) newProfile() *profile {
	v := p.v
	v.Height += v.Below
	q := profile{pen: pen{s: p.s, res: p.res, v: v}, radius: float64(p.s.GearBall().Radius), top: p.v.Height}
	q.taken = []box{{0, 0, v.Width, q.top}}
	q.far = max(float64(p.s.Dist)+q.radius, float64(p.s.Gate)) + 2*q.radius
	if v.Object {
		q.far += 2 * q.radius
	}
	q.fly()
	size := q.typeSize()
	head, foot, edge, behind := 0.6*size, 1.9*size, 10.0, 5*q.radius
	wide := (v.Width - 2*edge) / (behind + q.far)
	high := (v.Below - head - foot) / (max(q.highest(), 2.2*q.radius) + 2*q.radius)
	// A high lob leaves the sheet at its top, since otherwise the balls would shrink to
	// dots.
	q.scale = min(wide, max(high, wide/2))
	spare := v.Width - 2*edge - q.scale*(behind+q.far)
	q.origin = Point{edge + spare/2 + behind*q.scale, v.Height - foot - q.radius*q.scale}
	return &q
}

// highest returns the greatest visible height of the ball's centre.
func (q *profile) highest() float64 {
	most := 0.0
	for i := range q.ways {
		for _, f := range hop.Flights(&q.ways[i], 0) {
			if f.From.Pos.Y < q.far {
				most = max(most, float64(f.Rise()))
			}
		}
	}
	return most
}

// at returns where a point is on the sheet, y along the table and z above the ball's
// resting height.
func (q *profile) at(y, z float64) Point {
	return Point{q.origin.X + y*q.scale, q.origin.Y - z*q.scale}
}

// trace draws a line without its invisible parts.
func (q *profile) trace(st Stroke, points []Point) {
	var run []Point
	flush := func() {
		if len(run) > 1 {
			q.line(st, run...)
		}
		run = nil
	}
	for _, pt := range points {
		if pt.X < 2 || pt.X > q.v.Width-2 || pt.Y < q.top+2 {
			flush()
			continue
		}
		q.taken = append(q.taken, box{pt.X - 3, pt.Y - 3, pt.X + 3, pt.Y + 3})
		run = append(run, pt)
	}
	flush()
}

// frame draws the ground, the cloth and the height of a resting ball's centre.
func (q *profile) frame() {
	w, h := q.v.Width, q.v.Height
	q.sheet.Items = append(q.sheet.Items, Path{Fill: Ground, Stroke: Stroke{Soft, 1, Solid}, Points: []Point{
		{-2, q.top}, {w + 2, q.top}, {w + 2, h + 2}, {-2, h + 2}, {-2, q.top},
	}})
	cloth := q.at(0, -q.radius).Y
	for _, y := range []float64{cloth, q.origin.Y} {
		q.taken = append(q.taken, box{0, y - 1, w, y + 1})
	}
	q.line(Stroke{Line, 1.4, Solid}, Point{0, cloth}, Point{w, cloth})
	q.line(Stroke{Aim, 1, DashDot}, Point{0, q.origin.Y}, Point{w, q.origin.Y})
	at := q.at(float64(q.s.Dist), 0)
	q.circle(at, q.radius*q.scale, Stroke{Soft, 1.2, Dashed}, "")
	if q.v.Object {
		sh := q.s.Shot()
		q.circle(q.at(sh.ObjectAt().Y, 0), q.radius*q.scale, Stroke{Line, 1.4, Solid}, "")
	}
}

// blockers draws the two blockers, one behind the other, and above them the region that
// the ball's centre must not enter.
func (q *profile) blockers() {
	if q.s.Gate == 0 {
		return
	}
	st := Stroke{Line, 1.4, Solid}
	if q.touches() {
		st = Stroke{Off, 2.4, Solid}
	}
	at, r := q.at(float64(q.s.Gate), 0), q.radius*q.scale
	q.circle(at, r, st, Ground)
	q.hatch(at, r, Stroke{st.Ink, 1, Solid})
	q.circle(at, r, st, "")
	q.trace(Stroke{Off, 2.2, Dotted}, q.needed())
}

// touches reports whether the ball touches a blocker on any of its paths.
func (q *profile) touches() bool {
	gate := q.s.Shot().Gate
	for i := range q.ways {
		pass, err := contact.Pass(&q.ways[i], gate, q.s.GearBall().Radius)
		if err == nil && (pass.Outcome == contact.Left || pass.Outcome == contact.Right) {
			return true
		}
	}
	return false
}

// needed returns the height that the ball's centre needs where it passes the blockers.
func (q *profile) needed() []Point {
	var points []Point
	if q.res.Launched != nil {
		return nil
	}
	gate, r := q.s.Shot().Gate, q.s.GearBall().Radius
	way := &q.res.Path
	from, err := way.AtLine(gate.Dist - 2*r)
	if err != nil {
		return nil
	}
	to, err := way.AtLine(gate.Dist + 2*r)
	if err != nil {
		to = way.Stop()
	}
	left, right := contact.Posts(gate, r)
	for i := range 2*samples + 1 {
		ball, _ := way.At(from + (to-from)*unit.Span(i)/(2*samples))
		high := unit.Length(0)
		for _, post := range []vec.V{left, right} {
			high = max(high, hop.HeightOver(unit.Length(ball.Pos.Sub(post).Plan().Norm()), r))
		}
		if high > 0 {
			points = append(points, q.at(ball.Pos.Y, float64(high)))
		}
	}
	return points
}

// flight draws the paths of the ball's centre, dashed in the air, and the ball over the
// gate on the lowest and the highest path.
func (q *profile) flight() {
	for i := range q.ways {
		q.way(&q.ways[i])
	}
	low, high, ok := q.over()
	if !ok {
		return
	}
	for _, z := range []float64{low, high} {
		if at := q.at(float64(q.s.Gate), z); at.Y-q.radius*q.scale > q.top {
			r := q.radius * q.scale
			q.circle(at, r, Stroke{Way, 1.4, Solid}, "")
			q.taken = append(q.taken, box{at.X - r, at.Y - r, at.X + r, at.Y + r})
		}
		if low == high {
			break
		}
	}
}

// over returns the least and the greatest height of the centre at the gate.
func (q *profile) over() (low, high float64, ok bool) {
	for i := range q.ways {
		when, err := q.ways[i].AtLine(q.s.Gate)
		if err != nil || q.s.Gate == 0 {
			continue
		}
		ball, _ := q.ways[i].At(when)
		if !ok {
			low, high, ok = ball.Pos.Z, ball.Pos.Z, true
		}
		low, high = min(low, ball.Pos.Z), max(high, ball.Pos.Z)
	}
	return low, high, ok
}

// way draws one path.
func (q *profile) way(way *motion.Path) {
	until, err := way.AtLine(unit.Length(q.far) * 1.5)
	if err != nil {
		until = way.Stop()
	}
	for i := range way.Segments() {
		s := &way.Segments()[i]
		if s.Phase == motion.Rest || s.Begin >= until {
			break
		}
		st := Stroke{Way, 2.2, Solid}
		if s.Phase == motion.Fly {
			st.Dash = Dashed
		}
		length := min(s.Length, until-s.Begin)
		points := make([]Point, 0, 2*samples+1)
		for j := range 2*samples + 1 {
			ball, _ := way.At(s.Begin + length*unit.Span(j)/(2*samples))
			points = append(points, q.at(ball.Pos.Y, ball.Pos.Z))
		}
		q.trace(st, points)
	}
}

// ballAndCue draws the ball at rest, and the cue as it comes down on it.
func (q *profile) ballAndCue() {
	q.circle(q.origin, q.radius*q.scale, Stroke{Line, 1.6, Solid}, Ground)
	sin, cos := q.s.Elev.Sin(), q.s.Elev.Cos()
	// The axes along the cue, back from the ball, and perpendicular to it, upward.
	high := q.s.Height * (q.radius + float64(q.s.Tip))
	deep := q.radius * math.Sqrt(max(0, 1-q.s.Height*q.s.Height))
	on := func(back float64) Point { return q.at(-back*cos+high*sin, back*sin+high*cos) }
	const pieces = 24
	points := make([]Point, 0, pieces+1)
	for i := range pieces + 1 {
		points = append(points, on(deep+16*q.radius*float64(i)/pieces))
	}
	q.trace(Stroke{Stick, 4, Solid}, points)
}

package sheet

import (
	"math"

	"pivotbench/core/motion"
	"pivotbench/core/unit"
	"pivotbench/wasm/phrase"
)

// samples is the number of straight pieces of a curve.
const samples = 32

// path draws the path of the ball as if there were no blockers, up to the object ball if
// one is shown: dashed in the air, with a tick where rolling begins and a ring where it
// stops.
func (p *pen) path() {
	if p.res.Launched != nil {
		return
	}
	way := &p.res.Path
	for i := range way.Segments() {
		s := &way.Segments()[i]
		if s.Phase == motion.Rest {
			break
		}
		st := Stroke{Way, 2.2, Solid}
		if s.Phase == motion.Fly {
			st.Dash = Dashed
		}
		p.line(st, p.inSight(way, s)...)
	}
	if p.pot != nil {
		return
	}
	if roll, _ := way.At(way.RollStart()); p.res.Reading.SlideEnd.Value > 0 && p.onSheet(p.plan.vec(roll.Pos)) {
		at := p.plan.vec(roll.Pos)
		p.line(Stroke{Way, 1.4, Solid}, Point{at.X - 6, at.Y}, Point{at.X + 6, at.Y})
		p.want(ofBall, Text{Words: "rolls", Size: p.typeSize(), Ink: Way},
			Text{At: Point{at.X - 10, at.Y + 4}, Anchor: ToEnd}, Text{At: Point{at.X + 10, at.Y + 4}, Anchor: FromStart})
	}
	if stop, _ := way.At(way.Stop()); p.onSheet(p.plan.vec(stop.Pos)) {
		at := p.plan.vec(stop.Pos)
		p.circle(at, p.plan.ball, Stroke{Way, 1.4, Dotted}, "")
		p.want(ofBall, Text{Words: "stops", Size: p.typeSize(), Ink: Way},
			Text{At: Point{at.X - p.plan.ball - 6, at.Y + 4}, Anchor: ToEnd}, Text{At: Point{at.X + p.plan.ball + 6, at.Y + 4}, Anchor: FromStart})
	}
}

// inSight returns the visible part of a segment, as points: a fast ball leaves the sheet
// long before it stops.
func (p *pen) inSight(way *motion.Path, s *motion.Segment) []Point {
	end := float64(s.Length)
	if reach := 1.5 * (p.v.Height/p.plan.scale + 0.1); s.From.Vel.Norm() > 0 {
		// The ball slows down, so it needs at least this long to leave.
		if t, err := way.AtCircle(unit.Length(reach)); err == nil {
			end = min(end, max(0, float64(t-s.Begin)))
		}
	}
	if p.pot != nil {
		end = min(end, max(0, float64(p.pot.When-s.Begin)))
	}
	points := make([]Point, 0, samples+1)
	for i := range samples + 1 {
		at, _ := way.At(s.Begin + unit.Span(end*float64(i)/samples))
		points = append(points, p.plan.vec(at.Pos))
	}
	return points
}

func (p *pen) onSheet(at Point) bool {
	return at.X > 0 && at.X < p.v.Width && at.Y > 0 && at.Y < p.v.Height
}

// target draws where the ball should arrive, and dimensions its error.
func (p *pen) target() {
	at := p.plan.at(0, float64(p.s.Dist))
	p.circle(at, p.plan.ball, Stroke{Soft, 1.2, Dashed}, "")
	tail := Point{at.X + p.plan.ball + 8, at.Y}
	p.line(Stroke{Soft, 1, Solid}, Point{at.X - p.plan.ball - 8, at.Y}, tail)
	grab := Point{at.X - p.plan.ball - 34, at.Y}
	p.line(Stroke{Soft, 1, Dashed}, grab, Point{at.X - p.plan.ball - 8, at.Y})
	p.measure(ofTarget, grab, tail)
	p.handle(TargetHandle, grab, "distance of the target", Upright)

	arrival := p.res.Reading.Arrival
	if p.res.Launched == nil && arrival.Err() == nil {
		y := at.Y - p.plan.ball - 10
		end := p.plan.at(float64(arrival.Value), 0)
		if math.Abs(end.X-at.X) > 1.5 {
			there := p.plan.at(float64(arrival.Value), math.Sqrt(max(0, float64(p.s.Dist*p.s.Dist-arrival.Value*arrival.Value))))
			p.line(Stroke{Off, 1, Dotted}, there, Point{end.X, y})
			p.dimension(ofArrival, Point{at.X, y}, Point{end.X, y}, Off)
		}
		right, left := max(at.X, end.X), min(at.X, end.X)
		p.want(ofArrival, Text{Words: phrase.Sideways(p.s, arrival.Value), Size: p.typeSize() * 1.1, Bold: true, Ink: Off},
			Text{At: Point{right + 10, y + 4}, Anchor: FromStart}, Text{At: Point{left - 10, y + 4}, Anchor: ToEnd},
			Text{At: Point{p.v.Width / 2, y - 8}, Anchor: Middle})
	}
	p.want(ofTarget, Text{Words: p.named("target", "dist"), Size: p.typeSize(), Ink: Soft},
		Text{At: Point{grab.X - 12, at.Y + 4}, Anchor: ToEnd},
		Text{At: Point{at.X + p.plan.ball + 14, at.Y + 4}, Anchor: FromStart},
		Text{At: Point{grab.X, at.Y + 24}, Anchor: Middle})
}

package sheet

import (
	"math"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
)

// angles draws the cue's line extended through the ball, the line on which the ball
// leaves, and the arcs between them: the angle of the cue, and squirt. All have their
// vertex at the ball.
func (p *pen) angles() {
	r := &p.res.Reading
	if r.Heading.Err() != nil {
		return
	}
	long := p.angleReach()
	heading := r.Heading.Value
	p.line(Stroke{Stick, 1.4, Dashed}, p.plan.origin, p.plan.ray(long, heading))
	p.arc(0.45*long, 0, heading, Stick)
	side := 1.0
	if heading < 0 || heading == 0 && r.Squirt.Value < 0 {
		side = -1
	}
	if heading != 0 {
		p.angleText(ofTurn, "cue", heading, 0.45*long, heading, side, Stick)
	}
	if p.res.Launched != nil {
		return
	}
	launch := r.Launch.Value
	p.line(Stroke{Way, 1.2, Dotted}, p.plan.origin, p.plan.ray(long, launch))
	p.arc(0.9*long, launch, heading, Off)
	if r.Squirt.Value != 0 {
		outer := heading
		if side < 0 != (launch > heading) {
			outer = launch
		}
		p.angleText(ofSquirt, "squirt", r.Squirt.Value, 0.9*long, outer, side, Off)
	}
}

// angleReach returns the distance from the ball at which its angles are drawn, in pixels.
func (p *pen) angleReach() float64 {
	long := 0.62 * float64(max(p.s.Dist, 12*unit.Inch))
	if p.s.Gate > 0 {
		long = min(long, 0.78*float64(p.s.Gate))
	}
	return long
}

// arc draws the arc between two plan angles at a distance from the ball.
func (p *pen) arc(distance float64, from, to unit.Angle, ink Ink) {
	const pieces = 16
	points := make([]Point, 0, pieces+1)
	for i := range pieces + 1 {
		points = append(points, p.plan.ray(distance, from+(to-from)*unit.Angle(i)/pieces))
	}
	p.line(Stroke{ink, 1.8, Solid}, points...)
}

// angleText writes an angle beside the outer end of its arc, on the given side.
func (p *pen) angleText(about rank, name string, value unit.Angle, distance float64, outer unit.Angle, side float64, ink Ink) {
	end := p.plan.ray(distance, outer)
	end.X = min(max(end.X, 30), p.v.Width-30)
	words := scenario.Display{Quantity: unit.AngleKind, Unit: "°", Decimals: 2}.Format(float64(unit.Abs(value)))
	anchor := FromStart
	if side < 0 {
		anchor = ToEnd
	}
	other := p.plan.ray(distance, 0)
	w := p.want(about, Text{Words: name + " " + words, Size: p.typeSize() * 1.1, Bold: ink == Off, Ink: ink},
		Text{At: Point{end.X + side*26, end.Y + 4}, Anchor: anchor},
		Text{At: Point{other.X - side*34, end.Y + 4}, Anchor: map[Anchor]Anchor{FromStart: ToEnd, ToEnd: FromStart}[anchor]},
	)
	w.follow = func(t Text) {
		from := end
		if (t.At.X-end.X)*side < 0 {
			from = other
		}
		a := Point{from.X + math.Copysign(3, t.At.X-from.X), from.Y}
		b := Point{t.At.X - math.Copysign(4, t.At.X-from.X), t.At.Y - 4}
		p.line(Stroke{ink, 0.8, Solid}, a, b)
		p.along(2, a, b)
	}
}

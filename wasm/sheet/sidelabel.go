package sheet

import (
	"pivotbench/core/hop"
	"pivotbench/wasm/phrase"
)

// labels writes the heights and distances where there is room.
func (q *profile) labels() {
	size, r := q.typeSize(), q.radius*q.scale
	foot := q.v.Height - 0.55*size
	q.place(Text{Words: "target", Size: size, Ink: Soft}, Text{At: Point{q.at(float64(q.s.Dist), 0).X, foot}, Anchor: Middle})
	if q.s.Gate > 0 {
		q.place(Text{Words: "L, R", Size: size, Bold: true, Ink: Line}, Text{At: Point{q.at(float64(q.s.Gate), 0).X, foot}, Anchor: Middle})
	}
	q.place(Text{Words: "side view, to scale", Size: size, Ink: Soft}, Text{At: Point{8, foot}, Anchor: FromStart}, Text{At: Point{8, q.top + 1.3*size}, Anchor: FromStart})
	q.place(Text{Words: phrase.Brief(q.shown("elev")), Size: size, Ink: Stick},
		Text{At: Point{q.origin.X - 1.6*r, q.origin.Y - 1.6*r}, Anchor: ToEnd},
		Text{At: Point{q.origin.X - 1.6*r, q.origin.Y - 4}, Anchor: ToEnd},
		Text{At: Point{q.origin.X + 0.5*r, q.origin.Y - 2.2*r}, Anchor: FromStart})
	if q.res.Launched != nil {
		return
	}
	q.needLabel(size, r)
	lowest, highest, ok := q.firsts()
	if !ok {
		return
	}
	up := q.at((highest.From.Pos.Y+highest.Land.Pos.Y)/2, float64(highest.Rise()))
	up.X, up.Y = min(max(up.X, 5*size), q.v.Width-5*size), max(up.Y-6, q.top+1.3*size)
	rises := phrase.Range(phrase.Small(q.s, float64(lowest.Rise())), phrase.Small(q.s, float64(highest.Rise())))
	q.place(Text{Words: "rises " + rises, Size: size, Ink: Way},
		Text{At: up, Anchor: Middle}, Text{At: Point{up.X, up.Y - r}, Anchor: Middle}, Text{At: Point{up.X, up.Y + 2.2*size}, Anchor: Middle}, Text{At: Point{q.v.Width - 8, up.Y}, Anchor: ToEnd})
	near, far := lowest.Reach(), highest.Reach()
	near, far = min(near, far), max(near, far)
	said := Text{Words: "lands " + phrase.Range(phrase.Length(q.s, near), phrase.Length(q.s, far)), Size: size, Ink: Way}
	down := q.at(highest.Land.Pos.Y, 0)
	if down.X < q.v.Width-4 && down.X > q.origin.X {
		q.line(Stroke{Way, 1.4, Solid}, Point{down.X, down.Y - 6}, Point{down.X, down.Y + 6})
	} else {
		said.Words += " ›"
	}
	q.place(said, Text{At: Point{down.X, foot}, Anchor: Middle}, Text{At: Point{down.X + 6, down.Y - 8}, Anchor: FromStart},
		Text{At: Point{q.v.Width - 8, foot}, Anchor: ToEnd}, Text{At: Point{q.v.Width - 8, q.origin.Y - 8}, Anchor: ToEnd})
}

// firsts returns the lowest and the highest first flight. The lowest is empty if the ball
// may stay on the cloth. ok reports whether the highest deserves a label.
func (q *profile) firsts() (lowest, highest hop.Flight, ok bool) {
	for i := range q.ways {
		var first hop.Flight
		if flights := hop.Flights(&q.ways[i], 0); len(flights) > 0 {
			first = flights[0]
		}
		if i == 0 || first.Rise() < lowest.Rise() {
			lowest = first
		}
		if i == 0 || first.Rise() > highest.Rise() {
			highest = first
		}
	}
	return lowest, highest, highest.Rise() >= q.s.GearBall().Radius/2
}

// needLabel dimensions the height that the ball's centre needs over the gate.
func (q *profile) needLabel(size, r float64) {
	left, right, err := hop.Needs(&q.res.Path, q.s.Shot().Gate, q.s.GearBall().Radius)
	need := max(left.Height, right.Height)
	if err != nil || need == 0 {
		return
	}
	x, y := q.at(float64(q.s.Gate), 0).X+1.5*r, q.at(0, float64(need)).Y
	if y < q.top+size {
		return
	}
	q.line(Stroke{Off, 1, Dotted}, Point{x - 1.5*r, y}, Point{x + tick, y})
	q.ticked(Point{x, q.origin.Y}, Point{x, y}, Off)
	q.place(Text{Words: "needs " + phrase.Small(q.s, float64(need)), Size: size, Ink: Off},
		Text{At: Point{x + 8, (y+q.origin.Y)/2 + 0.35*size}, Anchor: FromStart},
		Text{At: Point{x + 8, y + 0.2*size}, Anchor: FromStart},
		Text{At: Point{x + 8, q.origin.Y - 4}, Anchor: FromStart},
		Text{At: Point{x - 3*r - 8, q.origin.Y - 4}, Anchor: ToEnd})
}

package sheet

// Two drawings of how to film a stroke, in the units of a 360 by 200 sheet. They are made
// when the site is built.

const filmWide, filmHigh = 360, 200

// FilmPlan draws from above where the phone stands: beside the table, far enough to see
// every ball, off the line of the shot.
func FilmPlan() Sheet {
	d := filmSheet()
	d.box(Point{70, 24}, Point{340, 138}, Stroke{Line, 1.4, Solid})
	d.line(Stroke{Aim, 1, DashDot}, Point{20, 80}, Point{340, 80})
	// What the phone sees.
	phone := Point{180, 186}
	d.line(Stroke{Way, 1, Dashed}, Point{74, 75}, phone, Point{338, 70})
	d.items(Path{Points: []Point{{168, 182}, {192, 182}, {192, 190}, {168, 190}, {168, 182}}, Stroke: Stroke{Line, 1.4, Solid}, Fill: Line})
	d.line(Stroke{Stick, 2.4, Solid}, Point{20, 80}, Point{100, 80})
	d.ball(Point{112, 80}, Ground, "cue ball", -12)
	d.ball(Point{236, 66}, Soft, "", 0)
	d.ball(Point{236, 94}, Soft, "blockers", 22)
	d.ball(Point{292, 80}, Soft, "target", -12)
	d.say(Point{200, 192}, FromStart, "phone sees all balls")
	d.say(Point{346, 18}, ToEnd, "nobody beyond the target, nobody in the line")
	return d.Sheet
}

// FilmSide draws from the side how high the phone stands: so high that no ball hides
// another, with the light from above.
func FilmSide() Sheet {
	d := filmSheet()
	d.line(Stroke{Line, 1.6, Solid}, Point{120, 150}, Point{340, 150})
	d.line(Stroke{Line, 1, Solid}, Point{126, 150}, Point{126, 186})
	d.line(Stroke{Line, 1, Solid}, Point{332, 150}, Point{332, 186})
	for _, x := range []float64{190, 250, 300} {
		d.ball(Point{x, 142}, Ground, "", 0)
	}
	// A chair with the phone on its back.
	d.line(Stroke{Line, 1.6, Solid}, Point{30, 186}, Point{30, 130}, Point{60, 130}, Point{60, 186})
	d.line(Stroke{Line, 1.6, Solid}, Point{30, 130}, Point{30, 84})
	d.line(Stroke{Line, 4, Solid}, Point{28, 84}, Point{36, 64})
	phone := Point{36, 72}
	d.line(Stroke{Way, 1, Dashed}, phone, Point{330, 142})
	d.line(Stroke{Way, 1, Dashed}, phone, Point{160, 150})
	d.line(Stroke{Soft, 1.6, Solid}, Point{272, 28}, Point{338, 28})
	for _, x := range []float64{280, 305, 330} {
		d.line(Stroke{Soft, 1, Dotted}, Point{x, 34}, Point{x, 122})
	}
	d.say(Point{305, 20}, Middle, "light above")
	d.say(Point{48, 62}, FromStart, "as high as a chair's back, or higher")
	d.say(Point{230, 170}, Middle, "no ball hides another")
	return d.Sheet
}

// A filmDrawing is a sheet that is drawn by hand.
type filmDrawing struct{ Sheet }

func filmSheet() *filmDrawing { return &filmDrawing{Sheet{Width: filmWide, Height: filmHigh}} }

func (d *filmDrawing) items(items ...Item) { d.Items = append(d.Items, items...) }

func (d *filmDrawing) line(s Stroke, points ...Point) { d.items(Path{Points: points, Stroke: s}) }

func (d *filmDrawing) box(a, b Point, s Stroke) {
	d.line(s, a, Point{b.X, a.Y}, b, Point{a.X, b.Y}, a)
}

// ball draws a ball, with its name at a distance below it if it has one.
func (d *filmDrawing) ball(at Point, fill Ink, name string, below float64) {
	d.items(Circle{At: at, Radius: 8, Stroke: Stroke{Line, 1.4, Solid}, Fill: fill})
	if name != "" {
		d.say(Point{at.X, at.Y + below}, Middle, name)
	}
}

func (d *filmDrawing) say(at Point, anchor Anchor, words string) {
	d.items(Text{At: at, Words: words, Size: 12.5, Ink: Soft, Anchor: anchor})
}

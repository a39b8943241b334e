package view

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"pivotbench/wasm/app"
)

// A FilmMarkShown is how a mark is drawn over the film. Lengths are in pixels of the film.
type FilmMarkShown struct {
	On     bool
	At     app.FilmPoint
	Radius float64
	Catch  float64 // radius of what a finger can grab
	Text   float64 // size of its label
	Aside  float64 // of its label, from its centre to the label's middle
	Above  float64
}

// labelHalf is half the width of a letter of a label, for the size of its text.
const labelHalf = 0.3

// FilmMarkOf returns how the mark of a ball is drawn. On is false if the shot has no such
// ball, or marks can't be moved now.
func FilmMarkOf(f *app.Film, ball string) FilmMarkShown {
	i := slices.IndexFunc(f.Marks, func(k app.FilmMark) bool { return k.Ball == ball })
	if i < 0 || f.Step != app.FilmMarking {
		return FilmMarkShown{}
	}
	longer := max(f.Width, f.Height)
	d := FilmMarkShown{On: true, At: f.Marks[i].At, Radius: f.Marks[i].Radius, Text: longer / 28}
	if d.Radius == 0 {
		d.Radius = longer / 50
	}
	d.Catch = max(d.Radius, longer/16)
	d.Above = -d.Radius - d.Text/2
	if d.At.Y+d.Above < d.Text { // the label would be out of the picture
		d.Above = d.Radius + 1.2*d.Text
	}
	half := labelHalf * d.Text * float64(len(FilmBalls[slices.Index(app.FilmBalls, ball)].Short))
	d.Aside = max(0, half-d.At.X) - max(0, d.At.X+half-f.Width)
	return d
}

// An Attribute is an attribute of the elements that a selector finds.
type Attribute struct{ Of, Name, Value string }

// Attributes returns what the elements of a mark have while it is shown.
func (d *FilmMarkShown) Attributes(ball string) []Attribute {
	mark, arm := `#film-marks [data-ball="`+ball+`"]`, pixel(d.Radius/3)
	return []Attribute{
		{mark, "transform", "translate(" + pixel(d.At.X) + " " + pixel(d.At.Y) + ")"},
		{mark + " .ring", "r", pixel(d.Radius)},
		{mark + " .catch", "r", pixel(d.Catch)},
		{mark + " .cross", "d", "M-" + arm + " 0H" + arm + "M0-" + arm + "V" + arm},
		{mark + " text", "font-size", pixel(d.Text)},
		{mark + " text", "x", pixel(d.Aside)},
		{mark + " text", "y", pixel(d.Above)},
	}
}

// GlassCross returns the SVG path of the cross in the middle of the magnifying glass.
func GlassCross(size float64) string {
	middle, from, to := pixel(size/2), pixel(0.44*size), pixel(0.56*size)
	return "M" + from + " " + middle + "H" + to + "M" + middle + " " + from + "V" + to
}

// FilmMarkText returns a coordinate of a mark, "x" or "y", for its field.
func FilmMarkText(f *app.Film, ball, axis string) string {
	at := FilmMarkOf(f, ball).At
	if axis == "y" {
		return pixel(at.Y)
	}
	return pixel(at.X)
}

// NearestMark returns the mark that is nearest to a point, among those that a finger there
// can grab. Its ball is empty if there is none.
func NearestMark(f *app.Film, at app.FilmPoint) (nearest app.FilmMark) {
	least := math.Inf(1)
	for _, k := range f.Marks {
		off := math.Hypot(k.At.X-at.X, k.At.Y-at.Y)
		if d := FilmMarkOf(f, k.Ball); d.On && off <= d.Catch && off < least {
			nearest, least = k, off
		}
	}
	return nearest
}

// StrikeWords is the button that strikes out the shown frame, or puts it back.
func StrikeWords(struck bool) string {
	if struck {
		return "Put this frame back"
	}
	return "Strike out this frame"
}

// FilmLines returns what is drawn over the film as SVG: the aim line, the line of the
// gate, the fitted path and the ball in each frame.
func FilmLines(f *app.Film) string {
	var out strings.Builder
	line := func(class string, points []app.FilmPoint) {
		if len(points) > 1 {
			out.WriteString(`<polyline class="` + class + `" points="`)
			for _, p := range points {
				out.WriteString(pixel(p.X) + "," + pixel(p.Y) + " ")
			}
			out.WriteString(`"/>`)
		}
	}
	line("aim", f.Stand.Aim)
	line("gate", f.Stand.Gate)
	line("way", f.Track.Path)
	size := pixel(max(f.Width, f.Height) / 160)
	for i, frame := range f.Track.Frames {
		class := "seen"
		switch {
		case slices.Contains(f.Struck, i):
			class = "struck"
		case !frame.Used:
			class = "unused"
		}
		if i == f.Frame {
			class += " now"
		}
		out.WriteString(`<circle class="` + class + `" cx="` + pixel(frame.At.X) + `" cy="` + pixel(frame.At.Y) + `" r="` + size + `"/>`)
	}
	return out.String()
}

// pixel returns a coordinate of a picture to a tenth of a pixel, for SVG and for a field.
func pixel(v float64) string { return strconv.FormatFloat(math.Round(10*v)/10, 'f', -1, 64) }

// Package sheet draws a scenario as a technical drawing: a plan of the table with thin
// lines and dimensions. The result is a display list that any painter can put on paper or
// screen. Plain Go, no browser.
//
// Positions are in CSS pixels from the top left of the sheet.
package sheet

import (
	"pivotbench/core/margin"
	"pivotbench/core/motion"
	"pivotbench/core/replay"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/vec"
	"pivotbench/wasm/app"
)

// A Point is a place on the sheet.
type Point struct{ X, Y float64 }

// An Ink is the meaning of a colour. The style sheet says which colour it is.
type Ink string

// The inks. Each has one meaning, and a dash or a mark shows the same.
const (
	Ground Ink = "ground" // the paper
	Grid   Ink = "grid"
	Line   Ink = "line" // balls, dimensions, frames
	Soft   Ink = "soft" // secondary text and leaders
	Aim    Ink = "aim"  // the aim line
	Stick  Ink = "cue"  // the cue and the hands
	Way    Ink = "way"  // the ball's path
	Off    Ink = "off"  // a deviation
	Cue2   Ink = "cue2" // what belongs to the first compared cue, and so on
	Cue3   Ink = "cue3"
	Cue4   Ink = "cue4"
	Cue5   Ink = "cue5"
	Cue6   Ink = "cue6"
)

// Inks lists all inks.
var Inks = []Ink{Ground, Grid, Line, Soft, Aim, Stick, Way, Off, Cue2, Cue3, Cue4, Cue5, Cue6}

// A Dash is the pattern of a line, in pixels on and off; nil is solid.
type Dash []float64

// The dashes.
var (
	Solid   Dash
	DashDot = Dash{12, 4, 2, 4}
	Dashed  = Dash{5, 4}
	Dotted  = Dash{1.5, 3.5}
)

// A Stroke is how a line is drawn.
type Stroke struct {
	Ink   Ink
	Width float64
	Dash  Dash
}

// An Item is one thing to paint: a Path, a Circle or a Text.
type Item interface{ item() }

// A Path is a line through points, filled with an ink if Fill is not empty.
type Path struct {
	Points []Point
	Stroke Stroke
	Fill   Ink
}

// A Circle is a circle, filled with an ink if Fill is not empty.
type Circle struct {
	At     Point
	Radius float64
	Stroke Stroke
	Fill   Ink
}

// An Anchor is the part of a text that is at its point.
type Anchor string

// The anchors, as SVG names them.
const (
	FromStart Anchor = "start"
	Middle    Anchor = "middle"
	ToEnd     Anchor = "end"
)

// A Text is one line of text. At is on its baseline.
type Text struct {
	At     Point
	Words  string
	Size   float64
	Bold   bool
	Ink    Ink
	Anchor Anchor
	Turned bool    // it reads upward
	lead   float64 // room before it, for a mark
}

func (Path) item()   {}
func (Circle) item() {}
func (Text) item()   {}

// A Sheet is a drawing, painted in the order of its items.
type Sheet struct {
	Width, Height float64
	Items         []Item
	Handles       []Handle
}

// A View says how a sheet is drawn.
type View struct {
	Width, Height float64                // of the plan
	Below         float64                // the height of the view from the side, under the plan; 0: none
	Stretch       int                    // of the sideways direction
	Left          bool                   // for the left hand: the section on the right
	Board         bool                   // the sheet alone, for the back row
	Text          float64                // how many times larger than usual its user has text; 0: as usual
	Fingers       bool                   // the page's buttons are for fingers
	Extent        Extent                 // how much table is shown
	Object        bool                   // the object ball and its pocket too
	Ratios        stat.Interval[float64] // of a hop's contact times; empty: what is usual for the tip
	Sampler       *margin.Sampler        // where nine strokes of ten go; nil: not shown
	Frame         *replay.Frame          // the moment shown; nil: before the shot
	Earlier       *scenario.Scenario     // a shot to be seen faintly beside; nil: none
	Sitting       app.OnSheet            // the strokes being measured
}

// corner returns the area at the top, on the side of the writing hand, that the page's
// own buttons for the stretch cover.
func (v View) corner() box {
	high := 112.0
	if v.Fingers {
		high = 148
	}
	wide, high := max(54, 26*v.Text+18), max(high, 3*(18.2*v.Text+2)+16)
	if v.Left {
		return box{0, 0, wide, high}
	}
	return box{v.Width - wide, 0, v.Width, high}
}

// Draw draws a scenario that has been played. A sheet too low for a plan shows the line
// alone at which strokes are observed.
func Draw(s *scenario.Scenario, res *shot.Result, v View) Sheet {
	p := pen{s: s, res: res, v: v, plan: newPlan(s, v), sheet: Sheet{Width: v.Width, Height: v.Height + v.Below}}
	if v.folded() {
		p.strip()
		return p.sheet
	}
	p.meet()
	p.table()
	table := len(p.sheet.Items)
	p.aimLine()
	p.keepClear()
	p.section()
	p.titleBlock()
	if v.Board {
		p.board()
	}
	p.earlier()
	p.sitting()
	p.gate()
	p.object()
	p.band()
	p.further()
	p.path()
	p.cueBall()
	p.cue()
	p.target()
	p.apart()
	p.angles()
	p.grant()
	p.side()
	p.moment()
	p.breakCushions(table)
	return p.sheet
}

// A pen is a drawing in progress.
type pen struct {
	s      *scenario.Scenario
	res    *shot.Result
	v      View
	plan   plan
	sheet  Sheet
	centre vec.V        // of the object ball, if pot is set
	pot    *shot.Pot    // the object ball that is hit; nil if none is shown, or it is missed
	after  []Point      // the cue ball's path after that
	beside *motion.Path // the only other path on the sheet, to be compared; nil for none, or several
	styles []int        // of the cues of the sitting
	taken  []box        // areas that texts keep away from
	bed    box          // the area between the cushions

	wishes   []*wish
	measured []measured
}

// heavy returns how much thicker than on a phone lines are, for a class.
func (p *pen) heavy() float64 {
	if p.v.Board {
		return max(1, p.typeSize()/13)
	}
	return 1
}

func (p *pen) line(st Stroke, points ...Point) {
	st.Width *= p.heavy()
	p.sheet.Items = append(p.sheet.Items, Path{Points: points, Stroke: st})
}

func (p *pen) circle(at Point, radius float64, st Stroke, fill Ink) {
	st.Width *= p.heavy()
	p.sheet.Items = append(p.sheet.Items, Circle{at, radius, st, fill})
}

func (p *pen) text(t Text) {
	p.sheet.Items = append(p.sheet.Items, t)
	b, gap := t.box(), 0.3*t.Size // so that the next text is not read with it
	p.taken = append(p.taken, box{b.left - gap, b.top - 1, b.right + gap, b.bottom + 1})
}

// typeSize returns the size of ordinary text on this sheet.
func (p *pen) typeSize() float64 { return typeSize(p.v) }

func typeSize(v View) float64 {
	room := min(v.Width, v.Height)
	size := min(max(room/33, 11), 15)
	if v.Board {
		size = min(max(room/33*0.95, 13), 30)
	}
	return max(size, min(size*v.Text, room/18)) // with more, texts would displace each other
}

package sheet

import (
	"pivotbench/core/margin"
	"pivotbench/wasm/app"
)

// A Glass is the area in which a program shows a model: its size, and what is kept from
// one drawing to the next.
type Glass struct {
	Width, Height float64
	Board         bool    // the sheet fills the whole screen
	Text          float64 // as in View
	Fingers       bool
	pull          *Pull
	strokes       *margin.Sampler // for the band, made when first needed
}

// View returns how a model is to be drawn on the glass.
func (g *Glass) View(m *app.Model) View {
	below := g.below(m)
	v := View{
		Width: g.Width, Height: g.Height - below, Below: below, Board: g.Board,
		Stretch: m.Look.Stretch, Left: m.Look.Left, Object: m.Look.Object, Text: g.Text, Fingers: g.Fingers, Ratios: m.Ratios,
	}
	if m.Look.Band {
		if g.strokes == nil {
			g.strokes = newBand()
		}
		v.Sampler = g.strokes
	}
	v.Frame = m.Frame()
	v.Sitting = m.OnSheet()
	if m.HasEarlier {
		v.Earlier = &m.Earlier
	}
	if g.pull != nil {
		v.Extent = g.pull.Extent()
	}
	return v
}

// Extent returns how much of the table the glass shows of a model.
func (g *Glass) Extent(m *app.Model) Extent {
	if v := g.View(m); v.Extent == (Extent{}) {
		return v.fit(&m.Scene)
	}
	return g.pull.Extent()
}

// Drag turns a step of a drag into an event. ok is false for a drag that did not begin
// here.
func (g *Glass) Drag(m *app.Model, id HandleID, phase app.Phase, dx, dy float64, slow bool) (e app.Drag, ok bool) {
	if phase == app.DragStart {
		pull := Take(&m.Scene, g.View(m))
		g.pull = &pull
	}
	if g.pull == nil {
		return e, false
	}
	e = g.pull.To(id, phase, dx, dy, slow)
	if phase == app.DragEnd || phase == app.DragCancel {
		g.pull = nil
	}
	return e, true
}

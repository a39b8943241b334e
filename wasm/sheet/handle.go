package sheet

import (
	"math"
	"slices"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
)

// A HandleID names something that can be dragged.
type HandleID string

// The handles.
const (
	BridgeHandle HandleID = "bridge"
	GripHandle   HandleID = "grip"
	TipHandle    HandleID = "tip"
	GapHandle    HandleID = "gap"
	GateHandle   HandleID = "gate"
	TargetHandle HandleID = "dist"
)

// A Direction is the way a handle moves.
type Direction int

// The directions.
const (
	Upright Direction = iota
	Sideways
	Anywhere
)

// A Handle is a place on the sheet that can be dragged.
type Handle struct {
	ID    HandleID
	At    Point
	Label string
	Way   Direction
}

// handle adds one and draws its mark, a small arrowhead each way it moves, which
// texts keep off.
func (p *pen) handle(id HandleID, at Point, label string, way Direction) {
	p.sheet.Handles = append(p.sheet.Handles, Handle{id, at, label, way})
	ink := Stick
	if way == Sideways || id == GateHandle || id == TargetHandle {
		ink = Line
	}
	gap := 12.0
	if id == GateHandle || id == TargetHandle {
		gap = 4
	}
	if id == GapHandle {
		gap = p.plan.ball + 4
	}
	st := Stroke{ink, 1.6, Solid}
	const half, long = 4, 5 // of an arrowhead
	if way != Sideways {
		p.taken = append(p.taken, box{at.X - half, at.Y - gap - long, at.X + half, at.Y + gap + long})
		p.line(st, Point{at.X - half, at.Y - gap}, Point{at.X, at.Y - gap - long}, Point{at.X + half, at.Y - gap})
		p.line(st, Point{at.X - half, at.Y + gap}, Point{at.X, at.Y + gap + long}, Point{at.X + half, at.Y + gap})
	}
	if way != Upright {
		p.taken = append(p.taken, box{at.X - gap - long, at.Y - half, at.X + gap + long, at.Y + half})
		p.line(st, Point{at.X - gap, at.Y - half}, Point{at.X - gap - long, at.Y}, Point{at.X - gap, at.Y + half})
		p.line(st, Point{at.X + gap, at.Y - half}, Point{at.X + gap + long, at.Y}, Point{at.X + gap, at.Y + half})
	}
}

// fine is how much slower a handle goes when it is held for fine work.
const fine = 5

// Drag is what moving a handle means: the scenario as the drag began, the
// same view, and how far the finger has gone, in pixels. The new values snap
// to sensible steps; fine work has slower travel and smaller steps. Values
// stop at what their keys allow.
func Drag(s *scenario.Scenario, v View, id HandleID, dx, dy float64, slow bool) []app.Setting {
	pl := newPlan(s, v)
	if slow {
		dx, dy = dx/fine, dy/fine
	}
	along := dy / pl.scale
	step := func(inches, metric unit.Length) float64 {
		out := float64(inches)
		if s.Units == "cm" {
			out = float64(metric)
		}
		if slow {
			return out / fine
		}
		return out
	}
	switch id {
	case BridgeHandle:
		return []app.Setting{moved(s, "bridge", along, step(0.25*unit.Inch, 0.5*unit.Centimetre))}
	case GripHandle:
		return []app.Setting{moved(s, "grip", along/gripScale, step(0.5*unit.Inch, 1*unit.Centimetre))}
	case TargetHandle:
		return []app.Setting{moved(s, "dist", -along, step(0.5*unit.Inch, 1*unit.Centimetre))}
	case GateHandle:
		return []app.Setting{moved(s, "gate", -along, step(0.5*unit.Inch, 1*unit.Centimetre))}
	case GapHandle:
		// Both blockers move, so the gap grows by twice the finger's way.
		return []app.Setting{moved(s, "gap", 2*dx/pl.scale/pl.stretch, step(0.05*unit.Inch, 1*unit.Millimetre))}
	case TipHandle:
		r, grid := sectionRadius(v), 0.02
		if slow {
			grid /= fine
		}
		return []app.Setting{moved(s, "side", dx/r, grid), moved(s, "height", -dy/r, grid)}
	}
	return nil
}

// moved is a key's value moved by so much, snapped to a step and kept within
// what is allowed, as text in the unit its steps are round in. A value that
// did not move is left alone.
func moved(s *scenario.Scenario, key string, by, step float64) app.Setting {
	k := scenario.Find(key)
	if math.Abs(by) < step/2 {
		return app.Setting{Key: key, Text: k.Value(s)}
	}
	v, _ := k.Number(s)
	v = min(max(math.Round((v+by)/step)*step, k.Min), k.Max)
	u, _ := k.Quantity.Find(stepUnit(k, s))
	const places = 1e6 // beyond any step: takes the rounding of the product off
	return app.Setting{Key: key, Text: unit.Exact(math.Round(v/u.SI*places)/places*u.SI, k.Quantity, u.Name)}
}

// Nudge is what an arrow key at a handle means: its next step that way, x to
// the right and y down, as a drag would take it.
func Nudge(s *scenario.Scenario, v View, id HandleID, x, y float64, slow bool) []app.Setting {
	const little, most = 0.125, 200 // pixels: less than any step takes, and more
	v.Extent = Take(s, v).view.Extent
	was := Drag(s, v, id, 0, 0, slow)
	for far := little; far < most; far += little {
		if sets := Drag(s, v, id, x*far, y*far, slow); !slices.Equal(sets, was) {
			return sets
		}
	}
	return was // it is at its end
}

// Keys are those of the values that a handle moves.
func (id HandleID) Keys() []string {
	if id == TipHandle {
		return []string{"side", "height"}
	}
	return []string{string(id)}
}

// stepUnit is the unit in which a key's steps are round numbers.
func stepUnit(k *scenario.Key, s *scenario.Scenario) string {
	if k.Quantity == unit.LengthKind {
		return s.Units
	}
	return k.Unit
}

// A Pull is a handle in hand: what was on the sheet when it was taken, so
// that every move is measured from there and the table holds still.
type Pull struct {
	base scenario.Scenario
	view View
}

// Take begins a pull, or begins it anew when fine work starts.
func Take(s *scenario.Scenario, v View) Pull {
	if v.Extent == (Extent{}) {
		v.Extent = v.fit(s)
	}
	return Pull{*s, v}
}

// Extent is how much of the table to show while the handle is in hand.
func (p *Pull) Extent() Extent { return p.view.Extent }

// To is what it means that the finger is so far from where it began.
func (p *Pull) To(id HandleID, phase app.Phase, dx, dy float64, slow bool) app.Drag {
	if phase == app.DragCancel {
		return app.Drag{Phase: phase}
	}
	return app.Drag{Sets: Drag(&p.base, p.view, id, dx, dy, slow), Phase: phase}
}

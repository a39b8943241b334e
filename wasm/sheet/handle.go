package sheet

import (
	"math"
	"slices"

	"pivotbench/core/scenario"
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
	switch id {
	case BridgeHandle:
		return []app.Setting{moved(s, "bridge", along, slow)}
	case GripHandle:
		return []app.Setting{moved(s, "grip", along/gripScale, slow)}
	case TargetHandle:
		return []app.Setting{moved(s, "dist", -along, slow)}
	case GateHandle:
		return []app.Setting{moved(s, "gate", -along, slow)}
	case GapHandle:
		// Both blockers move, so the gap grows by twice the finger's way.
		return []app.Setting{moved(s, "gap", 2*dx/pl.scale/pl.stretch, slow)}
	case TipHandle:
		r := sectionRadius(v)
		return []app.Setting{moved(s, "side", dx/r, slow), moved(s, "height", -dy/r, slow)}
	}
	return nil
}

// pulls are how many of a key's own steps a drag takes at once, and how many
// when it is slow; one and a fifth where a key is not named.
var pulls = map[string][2]float64{"bridge": {5, 1}, "side": {2, 1}, "height": {2, 1}}

// moved is a key's value moved by so much, snapped to the steps of a drag and
// kept within what is allowed, as text. A value that did not move is left alone.
func moved(s *scenario.Scenario, key string, by float64, slow bool) app.Setting {
	k := scenario.Find(key)
	steps, ok := pulls[key]
	if !ok {
		steps = [2]float64{1, 1.0 / fine}
	}
	many := steps[0]
	if slow {
		many = steps[1]
	}
	v, _ := k.Number(s)
	if math.Abs(by) < many*k.Grain(s.Units)/2 {
		return app.Setting{Key: key, Text: k.Value(s)}
	}
	return app.Setting{Key: key, Text: k.Written(k.Snapped(v+by, s.Units, many), s.Units)}
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

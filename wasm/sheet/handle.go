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
	MarkHandle   HandleID = app.MarkKey
)

// A Direction is the direction in which a handle moves.
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

// handle adds a handle and draws its mark, a small arrowhead in each direction in which
// it moves. Texts keep clear of the mark.
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
	if id == MarkHandle {
		ink = CueStroke(p.styles[p.v.Sitting.Placed.Cue], 1).Ink
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

// fine is how much slower a handle moves in fine adjustment.
const fine = 5

// Drag returns the settings that moving a handle makes, given the scenario as the drag
// began, the same view, and how far the finger has moved, in pixels. The new values snap
// to whole steps, smaller ones if slow is set, which also makes the handle move more
// slowly. Values stop at the limits of their keys.
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
		// Both blockers move, so the gap grows by twice the movement of the finger.
		return []app.Setting{moved(s, "gap", 2*dx/pl.scale/pl.stretch, slow)}
	case MarkHandle:
		return []app.Setting{placed(s, v, dx, slow)}
	case TipHandle:
		r := sectionRadius(v)
		return []app.Setting{moved(s, "side", dx/r, slow), moved(s, "height", -dy/r, slow)}
	}
	return nil
}

// pulls are the number of a key's own steps that a drag takes at once, and the number in
// fine adjustment. For other keys they are one and one fifth.
var pulls = map[string][2]float64{"bridge": {5, 1}, "side": {2, 1}, "height": {2, 1}}

// moved returns a key's value moved by an amount, snapped to the steps of a drag and
// limited to what is allowed, as text. It leaves alone a value that did not move.
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

// markSteps are the steps of a mark that is dragged, and those of fine adjustment, in the
// reader's unit: inches, or centimetres.
var markSteps = map[string][2]float64{"in": {0.1, 0.02}, "cm": {0.2, 0.05}}

// placed returns the setting for the mark moved by so many pixels, and limited to the
// width of the table.
func placed(s *scenario.Scenario, v View, dx float64, slow bool) app.Setting {
	u, _ := unit.LengthKind.Find(s.Units)
	step := markSteps[s.Units][0] * u.SI
	if slow {
		step = markSteps[s.Units][1] * u.SI
	}
	was, by := v.Sitting.Placed.At, unit.Length(dx/v.across(s))
	if float64(unit.Abs(by)) < step/2 {
		by = 0
	} else {
		by = unit.Length(math.Round(float64(was+by)/step)*step) - was
	}
	most := s.GearTable().Width
	return app.Setting{Key: app.MarkKey, Text: app.FieldLength(min(max(was+by, -most), most), s.Units)}
}

// Nudge returns the settings that an arrow key makes at a handle: its next step in that
// direction, x to the right and y down, as a drag would set it.
func Nudge(s *scenario.Scenario, v View, id HandleID, x, y float64, slow bool) []app.Setting {
	const little, most = 0.125, 200 // pixels: less than any step needs, and more
	v.Extent = Take(s, v).view.Extent
	was := Drag(s, v, id, 0, 0, slow)
	for far := little; far < most; far += little {
		if sets := Drag(s, v, id, x*far, y*far, slow); !slices.Equal(sets, was) {
			return sets
		}
	}
	return was // it is at its limit
}

// Keys returns the keys whose values a handle changes.
func (id HandleID) Keys() []string {
	if id == TipHandle {
		return []string{"side", "height"}
	}
	return []string{string(id)}
}

// A Pull is a held handle: the sheet as it was when the handle was taken, so that every
// move is measured from there and the table does not move.
type Pull struct {
	base scenario.Scenario
	view View
}

// Take begins a pull, or restarts it when fine adjustment begins.
func Take(s *scenario.Scenario, v View) Pull {
	if v.Extent == (Extent{}) {
		v.Extent = v.fit(s)
	}
	return Pull{*s, v}
}

// Extent returns how much of the table to show while the handle is held.
func (p *Pull) Extent() Extent { return p.view.Extent }

// To returns the event for a finger that has moved so far from where it began.
func (p *Pull) To(id HandleID, phase app.Phase, dx, dy float64, slow bool) app.Drag {
	if phase == app.DragCancel {
		return app.Drag{Phase: phase}
	}
	return app.Drag{Sets: Drag(&p.base, p.view, id, dx, dy, slow), Phase: phase}
}

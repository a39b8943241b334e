package motion_test

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/gear"
	"pivotbench/core/motion"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

type triple [3]float64

func (a triple) vec() vec.V { return vec.V{X: a[0], Y: a[1], Z: a[2]} }

type spot struct{ T, X, Y float64 }

// A reference is one motion in testdata/motion/ode.json.
type reference struct {
	Name      string
	R         unit.Length
	Slide     float64       `json:"mu_s"`
	Roll      float64       `json:"mu_r"`
	SpinDecay unit.SpinRate `json:"spindown"`
	Rebound   float64       `json:"e_t"`
	V, W      triple
	Answered  struct{ V, W triple }
	Landings  []spot
	RollAt    spot `json:"roll"`
	Stop      spot
	Crossings []struct {
		D            unit.Length
		Line, Circle *spot
	}
	Samples []struct {
		T         float64
		Phase     string
		Pos, V, W triple
	}
}

func (r *reference) run() motion.Path {
	return motion.Run(r.V.vec(), r.W.vec(), r.R, gear.Cloth{Slide: r.Slide, Roll: r.Roll, SpinDecay: r.SpinDecay, Rebound: r.Rebound})
}

// references are motions that SciPy's solve_ivp integrated from the equations of motion,
// without the closed forms. The script is in testdata/motion too.
func references(t *testing.T) []reference {
	t.Helper()
	text, err := os.ReadFile("../../testdata/motion/ode.json")
	require.NoError(t, err)
	var data struct{ Cases []reference }
	require.NoError(t, json.Unmarshal(text, &data))
	require.Len(t, data.Cases, 66)
	return data.Cases
}

// near compares two vectors to 1e-10 of the reference's scale.
func near(t *testing.T, want, got vec.V, scale float64, what string) {
	t.Helper()
	assert.Less(t, got.Sub(want).Norm(), 1e-10*math.Max(1, scale), what)
}

func TestStatesAgreeWithTheIntegrator(t *testing.T) {
	phases := map[string]motion.Phase{"air": motion.Fly, "slide": motion.Slide, "roll": motion.Roll, "rest": motion.Rest}
	for _, c := range references(t) {
		t.Run(c.Name, func(t *testing.T) {
			path, r := c.run(), float64(c.R)
			first, _ := path.At(0)
			near(t, vec.V{}, first.Pos, 1, "start")
			near(t, c.Answered.V.vec(), first.Vel, 1, "velocity after the table's answer")
			near(t, c.Answered.W.vec().Mul(r), first.Spin.Mul(r), 1, "spin after the table's answer")
			for _, s := range c.Samples {
				got, phase := path.At(unit.Span(s.T))
				assert.Equal(t, phases[s.Phase], phase, "at %v", s.T)
				near(t, s.Pos.vec(), got.Pos, s.Pos.vec().Norm(), "position")
				near(t, s.V.vec(), got.Vel, 1, "velocity")
				near(t, s.W.vec().Mul(r), got.Spin.Mul(r), 1, "spin")
			}
		})
	}
}

func TestEventsAgreeWithTheIntegrator(t *testing.T) {
	for _, c := range references(t) {
		t.Run(c.Name, func(t *testing.T) {
			path := c.run()
			at := func(want spot, got unit.Span, what string) {
				t.Helper()
				assert.InDelta(t, want.T, float64(got), 1e-9*math.Max(1, want.T), what)
				s, _ := path.At(got)
				near(t, vec.V{X: want.X, Y: want.Y}, s.Pos.Plan(), math.Hypot(want.X, want.Y), what)
			}
			at(c.RollAt, path.RollStart(), "roll")
			at(c.Stop, path.Stop(), "stop")
			var landings []unit.Span
			for _, s := range path.Segments() {
				if s.Phase == motion.Fly {
					landings = append(landings, s.Begin+s.Length)
				}
			}
			if assert.Len(t, landings, len(c.Landings)) {
				for i, want := range c.Landings {
					at(want, landings[i], "landing")
				}
			}
			for _, cross := range c.Crossings {
				crossing(t, cross.Line, path.AtLine, cross.D, &path)
				crossing(t, cross.Circle, path.AtCircle, cross.D, &path)
			}
		})
	}
}

func crossing(t *testing.T, want *spot, find func(unit.Length) (unit.Span, error), d unit.Length, path *motion.Path) {
	t.Helper()
	when, err := find(d)
	if want == nil {
		assert.ErrorIs(t, err, motion.ErrStops, "%v", d)
		return
	}
	if !assert.NoError(t, err) {
		return
	}
	assert.InDelta(t, want.T, float64(when), 1e-9*math.Max(1, want.T))
	s, _ := path.At(when)
	assert.InDelta(t, want.X, s.Pos.X, 1e-9*math.Max(1, float64(d)))
}

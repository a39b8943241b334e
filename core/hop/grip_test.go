package hop

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/motion"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// Coulomb's friction cone about the normal of the ball's face: an impulse within the cone
// is unchanged, and one outside is moved to its edge, on the same side of the normal.
func TestTheTipsFrictionCone(t *testing.T) {
	for _, rho := range []float64{0, 0.2, 0.5} {
		p := pressing{rho: rho, cos: math.Sqrt(1 - rho*rho), grip: 0.6}
		normal := vec.V{X: -rho, Z: p.cos} // X along the offset, Y square to it, Z along the cue
		split := func(n, b float64) (along float64, aside vec.V) {
			f := vec.V{X: n, Y: b, Z: 1}
			along = f.Dot(normal)
			return along, f.Sub(normal.Mul(along))
		}
		for _, q := range [][2]float64{{0, 0}, {-0.1, 0.1}, {3, 0}, {-4, 0}, {0.5, 2}, {-0.5, -2}} {
			n, b, clipped := p.cone(1, q[0], q[1])
			asked, want := split(q[0], q[1])
			push, aside := split(n, b)
			if want.Norm() <= 0.6*asked {
				assert.False(t, clipped)
				assert.Equal(t, q, [2]float64{n, b})
				continue
			}
			assert.True(t, clipped)
			assert.Greater(t, push, 0.0)
			assert.InEpsilon(t, 0.6*push, aside.Norm(), 1e-12, "on the edge")
			assert.InDelta(t, 0, aside.Cross(want).Norm(), 1e-12*want.Norm(), "against the same slip")
			assert.Greater(t, aside.Dot(want), 0.0)
		}
	}
}

// A tip without chalk slips all the time; a chalked one in a centre hit never does.
func TestSlippedIsAShare(t *testing.T) {
	s := steep()
	s.Elevation, s.Contact.Side = 0, 0.4
	hit, line, _, err := s.Stroke()
	require.NoError(t, err)
	assert.Zero(t, Struck(s.Ball, s.Cue, s.Cloth, &hit, line, 1).Slipped)
	s.Cue.Tip.Friction = 0.01
	assert.InDelta(t, 1, Struck(s.Ball, s.Cue, s.Cloth, &hit, line, 1).Slipped, 1e-9)
}

// Follows reports whether the cue is faster along its line than the point of the ball
// that it touched.
// point that it left.
func TestTheCueFollows(t *testing.T) {
	seen := map[bool]int{}
	for _, elevation := range []unit.Angle{0, 20, 40, 60, 80} {
		for _, ratio := range []float64{0.2, 1, 3} {
			s := steep()
			s.Elevation = elevation * unit.Degree
			p := pressed(t, s, ratio, steps)
			hit, line, _, err := s.Stroke()
			require.NoError(t, err)
			dir, _, _ := hit.Axes(line)
			face := p.Vel.Add(p.Spin.Cross(dir.Mul(-float64(s.Ball.Radius))))
			assert.Equal(t, p.Cue > face.Dot(dir), p.Follows)
			seen[p.Follows]++
		}
	}
	assert.Greater(t, seen[true], 2)
	assert.Greater(t, seen[false], 2)
}

// A quick tip hits the ball twice when the bed throws the ball back onto it. No energy is
// created.
func TestEnergyBalanceOfADoubleHit(t *testing.T) {
	for _, elevation := range []unit.Angle{70, 75, 80} {
		for _, ratio := range []float64{0.003, 0.02, 0.1} {
			s := steep()
			s.Elevation = elevation * unit.Degree
			s.Cue.Tip.Restitution = 0.9
			p := pressed(t, s, ratio, steps)
			assert.Greater(t, p.Touches, 1, "%v° %v", elevation, ratio)
			hit, _, _, err := s.Stroke()
			require.NoError(t, err)
			m, r := float64(s.Ball.Mass), float64(s.Ball.Radius)
			after := float64(s.Cue.Mass)/2*p.Cue*p.Cue + m/2*p.Vel.Dot(p.Vel) + 0.2*m*r*r*p.Spin.Dot(p.Spin) + float64(hit.EndMass())/2*p.End.Dot(p.End)
			before := float64(s.Cue.Mass) / 2
			assert.Less(t, after, before)
			assert.InDelta(t, before, after+p.Lost, 0.02*before, "%v° %v", elevation, ratio)
		}
	}
}

// A tip with restitution 1 is allowed; the model takes no more.
func TestAPerfectTip(t *testing.T) {
	s := steep()
	s.Cue.Tip.Restitution = 1
	var p motion.Path
	assert.NoError(t, Send(&s, 1, &p))
}

// The narrowed interval ends half way to the ratios that do not agree.
func TestNarrowEndsHalfWayToTheNextRatio(t *testing.T) {
	all := stat.Interval[float64]{From: 1, To: 4}
	s := steep()
	press, cue, err := Pressed(&s, 1.6)
	require.NoError(t, err)
	up := press.Vel.Z * float64(cue)
	seen := Seen{Shot: s, What: Rose, High: unit.Length(up * up / (2 * unit.Gravity))}
	got, err := Narrow(all, []Seen{seen})
	require.NoError(t, err)
	first, last := -1, -1
	grid := Spaced(all, 33)
	for i, ratio := range grid {
		if ok, _ := seen.fits(ratio); ok {
			if first < 0 {
				first = i
			}
			last = i
		}
	}
	require.Greater(t, first, 0)
	require.Less(t, last, 32)
	assert.InEpsilon(t, grid[first]*grid[first-1], got.From*got.From, 1e-12)
	assert.InEpsilon(t, grid[last]*grid[last+1], got.To*got.To, 1e-12)
}

// Short is set if the ball stops short for any one ratio.
func TestShortForOneRatio(t *testing.T) {
	s := steep()
	found := false
	for v := unit.Speed(0.05); v < 1.5; v *= 1.01 {
		a, b := With(&s, []float64{0.5}, s.Cue, v), With(&s, []float64{2}, s.Cue, v)
		if a.Short == b.Short {
			continue
		}
		found = true
		assert.True(t, With(&s, []float64{0.5, 2}, s.Cue, v).Short)
		assert.True(t, With(&s, []float64{2, 0.5}, s.Cue, v).Short)
	}
	assert.True(t, found)
}

package hop_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/contact"
	"pivotbench/core/gear"
	"pivotbench/core/hop"
	"pivotbench/core/shot"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// passes samples a first flight at 20 000 points. It returns the smaller distance from
// the blockers' centres, minus 2R.
func passes(s shot.Shot) float64 {
	p := send(s)
	flights := hop.Flights(p, 0)
	if len(flights) == 0 || flights[0].Number != 1 {
		return -1
	}
	f := flights[0]
	l, r := contact.Posts(s.Gate, s.Ball.Radius)
	least := math.Inf(1)
	const n = 20000
	for i := range n + 1 {
		at, _ := p.At(f.Begin + f.Length*unit.Span(i)/n*(1-1e-12))
		least = min(least, at.Pos.Sub(l).Norm(), at.Pos.Sub(r).Norm())
	}
	least -= 2 * float64(s.Ball.Radius)
	if f.Land.Pos.Dot(l.Add(r)) < l.Add(r).Dot(l.Add(r))/2 {
		return min(least, -1e-3) // it lands before the line of the blockers
	}
	return least
}

// The closed form agrees with samples of the flights at speeds a thousandth below and
// above it.
func TestFirstFlightIsTheEdge(t *testing.T) {
	rng := rand.New(rand.NewPCG(65, 66))
	found, flat, beside := 0, 0, 0
	for range 400 {
		s := anyHop(rng)
		v, err := hop.FirstFlight(&s, hop.InTurn)
		if err != nil {
			require.ErrorIs(t, err, hop.ErrFlat)
			s.Speed = 30
			require.Negative(t, passes(s))
			flat++
			continue
		}
		if v == 0 {
			beside++
			continue
		}
		found++
		s.Speed = v * 1.001
		require.Positive(t, passes(s))
		s.Speed = v * 3
		require.Positive(t, passes(s), "every greater speed passes over too")
		s.Speed = v * 0.999
		require.Negative(t, passes(s))
	}
	assert.Greater(t, found, 150)
	assert.Greater(t, flat, 20)
	assert.Greater(t, beside, 5)
}

// A worked example in elementary algebra: the flight y = t x − κ x² has its highest
// point, at the height t x/2, at x = t/2κ. When this is above the middle of a whole ball
// at x, the flight, which is flatter there than the circle of radius 2R, touches its top
// when t x/2 = 2R. So the slope is t = 4R/x and κ = t/2x, where κ = g/(2 v²) with the
// forward velocity v. For a centre hit the cloth makes t = e_t tan θ/(1 − μ(1+e_t) tan
// θ).
func TestFirstFlightOverAWholeBall(t *testing.T) {
	s := hopping()
	x := 20 * float64(radius)
	slope := 4 * float64(radius) / x
	grip := s.Cloth.Slide * (1 + s.Cloth.Rebound)
	s.Elevation = unit.Angle(math.Atan(slope / (s.Cloth.Rebound + slope*grip)))
	s.Gate.Gap = 8 * unit.Inch // the other blocker is far to the side
	side := float64(s.Gate.Gap/2 + radius)
	s.Gate.Dist = unit.Length(math.Sqrt(x*x - side*side))
	s.AimOff = -unit.Angle(math.Asin(side / x))

	sin, cos := math.Sincos(float64(s.Elevation))
	forward := math.Sqrt(unit.Gravity * x / slope)
	got, err := hop.FirstFlight(&s, hop.InTurn)
	require.NoError(t, err)
	assert.InEpsilon(t, forward/(cos-grip*sin), float64(got), 1e-9)
}

// The reach of a flight agrees with the path.
func TestLandsBefore(t *testing.T) {
	rng := rand.New(rand.NewPCG(67, 68))
	for range 100 {
		s := anyHop(rng)
		dist := unit.Length(between(rng, 0.2, 1.5))
		v, err := hop.LandsBefore(&s, hop.InTurn, dist)
		require.NoError(t, err)
		s.Speed = v
		assert.InEpsilon(t, float64(dist), float64(hop.Flights(send(s), 0)[0].Reach()), 1e-9)
	}
}

func TestNoFirstFlight(t *testing.T) {
	for _, c := range []struct {
		change func(*shot.Shot)
		want   error
	}{
		{func(s *shot.Shot) { s.Elevation = 0 }, hop.ErrNoHop},
		{func(s *shot.Shot) { s.Elevation = 90 * unit.Degree }, hop.ErrUpright},
		{func(s *shot.Shot) { s.Elevation = -1 }, hop.ErrUpright},
		{func(s *shot.Shot) { s.Elevation = unit.Angle(math.NaN()) }, hop.ErrUpright},
		{func(s *shot.Shot) { s.Contact.Side = 0.6 }, strike.ErrMiscue},
		{func(s *shot.Shot) { s.Gate.Dist = 0 }, contact.ErrNoGate},
		{func(s *shot.Shot) { s.Gate = gear.Gate{Dist: 0.03} }, contact.ErrOverlap},
		{func(s *shot.Shot) { s.Elevation = 3 * unit.Degree }, hop.ErrFlat},
	} {
		s := hopping()
		c.change(&s)
		_, err := hop.FirstFlight(&s, hop.InTurn)
		assert.ErrorIs(t, err, c.want)
		if c.want != contact.ErrNoGate && c.want != contact.ErrOverlap && c.want != hop.ErrFlat {
			_, err = hop.LandsBefore(&s, hop.InTurn, 1)
			assert.ErrorIs(t, err, c.want)
		}
	}
}

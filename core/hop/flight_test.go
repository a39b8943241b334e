package hop_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/hop"
	"pivotbench/core/motion"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// Projectile motion in any text on mechanics: apex v_z²/2g, time 2v_z/g, range 2 v_z
// v_x/g. The tip drives the ball down with v sin θ, and the ball leaves the cloth with
// e_t times that. Friction slows it by at most μ(1+e_t) v sin θ, and by exactly that
// here.
func TestFlightOfACentreHit(t *testing.T) {
	s := hopping()
	sin, cos := math.Sincos(float64(s.Elevation))
	v, e := float64(s.Speed), s.Cloth.Rebound
	up := e * v * sin
	flat := v*cos - s.Cloth.Slide*(1+e)*v*sin
	flights := hop.Flights(send(s), 0)
	require.NotEmpty(t, flights)
	f := flights[0]
	assert.Equal(t, 1, f.Number)
	assert.Zero(t, f.Begin)
	assert.InEpsilon(t, up*up/(2*9.80665), float64(f.Rise()), 1e-12)
	assert.InEpsilon(t, 2*up/9.80665, float64(f.Length), 1e-12)
	assert.InEpsilon(t, 2*up*flat/9.80665, float64(f.Reach()), 1e-12)
	assert.InEpsilon(t, -up, f.Land.Vel.Z, 1e-12, "it comes down as it went up")
	assert.Zero(t, f.Land.Pos.Z)

	// Each flight rises to e_t² times the height of the one before.
	require.Greater(t, len(flights), 2)
	for i := 1; i < len(flights); i++ {
		assert.InEpsilon(t, e*e*float64(flights[i-1].Rise()), float64(flights[i].Rise()), 1e-9)
		assert.Equal(t, i+1, flights[i].Number)
	}
}

func TestFlightsTooLowAreLeftOut(t *testing.T) {
	p := send(hopping())
	all := hop.Flights(p, 0)
	some := hop.Flights(p, all[1].Rise())
	assert.Equal(t, all[:2], some)
	assert.Empty(t, hop.Flights(p, 1))
	s := hopping()
	s.Elevation = 0
	assert.Empty(t, hop.Flights(send(s), 0))
}

// The flight over a line is the one in which the path crosses it.
func TestOver(t *testing.T) {
	p := send(hopping())
	flights := hop.Flights(p, 0)
	for i, f := range flights[:3] {
		from, to := f.From.Pos.Y, f.Land.Pos.Y
		got, err := hop.Over(p, unit.Length((from+to)/2))
		require.NoError(t, err)
		assert.Equal(t, flights[i], got)
	}
	_, err := hop.Over(p, unit.Length(flights[len(flights)-1].Land.Pos.Y+0.01))
	assert.ErrorIs(t, err, hop.ErrRolls)
	_, err = hop.Over(p, 100)
	assert.ErrorIs(t, err, motion.ErrStops)
}

// The energy of a ball per unit mass is that of its travel, its spin (2/5 R² is a
// sphere's) and its height. No landing, slide or roll increases it, and the ball never
// has more than the cue had.
func TestEnergyNeverGrows(t *testing.T) {
	energy := func(s motion.State) float64 {
		r := float64(radius)
		return s.Vel.Dot(s.Vel)/2 + r*r*s.Spin.Dot(s.Spin)/5 + unit.Gravity*s.Pos.Z
	}
	rng := rand.New(rand.NewPCG(63, 64))
	flights := 0
	for range 500 {
		s := anyHop(rng)
		p := send(s)
		flights += len(hop.Flights(p, 0))
		speed := float64(s.Speed)
		if !s.ByStroke {
			speed = float64(hop.With(&s, inTurn, s.Cue, 1).BallSpeed)
			speed = float64(s.Speed) / speed
		}
		last := float64(s.Cue.Mass/s.Ball.Mass) * speed * speed / 2
		for _, seg := range p.Segments() {
			for _, t0 := range []float64{0, 0.5, 1 - 1e-9} {
				length := float64(seg.Length)
				if seg.Phase == motion.Rest {
					length = 0
				}
				at, _ := p.At(seg.Begin + unit.Span(t0*length))
				now := energy(at)
				require.LessOrEqual(t, now, last*(1+1e-12)+1e-15)
				last = now
			}
		}
	}
	assert.Greater(t, flights, 1000)
}

// Right english with a raised cue: the flight keeps its direction; the landing and the
// slide bend the path to the right. Without english nothing turns it. (Common practice,
// no source.)
func TestTurning(t *testing.T) {
	turn := func(side float64) hop.Turn {
		s := hopping()
		s.Contact.Side = side
		p := send(s)
		f := hop.Flights(p, 0)[0]
		mid, _ := p.At(f.Length / 2)
		assert.InDelta(t, float64(motion.Bearing(f.From.Vel)), float64(motion.Bearing(mid.Vel)), 1e-15, "in the air it keeps its line")
		assert.InDelta(t, float64(motion.Bearing(f.Land.Pos)), float64(motion.Bearing(f.From.Vel)), 1e-12)
		return hop.Turning(p, &f)
	}
	none := turn(0)
	assert.InDelta(t, 0, math.Abs(float64(none.Air))+math.Abs(float64(none.Down))+math.Abs(float64(none.Rolls))+math.Abs(none.Side), 1e-12)
	right, left := turn(0.3), turn(-0.3)
	assert.Greater(t, right.Down, right.Air)
	assert.GreaterOrEqual(t, right.Rolls, right.Down)
	assert.Positive(t, right.Side)
	assert.InDelta(t, float64(right.Rolls), -float64(left.Rolls), 1e-12)
	assert.InDelta(t, right.Side, -left.Side, 1e-12)
}

// How the ball meets an object ball, placed by hand along the first flight.
func TestMeets(t *testing.T) {
	p := send(hopping())
	f := hop.Flights(p, 0)[0]
	at := func(share float64) vec.V { return vec.V{Y: share * float64(f.Reach())} }
	how, rise := hop.Meets(p, at(0.5), radius)
	assert.Equal(t, hop.FliesOver, how)
	assert.InDelta(t, float64(f.Rise()), float64(rise), 1e-12)
	how, rise = hop.Meets(p, at(1), radius)
	assert.Equal(t, hop.OnTheFly, how)
	assert.Positive(t, float64(rise))
	assert.Less(t, rise, 2*radius)
	flights := hop.Flights(p, 0)
	how, rise = hop.Meets(p, vec.V{Y: float64(flights[len(flights)-1].Reach() + 3*radius)}, radius)
	assert.Equal(t, hop.OnTheCloth, how)
	assert.Zero(t, rise)
	how, _ = hop.Meets(p, vec.V{X: 0.2, Y: 0.4}, radius)
	assert.Equal(t, hop.Misses, how)
	// A ball dropped straight down meets nothing beside it.
	var drop motion.Path
	drop.Follow(motion.State{Pos: vec.V{Z: 0.2}}, radius, hopping().Cloth)
	how, _ = hop.Meets(&drop, vec.V{X: 0.1}, radius)
	assert.Equal(t, hop.Misses, how)
}

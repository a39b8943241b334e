package shot_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/contact"
	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/stance"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// potting returns a random shot at an object ball, whatever it is aimed at.
func potting(rng *rand.Rand, res *shot.Result) shot.Shot {
	s := playable(rng, res)
	s.Object = shot.Object{
		Cut:  unit.Angle(between(rng, -80, 80)) * unit.Degree,
		Dist: inches(rng, 3, 100), Opening: inches(rng, 2, 6),
	}
	return s
}

// pocket returns the middle of the pocket.
func pocket(s *shot.Shot) vec.V {
	way := float64(s.Object.Cut)
	return s.ObjectAt().Add(vec.V{X: math.Sin(way), Y: math.Cos(way)}.Mul(float64(s.Object.Dist)))
}

// sink plays a shot to the pocket.
func sink(t *testing.T, s *shot.Shot) (path motion.Path, pot shot.Pot) {
	t.Helper()
	require.NoError(t, s.Send(&path), "%+v", *s)
	require.NoError(t, s.Sink(&path, &pot), "%+v", *s)
	return path, pot
}

// The aim for the pocket, fed back as a heading and as a share of the hands, sends the
// object ball to the middle of the pocket: for any cut, elevation and spin, on the cloth
// or touched in the air.
func TestPocketAimFedForwardDrops(t *testing.T) {
	rng := rand.New(rand.NewPCG(61, 62))
	var res shot.Result
	shots, shares, air := 0, 0, 0
	for shots < 10_000 {
		s := potting(rng, &res)
		aim, err := s.ToPocket(&res)
		if err != nil {
			continue
		}
		shots++
		by := s
		by.AimOff = aim.Heading - res.Reading.Heading.Value
		_, pot := sink(t, &by)
		require.NoError(t, pot.Missed)
		require.InDelta(t, 0, float64(pot.Miss), 1e-9, "%+v", s)
		when, err := pot.Object.AtCircle(s.Object.Dist)
		require.NoError(t, err)
		there, _ := pot.Object.At(when)
		require.Less(t, s.ObjectAt().Add(there.Pos.Plan()).Sub(pocket(&s)).Norm(), 1e-9)

		require.InDelta(t, 0, math.Remainder(float64(pot.Line-aim.Line), 2*math.Pi), 1e-9)
		require.InDelta(t, float64(aim.Throw), float64(pot.Throw), 1e-9)
		require.Less(t, pot.Cue.Pos.Plan().Sub(aim.Point).Norm(), 1e-9)
		require.InDelta(t, 2*float64(s.Ball.Radius), pot.Cue.Pos.Sub(s.ObjectAt()).Norm(), 1e-9, "the balls touch")
		if pot.Cue.Pos.Z > 0 {
			air++
		}

		share, _ := s.StanceFor(aim.Heading)
		if share.Err() != nil || math.Abs(float64(aim.Heading)) > 1.4 { // near a right angle the sine is almost the same for all headings
			continue
		}
		shares++
		s.Hands.Back, s.Hands.Front = share.Value, 1-share.Value
		_, pot = sink(t, &s)
		require.InDelta(t, 0, float64(pot.Miss), 1e-9, "%+v", s)
		if s.Object.Opening > 2*s.Ball.Radius+2e-9 {
			require.True(t, pot.In(&s))
		}
	}
	assert.Greater(t, shares, 9000)
	assert.Greater(t, air, 1000)
}

// Send is Play without the readings, and refuses the same shots.
func TestSendIsPlay(t *testing.T) {
	rng := rand.New(rand.NewPCG(63, 64))
	var res shot.Result
	var path motion.Path
	sent, refused := 0, 0
	for range 10_000 {
		s := anything(rng)
		s.AimOff = unit.Angle(between(rng, -0.1, 0.1))
		shot.Play(&s, &res)
		require.Equal(t, res.Launched, s.Send(&path))
		if res.Launched != nil {
			refused++
			continue
		}
		sent++
		require.Equal(t, res.Path.Segments(), path.Segments())
	}
	assert.Greater(t, sent, 2000)
	assert.Greater(t, refused, 2000)
}

// An error of the player's aim turns the heading, and the whole path, by as much.
func TestAimOffTurnsThePath(t *testing.T) {
	s := medium()
	straight := play(s)
	s.AimOff = 0.02
	off := play(s)
	assert.InDelta(t, 0.02, float64(off.Reading.Heading.Value-straight.Reading.Heading.Value), 1e-16)
	assert.InDelta(t, 0.02, float64(off.Reading.Launch.Value-straight.Reading.Launch.Value), 1e-16)
	assert.InDelta(t, float64(straight.Reading.Swerve.Value), float64(off.Reading.Swerve.Value), 1e-14)
	assert.InDelta(t, float64(straight.Reading.Aim.Value), float64(off.Reading.Aim.Value), 1e-14, "the heading needed does not change")
	assert.Equal(t, straight.Reading.Squirt, off.Reading.Squirt)
}

// stun returns a level centre-ball shot straight at an object ball.
func stun() shot.Shot {
	s := level()
	s.Contact.Side = 0
	s.Object = shot.Object{Dist: 24 * unit.Inch, Opening: 4.5 * unit.Inch}
	return s
}

// A ball on a straight line at the angle ε passes at (D + 2R) sin ε from the centre of an
// object ball that lies straight ahead at D + 2R. This distance is also 2R times the sine
// of the angle between its direction and the line of centres.
func TestSinkOffCentre(t *testing.T) {
	for _, off := range []unit.Angle{0.001, 0.02, -0.02, -0.05} {
		s := stun()
		s.AimOff = off
		path, pot := sink(t, &s)
		far, apart := s.Dist+2*s.Ball.Radius, 2*s.Ball.Radius
		line := off - unit.Angle(math.Asin(float64(far/apart)*off.Sin()))
		assert.InDelta(t, float64(line), float64(pot.Line), 1e-12)
		assert.Negative(t, float64(pot.Line*off), "met on its right, the object ball goes left")
		assert.InDelta(t, float64(s.Object.Dist)*math.Sin(float64(line+pot.Throw)), float64(pot.Miss), 1e-4, "a little roll makes it curve")
		assert.Positive(t, float64(pot.Throw*off), "thrown towards the cue ball's own direction")

		touching, _ := path.At(pot.When)
		assert.Equal(t, touching.Pos, pot.Cue.Pos)
		start, _ := pot.Object.At(0)
		momentum := pot.Cue.Vel.Add(start.Vel).Sub(touching.Vel).Plan()
		assert.Less(t, momentum.Norm(), 0.01*touching.Vel.Norm(), "conserved except for the cloth's impulse on the object ball")
		assert.Equal(t, math.Abs(float64(pot.Miss)) <= 2.25/2*0.0254, pot.In(&s))
	}
	s := stun()
	_, pot := sink(t, &s)
	assert.InDelta(t, 0, float64(pot.Miss), 1e-12)
	assert.True(t, pot.In(&s))
}

func TestObjectAt(t *testing.T) {
	s := medium()
	r := float64(s.Ball.Radius)
	for _, cut := range []float64{0, 0.5, -1.2} {
		s.Object.Cut = unit.Angle(cut)
		want := vec.V{X: 2 * r * math.Sin(cut), Y: float64(s.Dist) + 2*r*math.Cos(cut)}
		assert.Less(t, s.ObjectAt().Sub(want).Norm(), 1e-15)
	}
}

func TestForgiven(t *testing.T) {
	s := stun()
	assert.InDelta(t, 1.125, float64(s.Forgiven()/unit.Inch), 1e-12, "half of 4.5 less 2.25")
	edge := s.Forgiven()
	assert.True(t, (&shot.Pot{Miss: edge}).In(&s))
	assert.True(t, (&shot.Pot{Miss: -edge}).In(&s))
	assert.False(t, (&shot.Pot{Miss: -edge * 1.001}).In(&s))
	assert.False(t, (&shot.Pot{Missed: shot.ErrObjectStops}).In(&s))
	s.Object.Opening = 2 * unit.Inch
	assert.Zero(t, s.Forgiven(), "narrower than the ball")
}

// The aim as an offset at the target: together with the target's distance it forms a
// triangle.
func TestParallelShift(t *testing.T) {
	s := medium()
	assert.InDelta(t, 18, float64(s.ParallelShift(30*unit.Degree)/unit.Inch), 1e-12)
	assert.InDelta(t, -18, float64(s.ParallelShift(-30*unit.Degree)/unit.Inch), 1e-12)
	// Shifting the aim of a parallel stance by this much sends the ball to the target.
	s.Hands.Back, s.Hands.Front = 0, 0
	aim := play(s).Reading.Aim.Value
	s.AimOff = unit.Angle(math.Asin(float64(s.ParallelShift(aim) / s.Dist)))
	assert.InDelta(t, 0, float64(play(s).Reading.Arrival.Value), 1e-12)
}

func TestStanceFor(t *testing.T) {
	s := medium()
	r := play(s).Reading
	share, pivot := s.StanceFor(r.Aim.Value)
	assert.Equal(t, r.ShareBack, share)
	assert.Equal(t, r.PivotEffective, pivot)
	_, pivot = s.StanceFor(-r.Aim.Value)
	assert.ErrorIs(t, pivot.Err(), shot.ErrOtherSide)
	for _, side := range []float64{0.4, -0.4} { // with english but no turn, the bridge would have to be infinitely long
		s.Contact.Side = side
		_, pivot = s.StanceFor(0)
		assert.ErrorIs(t, pivot.Err(), shot.ErrOtherSide)
	}
	s.Contact.Side = 0
	share, pivot = s.StanceFor(0.01)
	assert.ErrorIs(t, share.Err(), stance.ErrNoSide)
	assert.ErrorIs(t, pivot.Err(), stance.ErrNoSide)
}

// Reasons why the object ball is not pocketed, and why no aim would pocket it.
func TestPotReasons(t *testing.T) {
	for _, c := range []struct {
		name           string
		change         func(*shot.Shot)
		send, sink, in error // for the shot as it stands
		aim            error
	}{
		{"in", func(*shot.Shot) {}, nil, nil, nil, nil},
		{"miscue", func(s *shot.Shot) { s.Contact.Side = 0.6 }, strike.ErrMiscue, nil, nil, strike.ErrMiscue},
		{"aimed wide", func(s *shot.Shot) { s.AimOff = 0.1 }, nil, contact.ErrMisses, nil, nil},
		{"stops short", func(s *shot.Shot) { s.Speed = 0.1 }, nil, contact.ErrMisses, nil, motion.ErrStops},
		{"over it", func(s *shot.Shot) { s.Elevation, s.Dist, s.Speed = 50*unit.Degree, 15*unit.Inch, 5 }, nil, contact.ErrMisses, nil, contact.ErrOver},
		{"too soft", func(s *shot.Shot) { s.Speed, s.Object.Dist = 0.6, 90*unit.Inch }, nil, nil, shot.ErrObjectStops, shot.ErrObjectStops},
		{"behind it", func(s *shot.Shot) { s.Dist, s.Object.Cut = s.Ball.Radius, 150*unit.Degree }, nil, contact.ErrThin, nil, contact.ErrThin},
		{"turned too far", func(s *shot.Shot) { s.Contact.Side, s.Hands.Back = 0.3, 30 }, stance.ErrTurn, nil, nil, stance.ErrTurn},
		{"too thin", func(s *shot.Shot) { s.Object.Cut, s.AimOff = 100*unit.Degree, -0.1 }, nil, contact.ErrMisses, nil, contact.ErrThin},
	} {
		s := stun()
		c.change(&s)
		res := play(s)
		_, err := s.ToPocket(res)
		assert.ErrorIs(t, err, c.aim, "%s: aim", c.name)
		var path motion.Path
		var pot shot.Pot
		err = s.Send(&path)
		require.ErrorIs(t, err, c.send, "%s: sent", c.name)
		if err != nil {
			continue
		}
		err = s.Sink(&path, &pot)
		require.ErrorIs(t, err, c.sink, "%s: sunk", c.name)
		if err == nil {
			assert.ErrorIs(t, pot.Missed, c.in, "%s: missed", c.name)
			assert.Equal(t, c.in == nil, pot.In(&s), c.name)
		}
	}
}

// A ball that comes down on the object ball touches it above its middle.
func TestTouchInTheAir(t *testing.T) {
	s := stun()
	s.Elevation, s.Speed, s.Dist = 40*unit.Degree, 4, 18*unit.Inch
	found := false
	for dist := unit.Length(6); dist < 60; dist += 0.5 {
		s.Dist = dist * unit.Inch
		var path motion.Path
		var pot shot.Pot
		require.NoError(t, s.Send(&path))
		if s.Sink(&path, &pot) != nil || pot.Cue.Pos.Z < 0.01 {
			continue
		}
		found = true
		assert.InDelta(t, 2*float64(s.Ball.Radius), pot.Cue.Pos.Sub(s.ObjectAt()).Norm(), 1e-12)
		assert.Greater(t, pot.Cue.Pos.Y, float64(s.Dist), "nearer in plan than two radii")
	}
	assert.True(t, found)
}

// A ball with draw that turns back where it lands may get no further than there. It
// touches an object ball just short of that point on its way down, and pockets those
// straight ahead that it sends far enough.
func TestTouchWhereTheBallTurnsBack(t *testing.T) {
	s := stun()
	s.Elevation, s.Contact.Height, s.Speed, s.Cloth.Rebound = 71.5*unit.Degree, -0.44, 2.4, 0.43
	s.Object.Dist = 1 * unit.Millimetre
	air, turning := 0, 0
	for dist := unit.Length(10); dist < 60; dist += 0.1 {
		s.Dist = dist * unit.Millimetre
		var path motion.Path
		var pot shot.Pot
		require.NoError(t, s.Send(&path))
		if s.Sink(&path, &pot) != nil || pot.Missed != nil || pot.Cue.Pos.Z == 0 {
			continue
		}
		air++
		aim, err := s.ToPocket(play(s))
		require.NoError(t, err, "%v mm", dist)
		require.InDelta(t, 0, float64(aim.Heading), 1e-12)
		require.Less(t, aim.Point.Sub(pot.Cue.Pos.Plan()).Norm(), 1e-9)
		if _, err := path.AtCircle(unit.Length(aim.Point.Norm()) + s.Ball.Radius/4); err != nil {
			turning++
		}
	}
	assert.Greater(t, air, 50)
	assert.Greater(t, turning, 5)
}

// The throw reading is the throw of an object ball that is met at the target: what the
// object ball does when the shot is aimed there.
func TestThrowReading(t *testing.T) {
	rng := rand.New(rand.NewPCG(65, 66))
	var res shot.Result
	for n := 0; n < 2000; {
		s := potting(rng, &res)
		s.AimOff = res.Reading.Aim.Value - res.Reading.Heading.Value
		shot.Play(&s, &res)
		at, err := res.Path.AtCircle(s.Dist)
		require.NoError(t, err)
		if there, _ := res.Path.At(at); there.Pos.Z > 0 || res.Reading.Throw.Err() != nil {
			continue
		}
		n++
		var pot shot.Pot
		require.NoError(t, s.Sink(&res.Path, &pot))
		require.InDelta(t, float64(s.Object.Cut), float64(pot.Line), 1e-9)
		require.InDelta(t, float64(pot.Throw), float64(res.Reading.Throw.Value), 1e-8)
	}
}

// Common practice, no source: on a straight shot right english throws the object ball to
// the left, and a harder hit throws it less.
func TestThrowFallsWithSpeed(t *testing.T) {
	last := math.Inf(-1)
	for _, mph := range []unit.Speed{2, 4, 7, 12, 20} {
		s := level()
		s.Speed, s.Dist = mph*unit.MilePerHour, 6*unit.Inch
		throw := play(s).Reading.Throw
		require.NoError(t, throw.Err())
		assert.Negative(t, float64(throw.Value))
		assert.Greater(t, float64(throw.Value), last)
		last = float64(throw.Value)
	}
}

// Common practice, no source: for one player and one shot, the lower the cue's
// deflection, the smaller the back-hand share.
func TestLowerDeflectionNeedsASmallerShare(t *testing.T) {
	last := math.Inf(1)
	for _, pivot := range []unit.Length{8, 9.5, 13, 19} {
		s := medium()
		s.Cue.Pivot = pivot * unit.Inch
		share := play(s).Reading.ShareBack
		require.NoError(t, share.Err())
		assert.Less(t, share.Value, last)
		last = share.Value
	}
}

// Common practice, no source: swerve offsets squirt, so the softer and the longer the
// shot, the smaller the back-hand share. With a level cue nothing swerves and one share
// fits all shots.
func TestShareChangesThroughSwerve(t *testing.T) {
	share := func(elevation unit.Angle, mph unit.Speed, dist unit.Length) float64 {
		s := medium()
		s.Elevation, s.Speed, s.Dist = elevation*unit.Degree, mph*unit.MilePerHour, dist*unit.Inch
		a := play(s).Reading.ShareBack
		require.NoError(t, a.Err())
		return a.Value
	}
	assert.Less(t, share(4, 4, 36), share(4, 8, 36)-0.01)
	assert.Less(t, share(4, 8, 36), share(4, 16, 36)-0.01)
	assert.Less(t, share(4, 8, 60), share(4, 8, 36)-0.01)
	assert.Less(t, share(4, 8, 36), share(4, 8, 12)-0.01)
	assert.InDelta(t, share(0, 4, 60), share(0, 16, 12), 1e-12)
}

func BenchmarkToPocket(b *testing.B) {
	s := medium()
	s.Object = shot.Object{Cut: 30 * unit.Degree, Dist: 24 * unit.Inch, Opening: 4.5 * unit.Inch}
	res := play(s)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.ToPocket(res); err != nil {
			b.Fatal(err)
		}
	}
}

// A cue ball that lands just as it touches the object ball has one direction before the
// landing and another after it. As a function of the heading, the place where the object
// ball passes the pocket jumps over the middle, so no heading sends it there.
func TestNoAim(t *testing.T) {
	s := medium()
	s.Elevation, s.Contact, s.Speed, s.Dist = 29*unit.Degree, strike.Contact{Side: -0.2, Height: -0.3}, 3, 22*unit.Inch
	s.Object = shot.Object{Cut: 35 * unit.Degree, Dist: 30 * unit.Inch}
	res := play(s)
	_, err := s.ToPocket(res)
	require.ErrorIs(t, err, shot.ErrNoAim)

	miss := func(off unit.Angle) float64 {
		s.AimOff = off
		_, pot := sink(t, &s)
		require.NoError(t, pot.Missed)
		return float64(pot.Miss)
	}
	about := res.Reading.Aim.Value - res.Reading.Heading.Value
	low, high := about-0.3*unit.Degree, about+0.3*unit.Degree
	require.Negative(t, miss(low)*miss(high))
	for range 45 {
		if mid := (low + high) / 2; miss(mid)*miss(low) > 0 {
			low = mid
		} else {
			high = mid
		}
	}
	assert.Less(t, float64(high-low), 1e-12)
	assert.Greater(t, math.Abs(miss(low)), 1e-4)
	assert.Greater(t, math.Abs(miss(high)), 1e-4)
}

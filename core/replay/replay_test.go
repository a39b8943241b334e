package replay_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/contact"
	"pivotbench/core/motion"
	"pivotbench/core/replay"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// played returns the shot of a link and its timeline.
func played(t *testing.T, link string, object bool) (*shot.Shot, *shot.Result, *replay.Timeline) {
	t.Helper()
	s, problems := scenario.Parse(link)
	require.Empty(t, problems, link)
	sh, res := s.Shot(), new(shot.Result)
	shot.Play(&sh, res)
	line, err := replay.Of(&sh, res, s.GearTable(), object)
	require.NoError(t, err, link)
	return &sh, res, line
}

func kinds(line *replay.Timeline) []replay.Kind {
	var out []replay.Kind
	for _, e := range line.Events {
		out = append(out, e.Kind)
	}
	return out
}

func when(t *testing.T, line *replay.Timeline, kind replay.Kind) unit.Span {
	t.Helper()
	for _, e := range line.Events {
		if e.Kind == kind {
			return e.When
		}
	}
	require.Fail(t, "it does not happen", "%v in %v", kind, line.Events)
	return 0
}

func TestOrderOfEvents(t *testing.T) {
	for _, tc := range []struct {
		link   string
		object bool
		want   []replay.Kind
	}{
		{"v=1", false, []replay.Kind{replay.Forward, replay.Tip, replay.Gate, replay.Target, replay.Rolls, replay.Cushion}},
		{"v=1&speed=2mph&side=0&elev=0deg&gate=0in", false, []replay.Kind{replay.Forward, replay.Tip, replay.Rolls, replay.Target, replay.Cushion}},
		{"v=1&speed=1mph&side=0&elev=0deg&roll=0.05", false, []replay.Kind{replay.Forward, replay.Tip, replay.Rolls, replay.Stops}},
		{"v=1&bridge=7in", false, []replay.Kind{replay.Forward, replay.Tip, replay.TouchesRight}},
		{"v=1&bridge=7in&side=-0.4", false, []replay.Kind{replay.Forward, replay.Tip, replay.TouchesLeft}},
		{"v=1&side=0&elev=0deg&gate=0in", true, []replay.Kind{replay.Forward, replay.Tip, replay.Object, replay.Cushion, replay.ObjectDrops}},
		{"v=1&side=0&elev=0deg&speed=3.5mph&gate=0in&roll=0.04&object=60in", true, []replay.Kind{replay.Forward, replay.Tip, replay.Rolls, replay.Object, replay.Stops, replay.ObjectStops}},
	} {
		_, _, line := played(t, tc.link, tc.object)
		got := kinds(line)
		if tc.object { // either ball may be the last to stop
			assert.ElementsMatch(t, tc.want, got, "%s: %v", tc.link, line.Events)
		} else {
			assert.Equal(t, tc.want, got, "%s: %v", tc.link, line.Events)
		}
		for i := 1; i < len(line.Events); i++ {
			assert.LessOrEqual(t, line.Events[i-1].When, line.Events[i].When)
		}
	}
}

// Until something stops the ball it is exactly where its path is.
func TestTheBallIsOnItsPath(t *testing.T) {
	for _, p := range scenario.Presets {
		s, problems := scenario.Parse(p.Link)
		require.Empty(t, problems)
		sh, res := s.Shot(), new(shot.Result)
		shot.Play(&sh, res)
		line, err := replay.Of(&sh, res, s.GearTable(), false)
		if res.Launched != nil {
			assert.Equal(t, res.Launched, err)
			continue
		}
		require.NoError(t, err)
		for i := range 200 {
			now := line.From + (line.To-line.From)*unit.Span(i)/200
			state, phase := res.Path.At(now)
			f := line.At(now)
			assert.Equal(t, state, f.Cue.State, "%s at %v", p.Link, now)
			assert.Equal(t, phase, f.Cue.Phase)
			assert.Equal(t, now, f.Time)
			assert.False(t, f.Cue.Left)
			assert.Nil(t, f.Object)
		}
		assert.True(t, line.At(line.To).Cue.Left)
		assert.Equal(t, line.At(line.To), line.At(line.To+10), "there is nothing after it")
		assert.Equal(t, line.At(line.From), line.At(line.From-10), "or before")
	}
}

// At the time of an event, its ball is where the event takes place.
func TestEventsArePlaces(t *testing.T) {
	sh, _, line := played(t, "v=1&elev=25deg&speed=9mph&gap=20in", false)
	at := func(k replay.Kind) motion.State { return line.At(when(t, line, k)).Cue.State }
	assert.InDelta(t, float64(sh.Gate.Dist), at(replay.Gate).Pos.Y, 1e-9)
	assert.InDelta(t, float64(sh.Dist), at(replay.Target).Pos.Plan().Norm(), 1e-9)
	assert.InDelta(t, 0, at(replay.Lands).Pos.Z, 1e-9)
	before := line.At(when(t, line, replay.Lands) - 5*unit.Millisecond)
	assert.Equal(t, motion.Fly, before.Cue.Phase)
	assert.Positive(t, before.Cue.Pos.Z)
	assert.Equal(t, motion.Slide, line.At(when(t, line, replay.Rolls)-unit.Millisecond).Cue.Phase)
	assert.Equal(t, motion.Roll, line.At(when(t, line, replay.Rolls)+unit.Millisecond).Cue.Phase)
	// The 9 ft table measures 100 in by 50 in between the noses of its cushions, and the
	// ball lies 25 in up, so it has 75 in minus a radius to go.
	assert.InDelta(t, 75*0.0254-float64(sh.Ball.Radius), at(replay.Cushion).Pos.Y, 1e-9)

	for link, side := range map[string]float64{"v=1&bridge=7in": 1, "v=1&bridge=7in&side=-0.4": -1} {
		sh, _, line := played(t, link, false)
		left, right := contact.Posts(sh.Gate, sh.Ball.Radius)
		post := map[float64]replay.Kind{1: replay.TouchesRight, -1: replay.TouchesLeft}[side]
		centre := right
		if side < 0 {
			centre = left
		}
		ball := line.At(when(t, line, post)).Cue
		assert.InDelta(t, 2*float64(sh.Ball.Radius), ball.Pos.Sub(centre).Norm(), 1e-9, "they touch")
		assert.True(t, ball.Left)
	}
}

// A ball that leaves to the side meets a side cushion, one with draw the near cushion,
// and one that drops is in the pocket.
func TestTheSidesOfTheBed(t *testing.T) {
	sh, _, line := played(t, "v=1&back=5&bridge=8in&side=0.5&gate=0in&elev=0deg", false)
	end := line.At(line.To).Cue
	assert.InDelta(t, 25*0.0254-float64(sh.Ball.Radius), math.Abs(end.Pos.X), 1e-9)
	assert.Less(t, end.Pos.Y, 75*0.0254)

	sh, _, line = played(t, "v=1&side=0&height=-0.5&speed=10mph&dist=6in&gate=0in&elev=0deg&object=12in", true)
	back := line.At(when(t, line, replay.Cushion)).Cue
	assert.InDelta(t, -25*0.0254+float64(sh.Ball.Radius), back.Pos.Y, 1e-9, "drawn back to the near end")
	assert.Negative(t, back.Vel.Y)
	drop := line.At(when(t, line, replay.ObjectDrops))
	assert.InDelta(t, 12*0.0254, drop.Object.Pos.Y, 1e-9)
	assert.True(t, drop.Object.Left)

	sh, _, line = played(t, "v=1&side=0&speed=10mph&dist=6in&gate=0in&elev=0deg&cut=60deg&object=40in&pocket=2.4in&back=0&pivot=8in", true)
	rail := line.At(when(t, line, replay.ObjectCushion)).Object
	assert.InDelta(t, 25*0.0254-float64(sh.Ball.Radius), sh.ObjectAt().X+rail.Pos.X, 1e-9)
}

// Nothing jumps at the impact with the object ball, and both balls move as
// contact.Collide sends them.
func TestTheObjectBall(t *testing.T) {
	sh, res, line := played(t, "v=1&cut=25deg&gate=0in&dist=20in", true)
	var pot shot.Pot
	require.NoError(t, sh.Sink(&res.Path, &pot))
	met := when(t, line, replay.Object)
	assert.Equal(t, pot.When, met)
	assert.Nil(t, line.At(met-unit.Millisecond).Object)
	f := line.At(met)
	require.NotNil(t, f.Object)
	state, _ := res.Path.At(met)
	assert.Equal(t, state.Pos, f.Cue.Pos)
	assert.InDelta(t, 2*float64(sh.Ball.Radius), sh.ObjectAt().Add(f.Object.Pos).Sub(f.Cue.Pos).Norm(), 1e-9)
	for _, since := range []unit.Span{0, 0.05, 0.2} {
		f := line.At(met + since)
		want, _ := pot.Object.At(met + since - met)
		assert.InDelta(t, want.Pos.X, f.Object.Pos.X, 1e-12)
		assert.InDelta(t, want.Pos.Y, f.Object.Pos.Y, 1e-12)
	}
	just := line.At(met + 1e-9)
	assert.InDelta(t, float64(line.At(met-1e-9).Cue.Turned), float64(just.Cue.Turned), 1e-6, "its mark does not jump")
	assert.InDelta(t, 0, float64(just.Object.Turned), 1e-6)
}

// The cue meets the ball at its own speed at time 0, and keeps what the impulse leaves
// it: for a level centre hit with equal masses and no loss, nothing, as in every text on
// collisions.
func TestTheCue(t *testing.T) {
	_, res, line := played(t, "v=1", false)
	const h = 1e-6
	speed := float64(res.Reading.CueSpeed.Value)
	assert.InDelta(t, speed, float64(line.At(0).Stick-line.At(-h).Stick)/h, 1e-6)
	assert.Less(t, float64(line.At(h).Stick)/h, speed)
	assert.Positive(t, line.At(h).Stick)
	assert.InDelta(t, -6*0.0254, float64(line.At(line.From).Stick), 1e-12, "half a 12 in bridge")
	assert.InDelta(t, 0.3*12*0.0254, float64(line.At(line.To).Stick), 1e-12)

	// The ball now has the momentum that the cue has lost.
	sh, res, line := played(t, "v=1&height=0.2", false)
	ball := res.Launch.Vel.Dot(strike.Line{Heading: res.Turn.Heading, Elevation: sh.Elevation}.Direction())
	cue := float64(res.Reading.CueSpeed.Value)
	after := float64(line.At(h).Stick) / h
	assert.InDelta(t, float64(sh.Cue.Mass)*cue, float64(sh.Cue.Mass)*after+float64(sh.Ball.Mass)*ball, 1e-4)

	_, _, line = played(t, "v=1&side=0&elev=0deg&cuemass=200g&mass=200g&bounce=0.98", false)
	assert.InDelta(t, 0, float64(line.At(h).Stick)/h, 0.05)
	_, _, line = played(t, "v=1&side=0&elev=0deg&cuemass=200g&mass=230g&bounce=0.98", false)
	assert.Zero(t, line.At(line.To).Stick, "a cue too light to go on stays")
}

func TestSteps(t *testing.T) {
	_, _, line := played(t, "v=1", false)
	var walked []replay.Event
	for now := line.From - 1; ; {
		e, err := line.Next(now)
		if err != nil {
			assert.Equal(t, replay.ErrNone, err)
			break
		}
		walked, now = append(walked, e), e.When
		assert.Equal(t, e, line.Reached(now))
	}
	assert.Equal(t, line.Events, walked)
	e, err := line.Last(0)
	require.NoError(t, err)
	assert.Equal(t, replay.Forward, e.Kind)
	_, err = line.Last(line.From)
	assert.Equal(t, replay.ErrNone, err)
	assert.Equal(t, replay.Forward, line.Reached(line.From-1).Kind)
}

func TestABallThatIsNotSentHasNoTimeline(t *testing.T) {
	s, _ := scenario.Parse("v=1&side=0.75")
	sh, res := s.Shot(), new(shot.Result)
	shot.Play(&sh, res)
	line, err := replay.Of(&sh, res, s.GearTable(), true)
	assert.Nil(t, line)
	assert.Equal(t, res.Launched, err)
	assert.Error(t, err)
}

func TestLay(t *testing.T) {
	s, _ := scenario.Parse("v=1&table=7ft")
	table := s.GearTable()
	for ahead, behind := range map[unit.Length]unit.Length{
		0:                        table.Length / 4,
		table.Length * 0.9:       table.Length * 0.1,
		table.Length + unit.Inch: 1 * unit.Inch, // it does not fit: at the near cushion
	} {
		bed := replay.Lay(table, 1*unit.Inch, ahead)
		assert.InDelta(t, float64(-behind), float64(bed.Near), 1e-12, fmt.Sprint(ahead))
		assert.InDelta(t, float64(table.Length), float64(bed.Far-bed.Near), 1e-12)
		assert.InDelta(t, float64(table.Width), float64(2*bed.Half), 1e-12)
	}
}

// reach samples a path from a start in small steps. It returns when the ball first comes
// within a radius of a cushion, and which one; when is -1 if it stops before. It is
// accurate to one step.
func reach(path *motion.Path, from vec.V, bed replay.Bed, radius float64) (when, step unit.Span, side string) {
	const steps = 4000
	step = path.Stop() / steps
	for i := range steps + 1 {
		if d, side := room(path, step*unit.Span(i), from, bed, radius); d <= 0 {
			return step * unit.Span(i), step, side
		}
	}
	return -1, step, "none"
}

// room returns a ball's distance from the nearest cushion, and which one that is.
func room(path *motion.Path, now unit.Span, from vec.V, bed replay.Bed, radius float64) (least float64, side string) {
	at, _ := path.At(now)
	pos := at.Pos.Add(from)
	least = math.Inf(1)
	for name, d := range map[string]float64{
		"left": float64(bed.Half) + pos.X, "right": float64(bed.Half) - pos.X,
		"near": pos.Y - float64(bed.Near), "far": float64(bed.Far) - pos.Y,
	} {
		if d -= radius; d < least {
			least, side = d, name
		}
	}
	return least, side
}

// A cushion is reached where the ball's path first comes within a radius of it: for balls
// that curve to a side, run on, or come back.
func TestCushionsAlongThePath(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 8))
	sides := map[string]int{}
	for i := range 400 {
		s := scenario.Default()
		s.Side, s.Height = 1.1*r.Float64()-0.55, 1.1*r.Float64()-0.55
		s.Elev = unit.Angle(80*r.Float64()) * unit.Degree
		s.Speed = unit.Speed(2+16*r.Float64()) * unit.MilePerHour
		s.Back = 14*r.Float64() - 7
		if i%4 == 0 { // a massé that comes back
			s.Side, s.Height, s.Elev, s.Back = 0.1*s.Side, -0.6, 70*unit.Degree, 1
		}
		s.Chalk, s.Gap, s.Dist, s.Gate = 1, 40*unit.Inch, 10*unit.Inch, 0
		sh, res := s.Shot(), new(shot.Result)
		shot.Play(&sh, res)
		line, err := replay.Of(&sh, res, s.GearTable(), false)
		if err != nil {
			continue
		}
		bed := replay.Lay(s.GearTable(), sh.Ball.Radius, sh.Dist+2*sh.Ball.Radius)
		reached, step, side := reach(&res.Path, vec.V{}, bed, float64(sh.Ball.Radius))
		sides[side]++
		last := line.Events[len(line.Events)-1]
		if reached < 0 {
			require.Equal(t, replay.Stops, last.Kind)
			continue
		}
		require.Equal(t, replay.Cushion, last.Kind)
		require.InDelta(t, float64(reached), float64(last.When), float64(step)*1.001)
		d, _ := room(&res.Path, last.When, vec.V{}, bed, float64(sh.Ball.Radius))
		require.InDelta(t, 0, d, 1e-9)
	}
	for _, side := range []string{"left", "right", "near", "far", "none"} {
		assert.Greater(t, sides[side], 5, "%s of %v", side, sides)
	}
}

// The same holds for the object ball, from where it lay, if it misses its pocket.
func TestTheObjectBallsCushions(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 8))
	sides := map[string]int{}
	for range 600 {
		s := scenario.Default()
		s.Gate, s.Elev, s.Side = 0, 1*unit.Degree, 0.6*r.Float64()-0.3
		s.Speed = unit.Speed(1+10*r.Float64()) * unit.MilePerHour
		s.Dist, s.Object, s.Pocket = unit.Length(6+50*r.Float64())*unit.Inch, 200*unit.Inch, s.GearBall().Radius*2
		s.Cut = unit.Angle(160*r.Float64()-80) * unit.Degree
		sh, res := s.Shot(), new(shot.Result)
		shot.Play(&sh, res)
		line, err := replay.Of(&sh, res, s.GearTable(), true)
		require.NoError(t, err)
		var pot shot.Pot
		if sh.Sink(&res.Path, &pot) != nil || !slices.Contains(kinds(line), replay.Object) {
			continue
		}
		bed := replay.Lay(s.GearTable(), sh.Ball.Radius, sh.Dist+2*sh.Ball.Radius)
		reached, step, side := reach(&pot.Object, sh.ObjectAt(), bed, float64(sh.Ball.Radius))
		sides[side]++
		if reached < 0 {
			require.Contains(t, kinds(line), replay.ObjectStops)
			continue
		}
		require.InDelta(t, float64(pot.When+reached), float64(when(t, line, replay.ObjectCushion)), float64(step)*1.001)
	}
	for _, side := range []string{"left", "right", "far", "none"} {
		assert.Greater(t, sides[side], 5, "%s of %v", side, sides)
	}
}

// Flights that rise a millimetre or more are events, to within a tenth.
func TestFlightsThatAreSeen(t *testing.T) {
	told, small := 0, 0
	for elev := unit.Angle(0.5); elev < 30; elev += 0.05 {
		s := scenario.Default()
		s.Elev, s.Gap, s.Side = elev*unit.Degree, 20*unit.Inch, 0
		sh, res := s.Shot(), new(shot.Result)
		shot.Play(&sh, res)
		line, err := replay.Of(&sh, res, s.GearTable(), false)
		require.NoError(t, err)
		for _, seg := range res.Path.Segments() {
			if seg.Phase != motion.Fly || seg.Begin+seg.Length >= line.To {
				continue
			}
			lands := slices.Contains(line.Events, replay.Event{When: seg.Begin + seg.Length, Kind: replay.Lands})
			top, _ := res.Path.At(seg.Begin + seg.Length/2)
			if lands {
				assert.Greater(t, top.Pos.Z, 0.001, "%v", elev)
				told++
			} else {
				assert.Less(t, top.Pos.Z, 0.0011+0.00001, "%v", elev)
				small++
			}
		}
	}
	assert.Greater(t, told, 100)
	assert.Greater(t, small, 100)
}

// An object ball that is never met has no events.
func TestAnObjectBallThatIsNotMet(t *testing.T) {
	for _, link := range []string{
		"v=1&speed=1mph&side=0&elev=0deg&roll=0.05", // it stops before
		"v=1&bridge=7in", // a blocker is met first
	} {
		_, _, without := played(t, link, false)
		_, _, line := played(t, link, true)
		assert.Equal(t, without.Events, line.Events, link)
		assert.Nil(t, line.At(line.To).Object, link)
	}
}

// A ball that starts at the near cushion, because the target is far off, leaves that
// cushion and does not meet it.
func TestABallThatLiesAtTheNearCushion(t *testing.T) {
	for _, table := range []string{"7ft", "8ft", "9ft"} {
		s, problems := scenario.Parse("v=1&side=0&elev=0deg&gate=0in&table=" + table)
		require.Empty(t, problems)
		s.Dist = s.GearTable().Length - 2*unit.Inch
		sh, res := s.Shot(), new(shot.Result)
		shot.Play(&sh, res)
		line, err := replay.Of(&sh, res, s.GearTable(), false)
		require.NoError(t, err)
		bed := replay.Lay(s.GearTable(), sh.Ball.Radius, sh.Dist+2*sh.Ball.Radius)
		require.Equal(t, -sh.Ball.Radius, bed.Near)
		last := line.Events[len(line.Events)-1]
		require.Equal(t, replay.Cushion, last.Kind)
		assert.InDelta(t, float64(bed.Far-sh.Ball.Radius), line.At(last.When).Cue.Pos.Y, 1e-9)
	}
}

package sheet

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
)

// table returns the place on the table that a point of the sheet shows.
func (p *plan) table(at Point) (x, y float64) {
	return (at.X - p.origin.X) / p.scale / p.stretch, (p.origin.Y - at.Y) / p.scale
}

// polar returns a point's distance from the cue ball and its bearing.
func (p *plan) polar(at Point) (distance float64, bearing unit.Angle) {
	x, y := p.table(at)
	return math.Hypot(x, y), unit.Angle(math.Atan2(x, y))
}

// lines returns the sheet's lines in one ink that have at least so many points.
func (s *Sheet) lines(ink Ink, least int) []Path {
	var out []Path
	for _, item := range s.Items {
		if it, ok := item.(Path); ok && it.Stroke.Ink == ink && len(it.Points) >= least {
			out = append(out, it)
		}
	}
	return out
}

// crossing returns where a drawn path is first at a distance from the cue ball.
func (p *plan) crossing(paths []Path, distance float64) (x float64, ok bool) {
	for _, path := range paths {
		for i := 1; i < len(path.Points); i++ {
			before, _ := p.polar(path.Points[i-1])
			after, _ := p.polar(path.Points[i])
			if before <= distance && after > distance {
				part := (distance - before) / (after - before)
				x0, _ := p.table(path.Points[i-1])
				x1, _ := p.table(path.Points[i])
				return x0 + (x1-x0)*part, true
			}
		}
	}
	return 0, false
}

func TestTheDrawnPathArrivesWhereTheReadingSays(t *testing.T) {
	for _, link := range []string{"v=1", "v=1&bridge=9in", "v=1&elev=10deg&speed=3.5mph", "v=1&side=-0.35&height=-0.3&speed=9mph", "v=1&back=0&dist=80in&speed=4mph"} {
		for _, v := range views {
			for _, v.Stretch = range []int{1, 4, 10} {
				s, res, sh := drawn(t, link, v)
				require.NoError(t, res.Reading.Arrival.Err())
				pl := newPlan(&s, v)
				x, ok := pl.crossing(sh.lines(Way, samples+1), float64(s.Dist))
				require.True(t, ok, "%s on %v", link, v)
				assert.InDelta(t, float64(res.Reading.Arrival.Value), x, 0.0005, "%s on %v", link, v)
			}
		}
	}
}

func TestTheDrawnAnglesAreTheComputedOnes(t *testing.T) {
	for _, link := range []string{"v=1", "v=1&side=-0.5", "v=1&bridge=8in&back=2", "v=1&back=0", "v=1&pivot=40in&side=0.5"} {
		s, res, sh := drawn(t, link, View{Width: 840, Height: 740, Stretch: 1})
		pl := newPlan(&s, View{Width: 840, Height: 740, Stretch: 1})
		ends := func(ink Ink) (a, b unit.Angle) {
			arcs := sh.lines(ink, 10)
			require.Len(t, arcs, 1, "%s: %s", link, ink)
			points := arcs[0].Points
			da, a := pl.polar(points[0])
			db, b := pl.polar(points[len(points)-1])
			assert.InDelta(t, da, db, 1e-9, "an arc about the ball")
			return a, b
		}
		r := &res.Reading
		aim, turned := ends(Stick)
		assert.InDelta(t, 0, float64(aim), 1e-9, link)
		assert.InDelta(t, float64(r.Heading.Value), float64(turned), 1e-9, link)
		launch, heading := ends(Off)
		assert.InDelta(t, float64(r.Launch.Value), float64(launch), 1e-9, link)
		assert.InDelta(t, float64(r.Heading.Value), float64(heading), 1e-9, link)
		assert.InDelta(t, float64(r.Squirt.Value), float64(heading-launch), 1e-9, link)
	}
}

// The drawn cue lies on the line through the two hands and the tip, to a tenth of a
// degree: its face is drawn at the ball and not where its axis meets it.
func TestTheCueLiesOnItsLine(t *testing.T) {
	for _, link := range []string{"v=1", "v=1&side=-0.5&bridge=7in", "v=1&back=0.5&front=0.5", "v=1&back=2&front=-1"} {
		for _, stretch := range []int{1, 4} {
			v := View{Width: 840, Height: 740, Stretch: stretch}
			s, res, _ := drawn(t, link, v)
			p := pen{s: &s, res: &res, v: v, plan: newPlan(&s, v)}
			tip, bridge, grip := p.hands()
			tx, ty := p.plan.table(tip)
			bx, by := p.plan.table(bridge)
			gx, gy := p.plan.table(grip)
			assert.InDelta(t, float64(res.Turn.Heading), math.Atan2(tx-bx, ty-by), 0.002, "%s ×%d", link, stretch)
			assert.InDelta(t, float64(res.Turn.Heading), math.Atan2(bx-gx, by-gy), 0.002, "%s ×%d", link, stretch)
			assert.InDelta(t, -float64(s.Bridge+s.GearBall().Radius), by, 1e-9, link)
		}
	}
}

func TestBlockersStandAtTheGate(t *testing.T) {
	v := View{Width: 840, Height: 740, Stretch: 1}
	s, _, sh := drawn(t, "v=1", v)
	pl := newPlan(&s, v)
	r := s.GearBall().Radius
	want := map[float64]bool{-float64(s.Gap/2 + r): false, float64(s.Gap/2 + r): false}
	for _, item := range sh.Items {
		c, ok := item.(Circle)
		if !ok {
			continue
		}
		for x := range want {
			if p := pl.at(x, float64(s.Gate)); math.Hypot(c.At.X-p.X, c.At.Y-p.Y) < 1e-6 {
				want[x] = true
				assert.InDelta(t, float64(r)*pl.scale, c.Radius, 1e-9, "to scale where there is room")
			}
		}
	}
	assert.NotContains(t, want, false)
	for x, found := range want {
		assert.True(t, found, "blocker at %v", x)
	}
}

func TestTheSectionShowsTheContact(t *testing.T) {
	for _, left := range []bool{false, true} {
		v := View{Width: 390, Height: 400, Stretch: 4, Left: left}
		s, _, sh := drawn(t, "v=1&side=-0.3&height=0.2", v)
		c, r := sectionAt(v), sectionRadius(v)
		at := sh.handleAt(t, TipHandle)
		assert.InDelta(t, s.Side, (at.X-c.X)/r, 1e-9)
		assert.InDelta(t, s.Height, (c.Y-at.Y)/r, 1e-9)
		assert.Equal(t, left, c.X > v.Width/2, "away from the writing hand")
	}
}

func TestWordsFollowTheUnits(t *testing.T) {
	has := func(link string) string {
		_, _, sh := drawn(t, link, View{Width: 840, Height: 740, Stretch: 4})
		all := ""
		for _, item := range sh.Items {
			if text, ok := item.(Text); ok {
				all += text.Words + "\n"
			}
		}
		return all
	}
	in, cm := has("v=1"), has("v=1&units=cm")
	for _, part := range []string{"bridge 12.0 in", "grip 30.0 in", "gate 30.0 in", "gap 2.75 in", "target 36.0 in", "0.13 in right"} {
		assert.Contains(t, in, part)
	}
	for _, part := range []string{"bridge 30.5 cm", "target 91.4 cm", "mm right"} {
		assert.Contains(t, cm, part)
	}
	assert.NotContains(t, cm, " in\n")
	assert.Contains(t, has("v=1&side=0"), "tip at centre")
	assert.Contains(t, has("v=1&side=-0.3"), "left english, 0.30 R (0.9 tips)")
	assert.Contains(t, has("v=1&side=-0.3&height=0.2"), "0.30 R left, 0.20 R high")
}

func TestBoardSaysTheVerdict(t *testing.T) {
	var words []string
	_, _, sh := drawn(t, "v=1", View{Width: 1920, Height: 1080, Stretch: 4, Board: true})
	largest := 0.0
	for _, item := range sh.Items {
		if text, ok := item.(Text); ok {
			words = append(words, text.Words)
			largest = max(largest, text.Size)
		}
	}
	assert.Contains(t, words, "Clean")
	assert.Contains(t, words, "squirt")
	assert.GreaterOrEqual(t, largest, 50.0, "for the back row")
	for link, ink := range map[string]Ink{"v=1": Way, "v=1&gate=0in&bridge=8in": Way, "v=1&bridge=8in": Off, "v=1&side=0.79&chalk=0.1": Off} {
		_, _, sh := drawn(t, link, View{Width: 1920, Height: 1080, Stretch: 4, Board: true})
		for _, item := range sh.Items {
			if text, ok := item.(Text); ok && text.At.Y < 110 && text.At.X < 30 {
				assert.Equal(t, ink, text.Ink, "%s: %s; only what went wrong is red", link, text.Words)
				break
			}
		}
	}
}

func TestGridIsThereWhateverTheTable(t *testing.T) {
	for _, table := range scenario.Find("table").Choices {
		_, _, sh := drawn(t, "v=1&table="+table.Name, View{Width: 390, Height: 400, Stretch: 4})
		assert.NotEmpty(t, sh.lines(Grid, 2), table.Name)
	}
}

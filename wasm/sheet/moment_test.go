package sheet

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/replay"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// momentDrawn draws a link at a moment.
func momentDrawn(t *testing.T, link string, v View, at unit.Span) (*replay.Frame, Sheet, plan) {
	t.Helper()
	s, problems := scenario.Parse(link)
	require.Empty(t, problems)
	var res shot.Result
	sh := s.Shot()
	shot.Play(&sh, &res)
	line, err := replay.Of(&sh, &res, s.GearTable(), v.Object)
	require.NoError(t, err)
	f := line.At(at)
	v.Frame = &f
	return &f, Draw(&s, &res, v), newPlan(&s, v)
}

// rings returns the number of circles with their centre at a point.
func (s *Sheet) rings(at Point) int {
	n := 0
	for _, item := range s.Items {
		if c, ok := item.(Circle); ok && math.Hypot(c.At.X-at.X, c.At.Y-at.Y) < 1e-6 {
			n++
		}
	}
	return n
}

func TestTheBallIsDrawnWhereItIsAtThatTime(t *testing.T) {
	for _, v := range views {
		for _, v.Stretch = range []int{1, 4, 10} {
			for _, at := range []unit.Span{0.05, 0.15, 0.25} {
				f, sh, pl := momentDrawn(t, "v=1", v, at)
				assert.Positive(t, sh.rings(pl.at(f.Cue.Pos.X, f.Cue.Pos.Y)), "%v on %v", at, v)
				assert.Positive(t, sh.rings(pl.origin), "where it lay")
			}
		}
	}
}

func TestTheObjectBallIsDrawnOnItsWay(t *testing.T) {
	v := View{Width: 840, Height: 740, Stretch: 1, Object: true}
	const link = "v=1&gate=0in&cut=20deg&object=30in"
	before, sh, pl := momentDrawn(t, link, v, 0.1)
	assert.Nil(t, before.Object)
	s, _ := scenario.Parse(link)
	played := s.Shot()
	at := played.ObjectAt()
	assert.Equal(t, 1, sh.rings(pl.vec(at)))
	f, sh, pl := momentDrawn(t, link, v, 0.5)
	require.NotNil(t, f.Object)
	assert.Positive(t, sh.rings(pl.vec(at.Add(f.Object.Pos))))
}

func TestTheCueComesForwardOnItsLine(t *testing.T) {
	v := View{Width: 840, Height: 740, Stretch: 1}
	// The tip is the front end of the second widest line in the cue's ink.
	tip := func(sh Sheet) Point {
		for _, line := range sh.lines(Stick, 2) {
			if line.Stroke.Width == 4 {
				return line.Points[0]
			}
		}
		require.Fail(t, "no cue")
		return Point{}
	}
	f, back, pl := momentDrawn(t, "v=1", v, -9)
	_, there, _ := momentDrawn(t, "v=1", v, 0)
	a, b := tip(back), tip(there)
	assert.InDelta(t, -float64(f.Stick), math.Hypot(b.X-a.X, b.Y-a.Y)/pl.scale, 1e-3, "the distance it is drawn back; the cue is nearly level")
	_, res, _ := drawn(t, "v=1", v)
	assert.InDelta(t, float64(res.Turn.Heading), math.Atan2(b.X-a.X, a.Y-b.Y), 1e-9)
}

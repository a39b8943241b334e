package sheet

import (
	"encoding/xml"
	"io"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/cues"
	"pivotbench/core/shot"
)

// Each compared cue's path has its own dash, and ends where the ball would be with that
// cue.
func TestComparedCuesHaveTheirOwnPaths(t *testing.T) {
	v := View{Width: 840, Height: 740, Stretch: 4}
	s, _, drawing := drawn(t, sixCues, v)
	plan := newPlan(&s, v)
	for i, c := range s.More {
		at := s.With(c)
		var res shot.Result
		sh := at.Shot()
		shot.Play(&sh, &res)
		require.NoError(t, res.Launched)
		when, err := res.Path.AtCircle(s.Dist * 12 / 10)
		require.NoError(t, err)
		there, _ := res.Path.At(when)
		end := plan.vec(there.Pos)
		found := 0
		for _, item := range drawing.Items {
			if way, ok := item.(Path); ok && assert.ObjectsAreEqual(CueStroke(i+1, 1.8), way.Stroke) && len(way.Points) == samples+1 {
				last := way.Points[len(way.Points)-1]
				if abs(last.X-end.X) < 0.01 && abs(last.Y-end.Y) < 0.01 {
					found++
				}
			}
		}
		assert.Equal(t, 1, found, "cue %d", i+2)
	}
}

// ways returns the ball's paths with all cues.
func (s *Sheet) ways() (out []Path) {
	for _, ink := range cueInks {
		out = append(out, s.lines(ink, samples+1)...)
	}
	return out
}

func abs(v float64) float64 { return max(v, -v) }

// Every compared cue is named beside its path where there is room. Without a comparison
// there are no names.
func TestComparedCuesAreNamed(t *testing.T) {
	texts := func(link string) []string {
		_, _, drawing := drawn(t, link, View{Width: 840, Height: 740, Stretch: 4})
		var out []string
		for _, item := range drawing.Items {
			if text, ok := item.(Text); ok && slices.Contains(cueInks[:], text.Ink) {
				out = append(out, text.Words)
			}
		}
		return out
	}
	assert.Subset(t, texts(sixCues), []string{"House 4", "Slender", "Twin", "cue 5", "Club"})
	assert.NotContains(t, texts("v=1&name=House%204"), "House 4")
	assert.NotContains(t, texts(sixCues+"&side=0.7"), "House 4", "no ball is sent on its way")
}

// No cue's name is on the path of a cue.
func TestNamesKeepOffThePaths(t *testing.T) {
	for _, v := range []View{{Width: 845, Height: 700}, {Width: 1460, Height: 980}} {
		for _, v.Stretch = range []int{1, 4, 10} {
			_, _, drawing := drawn(t, sixCues, v)
			names := 0
			for _, item := range drawing.Items {
				name, ok := item.(Text)
				if !ok || !slices.Contains(cueInks[:], name.Ink) {
					continue
				}
				names++
				for _, way := range drawing.ways() {
					for i := 1; i < len(way.Points); i++ {
						for d := 0.0; d <= 1; d += 0.1 {
							a, b := way.Points[i-1], way.Points[i]
							at := Point{a.X + d*(b.X-a.X), a.Y + d*(b.Y-a.Y)}
							if name.box().meets(box{at.X, at.Y, at.X, at.Y}) {
								t.Fatalf("%q on a way at %.0f, ×%d on %v×%v", name.Words, at, v.Stretch, v.Width, v.Height)
							}
						}
					}
				}
			}
			assert.Greater(t, names, 3, "×%d on %v×%v", v.Stretch, v.Width, v.Height)
		}
	}
}

// The outermost paths are named on their outer sides, so that no leader crosses the
// others. In this shot, the more a cue deflects, the further left its ball goes.
func TestOuterPathsAreNamedOutside(t *testing.T) {
	const four = "v=1&name=House%204&pivot=9.6in&cue2=19in,0.5,520g,10.6mm,0.8,Slender&cue3=13in,0.5,540g,10.6mm,0.75,Club&cue4=60in,0.5,540g,10.6mm,0.75,Light"
	for _, v := range []View{{Width: 845, Height: 700, Stretch: 4}, {Width: 1460, Height: 980, Stretch: 4}} {
		_, _, drawing := drawn(t, four, v)
		names := map[string]box{}
		for _, item := range drawing.Items {
			if name, ok := item.(Text); ok && slices.Contains(cueInks[:], name.Ink) {
				names[name.Words] = name.box()
			}
		}
		// across returns how far left and right the paths reach at the height of a name.
		across := func(name string) (left, right float64) {
			require.Contains(t, names, name)
			y := (names[name].top + names[name].bottom) / 2
			left, right = math.Inf(1), math.Inf(-1)
			for _, way := range drawing.ways() {
				for i := 1; i < len(way.Points); i++ {
					if a, b := way.Points[i-1], way.Points[i]; (a.Y-y)*(b.Y-y) <= 0 && a.Y != b.Y {
						x := a.X + (b.X-a.X)*(y-a.Y)/(b.Y-a.Y)
						left, right = min(left, x), max(right, x)
					}
				}
			}
			return left, right
		}
		left, _ := across("House 4")
		assert.Less(t, names["House 4"].right, left, "%v×%v", v.Width, v.Height)
		_, right := across("Light")
		assert.Greater(t, names["Light"].left, right, "%v×%v", v.Width, v.Height)
	}
}

// The chart of squirt is well-formed, and each curve passes through the estimate at its
// end.
func TestSquirtChart(t *testing.T) {
	s, _, _ := drawn(t, "v=1", views[1])
	known := func(less float64) cues.EndMass {
		sh := s.Shot()
		e, err := cues.Measured(sh.Ball, sh.Cue, sh.Cue.Pivot/1.1, sh.Cue.Pivot*1.1)
		require.NoError(t, err)
		e.Log -= less // with a smaller end mass
		return e
	}
	curves := []SquirtCurve{{"House <4>", 0, known(0)}, {"The one with the slender shaft that Harbour Hall keeps for guests", 1, known(0.6)}}
	for _, width := range []float64{280, 640} {
		chart := Squirts(&s, curves, width, 230)
		var ends []Point
		written := ""
		for _, item := range chart.Items {
			switch it := item.(type) {
			case Path:
				if it.Stroke.Width == 2 && len(it.Points) > 2 {
					ends = append(ends, it.Points[len(it.Points)-1])
				}
				for _, p := range it.Points {
					assert.True(t, p.X >= 0 && p.X <= width && p.Y >= 0 && p.Y <= chart.Height, "%v", p)
				}
			case Text:
				b := it.box()
				assert.True(t, b.left >= 0 && b.right <= width && b.bottom <= chart.Height, "%s at %v", it.Words, b)
				written += it.Words
			}
		}
		require.Len(t, ends, 2)
		for _, c := range curves { // whole, whatever the width
			assert.Contains(t, strings.ReplaceAll(written, " ", ""), strings.ReplaceAll(c.Name, " ", ""))
		}
		// The axis starts at zero squirt, so heights are proportional to angles.
		foot := 230.0 - 40
		a, b := curves[0].Known.Squirt(s.GearBall(), 0.5).Median, curves[1].Known.Squirt(s.GearBall(), 0.5).Median
		assert.InDelta(t, float64(a/b), (foot-ends[0].Y)/(foot-ends[1].Y), 1e-9)
		d := xml.NewDecoder(strings.NewReader(SVG(&chart, "squirt")))
		for {
			_, err := d.Token()
			if err == io.EOF {
				break
			}
			require.NoError(t, err)
		}
	}
	sample := CueSample(3)
	assert.Contains(t, SVG(&sample, ""), "stroke-dasharray")
}

package sheet

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
)

// sat is a sitting of four cues on two lines, with the mark of the next stroke.
var sat = app.OnSheet{
	Cues:  []string{"House 3", "House 4", "Slender", "Harbour <low>"},
	Marks: []app.Marked{{Cue: 0, At: -0.05, Line: 0.762}, {Cue: 1, At: 0.04, Line: 0.762}, {Cue: 2, At: 0.01, Line: 1.1}, {Cue: 3, At: -0.02, Line: 0.762}},
	Bands: []app.Band{
		{Cue: 0, From: -0.06, To: -0.04, Line: 0.762}, {Cue: 1, From: 0.03, To: 0.055, Line: 0.762},
		{Cue: 2, From: 0, To: 0.02, Line: 1.1}, {Cue: 0, From: -0.01, To: 0.012, Line: 0.762, Next: true},
	},
	Placed: app.Marked{Cue: 1, At: 1.9 * unit.Inch, Line: 0.762},
}

// strips are sheets for measuring at the table, on a phone upright and on its side.
var strips = []View{{Width: 320, Height: 120}, {Width: 390, Height: 130}, {Width: 844, Height: 110}, {Width: 390, Height: 130, Text: 1.8, Fingers: true}}

// The marks and the bands are where the strokes were and are expected, to scale; and no
// two cues have the same ink, shape of marks or dash of bands.
func TestMarksAndBandsAreToScale(t *testing.T) {
	for _, v := range append([]View{{Width: 390, Height: 400, Stretch: 4}, {Width: 840, Height: 740, Stretch: 1}}, strips...) {
		v.Sitting = sat
		s := parsed(t, "v=1")
		sh := draw(&s, v)
		p := pen{s: &s, v: v, plan: newPlan(&s, v)}
		shapes := map[string]bool{}
		for i, m := range sat.Marks {
			at, ink := p.onLine(m.At, m.Line), CueStroke(m.Cue, 1).Ink
			assert.InDelta(t, v.Width/2+float64(m.At)*v.across(&s), at.X, 1)
			if v.folded() && m.Line != sat.Placed.Line {
				continue
			}
			shape := ""
			for _, item := range sh.Items {
				switch it := item.(type) {
				case Circle:
					if it.Stroke.Ink == ink && it.At == at {
						shape += "o"
					}
				case Path:
					if it.Stroke.Ink == ink && it.Stroke.Width == 1.8 && len(it.Points) > 1 && (it.Points[0] == Point{at.X - markHalf, at.Y - markHalf} || it.Points[0] == Point{at.X - markHalf, at.Y}) {
						shape += strconv.Itoa(len(it.Points)) + strconv.FormatBool(it.Points[1].Y == it.Points[0].Y)
					}
				}
			}
			require.NotEmpty(t, shape, "mark %d", i)
			assert.False(t, shapes[shape], shape)
			shapes[shape] = true
		}
		for i, b := range sat.Bands {
			if v.folded() && b.Line != sat.Placed.Line {
				continue
			}
			from, to, found := p.onLine(b.From, b.Line).X, p.onLine(b.To, b.Line).X, false
			for _, bar := range sh.lines(CueStroke(b.Cue, 1).Ink, 2) {
				a, z := bar.Points[0], bar.Points[1]
				if len(bar.Points) == 2 && a.Y == z.Y && a.X == from && z.X == to {
					found = true
					assert.Equal(t, CueStroke(b.Cue, 1).Dash, bar.Stroke.Dash)
					assert.Equal(t, b.Next, bar.Stroke.Width > 2)
				}
			}
			assert.True(t, found, "band %d", i)
		}
	}
}

// A style means one cue: a measured cue that the shot has too has its style, and no other
// has one that the shot shows, as long as there are styles.
func TestAStyleMeansOneCue(t *testing.T) {
	s := parsed(t, "v=1&name=House%204&cue2=19in,0.5,520g,10.6mm,0.8,Slender&cue4=13in,0.5,540g,10.6mm,0.75,Club")
	assert.Equal(t, []int{2, 1, 4, 0}, CueStyles(&s, []string{"House 3", "SLENDER", "", "house 4"}))
	assert.Equal(t, []int{0, 1, 2}, CueStyles(&scenario.Scenario{}, []string{"House 3", "", "Slender"}))
	many := CueStyles(&s, []string{"a", "b", "c", "d", "e", "Club"})
	assert.Equal(t, []int{2, 4, 5}, many[:3])
	assert.Equal(t, 3, many[5])
	for _, style := range many {
		assert.Less(t, style, len(cueInks))
	}

	v := View{Width: 840, Height: 740, Stretch: 4, Sitting: sat}
	sh := draw(&s, v)
	p := pen{s: &s, v: v, plan: newPlan(&s, v)}
	from, to := p.onLine(sat.Bands[2].From, sat.Bands[2].Line).X, p.onLine(sat.Bands[2].To, sat.Bands[2].Line).X
	assert.True(t, slices.ContainsFunc(sh.lines(CueStroke(1, 1).Ink, 2), func(l Path) bool { return l.Points[0].X == from && l.Points[1].X == to }), "Slender's band has the ink of its path")
}

// The cues are named beside their bands, and what is placed has its value; texts stay on
// the strip and off each other.
func TestTextsOfAStrip(t *testing.T) {
	for _, v := range strips {
		for _, units := range []string{"in", "cm"} {
			v.Sitting = sat
			s := parsed(t, "v=1&units="+units)
			sh := draw(&s, v)
			var boxes []box
			var words []string
			for _, item := range sh.Items {
				if text, ok := item.(Text); ok {
					b := text.box()
					assert.True(t, box{0, 0, v.Width, v.Height}.holds(b), "%q on %v×%v", text.Words, v.Width, v.Height)
					for i, other := range boxes {
						assert.False(t, b.meets(other), "%q and %q on %v×%v", text.Words, words[i], v.Width, v.Height)
					}
					boxes, words = append(boxes, b), append(words, text.Words)
				}
			}
			all := strings.Join(words, "|")
			value := map[string]string{"in": "1.90 in right", "cm": "48.3 mm right"}[units]
			assert.Contains(t, all, value)
			assert.Contains(t, all, map[string]string{"in": "line at 30 in", "cm": "line at 76.2 cm"}[units])
			require.Len(t, sh.Handles, 1)
			assert.Equal(t, MarkHandle, sh.Handles[0].ID)
		}
	}
	v := View{Width: 840, Height: 740, Stretch: 4, Sitting: sat}
	s := parsed(t, "v=1")
	plan := draw(&s, v)
	_, words, _ := parts(t, SVG(&plan, ""))
	for _, name := range []string{"House 3", "House 4", "Slender"} {
		assert.Contains(t, words, name)
	}
}

// Dragging the mark moves it as far as the finger, by whole steps, and more slowly and
// finely when held; on the plan and on the strip, in either unit. A press leaves it.
func TestDraggingTheMark(t *testing.T) {
	for _, v := range []View{phone, strips[1]} {
		v.Sitting = sat
		for _, c := range []struct {
			units string
			step  float64 // in metres
			fine  float64
		}{{"in", 0.1 * float64(unit.Inch), 0.02 * float64(unit.Inch)}, {"cm", 0.002, 0.0005}} {
			s := parsed(t, "v=1&units="+c.units)
			pull := Take(&s, v)
			to := func(dx float64, slow bool) float64 {
				e := pull.To(MarkHandle, app.DragMove, dx, 0, slow)
				require.Len(t, e.Sets, 1)
				require.Equal(t, app.MarkKey, e.Sets[0].Key)
				m := app.Model{Scene: s, Marking: app.Marking{Text: e.Sets[0].Text}}
				at, _, err := m.Marks()
				require.NoError(t, err)
				return float64(at[0])
			}
			was := float64(sat.Placed.At)
			assert.InDelta(t, was, to(0, false), 1e-5)
			per := v.across(&s)
			for _, dx := range []float64{-37, 21, 60} {
				at := to(dx, false)
				assert.InDelta(t, was+dx/per, at, c.step*0.51)
				assert.InDelta(t, 0, at/c.step-float64(int(at/c.step+math.Copysign(0.5, at))), 1e-3, "whole steps")
				slow := to(dx, true)
				assert.InDelta(t, was+dx/per/fine, slow, c.fine*0.51)
			}
			assert.InDelta(t, float64(s.GearTable().Width), to(1e6, false), 1e-5, "not beyond the table")
		}
	}
}

// A line beyond the target is on the sheet too.
func TestTheSheetReachesAsFarAsTheMarks(t *testing.T) {
	s := parsed(t, "v=1&dist=20in&gate=0in")
	v := phone
	v.Sitting = sat
	sh := draw(&s, v)
	with, without := newPlan(&s, v), newPlan(&s, phone)
	assert.Greater(t, with.at(0, 1.1).Y, 10.0)
	assert.Less(t, without.at(0, 1.1).Y, 0.0)
	assert.NotEmpty(t, sh.lines(Cue3, 2))
}

// The curves end at the last probability, and every cue is named beside its own.
func TestSurer(t *testing.T) {
	s := parsed(t, "v=1")
	curves := []SureCurve{{Style: 1, Name: "House 4", Strokes: []int{1, 2, 6}, Less: []float64{0.6, 0.8, 0.9}}, {Style: 2, Name: "Slender", Strokes: []int{1, 3}, Less: []float64{0.3, 0.1}}}
	for _, width := range []float64{280, 360, 640} {
		sh := Surer(&s, curves, width, 150)
		top, bottom := 0.0, 0.0
		for _, item := range sh.Items {
			if text, ok := item.(Text); ok {
				b := text.box()
				assert.True(t, box{0, 0, width, 150}.holds(b), "%q at %v", text.Words, width)
				switch text.Words {
				case "100 %":
					top = text.At.Y - 4
				case "0 %":
					bottom = text.At.Y - 4
				}
			}
		}
		for _, c := range curves {
			line := sh.lines(CueStroke(c.Style, 1).Ink, len(c.Less)+1)[0]
			assert.Len(t, line.Points, len(c.Less)+1)
			last := line.Points[len(c.Less)]
			assert.InDelta(t, c.Less[len(c.Less)-1], (bottom-last.Y)/(bottom-top), 1e-9)
			assert.Equal(t, CueStroke(c.Style, 1).Dash, line.Stroke.Dash)
		}
		_, words, _ := parts(t, SVG(&sh, ""))
		assert.Subset(t, words, []string{"than House 4", "than Slender"})
	}
}

// The mark before a name is as free of other words as the name is.
func TestMarksBeforeNamesAreFree(t *testing.T) {
	names := 0
	near := app.OnSheet{Cues: sat.Cues[:3], Bands: []app.Band{
		{Cue: 0, From: -0.02, To: -0.01, Line: 0.762}, {Cue: 1, From: -0.01, To: 0.005, Line: 0.762}, {Cue: 2, From: 0.01, To: 0.03, Line: 0.762},
	}}
	for high := 200.0; high <= 440; high += 20 {
		v := View{Width: 520, Height: high, Stretch: 4, Sitting: near}
		s := parsed(t, "v=1")
		sh := draw(&s, v)
		for _, item := range sh.Items {
			name, ok := item.(Text)
			if !ok || !slices.Contains(sat.Cues, name.Words) {
				continue
			}
			names++
			mark := box{name.At.X - 2*markHalf - 4, name.At.Y - 0.35*name.Size - markHalf, name.At.X, name.At.Y}
			for _, other := range sh.Items {
				if o, ok := other.(Text); ok && o != name {
					assert.False(t, mark.meets(o.box()), "%s and %s, %g high", name.Words, o.Words, high)
				}
			}
		}
	}
	assert.Positive(t, names)
}

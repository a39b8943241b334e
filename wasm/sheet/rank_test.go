package sheet

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
)

// screens are the areas of the plan on phones of 320 and 390 px and on screens of 1280
// and 1920 px.
var screens = []View{
	{Width: 320, Height: 229, Fingers: true},
	{Width: 320, Height: 247, Fingers: true},
	{Width: 390, Height: 358, Fingers: true},
	{Width: 390, Height: 267, Below: 137, Fingers: true},
	{Width: 845, Height: 700},
	{Width: 1460, Height: 980},
}

// everyScreen draws a range of bridges, offsets and distances on each screen.
func everyScreen(t *testing.T, f func(name string, s scenario.Scenario, sh Sheet, v View)) {
	for _, v := range screens {
		for _, bridge := range []string{"4in", "9in", "12in", "16in"} {
			for _, side := range []string{"-0.5", "-0.1", "0.4"} {
				for _, dist := range []string{"24in", "32in", "36in", "50in", "80in"} {
					for _, v.Stretch = range []int{1, 4, 10} {
						for _, v.Left = range []bool{false, true} {
							link := "v=1&bridge=" + bridge + "&side=" + side + "&dist=" + dist
							s, _, sh := drawn(t, link, v)
							f(fmt.Sprintf("%s on %v×%v ×%d left=%v", link, v.Width, v.Height, v.Stretch, v.Left), s, sh, v)
						}
					}
				}
			}
		}
	}
}

// text returns the text that is a word and a value, or a blocker's letter, if it is on
// the sheet.
func (s *Sheet) text(word string) (t Text, ok bool) {
	for _, item := range s.Items {
		if it, is := item.(Text); is && (it.Words == word && it.Bold || strings.HasPrefix(it.Words, word+" ")) {
			return it, true
		}
	}
	return t, false
}

// No text is on an arrowhead. Arrowheads are the lines through three points.
func TestWordsKeepOffTheHandles(t *testing.T) {
	everyScreen(t, func(name string, s scenario.Scenario, sh Sheet, v View) {
		heads := 0
		for _, item := range sh.Items {
			head, ok := item.(Path)
			if !ok || len(head.Points) != 3 {
				continue
			}
			heads++
			at := box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
			for _, pt := range head.Points {
				at = box{min(at.left, pt.X), min(at.top, pt.Y), max(at.right, pt.X), max(at.bottom, pt.Y)}
			}
			for _, item := range sh.Items {
				if text, ok := item.(Text); ok && at.meets(text.box()) {
					t.Errorf("%s: %q on an arrowhead at %.0f", name, text.Words, head.Points[1])
				}
			}
		}
		if heads < 14 {
			t.Errorf("%s: %d arrowheads", name, heads) // 2 at each of five handles and 4 at the tip
		}
	})
}

// A text is nearer to the line of its own value than to any other's.
func TestEachValueIsReadWithItsOwnLine(t *testing.T) {
	placed := map[string]int{}
	everyScreen(t, func(name string, s scenario.Scenario, sh Sheet, v View) {
		pl := newPlan(&s, v)
		face, bridge, grip := pl.origin.Y+float64(s.GearBall().Radius)*pl.scale, sh.handleAt(t, BridgeHandle).Y, sh.handleAt(t, GripHandle).Y
		target, gate := sh.handleAt(t, TargetHandle), sh.handleAt(t, GateHandle)
		lines := map[string]box{
			"target": {target.X, target.Y, pl.origin.X + pl.ball + 8, target.Y},
			"gate":   {gate.X, gate.Y, pl.at(-float64(s.Gap/2+s.GearBall().Radius), 0).X, gate.Y},
		}
		for _, line := range sh.lines(Soft, 2) {
			a, b := line.Points[0], line.Points[1]
			if len(line.Points) != 2 || line.Stroke.Dash != nil || a.X != b.X {
				continue
			}
			for _, span := range []struct {
				key      string
				from, to float64
			}{{"bridge", face, bridge}, {"grip", bridge, grip}} {
				if math.Abs(a.Y-span.from) < 0.01 && math.Abs(b.Y-span.to) < 0.01 {
					lines[span.key] = box{a.X, a.Y, b.X, b.Y}
				}
			}
		}
		require.Contains(t, lines, "bridge", name)
		for key, own := range lines {
			text, ok := sh.text(key)
			if !ok {
				continue
			}
			placed[key]++
			b := text.box()
			b.top = (b.top + b.bottom) / 2
			b.bottom = b.top
			for other, line := range lines {
				if other != key && b.apart(line) <= b.apart(own) {
					t.Errorf("%s: %q, %.0f, is %.1f px from its own line and %.1f from that of the %s", name, text.Words, text.box(), b.apart(own), b.apart(line), other)
				}
			}
		}
	})
	for _, key := range []string{"bridge", "grip", "target", "gate"} {
		assert.Greater(t, placed[key], 500, key)
	}
}

// Bridge, squirt and the blockers' letters are on every screen for every preset, and all
// but the smallest phone have room for bridge and squirt in any shot.
func TestWhatMattersMostIsThere(t *testing.T) {
	everyScreen(t, func(name string, s scenario.Scenario, sh Sheet, v View) {
		_, bridge := sh.text("bridge")
		_, squirt := sh.text("squirt")
		if v.Width > 320 && (!bridge || !squirt && s.Side != 0) {
			t.Errorf("%s: bridge %v, squirt %v", name, bridge, squirt)
		}
	})
	shipped := []string{"v=1"}
	for _, p := range scenario.Presets {
		shipped = append(shipped, p.Link)
	}
	for _, link := range shipped {
		for _, v := range screens {
			for _, v.Left = range []bool{false, true} {
				for _, v.Stretch = range []int{1, 4, 10} {
					s, res, sh := drawn(t, link, v)
					words := []string{"bridge"}
					if res.Launched == nil && res.Reading.Squirt.Value != 0 {
						words = append(words, "squirt")
					}
					if s.Gate > 0 {
						words = append(words, "L", "R")
					}
					for _, word := range words {
						if _, ok := sh.text(word); !ok {
							t.Errorf("%s on %v×%v ×%d left=%v: no %s", link, v.Width, v.Height, v.Stretch, v.Left, word)
						}
					}
				}
			}
		}
	}
}

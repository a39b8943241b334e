package sheet

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
)

// views are a small phone, a phone, a desktop and a classroom screen.
var views = []View{
	{Width: 320, Height: 250},
	{Width: 390, Height: 400},
	{Width: 840, Height: 740},
	{Width: 1920, Height: 1080, Board: true},
	{Width: 320, Height: 200, Below: 105},
	{Width: 390, Height: 290, Below: 150},
	{Width: 840, Height: 490, Below: 250},
	{Width: 320, Height: 250, Text: 2, Fingers: true},
	{Width: 320, Height: 200, Below: 105, Text: 2, Fingers: true},
	{Width: 680, Height: 640, Text: 2},
	{Width: 680, Height: 420, Below: 220, Text: 2},
	{Width: 1280, Height: 580, Board: true, Text: 2},
	{Width: 557, Height: 187, Below: 96, Fingers: true}, // phones in landscape
	{Width: 557, Height: 283, Fingers: true},
	{Width: 268, Height: 213, Fingers: true},
}

// oddShots are unlike the presets: misses of every kind, and the limits of what is
// allowed.
var oddShots = []string{
	"v=1&side=0.7", "v=1&side=0.8&height=0.8", "v=1&side=0", "v=1&gate=0in", "v=1&back=5&bridge=2in&side=0.5",
	"v=1&speed=0.2mph", "v=1&speed=40mph&elev=85deg", "v=1&dist=3in&gate=2.5in", "v=1&dist=90in&gate=4in&gap=0in",
	"v=1&gap=40in", "v=1&bridge=40in&grip=55in", "v=1&bridge=2in&grip=5in&gate=90in", "v=1&units=cm&stroke=5m/s",
	"v=1&table=carom&ball=carom&units=cm&dist=100in", "v=1&name=%3Cimg%20src%3Dx%20onerror%3Dalert(1)%3E",
	"v=1&back=-5&front=5&side=0.5", sixCues, sixCues + "&side=0.7", sixCues + "&speed=1mph",
	"v=1&elev=60deg&speed=9mph&gate=4in&gap=0in&dist=12in&side=0.3", "v=1&elev=30deg&speed=6mph&height=-0.4&gate=0in&dist=97in",
}

// sixCues is a comparison with as many cues as possible.
const sixCues = "v=1&name=House%204&pivot=9.6in&cue2=19in,0.5,520g,10.6mm,0.8,Slender&cue3=19in,0.5,520g,10.6mm,0.8,Twin" +
	"&cue4=13in,0.5,540g,10.6mm,0.75,Old%20faithful,%20with%20a%20name%20too%20long%20for%20a%20sheet&cue5=60in,0.5,540g,10.6mm,0.75,&cue6=5in,0.5,540g,10.6mm,0.75,Club"

func links() []string {
	out := append([]string{}, oddShots...)
	for _, p := range scenario.Presets {
		out = append(out, p.Link)
	}
	return out
}

// drawn plays and draws a link.
func drawn(t testing.TB, link string, v View) (scenario.Scenario, shot.Result, Sheet) {
	t.Helper()
	s, problems := scenario.Parse(link)
	require.Empty(t, problems, link)
	var res shot.Result
	sh := s.Shot()
	shot.Play(&sh, &res)
	return s, res, Draw(&s, &res, v)
}

// everySheet calls f with each shot in each view, at each stretch and for either hand.
func everySheet(t *testing.T, f func(t *testing.T, name string, s Sheet, v View)) {
	for _, link := range links() {
		for _, v := range views {
			for _, stretch := range []int{1, 4, 10} {
				for _, left := range []bool{false, true} {
					v.Stretch, v.Left = stretch, left
					_, _, s := drawn(t, link, v)
					f(t, fmt.Sprintf("%s on %vx%v ×%d left=%v", link, v.Width, v.Height, stretch, left), s, v)
				}
			}
		}
	}
}

func TestEveryPlaceIsFinite(t *testing.T) {
	finite := func(name string, values ...float64) {
		for _, v := range values {
			if math.IsNaN(v) || math.Abs(v) > 1e7 {
				t.Errorf("%s: %v", name, v)
			}
		}
	}
	everySheet(t, func(t *testing.T, name string, s Sheet, v View) {
		for _, item := range s.Items {
			switch it := item.(type) {
			case Path:
				for _, p := range it.Points {
					finite(name, p.X, p.Y)
				}
				if len(it.Points) < 2 {
					t.Errorf("%s: a line of %d points", name, len(it.Points))
				}
			case Circle:
				finite(name, it.At.X, it.At.Y)
				if !(it.Radius > 0) {
					t.Errorf("%s: radius %v", name, it.Radius)
				}
			case Text:
				finite(name, it.At.X, it.At.Y)
				if it.Words == "" || !(it.Size >= 10) {
					t.Errorf("%s: %+v", name, it)
				}
			}
		}
	})
}

func TestWordsStayOnTheSheetAndApart(t *testing.T) {
	everySheet(t, func(t *testing.T, name string, s Sheet, v View) {
		var texts []Text
		for _, item := range s.Items {
			if text, ok := item.(Text); ok {
				texts = append(texts, text)
			}
		}
		for i, a := range texts {
			b := a.box()
			if !v.Board && b.meets(v.corner()) {
				t.Errorf("%s: %q is under the page's buttons", name, a.Words)
			}
			if b.left < 0 || b.top < 0 || b.right > v.Width || b.bottom > s.Height {
				t.Errorf("%s: %q leaves the sheet at %.0f", name, a.Words, b)
			}
			for _, other := range texts[:i] {
				if b.meets(other.box()) {
					t.Errorf("%s: %q on %q", name, a.Words, other.Words)
				}
			}
		}
	})
}

func TestHandlesAreInReach(t *testing.T) {
	// A handle's element is 48 px wide. Its middle must be on the sheet, and so must most
	// of it.
	const margin = 20
	everySheet(t, func(t *testing.T, name string, s Sheet, v View) {
		seen := map[HandleID]bool{}
		for _, h := range s.Handles {
			if seen[h.ID] {
				t.Errorf("%s: %s twice", name, h.ID)
			}
			seen[h.ID] = true
			if h.At.X < margin || h.At.Y < margin || h.At.X > v.Width-margin || h.At.Y > v.Height-margin {
				t.Errorf("%s: %s at %.0f", name, h.ID, h.At)
			}
			if h.Label == "" {
				t.Errorf("%s: %s has no label", name, h.ID)
			}
		}
	})
}

func TestHandlesOfAShot(t *testing.T) {
	ids := func(link string) []HandleID {
		_, _, s := drawn(t, link, View{Width: 390, Height: 400, Stretch: 4})
		var out []HandleID
		for _, h := range s.Handles {
			out = append(out, h.ID)
		}
		return out
	}
	all := []HandleID{BridgeHandle, GripHandle, TipHandle, GapHandle, GateHandle, TargetHandle}
	assert.ElementsMatch(t, all, ids("v=1"))
	assert.ElementsMatch(t, []HandleID{BridgeHandle, GripHandle, TipHandle, TargetHandle}, ids("v=1&gate=0in"), "no blockers, no gate to move")
	assert.ElementsMatch(t, all, ids("v=1&side=0.7"), "a miscue can be dragged back")
}

func TestTitleBlockNamesTheShot(t *testing.T) {
	words := func(link string, v View) []string {
		var out []string
		_, _, s := drawn(t, link, v)
		for _, item := range s.Items {
			if text, ok := item.(Text); ok {
				out = append(out, text.Words)
			}
		}
		return out
	}
	assert.Subset(t, words("v=1", View{Width: 840, Height: 740, Stretch: 4}), []string{"pivot length 12 in", "7 mph", "sideways ×4", "elev 3°"})
	assert.Subset(t, words("v=1&name=Wall%20shot", View{Width: 840, Height: 740, Stretch: 1}), []string{"Wall shot", "to scale"})
}

// The title block never cuts a text: a value without its unit, or a stretch without its
// factor, is worse than none.
func TestTitleBlockIsWhole(t *testing.T) {
	for _, link := range []string{"v=1", "v=1&units=cm", "v=1&units=cm&speed=40mph&elev=85deg&pivot=60in"} {
		for _, v := range views {
			for _, v.Stretch = range []int{1, 4, 10} {
				_, _, s := drawn(t, link, v)
				for _, item := range s.Items {
					if text, ok := item.(Text); ok && strings.Contains(text.Words, "…") {
						t.Errorf("%s on %vx%v ×%d: %q", link, v.Width, v.Height, v.Stretch, text.Words)
					}
				}
			}
		}
	}
}

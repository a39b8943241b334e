package webdriver

import (
	"math"
	"time"
)

// Pointer is the kind of pointer that touches the page.
type Pointer string

// The pointers. WebKit's driver turns a touch into the mouse.
const (
	Mouse Pointer = "mouse"
	Touch Pointer = "touch"
)

// Keys that are not characters, for [Session.Keys], [Session.Chord] and
// [Element.SendKeys]. The standard assigns each a code point.
const (
	KeyBackspace  = "\uE003"
	KeyTab        = "\uE004"
	KeyEnter      = "\uE007"
	KeyShift      = "\uE008"
	KeyControl    = "\uE009"
	KeyEscape     = "\uE00C"
	KeyPageUp     = "\uE00E"
	KeyPageDown   = "\uE00F"
	KeyEnd        = "\uE010"
	KeyHome       = "\uE011"
	KeyArrowLeft  = "\uE012"
	KeyArrowUp    = "\uE013"
	KeyArrowRight = "\uE014"
	KeyArrowDown  = "\uE015"
	KeyDelete     = "\uE017"
)

// stepPause is the duration of one step of a gesture. It is that of a frame, so that a
// page that draws once a frame sees every step.
const stepPause = 16 * time.Millisecond

type action map[string]any

// Gesture is a sequence of moves, presses and releases of one pointer, built by its
// methods and performed by [Gesture.Do]. A pointer that is left down stays down for the
// next gesture of its kind, so a test can look at a page during a drag.
type Gesture struct {
	s       *Session
	pointer Pointer
	actions []action
}

// Gesture returns an empty gesture.
func (s *Session) Gesture(pointer Pointer) *Gesture { return &Gesture{s: s, pointer: pointer} }

// Move moves the pointer to a point of the viewport, in one step. In a frame, Chromium
// counts from the frame's corner and WebKit from the top page's. To have the same in
// both, act from the top page.
func (g *Gesture) Move(x, y float64) *Gesture {
	return g.add(action{
		"type": "pointerMove", "duration": stepPause.Milliseconds(), "origin": "viewport",
		"x": math.Round(x), "y": math.Round(y), // WebKit's driver refuses fractions
	})
}

// Down presses the first button, or sets the finger down.
func (g *Gesture) Down() *Gesture { return g.add(action{"type": "pointerDown", "button": 0}) }

// Up releases the button, or lifts the finger.
func (g *Gesture) Up() *Gesture { return g.add(action{"type": "pointerUp", "button": 0}) }

// Pause waits, like a person who holds still.
func (g *Gesture) Pause(d time.Duration) *Gesture {
	return g.add(action{"type": "pause", "duration": d.Milliseconds()})
}

func (g *Gesture) add(a action) *Gesture {
	g.actions = append(g.actions, a)
	return g
}

// Do performs the gesture and returns when the page has received all of it.
func (g *Gesture) Do() error {
	return g.s.perform(action{
		"type": "pointer", "id": "pointer-" + string(g.pointer),
		"parameters": map[string]Pointer{"pointerType": g.pointer},
		"actions":    g.actions,
	})
}

// Drag presses at one point of the viewport, moves in equal steps to another and releases
// there. See [Gesture.Move] for points inside a frame.
func (s *Session) Drag(pointer Pointer, x0, y0, x1, y1 float64, steps int) error {
	g := s.Gesture(pointer).Move(x0, y0).Down()
	for i := 1; i <= steps; i++ {
		t := float64(i) / float64(steps)
		g.Move(x0+(x1-x0)*t, y0+(y1-y0)*t)
	}
	return g.Up().Do()
}

// Keys presses and releases each character of each string in turn, wherever the focus is.
func (s *Session) Keys(keys ...string) error {
	var actions []action
	for _, text := range keys {
		for _, key := range text {
			actions = append(actions, action{"type": "keyDown", "value": string(key)}, action{"type": "keyUp", "value": string(key)})
		}
	}
	return s.typed(actions)
}

// Chord presses keys one after the other, then releases them in reverse order:
// Chord(KeyControl, "z").
func (s *Session) Chord(keys ...string) error {
	actions := make([]action, 2*len(keys))
	for i, key := range keys {
		actions[i] = action{"type": "keyDown", "value": key}
		actions[len(actions)-1-i] = action{"type": "keyUp", "value": key}
	}
	return s.typed(actions)
}

func (s *Session) typed(actions []action) error {
	return s.perform(action{"type": "key", "id": "keyboard", "actions": actions})
}

func (s *Session) perform(source action) error {
	return s.post("/actions", map[string]any{"actions": []action{source}}, nil)
}

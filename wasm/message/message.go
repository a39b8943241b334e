// Package message is what the page and its canvas tell each other: typed values,
// and the plain objects they travel as. Each type converts both ways; what
// arrives is checked, since other windows may post anything.
package message

import (
	"maps"
	"slices"

	"pivotbench/core/unit"
	"pivotbench/wasm/app"
)

// An Object is a message on its way, made of strings, float64s, bools, further
// Objects and nil.
type Object = map[string]any

// A Scene is the page's word to the canvas: what to show.
type Scene struct {
	app.Mirror
	Glide bool // move to it from what is shown, rather than jump
}

// Object returns the scene as it travels.
func (s Scene) Object() Object {
	var time any // nil: the shot at rest
	if s.Clock.On {
		time = float64(s.Clock.Time)
	}
	return Object{
		"scene":   s.Link,
		"earlier": s.Earlier,
		"marks":   s.Marks,
		"time":    time,
		"glide":   s.Glide,
		"ratios":  Object{"from": s.Ratios.From, "to": s.Ratios.To},
		"look": Object{
			"stretch": float64(s.Look.Stretch), "theme": s.Look.Theme, "left": s.Look.Left,
			"object": s.Look.Object, "band": s.Look.Band, "side": s.Look.Side,
		},
	}
}

// ReadScene reads a scene; ok is false for any other message. A part that is
// missing or of another type counts as left out.
func ReadScene(o Object) (s Scene, ok bool) {
	s.Link, ok = o["scene"].(string)
	if !ok {
		return Scene{}, false
	}
	s.Earlier, _ = o["earlier"].(string)
	s.Marks, _ = o["marks"].(string)
	s.Glide, _ = o["glide"].(bool)
	ratios, _ := o["ratios"].(Object)
	from, _ := ratios["from"].(float64)
	to, _ := ratios["to"].(float64)
	if 0 < from && from <= to && to < 1e3 {
		s.Ratios.From, s.Ratios.To = from, to
	}
	if time, ok := o["time"].(float64); ok {
		s.Clock.On, s.Clock.Time = true, unit.Span(time)
	}
	look, _ := o["look"].(Object)
	stretch, _ := look["stretch"].(float64)
	s.Look.Stretch = int(stretch)
	s.Look.Theme, _ = look["theme"].(string)
	s.Look.Left, _ = look["left"].(bool)
	s.Look.Object, _ = look["object"].(bool)
	s.Look.Band, _ = look["band"].(bool)
	s.Look.Side, _ = look["side"].(bool)
	return s, true
}

// A Drag is the canvas's word to the page that a handle is being moved.
type Drag struct{ app.Drag }

// Object returns the drag as it travels.
func (d Drag) Object() Object {
	set := Object{}
	for _, s := range d.Sets {
		set[s.Key] = s.Text
	}
	return Object{"drag": Object{"phase": string(d.Phase), "set": set}}
}

// ReadDrag reads a drag; ok is false for any other message. Its settings come
// in the order of their keys, and those that are no text are left out.
func ReadDrag(o Object) (d Drag, ok bool) {
	drag, _ := o["drag"].(Object)
	phase, ok := drag["phase"].(string)
	if !ok {
		return Drag{}, false
	}
	d.Phase = app.Phase(phase)
	set, _ := drag["set"].(Object)
	for _, key := range slices.Sorted(maps.Keys(set)) {
		if text, ok := set[key].(string); ok {
			d.Sets = append(d.Sets, app.Setting{Key: key, Text: text})
		}
	}
	return d, true
}

// Ready is the canvas's word that it has drawn its first frame.
type Ready struct{}

// Object returns the word as it travels.
func (Ready) Object() Object { return Object{"ready": true} }

// ReadReady reports whether a message says so.
func ReadReady(o Object) (Ready, bool) { return Ready{}, o["ready"] == true }

// Failed is the frame's word that its canvas has given up, and why.
type Failed struct{ Reason string }

// Object returns the word as it travels.
func (f Failed) Object() Object { return Object{"failed": f.Reason} }

// ReadFailed reads such a word; ok is false for any other message.
func ReadFailed(o Object) (f Failed, ok bool) {
	f.Reason, ok = o["failed"].(string)
	return f, ok
}

// Want is the frame's word that it starts, or starts over, and needs a program.
type Want struct{}

// Object returns the word as it travels.
func (Want) Object() Object { return Object{"want": "module"} }

// ReadWant reports whether a message says so.
func ReadWant(o Object) (Want, bool) { return Want{}, o["want"] == "module" }

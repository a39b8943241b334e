// Package message has the messages between the page and its canvas: typed values, and the
// plain objects as which they are sent. Each type converts both ways. What is received is
// checked, since other windows may post anything.
package message

import (
	"maps"
	"slices"

	"pivotbench/core/unit"
	"pivotbench/wasm/app"
)

// An Object is a message as it is sent, made of strings, float64s, bools, further Objects
// and nil.
type Object = map[string]any

// A Scene is sent by the page to the canvas. It says what to show.
type Scene struct {
	app.Mirror
	Glide bool // move to it gradually from what is shown
}

// Object returns the scene as it is sent.
func (s Scene) Object() Object {
	var time any // nil: the shot is at rest
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

// ReadScene reads a scene; ok is false for any other message. A part that is missing or
// has another type counts as left out.
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

// A Drag is sent by the canvas to the page when a handle is moved.
type Drag struct{ app.Drag }

// Object returns the drag as it is sent.
func (d Drag) Object() Object {
	set := Object{}
	for _, s := range d.Sets {
		set[s.Key] = s.Text
	}
	return Object{"drag": Object{"phase": string(d.Phase), "set": set}}
}

// ReadDrag reads a drag; ok is false for any other message. Its settings are in the order
// of their keys. Settings that are not text are left out.
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

// Ready is sent by the canvas when it has drawn its first frame.
type Ready struct{}

// Object returns the message as it is sent.
func (Ready) Object() Object { return Object{"ready": true} }

// ReadReady reports whether a message is Ready.
func ReadReady(o Object) (Ready, bool) { return Ready{}, o["ready"] == true }

// Failed is sent by the frame when its canvas has given up, with the reason.
type Failed struct{ Reason string }

// Object returns the message as it is sent.
func (f Failed) Object() Object { return Object{"failed": f.Reason} }

// ReadFailed reads Failed; ok is false for any other message.
func ReadFailed(o Object) (f Failed, ok bool) {
	f.Reason, ok = o["failed"].(string)
	return f, ok
}

// Want is sent by the frame when it starts, or starts over, and needs a program.
type Want struct{}

// Object returns the message as it is sent.
func (Want) Object() Object { return Object{"want": "module"} }

// ReadWant reports whether a message is Want.
func ReadWant(o Object) (Want, bool) { return Want{}, o["want"] == "module" }

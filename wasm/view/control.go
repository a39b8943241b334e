// Package view computes what each section of the page shows, as text and figures,
// from a scenario and the saved records. It does not use the browser.
package view

import (
	"math"
	"strconv"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
	"pivotbench/wasm/phrase"
)

// A Group is a set of related controls, in the order of the page.
type Group struct {
	Title string
	Open  bool // expanded at first
	Keys  []string
}

// Groups are the controls of the Shot section.
var Groups = []Group{
	{"Stroke", true, []string{"bridge", "side", "speed", "elev"}},
	{"Tip position and hands", false, []string{"height", "grip", "back", "front", "stroke"}},
	{"Target and gate", false, []string{"dist", "gate", "gap"}},
	{"Object ball and pocket", false, []string{"object", "cut", "pocket"}},
	{"Room for error", false, []string{"scatter.tip", "scatter.dial", "scatter.speed", "scatter.bridge", "scatter.elev", "scatter.aim"}},
	{"Cue", false, []string{"pivot", "pivotspin", "cuemass", "tip", "tipwidth", "bounce", "chalk"}},
	{"Table, balls and cloth", false, []string{"table", "ball", "cloth", "diam", "mass", "slide", "roll", "spindown", "hop"}},
	{"Display and units", false, []string{"name", "units"}},
}

// A Control is the current state of the control of a key.
type Control struct {
	Key          *scenario.Key
	Unit         string  // beside the field
	Text         string  // in the field; empty for an override that is not set
	Named        string  // the value in force while the field is empty
	Slider       bool    // there is a slider; the fields below are in Unit
	Lo, Hi, Step float64 // ends and step of the slider
	Value        float64
}

// ControlOf returns the control of a key for a scenario.
func ControlOf(k *scenario.Key, s *scenario.Scenario) Control {
	c := Control{Key: k}
	if !k.IsNumber() {
		c.Text = k.Value(s)
		return c
	}
	d := k.Display(s.Units)
	u, _ := k.Quantity.Find(d.Unit)
	v, set := k.Number(s)
	c.Unit = d.Unit
	if set {
		c.Text = trimmed(v/u.SI, d.Decimals)
	} else {
		c.Named = trimmed(v/u.SI, d.Decimals)
	}
	if c.Step, c.Slider = k.Step(s.Units); !c.Slider {
		return c
	}
	c.Value = v / u.SI
	// The ends are whole steps within the allowed range.
	c.Lo = whole(math.Ceil(k.Min/u.SI/c.Step-1e-9) * c.Step)
	c.Hi = whole(math.Floor(k.Max/u.SI/c.Step+1e-9) * c.Step)
	return c
}

// ControlIn is like ControlOf, but of ball speed and cue speed, the one that the
// scenario does not set is taken from the reading.
func ControlIn(k *scenario.Key, s *scenario.Scenario, r *shot.Reading) Control {
	c, speed := ControlOf(k, s), r.BallSpeed
	switch {
	case k.Name == "stroke" && !s.ByStroke:
		speed = r.CueSpeed
	case k.Name == "speed" && s.ByStroke:
	default:
		return c
	}
	c.Named, c.Text = "", ""
	if speed.Err() == nil {
		d := k.Display(s.Units)
		u, _ := k.Quantity.Find(d.Unit)
		c.Named, c.Value = d.Number(float64(speed.Value)), float64(speed.Value)/u.SI
	}
	return c
}

// whole removes the rounding error of a multiple of a step.
func whole(v float64) float64 { return math.Round(v*1e6) / 1e6 }

// trimmed formats a number for a field with the given decimals, or with up to two
// more when they represent it exactly, as for a value that was typed or set in other
// units. A value that needs still more decimals was computed and is rounded.
func trimmed(v float64, decimals int) string {
	for d := decimals; d <= decimals+2; d++ {
		text := strconv.FormatFloat(v, 'f', d, 64)
		if back, err := strconv.ParseFloat(text, 64); err == nil && math.Abs(back-v) <= 1e-9*math.Abs(v) {
			return text
		}
	}
	return strconv.FormatFloat(v, 'f', decimals, 64)
}

// A Readout is one value of a reading as the page shows it.
type Readout struct {
	Exact string // in SI units with all digits; empty when there is no answer
	Text  string // rounded, with its unit; a dash when there is no answer
	Why   string // why there is no answer; empty when there is one
}

// ReadoutOf returns one value of a reading as text in the reader's units.
func ReadoutOf(spec *shot.Spec, r *shot.Reading, units string) Readout {
	v, err := spec.Get(r)
	if err != nil {
		return Readout{Text: "–", Why: err.Error()}
	}
	d := scenario.DisplayOf(spec.Kind, units)
	switch {
	case spec.Small() && units == "cm":
		d.Unit = "mm"
	case spec.Small(), spec.Kind == unit.AngleKind:
		d.Decimals = 2
	case spec.Kind == unit.MassKind:
		d.Decimals = 1
	}
	out := Readout{Exact: strconv.FormatFloat(v, 'g', -1, 64), Text: d.Format(v)}
	if spec.Kind == unit.LengthKind && !spec.Small() {
		out.Text = phrase.Length(&scenario.Scenario{Units: units}, unit.Length(v))
	}
	return out
}

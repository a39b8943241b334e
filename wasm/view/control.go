// Package view is what each section of the page shows, in words and figures:
// plain values worked out of a scenario and of what is kept. Plain Go, no
// browser.
package view

import (
	"math"
	"strconv"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
	"pivotbench/wasm/phrase"
)

// A Group is controls that belong together, in the order of the page.
type Group struct {
	Title string
	Open  bool // shown without asking
	Keys  []string
}

// Groups are the controls of the Shot section.
var Groups = []Group{
	{"Stroke", true, []string{"bridge", "side", "speed", "elev"}},
	{"Contact and hands", false, []string{"height", "grip", "back", "front", "stroke"}},
	{"Target and gate", false, []string{"dist", "gate", "gap"}},
	{"Object ball and pocket", false, []string{"object", "cut", "pocket"}},
	{"Margin", false, []string{"scatter.tip", "scatter.speed", "scatter.bridge", "scatter.elev", "scatter.aim"}},
	{"Cue", false, []string{"pivot", "pivotspin", "cuemass", "tip", "tipwidth", "bounce", "chalk"}},
	{"Table", false, []string{"table", "ball", "cloth", "diam", "mass", "slide", "roll", "spindown", "hop"}},
	{"Sheet", false, []string{"name", "units"}},
}

// A Control is how a key is shown to the user just now.
type Control struct {
	Key          *scenario.Key
	Unit         string  // beside the field
	Text         string  // in the field; empty for an override that is not set
	Named        string  // what holds while the field is empty
	Slider       bool    // with these, in the unit shown:
	Lo, Hi, Step float64 // its ends and its step
	Value        float64
}

// ControlOf is a key's control for a scenario.
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
	// The ends are whole steps inside what is allowed.
	c.Lo = whole(math.Ceil(k.Min/u.SI/c.Step-1e-9) * c.Step)
	c.Hi = whole(math.Floor(k.Max/u.SI/c.Step+1e-9) * c.Step)
	return c
}

// ControlIn is ControlOf with, of ball speed and cue speed, the one that was not
// given as what it comes to in a reading.
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

// whole takes the rounding of a product of steps off.
func whole(v float64) float64 { return math.Round(v*1e6) / 1e6 }

// trimmed writes a number for a field: with the decimals its readers expect,
// and with up to two more where they are all there is of it, as of what was
// typed or set in the other units. A value with more than that was computed.
func trimmed(v float64, decimals int) string {
	for d := decimals; d <= decimals+2; d++ {
		text := strconv.FormatFloat(v, 'f', d, 64)
		if back, err := strconv.ParseFloat(text, 64); err == nil && math.Abs(back-v) <= 1e-9*math.Abs(v) {
			return text
		}
	}
	return strconv.FormatFloat(v, 'f', decimals, 64)
}

// A Readout is a reading as the page shows it.
type Readout struct {
	Exact string // in SI, all digits; empty when there is no answer
	Text  string // for people
	Why   string // why there is no answer
}

// ReadoutOf puts a reading into text, in the reader's units.
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

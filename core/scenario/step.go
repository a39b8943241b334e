package scenario

import (
	"math"

	"pivotbench/core/unit"
)

// steps are how finely the bench itself sets a key, in the unit that Display
// shows it in: for inches, and for centimetres where that is another unit.
// None is finer than what is shown, so that a value reads the same wherever it
// stands. A key without steps is only ever typed.
var steps = map[string][2]float64{
	"bridge": {0.1, 0.1}, "grip": {0.5, 1}, "back": {0.01}, "front": {0.01},
	"side": {0.01}, "height": {0.01}, "elev": {0.5}, "speed": {0.1, 0.05}, "stroke": {0.1, 0.05},
	"dist": {0.5, 1}, "gate": {0.5, 1}, "gap": {0.05, 0.1},
	"object": {0.5, 1}, "cut": {1}, "pocket": {0.1, 0.1},
	"pivot": {0.1, 0.1}, "pivotspin": {0.01}, "cuemass": {5}, "tip": {0.1}, "tipwidth": {0.1}, "bounce": {0.01}, "chalk": {0.01},
}

// Step is how finely a slider, a drag or a suggestion sets the key, in the unit
// that Display shows it in. A key that is only ever typed has none, and ok is
// false.
func (k *Key) Step(units string) (size float64, ok bool) {
	both, ok := steps[k.Name]
	if units == "cm" && both[1] != 0 {
		return both[1], ok
	}
	return both[0], ok
}

// Stepped is an SI value brought to a whole step, by math.Round, or by
// math.Ceil or math.Floor where the next one would not do. It may be just
// outside what the key allows. A key without steps is brought to the decimals
// that are shown of it.
func (k *Key) Stepped(v float64, units string, round func(float64) float64) float64 {
	return k.snap(v, units, 1, round)
}

// Snapped is the nearest value that is a multiple of so many steps and that the
// key allows, in SI: a drag by hand takes larger steps than a slider.
func (k *Key) Snapped(v float64, units string, steps float64) float64 {
	return min(max(k.snap(v, units, steps, math.Round), k.Min), k.Max)
}

// Grain is the size of a step in SI, or of the last decimal that is shown.
func (k *Key) Grain(units string) float64 {
	size, si := k.grain(units)
	return size * si
}

// grain is a step's size in the unit shown, and what that unit is in SI.
func (k *Key) grain(units string) (size, si float64) {
	d := k.Display(units)
	u, _ := k.Quantity.Find(d.Unit)
	size, ok := k.Step(units)
	if !ok {
		size = math.Pow(10, -float64(d.Decimals))
	}
	return size, u.SI
}

func (k *Key) snap(v float64, units string, steps float64, round func(float64) float64) float64 {
	size, si := k.grain(units)
	size *= steps
	n := v / si / size
	const whole = 1e-9 // a value that is a whole step already stays
	if near := math.Round(n); math.Abs(n-near) > whole {
		n = round(n)
	} else {
		n = near
	}
	const places = 1e6 // finer than any step: takes the rounding of the product off
	return math.Round(n*size*places) / places * si
}

// StepText is the nearest whole step as text, with its unit: what a link, a
// control or a drag sets.
func (k *Key) StepText(v float64, units string) string {
	return k.Written(k.Stepped(v, units, math.Round), units)
}

// Written is an SI value as text in the unit that Display shows it in, as a
// keyboard has it.
func (k *Key) Written(v float64, units string) string {
	name := k.Display(units).Unit
	if name == "°" {
		name = "deg"
	}
	return unit.Exact(v, k.Quantity, name)
}

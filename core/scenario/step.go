package scenario

import (
	"math"

	"pivotbench/core/unit"
)

// steps are the sizes of the steps in which the bench itself sets a key, in the unit of
// Display: for inches, and for centimetres if they differ. No step is finer than what is
// shown, so that a value reads the same everywhere. A key without steps can only be
// typed.
var steps = map[string][2]float64{
	"bridge": {0.1, 0.1}, "grip": {0.5, 1}, "back": {0.01}, "front": {0.01},
	"side": {0.01}, "height": {0.01}, "elev": {0.5}, "speed": {0.1, 0.05}, "stroke": {0.1, 0.05},
	"dist": {0.5, 1}, "gate": {0.5, 1}, "gap": {0.05, 0.1},
	"object": {0.5, 1}, "cut": {1}, "pocket": {0.1, 0.1},
	"pivot": {0.1, 0.1}, "pivotspin": {0.01}, "cuemass": {5}, "tip": {0.1}, "tipwidth": {0.1}, "bounce": {0.01}, "chalk": {0.01},
}

// Step returns the size of the steps in which a slider, a drag or a suggestion sets the
// key, in the unit of Display. ok is false for a key that can only be typed.
func (k *Key) Step(units string) (size float64, ok bool) {
	both, ok := steps[k.Name]
	if units == "cm" && both[1] != 0 {
		return both[1], ok
	}
	return both[0], ok
}

// Stepped returns an SI value rounded to a whole step by math.Round, or by math.Ceil or
// math.Floor if the value must not fall short of or exceed v. The result may lie just
// outside the limits of the key. For a key without steps it rounds to the decimals shown.
func (k *Key) Stepped(v float64, units string, round func(float64) float64) float64 {
	return k.snap(v, units, 1, round)
}

// Snapped returns the nearest multiple of so many steps that the key allows, in SI. A
// drag by hand takes larger steps than a slider.
func (k *Key) Snapped(v float64, units string, steps float64) float64 {
	return min(max(k.snap(v, units, steps, math.Round), k.Min), k.Max)
}

// Grain returns the size of a step in SI, or of the last decimal shown.
func (k *Key) Grain(units string) float64 {
	size, si := k.grain(units)
	return size * si
}

// grain returns the size of a step in the unit shown, and the size of that unit in SI.
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
	const whole = 1e-9 // a value already at a whole step stays
	if near := math.Round(n); math.Abs(n-near) > whole {
		n = round(n)
	} else {
		n = near
	}
	const places = 1e6 // finer than any step; removes the rounding error of the product
	return math.Round(n*size*places) / places * si
}

// StepText returns the nearest whole step as text with its unit, as a link, a control or
// a drag sets it.
func (k *Key) StepText(v float64, units string) string {
	return k.Written(k.Stepped(v, units, math.Round), units)
}

// Written returns an SI value as text in the unit of Display, using only characters of a
// plain keyboard.
func (k *Key) Written(v float64, units string) string {
	name := k.Display(units).Unit
	if name == "°" {
		name = "deg"
	}
	return unit.Exact(v, k.Quantity, name)
}

package view

import (
	"cmp"
	"strings"

	"pivotbench/wasm/phrase"
)

// spoken gives units as a screen reader should speak them.
var spoken = map[string]string{
	"in": "inches", "cm": "centimetres", "mm": "millimetres", "°": "degrees",
	"mph": "miles per hour", "%": "per cent", "m/s": "metres per second", "g": "grams",
}

// sides lists the keys whose sign is a direction, with the words for positive,
// negative and zero.
var sides = map[string][3]string{
	"side":   {"right", "left", "no english"},
	"height": {"above centre", "below centre", "centre"},
	"cut":    {"to the right", "to the left", "straight"},
}

// Said returns the control's value in words, for screen readers.
func (c Control) Said() string {
	text := phrase.Brief(strings.TrimLeft(cmp.Or(c.Text, c.Named), "-−"))
	switch c.Key.Name {
	case "side", "height", "pivotspin":
		text += " of a ball's radius"
	case "back", "front":
		text = strings.TrimSuffix(phrase.Percent(c.Value), " %") + " per cent"
	default:
		text = strings.TrimSpace(text + " " + spoken[c.Unit])
	}
	side, ok := sides[c.Key.Name]
	switch {
	case !ok:
		return text
	case c.Value > 0:
		return text + " " + side[0]
	case c.Value < 0:
		return text + " " + side[1]
	}
	return side[2]
}

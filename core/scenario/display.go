package scenario

import "pivotbench/core/unit"

// A Display is how a quantity is shown to people.
type Display struct {
	Quantity unit.Kind
	Unit     string
	Decimals int
}

// Display returns how a key's value is shown with the units "in" or "cm".
func (k *Key) Display(units string) Display {
	switch {
	case k.Name == "scatter.speed":
		return Display{k.Quantity, "%", 0}
	case k.Quantity == unit.Ratio:
		if k.Name == "roll" {
			return Display{k.Quantity, "", 3}
		}
		return Display{k.Quantity, "", 2}
	case k.Unit == "mm": // what is in millimetres everywhere
		return Display{k.Quantity, "mm", 1}
	case k.Name == "diam" && units == "cm":
		return Display{k.Quantity, "mm", 1}
	case k.Name == "diam" || k.Name == "gap":
		return Display{k.Quantity, units, 2}
	}
	return DisplayOf(k.Quantity, units)
}

// DisplayOf returns how a quantity without a key is shown.
func DisplayOf(q unit.Kind, units string) Display {
	switch q {
	case unit.LengthKind:
		return Display{q, units, 1}
	case unit.AngleKind:
		return Display{q, "°", 1}
	case unit.SpeedKind:
		if units == "cm" {
			return Display{q, "m/s", 2}
		}
		return Display{q, "mph", 1}
	case unit.MassKind:
		return Display{q, "g", 0}
	case unit.SpinRateKind:
		return Display{q, "rad/s²", 0}
	case unit.SpanKind:
		return Display{q, "s", 2}
	}
	return Display{q, "", 2}
}

// Number returns the value without its unit.
func (d Display) Number(v float64) string { return unit.Round(v, d.Quantity, d.Unit, d.Decimals) }

// Format returns the value with its unit.
func (d Display) Format(v float64) string {
	switch d.Unit {
	case "":
		return d.Number(v)
	case "°":
		return d.Number(v) + "°"
	}
	return d.Number(v) + " " + d.Unit
}

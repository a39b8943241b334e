package store

import (
	"slices"
	"strings"

	"pivotbench/core/unit"
	"pivotbench/wasm/codec"
)

// A Check is how well an instrument's reading knew a quantity that all strokes of a
// sitting share. It counts for the sitting in which it was made, since the next day's
// set-up is new.
type Check struct {
	Of    string // one of Checked
	Error string // one standard deviation of its error, with its unit; speed and slide are shares
	When  string // date and time
}

func (c *Check) fields(f codec.Fields) {
	f.Text("of", &c.Of)
	f.Text("error", &c.Error)
	f.Text("when", &c.When)
}

// Checked lists the quantities that checks are of.
var Checked = []string{"elevation", "bridge", "offset", "speed", "slide"}

// Value returns the error in SI units. The error says why it cannot be read.
func (c *Check) Value() (float64, error) {
	kind := unit.Ratio
	switch c.Of {
	case "elevation":
		kind = unit.AngleKind
	case "bridge":
		kind = unit.LengthKind
	}
	return unit.Parse(c.Error, kind, "")
}

// Clean returns the check with its texts normalized for storage.
func (c Check) Clean() Check {
	c.Error, c.When = clean(c.Error), clean(c.When)
	return c
}

// Faults describes everything that is wrong with a check. It returns nil for a valid one.
func (c *Check) Faults() (out []string) {
	if !slices.Contains(Checked, c.Of) {
		return []string{"what was checked (of): “" + clip(c.Of) + "”, allowed: " + strings.Join(Checked, ", ")}
	}
	switch v, err := c.Value(); {
	case err != nil:
		return []string{"error: " + err.Error()}
	case v < 0:
		return []string{"error “" + clip(c.Error) + "”, allowed: 0 or more"}
	}
	return nil
}

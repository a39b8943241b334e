package scenario_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
)

// A value rounded to a whole step is short in a link, reads back to itself, and is shown
// with all its digits.
func TestSteppedValuesAreShortAndShownWhole(t *testing.T) {
	seen := 0
	for _, units := range []string{"in", "cm"} {
		for _, k := range scenario.Keys() {
			if _, ok := k.Step(units); !ok {
				continue
			}
			seen++
			for i := range 200 {
				v := k.Min + (k.Max-k.Min)*(float64(i)+0.37)/200
				s := scenario.Default()
				s.Units = units
				require.Nil(t, k.Set(&s, k.StepText(v, units), ""), "%s of %v", k.Name, v)
				got, _ := k.Number(&s)
				assert.Equal(t, got, k.Stepped(got, units, math.Round), "%s: a whole step stays", k.Name)
				assert.LessOrEqual(t, got, k.Stepped(v, units, math.Ceil)+1e-12)
				assert.GreaterOrEqual(t, got, k.Stepped(v, units, math.Floor)-1e-12)
				assert.LessOrEqual(t, len(k.Value(&s)), 8, "%s in %s: %s", k.Name, units, k.Value(&s))
				d := k.Display(units)
				u, _ := k.Quantity.Find(d.Unit)
				scale := math.Pow(10, float64(d.Decimals))
				shown := got / u.SI * scale
				assert.InDelta(t, math.Round(shown), shown, 1e-6, "%s in %s has more decimals than are shown", k.Name, units)
			}
		}
	}
	assert.Greater(t, seen, 40)
}

func TestSteppedOfATypedKey(t *testing.T) {
	k := scenario.Find("diam")
	assert.InDelta(t, float64(2.25*unit.Inch), k.Stepped(0.05712, "in", math.Round), 1e-12)
	assert.Equal(t, "57.1mm", k.StepText(0.05712, "cm"))
	_, slides := k.Step("in")
	assert.False(t, slides)
}

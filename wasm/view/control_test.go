package view_test

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
	"pivotbench/wasm/view"
)

// both are the default scenario in each of the reader's units.
func both() map[string]scenario.Scenario {
	in, cm := scenario.Default(), scenario.Default()
	cm.Units = "cm"
	return map[string]scenario.Scenario{"in": in, "cm": cm}
}

func TestEveryGroupedKeyIsThereOnce(t *testing.T) {
	seen := map[string]bool{}
	for _, g := range view.Groups {
		for _, name := range g.Keys {
			assert.NotNil(t, scenario.Find(name), name)
			assert.False(t, seen[name], name)
			seen[name] = true
		}
	}
}

func TestSliderEndsAreWholeStepsInsideWhatIsAllowed(t *testing.T) {
	sliders := 0
	for units, s := range both() {
		for _, k := range scenario.Keys() {
			c := view.ControlOf(&k, &s)
			if !c.Slider {
				continue
			}
			sliders++
			u, ok := k.Quantity.Find(c.Unit)
			require.True(t, ok, "%s in %s: %q", k.Name, units, c.Unit)
			assert.Less(t, c.Lo, c.Hi, k.Name)
			for _, end := range []float64{c.Lo, c.Hi} {
				steps := end / c.Step
				assert.InDelta(t, math.Round(steps), steps, 1e-6, "%s in %s: %v of %v", k.Name, units, end, c.Step)
				try := s
				text := strconv.FormatFloat(end, 'f', -1, 64)
				assert.Nil(t, k.Set(&try, text, c.Unit), "%s in %s: %s", k.Name, units, text)
			}
			// No whole step more would fit.
			const slack = 1e-9
			assert.Less(t, k.Min/u.SI, c.Lo+slack)
			assert.Greater(t, k.Min/u.SI, c.Lo-c.Step+slack, "%s in %s", k.Name, units)
			assert.Less(t, k.Max/u.SI, c.Hi+c.Step-slack, "%s in %s", k.Name, units)
		}
	}
	assert.Greater(t, sliders, 30)
}

// What a field shows means what the scenario has, to half of the last digit
// that is shown.
func TestFieldReadsBackToTheSameValue(t *testing.T) {
	links := []string{"v=1", "v=1&bridge=9.37in&tip=11.123mm&speed=3.21m/s&elev=0.1rad&side=0.123456&gap=7.3cm&cuemass=19.5oz&diam=52.4mm&roll=0.0123"}
	for _, p := range scenario.Presets {
		links = append(links, p.Link)
	}
	for _, text := range links {
		s, problems := scenario.Parse(text)
		require.Empty(t, problems)
		for _, units := range []string{"in", "cm"} {
			s.Units = units
			for _, k := range scenario.Keys() {
				if !k.IsNumber() {
					continue
				}
				c := view.ControlOf(&k, &s)
				want, set := k.Number(&s)
				if !set {
					assert.Empty(t, c.Text, k.Name)
					assert.NotEmpty(t, c.Named, k.Name)
					continue
				}
				back := s
				require.Nil(t, k.Set(&back, c.Text, c.Unit), "%s: %q %s", k.Name, c.Text, c.Unit)
				got, _ := k.Number(&back)
				d := k.Display(units)
				u, _ := k.Quantity.Find(d.Unit)
				assert.InDelta(t, want, got, 0.50001*math.Pow(10, -float64(d.Decimals))*u.SI, "%s: %q %s", k.Name, c.Text, c.Unit)
			}
		}
	}
}

func TestControlText(t *testing.T) {
	for _, tc := range []struct{ link, key, text, unit, named string }{
		{"v=1", "bridge", "12.0", "in", ""},
		{"v=1&bridge=9.25in", "bridge", "9.25", "in", ""},
		{"v=1&gap=60.15mm", "gap", "2.37", "in", ""},
		{"v=1&gap=2.368in", "gap", "2.368", "in", ""},
		{"v=1&units=cm", "bridge", "30.48", "cm", ""},
		{"v=1&units=cm&bridge=24cm", "bridge", "24.0", "cm", ""},
		{"v=1&units=cm", "tip", "10.6", "mm", ""},
		{"v=1", "elev", "3.0", "°", ""},
		{"v=1", "cuemass", "540", "g", ""},
		{"v=1", "diam", "", "in", "2.25"},
		{"v=1&diam=2.3in", "diam", "2.30", "in", ""},
		{"v=1&side=-0.35", "side", "-0.35", "", ""},
		{"v=1&name=Wall", "name", "Wall", "", ""},
		{"v=1&table=7ft", "table", "7ft", "", ""},
	} {
		s, problems := scenario.Parse(tc.link)
		require.Empty(t, problems)
		c := view.ControlOf(scenario.Find(tc.key), &s)
		assert.Equal(t, []string{tc.text, tc.unit, tc.named}, []string{c.Text, c.Unit, c.Named}, "%s of %s", tc.key, tc.link)
	}
}

func TestReadoutIsExactAndSaysWhyNot(t *testing.T) {
	links := []string{"v=1", "v=1&side=0.7", "v=1&side=0", "v=1&gate=0in", "v=1&units=cm&back=0"}
	for _, p := range scenario.Presets {
		links = append(links, p.Link)
	}
	for _, text := range links {
		s, problems := scenario.Parse(text)
		require.Empty(t, problems)
		res := play(&s)
		for _, spec := range shot.Specs {
			out := view.ReadoutOf(&spec, &res.Reading, s.Units)
			want, err := spec.Get(&res.Reading)
			if err != nil {
				assert.Equal(t, view.Readout{Text: "–", Why: err.Error()}, out, "%s of %s", spec.Name, text)
				assert.NotEmpty(t, out.Why)
				continue
			}
			got, err := strconv.ParseFloat(out.Exact, 64)
			require.NoError(t, err, "%s of %s", spec.Name, text)
			assert.Equal(t, want, got, "%s of %s", spec.Name, text)
			assert.NotEmpty(t, out.Text)
			assert.Empty(t, out.Why)
		}
	}
}

func TestReadoutUnits(t *testing.T) {
	var r shot.Reading
	r.Squirt = shot.Answered(1.234 * unit.Degree)
	r.Arrival = shot.Answered(-0.5 * unit.Inch)
	r.PivotNatural = shot.Answered(12 * unit.Inch)
	r.EndMass = shot.Answered(11.26 * unit.Gram)
	r.CueSpeed = shot.Answered(7 * unit.MilePerHour)
	texts := map[string][2]string{
		"squirt":        {"1.23°", "1.23°"},
		"arrival":       {"−0.50 in", "−12.7 mm"},
		"pivot-natural": {"12.0 in", "30.5 cm"},
		"end-mass":      {"11.3 g", "11.3 g"},
		"cue-speed":     {"7.0 mph", "3.13 m/s"},
	}
	for _, spec := range shot.Specs {
		if want, ok := texts[spec.Name]; ok {
			assert.Equal(t, want, [2]string{view.ReadoutOf(&spec, &r, "in").Text, view.ReadoutOf(&spec, &r, "cm").Text}, spec.Name)
		}
	}
}

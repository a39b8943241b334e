package view_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/instrument"
	"pivotbench/core/lesson"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// wholeKeys are the controls that people read to a round value: tenths of an inch for
// lengths at the cue, whole per cents for shares, half degrees of elevation.
var wholeKeys = []string{"pivot", "bridge", "grip", "back", "front", "side", "height", "elev", "speed", "stroke", "dist", "gate"}

// assertWhole asserts that a scenario's values are whole steps in its units.
func assertWhole(t *testing.T, s *scenario.Scenario, what string) {
	t.Helper()
	for _, name := range wholeKeys {
		k := scenario.Find(name)
		if v, set := k.Number(s); set {
			assert.InDelta(t, k.Stepped(v, s.Units, math.Round), v, 1e-9, "%s: %s=%s", what, name, k.Value(s))
		}
	}
}

// The steps that the test above relies on are those that people read: 0.1 in, 1 %, half a
// degree.
func TestStepsAreWhatPeopleRead(t *testing.T) {
	for name, want := range map[string]float64{
		"pivot": 0.1 * float64(unit.Inch), "bridge": 0.1 * float64(unit.Inch), "back": 0.01, "front": 0.01, "elev": 0.5 * float64(unit.Degree),
	} {
		assert.InDelta(t, want, scenario.Find(name).Grain("in"), 1e-12, name)
	}
}

// What Pivotbench sets by itself is round, so that links stay short and QR codes coarse:
// a corrected aim, the next stroke, the lowest hop, an elevation, a saved cue, an example
// and a lesson. A value that a person typed stays as it is.
func TestWhatPivotbenchSetsIsRound(t *testing.T) {
	for _, units := range []string{"in", "cm"} {
		start := func(link string) app.Model { return after(app.Open{Link: link + "&units=" + units}) }
		// In centimetres the links below are not round to begin with.
		snapped := func(link string) app.Model {
			m := start(link)
			for _, name := range wholeKeys {
				if k := scenario.Find(name); k.Name != "speed" && k.Name != "stroke" {
					m = app.Update(m, app.Set{Key: name, Text: k.StepText(func() float64 { v, _ := k.Number(&m.Scene); return v }(), units)})
				}
			}
			m = app.Update(m, app.Set{Key: "speed", Text: scenario.Find("speed").StepText(float64(m.Scene.Speed), units)})
			return app.Update(m, app.Settle{})
		}
		for _, link := range []string{"v=1&bridge=9in", "v=1&bridge=17in&side=-0.3&elev=5deg", "v=1&side=0.2&speed=4mph&dist=60in&gate=0in"} {
			m := app.Update(snapped(link), app.AimIt{})
			require.Empty(t, m.Notices, link)
			assertWhole(t, &m.Scene, "aim of "+link)
		}

		m := snapped("v=1")
		m = app.Update(m, app.MeasureCue{Name: "House 4"})
		next := view.Weigh(&m, view.NewSitting(m.SetUp, m.Scene.PivotSpin))
		require.NotEmpty(t, next.Sets)
		m = app.Update(m, app.SetAll{Sets: next.Sets})
		assertWhole(t, &m.Scene, "next stroke")

		hop := snapped("v=1&side=0&elev=40deg&speed=14mph&gate=12in&gap=2in&bounce=0.87&cuemass=280g")
		contacts := view.ContactsOf(&hop.Scene, &hop.Kept)
		for _, find := range []func(*scenario.Scenario, *view.Contacts) (app.Setting, error){view.SlowestHop, view.FlattestHop} {
			set, err := find(&hop.Scene, &contacts)
			require.NoError(t, err)
			to := app.Update(hop, app.SetAll{Sets: []app.Setting{set}})
			assertWhole(t, &to.Scene, "lowest hop")
		}

		level := view.InstrumentOf("elev").Say(view.Input{Scene: &m.Scene, Zero: []instrument.Tilt{{}}, Along: []instrument.Tilt{{Beta: 0.1}}})
		to := app.Update(m, app.SetAll{Sets: level.Sets})
		assertWhole(t, &to.Scene, "elevation by phone")

		saved := view.ListCues([]store.CueRecord{record("House 4", "9.6437in", "9.0123in", "10.3in", 10)})
		to = app.Update(m, app.UseCue{Cue: saved[0].On(&m.Scene), TipWidth: saved[0].Gear.TipWidth, Chalk: saved[0].Gear.Chalk})
		assertWhole(t, &to.Scene, "saved cue")
	}

	user := scenario.Default()
	for _, p := range scenario.Presets {
		s, _ := p.On(&user)
		assertWhole(t, &s, p.Label)
	}
	for _, l := range lesson.Shipped {
		for _, step := range l.Steps {
			s := step.Scene("in")
			assertWhole(t, &s, l.Name)
		}
	}
	typed := after(app.Set{Key: "bridge", Text: "9 1/16in"}, app.Settle{})
	assert.InDelta(t, 9.0625*0.0254, float64(typed.Scene.Bridge), 1e-12)
}

package pack

import (
	"html/template"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/sheet"
	"pivotbench/wasm/view"
)

// A page is the data of index.html: the controls and readings from the tables in code,
// and the default shot already computed, so that the page can be read before any program
// runs.
type page struct {
	Still       template.HTML
	Verdict     shot.Verdict
	Words       phrase.Said
	Key, Rest   []reading
	Groups      []group
	Measure     []control
	Clearance   []control
	Instruments []view.Instrument
	Sures       []app.Sure
	FilmBalls   []view.FilmBall
	FilmPlan    template.HTML
	FilmSide    template.HTML
	Inserts     []view.Insert // into a caption

	Doors     []view.Door
	Gear      []*scenario.Key // asked for by the start
	Stretches []int
	Presets   []preset
	Keys      []entry     // of a link
	Meanings  []shot.Spec // of readings
}

// A preset is an example shot, and the address of its link. The address has its own type
// because the template would encode the & and = of text in an attribute.
type preset struct {
	scenario.Preset
	Href template.URL
}

func presets() []preset {
	out := make([]preset, len(scenario.Presets))
	for i, p := range scenario.Presets {
		out[i] = preset{p, template.URL("#" + p.Link)}
	}
	return out
}

type reading struct {
	Spec    shot.Spec
	Readout view.Readout
}

// An entry is a key of a link, for the Reference.
type entry struct{ Label, Name, Meaning, Allowed, Start string }

type group struct {
	view.Group
	Controls []control
}

// A control may be in several sections; Prefix keeps its ids apart.
type control struct {
	view.Control
	Prefix string
}

func controls(prefix string, keys []string, s *scenario.Scenario) []control {
	out := make([]control, len(keys))
	for i, name := range keys {
		out[i] = control{view.ControlOf(scenario.Find(name), s), prefix}
	}
	return out
}

// setup are the controls of a stroke at the gate.
var setup = []string{"bridge", "side", "speed", "elev", "gate", "gap"}

// hopping are the controls of the Clearance section.
var hopping = []string{"elev", "speed", "stroke", "gate", "gap", "dist", "side", "height"}

// keyReadings are the readings that are always visible.
var keyReadings = []string{"squirt", "heading", "swerve", "pivot-natural"}

// PageData returns the data of index.html.
func PageData() (any, error) {
	m := app.Start()
	res := m.Play()
	sh := sheet.Draw(&m.Scene, res, sheet.View{Width: 390, Height: 400, Stretch: m.Look.Stretch})
	said := phrase.Verdict(&m.Scene, &res.Reading)
	data := page{
		// The sheet escapes the text that it writes.
		Still:   template.HTML(sheet.SVG(&sh, said.Head+", "+said.Detail)),
		Verdict: res.Reading.Verdict.Value, Words: said,
		Instruments: view.Instruments, Sures: app.Sures, FilmBalls: view.FilmBalls, Inserts: view.Inserts(),
		Doors: view.Doors, Stretches: app.Stretches, Presets: presets(),
	}
	plan, side := sheet.FilmPlan(), sheet.FilmSide()
	data.FilmPlan = template.HTML(sheet.SVG(&plan, "From above: the phone stands beside the table, off the line of the shot, and sees every ball."))
	data.FilmSide = template.HTML(sheet.SVG(&side, "From the side: the phone stands as high as a chair's back, the light is above the table."))
	byName := map[string]reading{}
	for _, spec := range shot.Specs {
		byName[spec.Name] = reading{spec, view.ReadoutOf(&spec, &res.Reading, m.Scene.Units)}
	}
	for _, name := range keyReadings {
		data.Key = append(data.Key, byName[name])
		delete(byName, name)
	}
	for _, spec := range shot.Specs {
		if r, ok := byName[spec.Name]; ok {
			data.Rest = append(data.Rest, r)
		}
	}
	for _, g := range view.Groups {
		data.Groups = append(data.Groups, group{g, controls("f", g.Keys, &m.Scene)})
	}
	for _, k := range scenario.Keys() {
		data.Keys = append(data.Keys, entry{k.Label, k.Name, k.Meaning, k.Allowed(m.Scene.Units), k.Value(&m.Scene)})
	}
	for _, name := range view.GearKeys {
		data.Gear = append(data.Gear, scenario.Find(name))
	}
	data.Meanings = shot.Specs
	data.Measure = controls("m", setup, &m.Scene)
	data.Clearance = controls("h", hopping, &m.Scene)
	return data, nil
}

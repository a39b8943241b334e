// Command example writes site/example.json: the records of Harbour Hall's Tuesday class,
// which the page shows as an example. The class is invented. Its strokes are played by
// the model's own simulated tester with a fixed seed, each the one that tells most, so the
// file changes only if the model or the choice of strokes does.
package main

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"

	"pivotbench/core/scenario"
	"pivotbench/core/sitting"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

func main() {
	text, err := class()
	if err == nil {
		err = os.WriteFile("site/example.json", []byte(text), 0o644)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "example:", err)
		os.Exit(1)
	}
}

// A cue of the class, with the pivot length that its strokes are played with.
type cue struct {
	name    string
	pivot   unit.Length
	strokes int
	marks   bool // whether its strokes are marked on a line rather than seen at the gate
	record  store.CueRecord
}

var classCues = []cue{
	{"House 3", 10.2 * unit.Inch, 14, false, store.CueRecord{Shaft: "maple", Taper: "straight for 12 in", Ferrule: "long, thick-walled", Hardness: "medium", Notes: "From the rack by the door."}},
	{"House 7", 12.9 * unit.Inch, 10, false, store.CueRecord{Shaft: "maple", Taper: "conical", Ferrule: "short", Hardness: "hard", Notes: "New tip in September."}},
	{"Slender", 19 * unit.Inch, 8, true, store.CueRecord{Shaft: "hollow at the front", Taper: "straight for 15 in", Ferrule: "light", Hardness: "soft", Notes: "The teacher's own."}},
}

// The tables of the hall. The cloth of the first was measured with the timings.
var tables = []struct{ name, link string }{
	{"Harbour Hall, table 2", "v=1&slide=0.21&roll=0.011"},
	{"Harbour Hall, back room", "v=1&table=8ft&cloth=worn"},
}

// evening is the Tuesday of the sitting.
func evening(minute int) string { return fmt.Sprintf("2026-11-24T19:%02d:00Z", minute) }

// class plays the sitting and returns the class's records as a file.
func class() (string, error) {
	m := app.Start()
	do := func(events ...app.Event) error {
		for _, e := range events {
			if m = app.Update(m, e); m.Notices != nil {
				return fmt.Errorf("%T: %v", e, m.Notices)
			}
		}
		return nil
	}
	for _, t := range tables {
		s, problems := scenario.Parse(t.link)
		if problems != nil {
			return "", problems[0]
		}
		if err := do(app.SaveTable{Table: store.TableOf(&s, t.name, "2026-11-17T19:05:00Z")}); err != nil {
			return "", err
		}
	}
	for _, r := range timings {
		if err := do(app.AddReading{Reading: r}); err != nil {
			return "", err
		}
	}
	if err := do(app.Open{Link: tables[0].link + "&elev=2deg&speed=9mph&gate=30in&gap=2.75in"}, app.Settle{}); err != nil {
		return "", err
	}
	earlier := store.CueRecord{
		Name: "House 3", Pivot: "10.6in", From: "9.3in", To: "12.1in", At: "0.5", How: "gate", Link: "v=1",
		When: "2026-10-06T19:30:00Z", Notes: "First try, nine strokes.",
	}
	if err := do(app.SaveCue{Cue: earlier}); err != nil {
		return "", err
	}
	r := rand.New(rand.NewPCG(2026, 11))
	player := sitting.Draw(r) // his aim and set-up are off alike for every cue
	player.Scatter, player.Aim = 0.25*unit.Degree, 0.1*unit.Degree
	for i := range player.Errors {
		player.Errors[i] /= 2
	}
	log, minute := view.NewSitting(m.SetUp, m.Scene.PivotSpin), 0
	for _, c := range classCues {
		if err := do(app.MeasureCue{Name: c.name}); err != nil {
			return "", err
		}
		player.Pivot = c.pivot
		for range c.strokes {
			if err := do(app.SetAll{Sets: next(&m.Scene, log, c)}); err != nil {
				return "", err
			}
			seen, err := play(&m.Scene, player, c.marks, r)
			if err != nil {
				return "", err
			}
			minute++
			seen.Cue, seen.When = c.name, evening(minute)
			if err := do(seen); err != nil {
				return "", err
			}
			log = log.Add(m.Kept.Strokes[len(m.Kept.Strokes)-1])
		}
		record := view.MeasuredCues(&m, log, evening(minute))[0]
		record.Shaft, record.Taper, record.Ferrule, record.Hardness, record.Notes = c.record.Shaft, c.record.Taper, c.record.Ferrule, c.record.Hardness, c.record.Notes
		if err := do(app.SaveCue{Cue: record}); err != nil {
			return "", err
		}
	}
	if err := playCards(do, &m); err != nil {
		return "", err
	}
	for _, l := range lessons(&m) {
		if err := do(app.KeepLesson{Lesson: l}, app.EndLesson{}); err != nil {
			return "", err
		}
	}
	return m.Kept.Encode(), nil
}

// next returns the settings of the stroke that tells most about a cue, as the page
// suggests it, of one kind.
func next(s *scenario.Scenario, log *view.Sitting, c cue) []app.Setting {
	sh := s.Shot()
	choice := sitting.Choice{
		Kinds: []sitting.Kind{sitting.ByGate}, Hands: []sitting.Hands{sitting.BackHand}, Sides: []float64{0.3, 0.4, 0.5},
		Lines: []unit.Length{s.Gate}, Speeds: []unit.Speed{s.Speed}, Read: sitting.ByEye,
	}
	if c.marks {
		choice.Kinds, choice.Hands = []sitting.Kind{sitting.ByMark}, []sitting.Hands{sitting.BackHand, sitting.Parallel}
	}
	for n := 6; n <= 16; n++ {
		choice.Bridges = append(choice.Bridges, unit.Length(n)*unit.Inch)
	}
	best := log.Post.Next(log.Cue(c.name), &sh, &choice)[0]
	back := "1"
	if best.Hands == sitting.Parallel {
		back = "0"
	}
	return []app.Setting{
		{Key: "side", Text: strconv.FormatFloat(best.Side, 'f', 1, 64)}, {Key: "back", Text: back},
		{Key: "bridge", Text: strconv.FormatFloat(float64(best.Bridge/unit.Inch), 'f', 0, 64) + "in"},
	}
}

// play has the player play a shot, and returns what is noted of it.
func play(s *scenario.Scenario, player sitting.Tester, marked bool, r *rand.Rand) (app.NoteStroke, error) {
	if !marked {
		k, err := player.AtGate(s.Shot(), sitting.Habit, r)
		if err != nil {
			return app.NoteStroke{}, err
		}
		return app.NoteStroke{See: store.Outcomes[k.Seen.(sitting.Gate)]}, nil
	}
	k, err := player.AtLine(s.Shot(), sitting.Habit, sitting.Mark{Line: s.Gate, Read: sitting.ByEye, Across: s.GearTable().Width}, r)
	if err != nil {
		return app.NoteStroke{}, err
	}
	return app.NoteStroke{Mark: tenths(k.Seen.(sitting.Mark).At), At: store.Length(float64(s.Gate)), Read: "3mm"}, nil
}

// tenths returns a mark as it is read off a ruler.
func tenths(at unit.Length) string {
	return strconv.FormatFloat(math.Round(10*float64(at/unit.Inch))/10+0, 'f', 1, 64) + "in" // + 0: not −0
}

package view

import (
	"cmp"
	"slices"
	"strings"

	"pivotbench/core/cues"
	"pivotbench/core/gear"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/store"
)

// A ListedCue is a cue of the rack: what its records say together.
type ListedCue struct {
	Name    string
	Key     string            // what tells cues apart: the name, whatever its case
	Records []int             // on the list, oldest first
	Gear    scenario.Scenario // the cue's values by its last record, and the ball it was measured on
	Known   cues.Combined
	Used    []int // of Records, the ones in Known
	Changed []int // of Records, the ones that lie apart from those before
	Err     error // why there is no estimate; the records are there all the same
}

// ListCues puts the records of one name together, in the order in which the names
// come up. A record without a name is a cue of its own.
func ListCues(records []store.CueRecord) []ListedCue {
	var out []ListedCue
	byName := map[string]int{}
	for i := range records {
		key := store.CueKey(records[i].Name)
		at, ok := byName[key]
		if !ok || key == "" {
			at = len(out)
			byName[key] = at
			out = append(out, ListedCue{Name: strings.TrimSpace(records[i].Name), Key: key})
		}
		out[at].Records = append(out[at].Records, i)
	}
	for i := range out {
		out[i].weigh(records)
	}
	return out
}

// weigh combines a cue's measurements.
func (c *ListedCue) weigh(records []store.CueRecord) {
	slices.SortStableFunc(c.Records, func(a, b int) int { return store.Earlier(records[a].When, records[b].When) })
	var measured []cues.EndMass
	var of []int
	for _, i := range c.Records {
		r := &records[i]
		c.Gear, _ = scenario.Parse(r.Link)
		if r.Pivot == "" {
			continue
		}
		c.Gear.PivotSpin, _ = unit.Parse(r.At, unit.Ratio, "")
		ball, cue := c.Gear.GearBall(), gearCue(&c.Gear)
		cue.Pivot = length(r.Pivot)
		from, to := length(r.From), length(r.To)
		if from != 0 && to == 0 {
			to = 1e9 * unit.Metre // left open
		}
		e, err := cues.Measured(ball, cue, from, to)
		if err != nil {
			c.Err = err
			continue
		}
		measured, of = append(measured, e), append(of, i)
	}
	known, err := cues.Combine(measured)
	if err != nil {
		c.Err = cmp.Or(c.Err, err)
		return
	}
	c.Known, c.Err, c.Used = known, nil, of[known.Since:]
	for _, i := range known.Changes {
		c.Changed = append(c.Changed, of[i])
	}
}

// gearCue is the cue on the bench.
func gearCue(s *scenario.Scenario) gear.Cue {
	sh := s.Shot()
	return sh.Cue
}

// length reads one that was checked; 0: there is none.
func length(text string) unit.Length {
	v, err := unit.Parse(text, unit.LengthKind, "")
	if err != nil {
		return 0
	}
	return unit.Length(v)
}

// Title is what to call the cue.
func (c *ListedCue) Title() string {
	if c.Name == "" {
		return "unnamed"
	}
	return c.Name
}

// On is the cue as a scenario holds it, its pivot length that on the
// scenario's ball, to a whole step and as far as a scenario allows.
func (c *ListedCue) On(s *scenario.Scenario) scenario.CueSpec {
	return scenario.CueSpec{
		Pivot:     unit.Length(scenario.Find("pivot").Snapped(float64(c.pivotOn(s)), s.Units, 1)),
		PivotSpin: c.Gear.PivotSpin, Mass: c.Gear.CueMass, Tip: c.Gear.Tip, Bounce: c.Gear.Bounce, Name: c.Name,
	}
}

// pivotOn is the cue's pivot length on the scenario's ball.
func (c *ListedCue) pivotOn(s *scenario.Scenario) unit.Length {
	return c.Known.Pivot(s.GearBall(), gearCue(&c.Gear).Tip, c.Gear.PivotSpin).Median
}

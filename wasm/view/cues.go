package view

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"pivotbench/core/cues"
	"pivotbench/core/gear"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/store"
)

// A ListedCue is a saved cue: the combined result of all its records.
type ListedCue struct {
	Name    string
	Unnamed int               // number among the cues without a name, from 1; 0 for a cue with a name
	Key     string            // identifies the cue: the name in a form that ignores case
	Records []int             // indices of its records, oldest first
	Gear    scenario.Scenario // the cue's values in its last record, and the ball it was measured with
	Known   cues.Combined
	Used    []int // the elements of Records that Known combines
	Changed []int // the elements of Records that disagree with the ones before
	Err     error // why there is no estimate; Records is set nevertheless
}

// ListCues groups records by name, in the order in which the names first appear.
// Each record without a name is a separate cue.
func ListCues(records []store.CueRecord) []ListedCue {
	var out []ListedCue
	unnamed := 0
	byName := map[string]int{}
	for i := range records {
		key := store.CueKey(records[i].Name)
		at, ok := byName[key]
		if !ok || key == "" {
			at = len(out)
			byName[key] = at
			c := ListedCue{Name: strings.TrimSpace(records[i].Name), Key: key}
			if key == "" {
				unnamed++
				c.Unnamed = unnamed
			}
			out = append(out, c)
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
	// A cue that was saved several times in one sitting was measured once: the newest
	// record is of the same strokes as the others, and more.
	newest := map[string]int{}
	for _, i := range c.Records {
		if records[i].Pivot != "" {
			newest[records[i].Sitting] = i
		}
	}
	for _, i := range c.Records {
		r := &records[i]
		c.Gear, _ = scenario.Parse(r.Link)
		if r.Pivot == "" || r.Sitting != "" && newest[r.Sitting] != i {
			continue
		}
		c.Gear.PivotSpin, _ = unit.Parse(r.At, unit.Ratio, "")
		ball, cue := c.Gear.GearBall(), gearCue(&c.Gear)
		cue.Pivot = length(r.Pivot)
		from, to := length(r.From), length(r.To)
		if from != 0 && to == 0 {
			to = 1e9 * unit.Metre // the interval has no upper end
		}
		e, err := cues.Measured(ball, cue, from, to)
		if err != nil {
			c.Err = err
			continue
		}
		e.Shared = r.SharedParts(e.Spread)
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

// gearCue returns the current cue of a scenario.
func gearCue(s *scenario.Scenario) gear.Cue {
	sh := s.Shot()
	return sh.Cue
}

// length parses a length that has already been checked. It returns 0 for an empty
// text.
func length(text string) unit.Length {
	v, err := unit.Parse(text, unit.LengthKind, "")
	if err != nil {
		return 0
	}
	return unit.Length(v)
}

// Title returns the cue's name. Cues without a name are numbered.
func (c *ListedCue) Title() string {
	switch {
	case c.Name != "":
		return c.Name
	case c.Unnamed > 1:
		return "unnamed cue " + strconv.Itoa(c.Unnamed)
	}
	return "unnamed cue"
}

// On returns the cue in the form that a scenario holds. Its pivot length is that
// with the scenario's ball, rounded to a whole step and limited to the allowed
// range.
func (c *ListedCue) On(s *scenario.Scenario) scenario.CueSpec {
	return scenario.CueSpec{
		Pivot:     unit.Length(scenario.Find("pivot").Snapped(float64(c.pivotOn(s)), s.Units, 1)),
		PivotSpin: c.Gear.PivotSpin, Mass: c.Gear.CueMass, Tip: c.Gear.Tip, Bounce: c.Gear.Bounce, Name: c.Name,
	}
}

// pivotOn returns the cue's pivot length with the scenario's ball.
func (c *ListedCue) pivotOn(s *scenario.Scenario) unit.Length {
	return c.Known.Pivot(s.GearBall(), gearCue(&c.Gear).Tip, c.Gear.PivotSpin).Median
}

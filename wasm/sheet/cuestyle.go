package sheet

import (
	"slices"

	"pivotbench/core/scenario"
	"pivotbench/wasm/store"
)

// cueInks and cueDashes tell compared cues apart, each without the other. The current cue
// comes first and has the ink of the ball's path.
var (
	cueInks   = [1 + len(scenario.Scenario{}.More)]Ink{Way, Cue2, Cue3, Cue4, Cue5, Cue6}
	cueDashes = [len(cueInks)]Dash{Solid, {9, 5}, {2, 4}, {12, 4, 2, 4}, {16, 6}, {9, 3, 2, 3, 2, 3}}
)

// CueStroke returns the line of a compared cue: 0 is the current cue, 1 the first one
// compared with it. After the last style it starts over.
func CueStroke(i int, width float64) Stroke {
	i %= len(cueInks)
	return Stroke{cueInks[i], width, cueDashes[i]}
}

// CueStyles returns the styles of some measured cues by their names, each as an index for
// CueStroke. A style means one cue: a cue that the shot has too, as the current one or to
// compare, has the same style there. The others have the styles that are left.
func CueStyles(s *scenario.Scenario, names []string) []int {
	var taken [len(cueInks)]bool
	styles := make([]int, len(names))
	for i, name := range names {
		styles[i] = shownAs(s, name)
		if styles[i] >= 0 {
			taken[styles[i]] = true
		}
	}
	for i, c := range s.More {
		taken[i+1] = taken[i+1] || c.Pivot != 0
	}
	taken[0] = taken[0] || s.Name != ""
	for i, style := range styles {
		if style >= 0 {
			continue
		}
		if free := slices.Index(taken[:], false); free >= 0 {
			styles[i], taken[free] = free, true
		} else {
			styles[i] = i % len(cueInks)
		}
	}
	return styles
}

// shownAs returns the style of the shot's cue with a name, or -1 if it has no such cue.
func shownAs(s *scenario.Scenario, name string) int {
	key := store.CueKey(name)
	if key == "" {
		return -1
	}
	if key == store.CueKey(s.Name) {
		return 0
	}
	for i, c := range s.More {
		if c.Pivot != 0 && key == store.CueKey(c.Name) {
			return i + 1
		}
	}
	return -1
}

// CueSample returns a short piece of a compared cue's line, for a table.
func CueSample(i int) Sheet {
	const width, height = 44, 10
	return Sheet{Width: width, Height: height, Items: []Item{
		Path{Points: []Point{{1, height / 2}, {width - 1, height / 2}}, Stroke: CueStroke(i, 2)},
	}}
}

package sheet

import "pivotbench/core/scenario"

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

// CueSample returns a short piece of a compared cue's line, for a table.
func CueSample(i int) Sheet {
	const width, height = 44, 10
	return Sheet{Width: width, Height: height, Items: []Item{
		Path{Points: []Point{{1, height / 2}, {width - 1, height / 2}}, Stroke: CueStroke(i, 2)},
	}}
}

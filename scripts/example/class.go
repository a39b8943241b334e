package main

import (
	"pivotbench/core/lesson"
	"pivotbench/core/scenario"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// timings are those of the first table, by a stopwatch.
var timings = []store.Reading{
	{Of: store.OfSpeed, Length: "50in", Time: "0.36s", By: "thumb", When: "2026-11-17T19:10:00Z"},
	{Of: store.OfSpeed, Length: "50in", Time: "0.34s", By: "thumb", When: "2026-11-17T19:11:00Z"},
	{Of: store.OfSpeed, Length: "50in", Time: "0.37s", By: "thumb", When: "2026-11-17T19:12:00Z"},
	{Of: store.OfRest, Length: "84in", Time: "6.1s", By: "thumb", When: "2026-11-17T19:15:00Z"},
	{Of: store.OfRest, Length: "79in", Time: "6.0s", By: "thumb", When: "2026-11-17T19:16:00Z"},
	{Of: store.OfRest, Length: "90in", Time: "6.4s", By: "thumb", When: "2026-11-17T19:17:00Z"},
}

// lessons returns the class's own lessons, with its cues as they were measured. Their
// titles say that they are an example.
func lessons(m *app.Model) []lesson.Lesson {
	listed := view.ListCues(m.Kept.Cues)
	shot := func(own int, set string, beside ...int) string {
		s, _ := scenario.Parse("v=1" + set)
		s = s.With(listed[own].On(&s))
		for i, other := range beside {
			s.More[i] = listed[other].On(&s)
		}
		return s.Format()
	}
	const house3, house7, slender = 0, 1, 2
	return []lesson.Lesson{
		{
			Title: "Example: three cues, one shot",
			Steps: []lesson.Step{
				{Link: shot(house3, "", house7, slender), Caption: "Three cues play the same stroke off a bridge of {bridge}. House 3 squirts {squirt}."},
				{Link: shot(house7, ""), Caption: "House 7 squirts {squirt}. Its ball arrives {arrival}."},
				{Link: shot(slender, ""), Caption: "Slender squirts only {squirt}. Its ball arrives {arrival}."},
			},
			Question: lesson.Question{Text: "How long must the bridge be for Slender to send the ball to the target?", Key: "bridge", Goal: lesson.Arrives},
		},
		{
			Title: "Example: find your bridge",
			Steps: []lesson.Step{
				{Link: shot(house3, "&bridge=7in"), Caption: "House 3 off a short bridge, {bridge}. The cue turns {heading}, squirt takes back {squirt}. The ball arrives {arrival}."},
				{Link: shot(house3, "&bridge=16in"), Caption: "Off a long bridge, {bridge}, the cue turns too little: {arrival}."},
			},
			Question: lesson.Question{Text: "Which bridge sends the ball to the target?", Key: "bridge", Goal: lesson.Arrives},
		},
		{
			Title: "Example: soft shots swerve",
			Steps: []lesson.Step{
				{Link: shot(house7, "&elev=5deg"), Caption: "The butt is raised {elev}. At {speed} swerve is {swerve}."},
				{Link: shot(house7, "&elev=5deg&speed=4mph"), Caption: "Slower, {speed}: swerve is {swerve}, and the ball arrives {arrival}."},
			},
			Question: lesson.Question{Text: "How hard must the ball be hit to arrive at the target?", Key: "speed", Goal: lesson.Arrives},
		},
	}
}

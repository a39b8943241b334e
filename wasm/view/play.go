package view

import (
	"strconv"

	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
)

// A PlayBar is the content of the bar that animates the shot. From, To and Time are
// in seconds after the tip hits the ball, in the scrubber's format.
type PlayBar struct {
	Can            bool // there is a shot to play
	On, Slow       bool
	Button, Moment string // the button's label, and what is happening
	From, To, Time string
}

// PlayOf returns the bar for a model.
func PlayOf(m *app.Model) PlayBar {
	bar := PlayBar{On: m.Clock.On, Slow: m.Clock.Slow, Button: phrase.PlayButton(m.Clock.Running)}
	line, err := m.Timeline()
	if err != nil {
		return bar
	}
	seconds := func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
	bar.Can, bar.From, bar.To, bar.Time = true, seconds(float64(line.From)), seconds(float64(line.To)), seconds(float64(m.Clock.Time))
	if m.Clock.On {
		f := line.At(m.Clock.Time)
		bar.Moment = phrase.Moment(&m.Scene, &f)
	}
	return bar
}

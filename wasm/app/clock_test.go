package app

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/replay"
	"pivotbench/core/unit"
)

// after is the model after some events.
func after(m Model, events ...Event) Model {
	for _, e := range events {
		m = Update(m, e)
	}
	return m
}

func TestAShotRunsOnceFromTheCueToItsEnd(t *testing.T) {
	m := Start()
	assert.Nil(t, m.Frame(), "at rest")
	line, err := m.Timeline()
	require.NoError(t, err)
	m = after(m, Run{})
	assert.Equal(t, Clock{On: true, Running: true, Time: line.From}, m.Clock)
	m = after(m, Tick{0.1}, Tick{0.2})
	assert.InDelta(t, float64(line.From)+0.3, float64(m.Clock.Time), 1e-12)
	state, _ := m.Play().Path.At(m.Clock.Time)
	assert.Equal(t, state, m.Frame().Cue.State, "where its path is then")

	m = after(m, Pause{}, Tick{0.1})
	assert.InDelta(t, float64(line.From)+0.3, float64(m.Clock.Time), 1e-12, "held")
	m = after(m, Run{}, Slow{true}, Tick{0.1})
	assert.InDelta(t, float64(line.From)+0.325, float64(m.Clock.Time), 1e-12, "at a quarter of its speed")
	m = after(m, Slow{false}, Tick{60})
	assert.Equal(t, Clock{On: true, Time: line.To}, m.Clock, "it ends by itself")
	assert.Equal(t, line.From, after(m, Run{}).Clock.Time, "and begins anew")
}

func TestStepsOfAShot(t *testing.T) {
	m := Start()
	line, err := m.Timeline()
	require.NoError(t, err)
	m = after(m, Step{Back: true})
	assert.False(t, m.Clock.On, "there is nothing before the shot at rest")
	for _, e := range line.Events {
		m = after(m, Step{})
		assert.Equal(t, Clock{On: true, Time: e.When}, m.Clock)
		assert.Equal(t, e, m.Frame().Event)
	}
	assert.Equal(t, line.To, after(m, Step{}).Clock.Time)
	for range line.Events {
		m = after(m, Step{Back: true})
	}
	assert.Equal(t, Clock{}, m.Clock, "back to rest")

	m = after(m, Seek{-9})
	assert.Equal(t, line.From, m.Clock.Time)
	assert.Equal(t, line.To, after(m, Seek{99}).Clock.Time)
	assert.Equal(t, Clock{}, after(m, Rest{}).Clock)
}

func TestAnotherShotIsSeenAtRest(t *testing.T) {
	m := after(Start(), Slow{true}, Run{}, Tick{0.1})
	assert.True(t, after(m, Show{Look{Stretch: 10, Theme: "dark"}}).Clock.On, "a look is none")
	for name, e := range map[string]Event{
		"control": Set{Key: "bridge", Text: "9in"}, "link": Open{"v=1&bridge=9in"},
		"drag":        Drag{Sets: []Setting{{"bridge", "9in"}}, Phase: DragStart},
		"object ball": Show{Look{Stretch: 4, Theme: "system", Object: true}},
	} {
		assert.Equal(t, Clock{Slow: true}, after(m, e).Clock, name)
	}
}

func TestNothingIsPlayedOfAMiscue(t *testing.T) {
	m := after(Start(), Set{Key: "side", Text: "0.75"})
	_, err := m.Timeline()
	assert.Error(t, err)
	for _, e := range []Event{Run{}, Step{}, Step{Back: true}, Seek{0.1}, Tick{0.1}} {
		assert.Equal(t, Clock{}, after(m, e).Clock)
	}
	m.Clock = Clock{On: true}
	assert.Nil(t, m.Frame())
}

func TestTheObjectBallIsPlayedWhereItIsShown(t *testing.T) {
	m := after(Start(), Open{"v=1&gate=0in&object=20in"}, Seek{unit.Span(9)})
	require.NotNil(t, m.Frame().Object)
	assert.Contains(t, []replay.Kind{replay.ObjectDrops, replay.ObjectStops, replay.ObjectCushion, replay.Cushion, replay.Stops}, m.Frame().Event.Kind)
}

package view

import (
	"math"
	"strconv"
	"strings"

	"pivotbench/core/margin"
	"pivotbench/core/scenario"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/store"
)

// A TableState is what the user does at the table: the data-at of the page.
type TableState string

// The states. Empty is when measuring at the table is not open.
const (
	AskingCue TableState = "cue"  // he says which cue he measures
	AtGate    TableState = "gate" // he plays through blockers, and taps what the ball hit
	AtLine    TableState = "mark" // he plays, and types where the ball crossed the line
)

// TableStateOf returns the state of measuring at the table.
func TableStateOf(m *app.Model) TableState {
	switch {
	case !m.Table.On:
		return ""
	case !m.Table.Named:
		return AskingCue
	case m.Table.ByMark:
		return AtLine
	}
	return AtGate
}

// An AtTable is what measuring at the table shows.
type AtTable struct {
	Cue   string
	Next  []string // the stroke to play, the most important first
	SetUp string   // what stands on the table, and the speed
	Last  string   // the newest stroke; empty when there is none to undo
}

// AtTableOf returns what measuring at the table shows of a model.
func AtTableOf(m *app.Model) AtTable {
	s := &m.Scene
	t := AtTable{Cue: phrase.Upper(unnamed(m.Measuring)), Next: []string{handsWords(s), englishWords(s)}}
	pace := "speed"
	if s.ByStroke {
		pace = "stroke"
	}
	t.SetUp = phrase.Brief(scenario.Find(pace).Shown(s))
	if s.Side != 0 {
		t.SetUp += ", tip " + unit.Round(math.Abs(s.Side), unit.Ratio, "", 2) + " R"
	}
	if m.Table.ByMark {
		t.SetUp = "Line " + phrase.Brief(phrase.Length(s, m.MarkLine())) + " away, " + t.SetUp
	} else {
		t.SetUp = "Blockers " + phrase.Brief(scenario.Find("gate").Shown(s)) + " away, gap " + scenario.Find("gap").Shown(s) + ", " + t.SetUp
	}
	if n := len(m.Kept.Strokes); n > 0 {
		k := &m.Kept.Strokes[n-1]
		t.Last = "Stroke " + strconv.Itoa(n) + ": "
		if k.Mark != "" {
			t.Last += phrase.Sideways(s, length(k.Mark))
		} else {
			t.Last += seenWords[k.See]
		}
		if store.CueKey(k.Cue) != store.CueKey(m.Measuring) {
			t.Last += ", " + unnamed(k.Cue)
		}
	}
	return t
}

// handsWords says how to hold the cue.
func handsWords(s *scenario.Scenario) string {
	bridge := "Bridge " + phrase.Brief(scenario.Find("bridge").Shown(s))
	switch {
	case s.Side == 0:
		return bridge
	case s.Back == 0 && s.Front == 0:
		return "Cue parallel to the aim line"
	case s.Back == 1 && s.Front == 0:
		return bridge + ", back hand"
	}
	return bridge + ", back hand " + phrase.Percent(s.Back)
}

// englishWords says which english to play, in tips.
func englishWords(s *scenario.Scenario) string {
	if s.Side == 0 {
		return "No english"
	}
	hand := "Right"
	if s.Side < 0 {
		hand = "Left"
	}
	return hand + " english, " + phrase.Tips(s)
}

// tableSides returns the english that a person can set at the table: half a tip and a
// whole one, without risking a miscue.
func tableSides(s *scenario.Scenario) (sides []float64) {
	sh := s.Shot()
	most, err := margin.PlayableSide(&sh, s.Scatter.Tip)
	for _, tips := range []float64{0.5, 1} {
		side := scenario.Find("side").Stepped(tips*float64(s.TipWidth/strike.AxisDistance(1, sh.Ball, sh.Cue.Tip)), s.Units, math.Round)
		if err == nil && side <= most {
			sides = append(sides, side)
		}
	}
	return sides
}

// Progress says how far a measurement is, in words.
func (f *Finding) Progress(strokes int) string {
	switch {
	case strokes == 0:
		return "Play " + strconv.Itoa(few) + " strokes to begin with."
	case strokes < few:
		return phrase.Count(few-strokes, "more stroke", "more strokes") + " to begin with."
	}
	return strings.TrimSpace(phrase.Upper(f.Head) + ". " + f.More)
}

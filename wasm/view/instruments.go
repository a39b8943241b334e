package view

import (
	"slices"

	"pivotbench/core/instrument"
	"pivotbench/core/scenario"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
)

// An Instrument is an instrument of the Instruments section: its layout on the page
// and its computation. To add an instrument, add an entry to Instruments.
type Instrument struct {
	Name    string // used in the page's ids and, for a timed instrument, in its readings
	Title   string
	Hint    string   // how to use it
	Tilt    bool     // the phone's tilt sensor can read it too
	Tape    string   // how to use the fields, when Tilt is set
	Fields  []Field  // values to type or choose
	Presses []string // labels of the stopwatch's button, in order; nil for no stopwatch
	Sample  string   // example of times typed in place of the stopwatch
	OfTable bool     // the result belongs to the table and is saved with it
	Fits    bool     // the result says which standards' limits it is within

	said func(Input) Answer
}

// A Field is an input field of an instrument. Its id on the page is the instrument's
// name, a hyphen and the field's ID.
type Field struct {
	ID, Label string
	Unit      string // beside the field, such as mm; empty for the reader's unit of length
	Text      string // initial text
	Choices   []Choice
	Still     bool // used only when a reading is taken
}

// A Choice is an option of a menu.
type Choice struct{ Value, Label string }

// An Input is the data that an instrument's result is computed from.
type Input struct {
	Scene    *scenario.Scenario
	Readings []store.Reading
	Text     func(field string) string // returns the text of a field of the instrument
	Zero     []instrument.Tilt         // the phone's tilt when flat on the cloth
	Along    []instrument.Tilt         // the phone's tilt along the cue; nil to use the tape
}

// An Answer is an instrument's result, in words.
type Answer struct {
	Gauged
	Fits []Fact // which standards' limits the reading is within
}

// Say returns the instrument's result for an input.
func (i *Instrument) Say(in Input) Answer { return i.said(in) }

// InstrumentOf returns the instrument with a name, or nil when there is none.
func InstrumentOf(name string) *Instrument {
	if i := slices.IndexFunc(Instruments, func(i Instrument) bool { return i.Name == name }); i >= 0 {
		return &Instruments[i]
	}
	return nil
}

// Instruments are the instruments of the page, in order.
var Instruments = []Instrument{
	{
		Name: store.OfSpeed, Title: "Ball speed",
		Hint: "Time a straight shot from the hit to a mark. To a rail, measure to half a ball short of it. Time the same stroke three times or more.",
		Fields: []Field{
			{ID: "hit", Label: "Hit", Choices: hitChoices(), Still: true},
			{ID: "length", Label: "Distance the ball travels", Text: "50"},
			{ID: "by", Label: "Timed by", Choices: []Choice{{"thumb", "my thumb"}, {"sound", "the sound of the hit and the rail"}}, Still: true},
		},
		Presses: []string{"Tap at the hit", "Tap at the mark"}, Sample: "0.61",
		said: func(in Input) Answer { return Answer{Gauged: Speed(in.Scene, in.Readings)} },
	},
	{
		Name: store.OfRest, Title: "Cloth speed: roll to a stop",
		Hint:    "A film of one long, slow roll measures it too: open Measure, then Film a stroke.",
		Fields:  []Field{{ID: "length", Label: "Distance from mark to stop"}},
		Presses: []string{"Tap as it passes the mark", "Tap when it stops"}, Sample: "0.61", OfTable: true,
		said: func(in Input) Answer { return Answer{Gauged: Rolling(in.Scene, in.Readings, store.OfRest)} },
	},
	{
		Name: store.OfMarks, Title: "Cloth speed: roll past three marks",
		Fields: []Field{
			{ID: "length", Label: "First mark to second", Text: "25"},
			{ID: "third", Label: "First mark to third", Text: "50"},
		},
		Presses: []string{"Tap at the first mark", "Tap at the second mark", "Tap at the third mark"}, Sample: "1.1 2.4", OfTable: true,
		said: func(in Input) Answer { return Answer{Gauged: Rolling(in.Scene, in.Readings, store.OfMarks)} },
	},
	{
		Name: "slide", Title: "Cloth friction: slide",
		Hint: "Hit a striped ball with stun and see where it starts to roll. Or play draw shots at a ball further and further away until the cue ball stops dead: there the draw is gone.",
		Fields: []Field{
			{ID: "place", Label: "Slide measured to", Choices: []Choice{{"rolls", "where it starts to roll"}, {"dies", "where the draw is gone"}}},
			{ID: "length", Label: "Distance from the start"},
		},
		OfTable: true,
		said: func(in Input) Answer {
			return Answer{Gauged: Sliding(in.Scene, in.Readings, in.Text("length"), in.Text("place"))}
		},
	},
	{
		Name: "elev", Title: "Elevation", Tilt: true,
		Hint: "With the phone: lay it flat on the cloth and set zero. Then lay it along the cue, long edge by the cue, and keep it still.",
		Tape: "Or with a tape: measure from the cloth to the underside of the cue at two places.",
		Fields: []Field{
			{ID: "tip", Label: "Height nearer the tip"}, {ID: "butt", Label: "Height nearer the butt"},
			{ID: "apart", Label: "Distance between the two", Text: "30"},
			{ID: "thin", Label: "Cue thickness nearer the tip", Unit: "mm"}, {ID: "thick", Label: "Cue thickness nearer the butt", Unit: "mm"},
		},
		said: func(in Input) Answer {
			if in.Along != nil {
				return Answer{Gauged: Level(in.Zero, in.Along)}
			}
			return Answer{Gauged: Elevation(in.Scene, in.Text("tip"), in.Text("butt"), in.Text("apart"), in.Text("thin"), in.Text("thick"))}
		},
	},
	{
		Name: "offset", Title: "Tip offset",
		Hint: "Measure from the middle of the ball, as seen along the cue, to the chalk mark. Or measure to what you line the tip up with, such as the edge of a stripe.",
		Fields: []Field{
			{ID: "way", Label: "Offset measured to", Choices: wayChoices()},
			{ID: "to", Label: "Side of the ball", Choices: []Choice{{"right", "right"}, {"left", "left"}, {"above", "top"}, {"below", "bottom"}}},
			{ID: "x", Label: "Ruler reading", Unit: "mm"},
		},
		said: func(in Input) Answer {
			return Answer{Gauged: Offset(in.Scene, in.Text("way"), in.Text("x"), in.Text("to"))}
		},
	},
	{
		Name: "dome", Title: "Tip dome",
		Hint:   "Look at the tip from the side. Measure how wide it is, and how far its middle rises above its edge.",
		Fields: []Field{{ID: "width", Label: scenario.Find("tipwidth").Label, Unit: "mm"}, {ID: "rise", Label: "Rise of the tip", Unit: "mm"}},
		said:   func(in Input) Answer { return Answer{Gauged: Dome(in.Text("width"), in.Text("rise"))} },
	},
	{
		Name: "ball", Title: "Ball size and mass", OfTable: true, Fits: true,
		Fields: []Field{
			{ID: "how", Label: "Measured", Choices: []Choice{{"across", "across, with a caliper"}, {"round", "around, with a tape"}}},
			{ID: "size", Label: "Size read", Unit: "mm"}, {ID: "weight", Label: scenario.Find("mass").Label, Unit: "g"},
		},
		said: func(in Input) Answer {
			g, fits := Ball(in.Scene, in.Text("size"), in.Text("how") == "round", in.Text("weight"))
			return Answer{g, fits}
		},
	},
}

func hitChoices() (out []Choice) {
	for _, h := range Hits {
		out = append(out, Choice{h.Name, h.Label})
	}
	return out
}

func wayChoices() (out []Choice) {
	for _, way := range Ways {
		out = append(out, Choice{way, way})
	}
	return out
}

// A RecordLine is a record as one line of a list.
type RecordLine struct {
	Index      int // index among all records of its kind
	Head, Line string
	Name       string // for the names of its buttons
}

// ReadingLines returns the readings of a timed instrument.
func ReadingLines(m *app.Model, name string) (out []RecordLine) {
	for i, r := range m.Kept.Readings {
		if r.Of == name {
			read, alone := Timing(&m.Scene, r)
			out = append(out, RecordLine{i, read, alone, readingName(len(out)+1, InstrumentOf(name).Title)})
		}
	}
	return out
}

// TableLines returns the saved tables. day formats the day of a time in the
// device's date format.
func TableLines(m *app.Model, day func(when string) string) (out []RecordLine) {
	for i, t := range m.Kept.Tables {
		out = append(out, RecordLine{i, t.Name, TableRecord(t, m.Scene.Units) + ", " + day(t.When), t.Name + ", " + day(t.When)})
	}
	return out
}

// Insecure says that the sensors need https, when the page's address is not secure.
// It is empty when the address is secure.
func Insecure(secure bool) string {
	if secure {
		return ""
	}
	return " (they need an https address)"
}

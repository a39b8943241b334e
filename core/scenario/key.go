package scenario

import (
	"slices"

	"pivotbench/core/gear"
	"pivotbench/core/unit"
)

// A Key is one entry of a link: its meaning, its form and the values it allows. The
// parser, the controls and the Reference all read Keys.
type Key struct {
	Name     string
	Label    string // for a control
	Meaning  string // one line
	Quantity unit.Kind
	Unit     string  // the unit a link writes
	Min, Max float64 // allowed, in SI
	Choices  []Choice

	// Exactly one of these is set. It determines the form of the value.
	number func(*Scenario) Own
	text   func(*Scenario) *string
	form   *form

	set   func(*Scenario, float64) // set if number is
	unset func(*Scenario)          // set if number is, for overrides
}

// A Choice is one of the words a key allows.
type Choice struct{ Name, Label string }

// A form is a value that is more than one number or word.
type form struct {
	format  func(*Scenario) string
	parse   func(*Scenario, string) error
	allowed string
}

// IsNumber reports whether the key's value is a single number.
func (k *Key) IsNumber() bool { return k.number != nil }

// Number returns the key's value in SI. For an override that is not set, ok is false and
// the value is that of the named standard.
func (k *Key) Number(s *Scenario) (v float64, ok bool) {
	o := k.number(s)
	return o.Value, o.Set
}

// Text returns the value of a key whose form is words.
func (k *Key) Text(s *Scenario) string { return *k.text(s) }

// cueKeys are the numbers that a further cue also has.
var cueKeys = []Key{
	number("pivot", "Pivot length", "the cue's pivot length: the bridge at which back-hand english with a level cue starts the ball straight", unit.LengthKind, "in", 5*inch, 60*inch, func(s *Scenario) *unit.Length { return &s.Pivot }),
	number("pivotspin", "Measured at offset", "tip offset at which the pivot length was measured, in ball radii", unit.Ratio, "", 0.1, 0.6, func(s *Scenario) *float64 { return &s.PivotSpin }),
	number("cuemass", "Cue mass", "mass of the cue", unit.MassKind, "g", 200*gram, 900*gram, func(s *Scenario) *unit.Mass { return &s.CueMass }),
	number("tip", "Tip dome radius", "radius of the tip's dome", unit.LengthKind, "mm", 5*mm, 40*mm, func(s *Scenario) *unit.Length { return &s.Tip }),
	number("bounce", "Tip bounce", "rebound speed of the tip off the ball, as a share of the speed before", unit.Ratio, "", 0.3, 0.98, func(s *Scenario) *float64 { return &s.Bounce }),
}

// keys are in the order in which a link writes them.
var keys = slices.Concat([]Key{
	label("name", "Name", "a name for the cue or the shot, up to 60 characters", func(s *Scenario) *string { return &s.Name }),
	choice("table", "Table", "the size of the table", choices(gear.Tables), func(s *Scenario) *string { return &s.Table }),
	choice("ball", "Balls", "the balls, by their game", choices(gear.Balls), func(s *Scenario) *string { return &s.Ball }),
	choice("cloth", "Cloth", "the cloth, from fast to slow", choices(gear.Cloths), func(s *Scenario) *string { return &s.Cloth }),

	override("diam", "Ball diameter", "used in place of the chosen ball's", unit.LengthKind, "in", 1.5*inch, 3*inch,
		func(s *Scenario) *Own { return &s.Own.Diam }, func(s *Scenario) float64 { return float64(2 * s.GearBall().Radius) }),
	override("mass", "Ball mass", "used in place of the chosen ball's", unit.MassKind, "g", 80*gram, 300*gram,
		func(s *Scenario) *Own { return &s.Own.Mass }, func(s *Scenario) float64 { return float64(s.GearBall().Mass) }),
	override("slide", "Sliding friction", "used in place of the chosen cloth's", unit.Ratio, "", 0.05, 0.6,
		func(s *Scenario) *Own { return &s.Own.Slide }, func(s *Scenario) float64 { return s.GearCloth().Slide }),
	override("roll", "Rolling resistance", "used in place of the chosen cloth's", unit.Ratio, "", 0.002, 0.05,
		func(s *Scenario) *Own { return &s.Own.Roll }, func(s *Scenario) float64 { return s.GearCloth().Roll }),
	override("spindown", "Sidespin decay", "used in place of the chosen cloth's", unit.SpinRateKind, "rad/s2", 0, 60,
		func(s *Scenario) *Own { return &s.Own.SpinDecay }, func(s *Scenario) float64 { return float64(s.GearCloth().SpinDecay) }),
	override("hop", "Table bounce", "rebound speed of a ball dropped on the table, as a share of the speed before; used in place of the chosen cloth's", unit.Ratio, "", 0, 0.8,
		func(s *Scenario) *Own { return &s.Own.Rebound }, func(s *Scenario) float64 { return s.GearCloth().Rebound }),
}, cueKeys, []Key{
	number("tipwidth", "Tip width", "width of the tip", unit.LengthKind, "mm", 8*mm, 16*mm, func(s *Scenario) *unit.Length { return &s.TipWidth }),
	number("chalk", "Tip friction", "friction between the chalked tip and the ball", unit.Ratio, "", 0.1, 1, func(s *Scenario) *float64 { return &s.Chalk }),

	number("side", "English", "sidespin: how far right of centre the tip touches the ball, in ball radii; negative: left", unit.Ratio, "", -0.8, 0.8, func(s *Scenario) *float64 { return &s.Side }),
	number("height", "Tip height", "how far above centre the tip touches the ball, in ball radii; negative: below", unit.Ratio, "", -0.8, 0.8, func(s *Scenario) *float64 { return &s.Height }),
	number("elev", "Elevation", "angle of the cue to the table; 0 is level", unit.AngleKind, "deg", 0, float64(85*unit.Degree), func(s *Scenario) *unit.Angle { return &s.Elev }),
	pace("speed", "Ball speed", "speed of the ball as it leaves the tip", false),
	pace("stroke", "Cue speed", "speed of the cue as it hits the ball; set this or the ball speed", true),

	number("bridge", "Bridge", "near side of the ball to the point in the bridge hand that the cue turns about", unit.LengthKind, "in", 2*inch, 40*inch, func(s *Scenario) *unit.Length { return &s.Bridge }),
	number("grip", "Grip", "bridge hand to grip hand", unit.LengthKind, "in", 5*inch, 55*inch, func(s *Scenario) *unit.Length { return &s.Grip }),
	number("back", "Back hand", "share of the english put on by moving the back hand, as the cue turns about the bridge; 1 is all of it", unit.Ratio, "", -5, 5, func(s *Scenario) *float64 { return &s.Back }),
	number("front", "Front hand", "share of the english put on by moving the front hand, as the cue turns about the grip; 1 is all of it", unit.Ratio, "", -5, 5, func(s *Scenario) *float64 { return &s.Front }),

	number("dist", "Target distance", "cue ball to target, centre to centre", unit.LengthKind, "in", 3*inch, 140*inch, func(s *Scenario) *unit.Length { return &s.Dist }),
	number("gate", "Gate distance", "cue ball to the two blockers, centre to centre; 0: no blockers", unit.LengthKind, "in", 0, 140*inch, func(s *Scenario) *unit.Length { return &s.Gate }),
	number("gap", "Gap", "clear width between the two blockers", unit.LengthKind, "in", 0, 60*inch, func(s *Scenario) *unit.Length { return &s.Gap }),

	number("object", "Object ball to pocket", "object ball to the middle of the pocket", unit.LengthKind, "in", 1*inch, 140*inch, func(s *Scenario) *unit.Length { return &s.Object }),
	number("cut", "Cut angle", "angle between the object ball's path and the aim line; positive: cut to the right", unit.AngleKind, "deg", float64(-80*unit.Degree), float64(80*unit.Degree), func(s *Scenario) *unit.Angle { return &s.Cut }),
	number("pocket", "Pocket opening", "clear width of the pocket's mouth", unit.LengthKind, "in", 2*inch, 8*inch, func(s *Scenario) *unit.Length { return &s.Pocket }),

	scatterKey,
	choice("units", "Units", "inches or centimetres", []Choice{{"in", "Inches"}, {"cm", "Centimetres"}}, func(s *Scenario) *string { return &s.Units }),

	further(0), further(1), further(2), further(3), further(4),
})

const (
	inch = float64(unit.Inch)
	mm   = float64(unit.Millimetre)
	gram = float64(unit.Gram)
)

// Keys returns all keys in the order in which a link writes them.
func Keys() []Key { return keys }

// Find returns the key, or the part of a key, with a name, or nil.
func Find(name string) *Key {
	for _, list := range [][]Key{keys, scatterParts} {
		for i := range list {
			if list[i].Name == name {
				return &list[i]
			}
		}
	}
	return nil
}

// number returns the key of a single number.
func number[T ~float64](name, lab, meaning string, q unit.Kind, u string, lo, hi float64, field func(*Scenario) *T) Key {
	return Key{
		Name: name, Label: lab, Meaning: meaning, Quantity: q, Unit: u, Min: lo, Max: hi,
		number: func(s *Scenario) Own { return Own{true, float64(*field(s))} },
		set:    func(s *Scenario, v float64) { *field(s) = T(v) },
	}
}

// pace returns the key speed or stroke. They share one number; byStroke says whose speed
// it is.
func pace(name, lab, meaning string, byStroke bool) Key {
	return Key{
		Name: name, Label: lab, Meaning: meaning, Quantity: unit.SpeedKind, Unit: "mph",
		Min: 0.2 * float64(unit.MilePerHour), Max: 40 * float64(unit.MilePerHour),
		number: func(s *Scenario) Own { return Own{s.ByStroke == byStroke, float64(s.Speed)} },
		set:    func(s *Scenario, v float64) { s.Speed, s.ByStroke = unit.Speed(v), byStroke },
	}
}

func override(name, lab, meaning string, q unit.Kind, u string, lo, hi float64, field func(*Scenario) *Own, now func(*Scenario) float64) Key {
	return Key{
		Name: name, Label: lab, Meaning: meaning, Quantity: q, Unit: u, Min: lo, Max: hi,
		number: func(s *Scenario) Own { return Own{field(s).Set, now(s)} },
		set:    func(s *Scenario, v float64) { *field(s) = Own{true, v} },
		unset:  func(s *Scenario) { *field(s) = Own{} },
	}
}

func label(name, lab, meaning string, field func(*Scenario) *string) Key {
	return Key{Name: name, Label: lab, Meaning: meaning, text: field}
}

func choice(name, lab, meaning string, list []Choice, field func(*Scenario) *string) Key {
	return Key{Name: name, Label: lab, Meaning: meaning, Choices: list, text: field}
}

func choices[T any](list []gear.Named[T]) []Choice {
	out := make([]Choice, len(list))
	for i, n := range list {
		out[i] = Choice{n.Name, n.Label}
	}
	return out
}

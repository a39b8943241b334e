package unit

// A Kind is what a number measures. It determines which units its text may have.
type Kind int

// The kinds of quantity.
const (
	Ratio Kind = iota // a plain number: a share, a coefficient, an offset in ball radii
	LengthKind
	AngleKind
	SpeedKind
	MassKind
	SpanKind
	SpinRateKind
)

// A Unit is a name that people write after a number, and its size in SI.
type Unit struct {
	Name string
	SI   float64
}

// units lists the units of each kind. The first is the SI unit, in which any value can be
// written exactly.
var units = [...][]Unit{
	Ratio: {{"", 1}, {"%", 0.01}},
	LengthKind: {
		{"m", float64(Metre)}, {"cm", float64(Centimetre)}, {"mm", float64(Millimetre)},
		{"in", float64(Inch)}, {"ft", float64(Foot)},
		{"\"", float64(Inch)}, {"″", float64(Inch)}, {"inch", float64(Inch)}, {"inches", float64(Inch)},
	},
	AngleKind: {{"rad", float64(Radian)}, {"deg", float64(Degree)}, {"°", float64(Degree)}},
	SpeedKind: {
		{"m/s", float64(MetrePerSecond)}, {"mph", float64(MilePerHour)},
		{"km/h", float64(KilometrePerHour)}, {"ft/s", float64(FootPerSecond)},
	},
	MassKind:     {{"kg", float64(Kilogram)}, {"g", float64(Gram)}, {"oz", float64(Ounce)}},
	SpanKind:     {{"s", float64(Second)}, {"ms", float64(Millisecond)}},
	SpinRateKind: {{"rad/s2", float64(RadianPerSecond2)}, {"rad/s²", float64(RadianPerSecond2)}},
}

// Units returns the units in which a value of this kind may be written, the SI unit
// first.
func (k Kind) Units() []Unit { return units[k] }

// Find returns the unit with a name.
func (k Kind) Find(name string) (Unit, bool) {
	for _, u := range units[k] {
		if u.Name == name {
			return u, true
		}
	}
	return Unit{}, false
}

package view

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"pivotbench/core/instrument"
	"pivotbench/core/scenario"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/store"
)

// si parses a value of a record that has already been checked.
func si[T ~float64](text string, kind unit.Kind) T {
	v, _ := unit.Parse(text, kind, "")
	return T(v)
}

// press returns the standard deviation of the timing of a press in a reading.
func press(r store.Reading) unit.Span {
	if r.By == "sound" {
		return instrument.Sound
	}
	return instrument.Thumb
}

func run(s *scenario.Scenario, r store.Reading) instrument.Run {
	return instrument.Run{
		Dist: si[unit.Length](r.Length, unit.LengthKind), Time: si[unit.Span](r.Time, unit.SpanKind), Press: press(r),
		Topspin: si[float64](r.Topspin, unit.Ratio), Cloth: s.GearCloth(),
	}
}

func rest(r store.Reading) instrument.Rest {
	return instrument.Rest{Length: si[unit.Length](r.Length, unit.LengthKind), Time: si[unit.Span](r.Time, unit.SpanKind)}
}

func marks(r store.Reading) instrument.Marks {
	return instrument.Marks{
		Second: si[unit.Length](r.Length, unit.LengthKind), SecondTime: si[unit.Span](r.Time, unit.SpanKind),
		Third: si[unit.Length](r.Third, unit.LengthKind), ThirdTime: si[unit.Span](r.ThirdTime, unit.SpanKind), Press: press(r),
	}
}

// CheckReading returns why a timing can't be used, or nil when it can. A timing past
// three marks in which the ball seems to gain speed can be used: see
// instrument.Marks.Check.
func CheckReading(s *scenario.Scenario, r store.Reading) error {
	if r.Of == store.OfMarks {
		return marks(r).Check()
	}
	_, err := alone(s, r)
	return err
}

// alone returns the result of a single timing, in words.
func alone(s *scenario.Scenario, r store.Reading) (string, error) {
	switch r.Of {
	case store.OfRest:
		v, err := rest(r).Resistance()
		return rolling.Format(v), err
	case store.OfMarks:
		v, err := marks(r).Resistance()
		return rolling.Format(v), err
	}
	one := run(s, r)
	v, err := one.Speed()
	return scenario.DisplayOf(unit.SpeedKind, s.Units).Format(float64(v)), err
}

var (
	rolling = scenario.Display{Quantity: unit.Ratio, Decimals: 4}
	sliding = scenario.Display{Quantity: unit.Ratio, Decimals: 3}
)

// Timing returns a reading in words: the times and lengths read, and the result from
// this reading alone.
func Timing(s *scenario.Scenario, r store.Reading) (read, comes string) {
	read = seconds(r.Time) + " over " + phrase.Length(s, si[unit.Length](r.Length, unit.LengthKind))
	if r.Of == store.OfMarks {
		read += ", " + seconds(r.ThirdTime) + " over " + phrase.Length(s, si[unit.Length](r.Third, unit.LengthKind))
	}
	if spin := si[float64](r.Topspin, unit.Ratio); spin != 0 {
		read += ", topspin " + unit.Round(spin, unit.Ratio, "", 2)
	}
	if by := map[string]string{"sound": "by sound", "typed": "typed in"}[r.By]; by != "" {
		read += ", " + by
	}
	comes, err := alone(s, r)
	switch {
	case CheckReading(s, r) != nil:
		comes = "left out: " + CheckReading(s, r).Error()
	case err != nil:
		comes = "too rough alone, but it counts in the average"
	}
	return read, comes
}

func seconds(text string) string {
	return scenario.DisplayOf(unit.SpanKind, "").Format(si[float64](text, unit.SpanKind))
}

// usable returns the readings of one kind that can be used, and the number of those
// that can't.
func usable(s *scenario.Scenario, list []store.Reading, of string) (good []store.Reading, bad int) {
	for _, r := range list {
		if r.Of != of {
			continue
		}
		if CheckReading(s, r) != nil {
			bad++
			continue
		}
		good = append(good, r)
	}
	return good, bad
}

// each converts readings with of.
func each[T any](list []store.Reading, of func(store.Reading) T) []T {
	out := make([]T, len(list))
	for i, r := range list {
		out[i] = of(r)
	}
	return out
}

// Speed returns the ball speed from the timings from hit to mark.
func Speed(s *scenario.Scenario, list []store.Reading) Gauged {
	good, bad := usable(s, list, store.OfSpeed)
	if len(good)+bad == 0 {
		return Gauged{Note: "Tap at the hit and again as the ball gets to the mark."}
	}
	e, err := instrument.Speed(each(good, func(r store.Reading) instrument.Run { return run(s, r) }), s.GearBall().Radius)
	d := scenario.DisplayOf(unit.SpeedKind, s.Units)
	g := answer(d, e, len(good), err, setting("speed", e.Median, d))
	if err == nil {
		var names []string
		for _, p := range instrument.PacesOf(e) {
			names = append(names, p.Word+" ("+d.Number(float64(p.From))+" to "+d.Format(float64(p.To))+")")
		}
		if names == nil {
			names = []string{"harder than a break"}
		}
		g = sure(g, "speed", e, e.Median)
		g.Note = "Players call this " + strings.Join(names, " or ") + "."
	}
	return g.without(bad)
}

// without returns the result with a note on how many readings were left out.
func (g Gauged) without(bad int) Gauged {
	if bad > 0 {
		g.Note = strings.TrimSpace(g.Note + " " + strconv.Itoa(bad) + " left out: the list says why.")
	}
	return g
}

// Rolling returns the rolling resistance from the timings of one kind: store.OfRest
// or store.OfMarks.
func Rolling(s *scenario.Scenario, list []store.Reading, of string) Gauged {
	good, bad := usable(s, list, of)
	if len(good)+bad == 0 {
		return Gauged{Note: map[string]string{
			store.OfRest:  "Let a ball roll slowly past a mark. Tap as it passes and again when it stops. Then measure how far it rolled.",
			store.OfMarks: "Let a ball roll slowly past three marks. Tap as it passes each one.",
		}[of]}
	}
	var e stat.Estimate[float64]
	var err error
	if of == store.OfRest {
		e, err = instrument.RestAverage(each(good, rest))
	} else {
		e, err = instrument.MarksAverage(each(good, marks))
	}
	g := answer(rolling, e, len(good), err, setting("roll", e.Median, rolling))
	if err == nil {
		g.Note = benchHas(s, scenario.Find("roll").Label, e, s.GearCloth().Roll, rolling)
		if k := scenario.Find("roll"); e.Median < k.Min || e.Median > k.Max {
			g.Sets = nil
			g.Note += " The shot can't use it (" + k.Allowed(s.Units) + "). Use longer distances or time more balls."
		}
	}
	return g.without(bad)
}

// benchHas says whether the current value is within the interval of a measured one.
func benchHas(s *scenario.Scenario, what string, e stat.Estimate[float64], has float64, d scenario.Display) string {
	stands := ", which agrees"
	if !e.Holds(has) {
		stands = ", which does not agree"
	}
	return what + ". The current shot has " + d.Format(has) + stands + "."
}

// Sliding returns the sliding friction from a length on the cloth and the timings of
// the same hit: those with the spin of the last one. place is "dies" for the length
// to where draw is gone, or "rolls" for the length to where the ball begins to roll.
func Sliding(s *scenario.Scenario, list []store.Reading, length, place string) Gauged {
	good, _ := usable(s, list, store.OfSpeed)
	if len(good) == 0 {
		return Gauged{Note: "First time the same hit under Ball speed."}
	}
	if length == "" {
		return Gauged{Note: "Type the distance."}
	}
	l, err := quantity[unit.Length]("distance", length, unit.LengthKind, s.Units)
	if err != nil {
		return refused(err)
	}
	topspin := good[len(good)-1].Topspin
	good = slices.DeleteFunc(good, func(r store.Reading) bool { return r.Topspin != topspin })
	slide := instrument.Slide{Topspin: si[float64](topspin, unit.Ratio), Dies: place == "dies", Length: l}
	e, err := instrument.Sliding(each(good, func(r store.Reading) instrument.Run { return run(s, r) }), slide, s.GearBall().Radius)
	g := answer(sliding, e, 1, err, setting("slide", e.Median, sliding))
	if errors.Is(err, instrument.ErrNoSlip) || errors.Is(err, instrument.ErrDraw) {
		g.Note += " It uses the hit you timed last under Ball speed."
	}
	if err == nil {
		g = sure(g, "slide", e, e.Median)
		g.Note = benchHas(s, scenario.Find("slide").Label, e, s.GearCloth().Slide, sliding)
	}
	return g
}

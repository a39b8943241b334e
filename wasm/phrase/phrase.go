package phrase

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// Sideways returns an offset in words: 0.64 in right.
func Sideways(s *scenario.Scenario, x unit.Length) string {
	text := Small(s, float64(unit.Abs(x)))
	switch {
	case text == Small(s, 0):
		return "on the line"
	case x > 0:
		return text + " right"
	}
	return text + " left"
}

// Turned returns an angle in words: 2.8° right.
func Turned(a unit.Angle) string {
	d := scenario.Display{Quantity: unit.AngleKind, Unit: "°", Decimals: 2}
	text := d.Format(float64(unit.Abs(a)))
	switch {
	case text == d.Format(0):
		return text
	case a > 0:
		return text + " right"
	}
	return text + " left"
}

// English returns the english of a shot in ball radii: right english, 0.40 R.
func English(s *scenario.Scenario) string {
	radii, hand, any := strings.Cut(Side(s), " R ")
	if !any {
		return "no english"
	}
	return hand + " english, " + radii + " R"
}

// EnglishInFull returns the english of a shot in ball radii and in tips: right english,
// 0.40 R (1.2 tips).
func EnglishInFull(s *scenario.Scenario) string {
	english := English(s)
	if s.Side == 0 {
		return english
	}
	return english + " (" + Tips(s) + ")"
}

// Side returns how far the tip touches beside the centre, in ball radii: 0.40 R right.
func Side(s *scenario.Scenario) string { return offset(s.Side, "left", "right") }

// High returns how far it touches above or below the centre: 0.30 R low.
func High(s *scenario.Scenario) string { return offset(s.Height, "low", "high") }

// Tips returns how far the cue moves over for the english of a shot, in widths of its tip,
// which is how players count english: 1.2 tips.
func Tips(s *scenario.Scenario) string {
	sh := s.Shot()
	over := strike.AxisDistance(math.Abs(s.Side), sh.Ball, sh.Cue.Tip)
	n := unit.Round(float64(over/s.TipWidth), unit.Ratio, "", 1)
	switch n {
	case "0.5":
		return "½ tip"
	case "1.0":
		return "1 tip"
	}
	return n + " tips"
}

// Small returns a short length, with one decimal more than a long one.
func Small(s *scenario.Scenario, v float64) string {
	if s.Units == "cm" {
		return scenario.Display{Quantity: unit.LengthKind, Unit: "mm", Decimals: 1}.Format(v)
	}
	return scenario.Display{Quantity: unit.LengthKind, Unit: "in", Decimals: 2}.Format(v)
}

// Endless is a pivot length that nobody can distinguish from an infinite one: the cue
// hardly squirts at all.
const Endless = 1000 * unit.Inch

// Length returns a length in the reader's units. If it exceeds Endless, it says so.
func Length(s *scenario.Scenario, v unit.Length) string {
	d := scenario.DisplayOf(unit.LengthKind, s.Units)
	if v > Endless {
		d.Decimals = 0
		return "over " + d.Format(float64(Endless))
	}
	return d.Format(float64(v))
}

// Within returns the 90 % interval of a pivot length, which may have no upper end:
// probably 12.2 to 13.9 in (90 %).
func Within(s *scenario.Scenario, from, to unit.Length) string {
	if to > Endless {
		return "probably over " + Length(s, from) + " (90 %)"
	}
	d := scenario.DisplayOf(unit.LengthKind, s.Units)
	return "probably " + d.Number(float64(from)) + " to " + d.Format(float64(to)) + " (90 %)"
}

// Percent returns a share in whole per cent.
func Percent(share float64) string { return unit.Round(100*share, unit.Ratio, "", 0) + " %" }

// Upper makes the first letter of a sentence a capital. It does not change a sentence
// that begins with a digit or a quotation mark.
func Upper(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	if size == 0 || first == utf8.RuneError {
		return text
	}
	return string(unicode.ToUpper(first)) + text[size:]
}

// Count returns a number of things: 1 step, 2 steps.
func Count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// Brief drops a decimal of zero: 12 in for 12.0 in, but 0.05.
func Brief(shown string) string {
	whole, rest, found := strings.Cut(shown, ".0")
	if !found || rest != "" && rest[0] >= '0' && rest[0] <= '9' {
		return shown
	}
	return whole + rest
}

// Pivot returns the bridge length of an answer, or a phrase if there is none.
func Pivot(s *scenario.Scenario, p shot.Answer[unit.Length]) string {
	if p.Err() != nil {
		return "the natural pivot at this offset"
	}
	return Length(s, p.Value)
}

// CueName returns what a comparison calls a cue: 0 is the current cue, 1 the first beside
// it.
func CueName(name string, i int) string {
	switch {
	case name != "":
		return name
	case i == 0:
		return "current cue"
	}
	return "cue " + strconv.Itoa(i+1)
}

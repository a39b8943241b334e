package phrase_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/lesson"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/phrase"
)

// The values in a caption are those of the computation, put into words here a second
// time.
func TestCaption(t *testing.T) {
	s, _ := scenario.Parse("side=-0.35&height=0.2&back=0.8&front=0.2&bridge=9in&speed=8mph")
	res := play(&s)
	r := &res.Reading
	degrees := func(a unit.Angle) string { return unit.Round(float64(a), unit.AngleKind, "deg", 2) + "°" }
	inches := func(l unit.Length, decimals int) string {
		return unit.Round(float64(l), unit.LengthKind, "in", decimals) + " in"
	}
	for _, c := range []struct{ text, want string }{
		{"no figures", "no figures"},
		{"", ""},
		{"{side}, {height}", "0.35 R left, 0.20 R above"},
		{"{back} and {front}", "80 % and 20 %"},
		{"{bridge} at {speed}, {elev}", "9 in at 8 mph, 3°"},
		{"{squirt}", degrees(-r.Squirt.Value)},
		{"{heading}", degrees(-r.Heading.Value) + " left"},
		{"{launch}", degrees(-r.Launch.Value) + " left"},
		{"{swerve}", degrees(-r.Swerve.Value) + " left"},
		{"{throw}", degrees(r.Throw.Value) + " right"},
		{"{miscue-margin}", degrees(r.MiscueMargin.Value)},
		{"{arrival}", inches(-r.Arrival.Value, 2) + " left"},
		{"{clear-left}", inches(r.ClearLeft.Value, 2)},
		{"{pivot-natural}", inches(r.PivotNatural.Value, 1)},
		{"{share-back}", unit.Round(100*r.ShareBack.Value, unit.Ratio, "", 0) + " %"},
		{"{end-mass}", unit.Round(float64(r.EndMass.Value), unit.MassKind, "g", 1) + " g"},
		{"{verdict}.", "Hits left blocker first."},
		{"{nosuch} {scatter.tip} {a{bridge}} {", "{nosuch} {scatter.tip} {a9 in} {"},
		{"<b>{bridge}</b>", "<b>9 in</b>"},
	} {
		assert.Equal(t, c.want, phrase.Caption(c.text, &s, r), c.text)
	}

	s, _ = scenario.Parse("side=0&units=cm&speed=1mph&dist=90in")
	res = play(&s)
	for _, c := range []struct{ text, want string }{
		{"{side}", "0.00 R"},
		{"{heading}", "0.00°"},
		{"{bridge}", "30.5 cm"},
		{"{arrival}", "–"},
	} {
		assert.Equal(t, c.want, phrase.Caption(c.text, &s, &res.Reading), c.text)
	}
}

func TestEveryShippedCaptionIsFilled(t *testing.T) {
	for _, l := range lesson.Shipped {
		for i, step := range l.Steps {
			for _, units := range []string{"in", "cm"} {
				scene := step.Scene(units)
				said := phrase.Caption(step.Caption, &scene, &play(&scene).Reading)
				assert.False(t, strings.ContainsAny(said, "{}–"), "%s, step %d: %s", l.Name, i+1, said)
			}
		}
	}
}

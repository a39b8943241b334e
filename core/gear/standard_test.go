package gear_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/gear"
	"pivotbench/core/unit"
)

func named[T any](t *testing.T, list []gear.Named[T], name string) T {
	t.Helper()
	n, ok := gear.Find(list, name)
	require.True(t, ok, name)
	assert.Equal(t, name, n.Name)
	assert.NotEmpty(t, n.Label)
	return n.Is
}

// World Pool-Billiard Association, equipment specifications: playing surface
// 100 × 50 in or 92 × 46 in, sights every 12.5 or 11.5 in; ball 2.25 in
// ± 0.005 in, 5.5 to 6 oz.
func TestPool(t *testing.T) {
	nine, eight := named(t, gear.Tables, "9ft"), named(t, gear.Tables, "8ft")
	assert.InDelta(t, 100, float64(nine.Length/unit.Inch), 1e-12)
	assert.InDelta(t, 50, float64(nine.Width/unit.Inch), 1e-12)
	assert.InDelta(t, 12.5, float64(nine.Length/unit.Inch)/float64(nine.Sights), 1e-12)
	assert.InDelta(t, 92, float64(eight.Length/unit.Inch), 1e-12)
	assert.InDelta(t, 46, float64(eight.Width/unit.Inch), 1e-12)
	assert.InDelta(t, 11.5, float64(eight.Length/unit.Inch)/float64(eight.Sights), 1e-12)

	ball := named(t, gear.Balls, "pool")
	assert.InDelta(t, 2.25, float64(2*ball.Radius/unit.Inch), 0.005)
	assert.GreaterOrEqual(t, float64(ball.Mass/unit.Ounce), 5.5)
	assert.LessOrEqual(t, float64(ball.Mass/unit.Ounce), 6.0)
}

// World Professional Billiards and Snooker Association, rules: 11 ft 8½ in by
// 5 ft 10 in; ball 52.5 mm ± 0.05 mm.
func TestSnooker(t *testing.T) {
	table := named(t, gear.Tables, "snooker")
	assert.InDelta(t, 11*12+8.5, float64(table.Length/unit.Inch), 1e-12)
	assert.InDelta(t, 5*12+10, float64(table.Width/unit.Inch), 1e-12)
	assert.InDelta(t, 52.5, float64(2*named(t, gear.Balls, "snooker").Radius/unit.Millimetre), 0.05)
}

// Union Mondiale de Billard, rules: 2.84 × 1.42 m; ball 61 to 61.5 mm, 205 to
// 220 g.
func TestCarom(t *testing.T) {
	table := named(t, gear.Tables, "carom")
	assert.InDelta(t, 2.84, float64(table.Length), 1e-12)
	assert.InDelta(t, 1.42, float64(table.Width), 1e-12)
	ball := named(t, gear.Balls, "carom")
	assert.GreaterOrEqual(t, float64(2*ball.Radius), 0.0610)
	assert.LessOrEqual(t, float64(2*ball.Radius), 0.0615)
	assert.GreaterOrEqual(t, float64(ball.Mass), 0.205)
	assert.LessOrEqual(t, float64(ball.Mass), 0.220)
}

// Every table is twice as long as wide, pool tables by the specifications of the World
// Pool-Billiard Association and carom tables by those of the Union Mondiale de Billard.
// The 12 ft snooker table is so only approximately.
func TestTablesAreTwiceAsLongAsWide(t *testing.T) {
	for _, n := range gear.Tables {
		assert.InDelta(t, 2, float64(n.Is.Length/n.Is.Width), 0.01, n.Name)
	}
}

// Common practice, no source: a worn or damp cloth has more sliding friction and rolling
// resistance than a new one. Mathavan, Jackson and Parkin, Am. J. Phys. 77 (2009) 788,
// measured about 0.18 to 0.25 for sliding and 0.013 for rolling (from memory).
func TestClothsGoFromFastToSlow(t *testing.T) {
	for i := 1; i < len(gear.Cloths); i++ {
		fast, slow := gear.Cloths[i-1].Is, gear.Cloths[i].Is
		assert.Less(t, fast.Slide, slow.Slide)
		assert.Less(t, fast.Roll, slow.Roll)
		assert.Less(t, fast.SpinDecay, slow.SpinDecay)
	}
	normal := named(t, gear.Cloths, "normal")
	assert.Equal(t, gear.Cloth{Slide: 0.2, Roll: 0.01, SpinDecay: 10, Rebound: 0.5}, normal)
}

func TestNamesAreUniqueAndUnknownOnesUnknown(t *testing.T) {
	seen := map[string]bool{}
	for _, n := range gear.Tables {
		assert.False(t, seen[n.Name], n.Name)
		seen[n.Name] = true
	}
	_, ok := gear.Find(gear.Tables, "10ft")
	assert.False(t, ok)
	_, ok = gear.Find(gear.Balls, "")
	assert.False(t, ok)
}

// The ranges that governing bodies publish, each in its own units. World Pool-Billiard
// Association, equipment specifications: 2.25 in ± 0.005 in, 5.5 to 6 oz. World
// Professional Billiards and Snooker Association, rules: 52.5 mm ± 0.05 mm. Union
// Mondiale de Billard, rules: 61 to 61.5 mm, 205 to 220 g. The bench's default ball is
// within them.
func TestBallLimits(t *testing.T) {
	for name, want := range map[string]struct {
		size        unit.Length
		diameter    [2]float64
		weight      unit.Mass
		least, most float64
	}{
		"pool":    {unit.Inch, [2]float64{2.25 - 0.005, 2.25 + 0.005}, unit.Ounce, 5.5, 6},
		"snooker": {unit.Millimetre, [2]float64{52.5 - 0.05, 52.5 + 0.05}, unit.Gram, 0, 0},
		"carom":   {unit.Millimetre, [2]float64{61, 61.5}, unit.Gram, 205, 220},
	} {
		limits, ball := named(t, gear.BallLimits, name), named(t, gear.Balls, name)
		assert.InDelta(t, want.diameter[0], float64(limits.Diameter.From/want.size), 1e-9, name)
		assert.InDelta(t, want.diameter[1], float64(limits.Diameter.To/want.size), 1e-9, name)
		assert.InDelta(t, want.least, float64(limits.Mass.From/want.weight), 1e-9, name)
		assert.InDelta(t, want.most, float64(limits.Mass.To/want.weight), 1e-9, name)
		assert.GreaterOrEqual(t, 2*ball.Radius, limits.Diameter.From, name)
		assert.LessOrEqual(t, 2*ball.Radius, limits.Diameter.To, name)
	}
	assert.Len(t, gear.BallLimits, len(gear.Balls))
}

// The meaning of a name in a link never changes, so that old links keep theirs. Where no
// body publishes a value it is common practice, no source.
func TestNamesInLinksNeverChange(t *testing.T) {
	balls := map[string][2]float64{ // mm across, g
		"pool": {57.15, 170}, "snooker": {52.5, 142}, "carom": {61.5, 210},
	}
	require.Len(t, gear.Balls, len(balls))
	for name, want := range balls {
		ball := named(t, gear.Balls, name)
		assert.InDelta(t, want[0], float64(2*ball.Radius/unit.Millimetre), 1e-9, name)
		assert.InDelta(t, want[1], float64(ball.Mass/unit.Gram), 1e-9, name)
	}
	cloths := map[string]gear.Cloth{
		"new":    {Slide: 0.16, Roll: 0.008, SpinDecay: 8, Rebound: 0.5},
		"normal": {Slide: 0.2, Roll: 0.01, SpinDecay: 10, Rebound: 0.5},
		"worn":   {Slide: 0.23, Roll: 0.013, SpinDecay: 11, Rebound: 0.5},
		"damp":   {Slide: 0.26, Roll: 0.017, SpinDecay: 13, Rebound: 0.5},
	}
	require.Len(t, gear.Cloths, len(cloths))
	for name, want := range cloths {
		assert.Equal(t, want, named(t, gear.Cloths, name), name)
	}
	tables := map[string]struct {
		length, width float64 // in
		sights        int
	}{
		"9ft": {100, 50, 8}, "8ft": {92, 46, 8}, "7ft": {78, 39, 8}, "snooker": {140.5, 70, 0}, "carom": {2.84 / 0.0254, 1.42 / 0.0254, 8},
	}
	require.Len(t, gear.Tables, len(tables))
	for name, want := range tables {
		table := named(t, gear.Tables, name)
		assert.InDelta(t, want.length, float64(table.Length/unit.Inch), 1e-9, name)
		assert.InDelta(t, want.width, float64(table.Width/unit.Inch), 1e-9, name)
		assert.Equal(t, want.sights, table.Sights, name)
	}
}

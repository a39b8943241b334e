package hop_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/hop"
	"pivotbench/core/unit"
)

// The map agrees with single shots, and its edges with the closed forms.
func TestMap(t *testing.T) {
	s := hopping()
	const most = 30 * unit.MilePerHour
	var elevations []unit.Angle
	for a := unit.Angle(0); a <= 80; a += 5 {
		elevations = append(elevations, a*unit.Degree)
	}
	columns := hop.Map(&s, inTurn, elevations, most, s.Dist)
	require.Len(t, columns, len(elevations))
	rng := rand.New(rand.NewPCG(75, 76))
	seen := map[hop.Class]int{}
	for i, c := range columns {
		assert.Equal(t, elevations[i], c.Elevation)
		last := unit.Speed(0)
		for _, r := range c.Runs {
			assert.Equal(t, last, r.From, "one after the other")
			assert.Greater(t, r.To, r.From)
			last = r.To
			at := s
			at.Elevation = c.Elevation
			for range 5 {
				at.Speed = r.From + (r.To-r.From)*unit.Speed(between(rng, 0.01, 0.99))
				assert.Equal(t, r.Class, hop.ClassOf(&at, inTurn, s.Dist), "%v° %v m/s", float64(c.Elevation/unit.Degree), at.Speed)
			}
			seen[r.Class]++
		}
		assert.Equal(t, most, last)
	}
	for _, class := range []hop.Class{hop.Touches, hop.Clears, hop.Lands} {
		assert.Greater(t, seen[class], 5)
	}

	s.Elevation = 45 * unit.Degree
	runs := hop.Map(&s, inTurn, []unit.Angle{s.Elevation}, most, s.Dist)[0].Runs
	require.Len(t, runs, 3, "touches, clears and lands in time, clears")
	least, err := hop.FirstFlight(&s, hop.InTurn)
	require.NoError(t, err)
	assert.InEpsilon(t, float64(least), float64(runs[0].To), 5e-4)
	long, err := hop.LandsBefore(&s, hop.InTurn, s.Dist)
	require.NoError(t, err)
	assert.InEpsilon(t, float64(long), float64(runs[1].To), 5e-4)
	assert.Equal(t, hop.Lands, runs[1].Class)
}

func TestMapOfAMiscue(t *testing.T) {
	s := hopping()
	s.Contact.Side = 0.6 // miscues
	columns := hop.Map(&s, inTurn, []unit.Angle{0.5}, 10, 1)
	assert.Equal(t, []hop.Run{{From: 0, To: 10, Class: hop.Touches}}, columns[0].Runs)
}

func BenchmarkMap(b *testing.B) {
	s := hopping()
	var elevations []unit.Angle
	for a := unit.Angle(0); a <= 80; a += 2 {
		elevations = append(elevations, a*unit.Degree)
	}
	for b.Loop() {
		hop.Map(&s, inTurn, elevations, 30*unit.MilePerHour, s.Dist)
	}
}

func BenchmarkLeastSpeed(b *testing.B) {
	s := hopping()
	for b.Loop() {
		_, _ = hop.LeastSpeed(&s, hop.InTurn)
	}
}

func BenchmarkLeastElevation(b *testing.B) {
	s := hopping()
	for b.Loop() {
		_, _ = hop.LeastElevation(&s, hop.InTurn)
	}
}

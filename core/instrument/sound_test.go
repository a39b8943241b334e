package instrument_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/instrument"
)

// room is a stretch of sound: noise, and at each time a knock that rings and
// dies away in some hundredths of a second.
func room(rate, length, noise float64, knocks ...float64) []float32 {
	r := rand.New(rand.NewPCG(41, 42))
	out := make([]float32, int(length*rate))
	for i := range out {
		v := noise * r.NormFloat64()
		for _, at := range knocks {
			if t := float64(i)/rate - at; t >= 0 {
				v += 0.3 * math.Exp(-t/0.012) * math.Sin(2*math.Pi*1800*t)
			}
		}
		out[i] = float32(v)
	}
	return out
}

func TestListenerHearsKnocks(t *testing.T) {
	for _, rate := range []float64{44100, 48000, 16000} {
		for _, noise := range []float64{0, 0.001, 0.01} {
			knocks := []float64{0.5, 0.9123, 1.7}
			sound := room(rate, 2.2, noise, knocks...)
			l := instrument.Listener{Rate: rate}
			var got []float64
			for len(sound) > 0 { // in pieces, as a browser hands them over
				n := min(len(sound), 1000)
				got = append(got, l.Hear(sound[:n])...)
				sound = sound[n:]
			}
			require.Len(t, got, 3, "%v %v", rate, noise)
			for i := range knocks {
				assert.InDelta(t, knocks[i], got[i], 0.003)
			}
		}
	}
}

func TestListenerKeepsStillInAQuietOrANoisyRoom(t *testing.T) {
	for _, noise := range []float64{0, 1e-4, 0.05} {
		l := instrument.Listener{Rate: 48000}
		assert.Empty(t, l.Hear(room(48000, 2, noise)))
	}
	// What is on when it begins to listen is the room.
	l := instrument.Listener{Rate: 48000}
	assert.Empty(t, l.Hear(room(48000, 1, 0.001, 0.02)))
}

// Looks of a third of a second at a stream, taken unevenly, by a clock that is
// some milliseconds off.
func TestFreshGivesEverySampleOnce(t *testing.T) {
	sound := room(48000, 3, 0.001, 0.9, 1.5)
	r := rand.New(rand.NewPCG(51, 52))
	const look = 16384
	var got []float32
	end := look
	last := sound[:end]
	for {
		step := 500 + r.IntN(4000)
		if end+step > len(sound) {
			break
		}
		end += step
		now := sound[end-look : end]
		got = append(got, instrument.Fresh(last, now, step+r.IntN(800)-400)...)
		last = now
	}
	assert.Equal(t, sound[look:end], got)
}

func TestFreshWithoutAnOverlap(t *testing.T) {
	silence := make([]float32, 1000)
	assert.Len(t, instrument.Fresh(silence, silence, 300), 300, "in a dead silence the clock has to do")
	other := room(48000, 0.02, 0.1)
	assert.Equal(t, other[len(other)-300:], instrument.Fresh(room(48000, 0.1, 0.3, 0.01), other, 300))
	assert.Len(t, instrument.Fresh(nil, other, 10), 10)
	assert.Len(t, instrument.Fresh(silence, other, 1e6), len(other), "longer ago than a look reaches")
	assert.Empty(t, instrument.Fresh(nil, other, -5))
}

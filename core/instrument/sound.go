package instrument

import (
	"math"
	"slices"
)

// A Listener finds the moments of impacts in a stream of sound: where the loudness
// of a block jumps well above that of the room just before.
type Listener struct {
	Rate float64 // samples a second

	heard int64 // samples taken so far
	energy,
	n float64 // of the block under way
	floor  float64 // mean square of a quiet block
	blocks int     // taken into floor, up to warmUp
	deaf   int     // blocks to go until the ring of the last hit has died
}

const (
	block  = 0.002 // seconds
	warmUp = 50    // blocks, before the first hit can be told from the room
	dead   = 40    // blocks of no hearing after a hit
	jump   = 30    // times the floor in energy, about 15 dB
	faint  = 1e-6  // mean square below which nothing is a hit, full scale being 1
)

// Hear takes the next samples, full scale ±1, and returns the times of the hits in
// them, in seconds since the first sample of all. A time is the start of the loud
// block, so it is at most 2 ms early or late.
func (l *Listener) Hear(samples []float32) []float64 {
	var hits []float64
	size := math.Round(block * l.Rate)
	for _, s := range samples {
		l.energy += float64(s) * float64(s)
		l.n++
		l.heard++
		if l.n < size {
			continue
		}
		loud := l.energy / l.n
		if l.take(loud) {
			hits = append(hits, (float64(l.heard)-l.n)/l.Rate)
		}
		l.energy, l.n = 0, 0
	}
	return hits
}

// take takes the loudness of a block, and reports whether it is a hit.
func (l *Listener) take(loud float64) bool {
	switch {
	case l.deaf > 0:
		l.deaf--
		return false
	case l.blocks >= warmUp && loud > faint && loud > jump*l.floor:
		l.deaf = dead
		return true
	}
	// The floor follows the room over some tenths of a second.
	l.blocks = min(l.blocks+1, warmUp)
	l.floor += (loud - l.floor) / float64(l.blocks)
	return false
}

// overlap is how many samples two looks at a stream must share to be joined.
const overlap = 64

// Fresh returns what is new in a look at the newest samples of a stream, after an
// earlier look that ended with heard. expect is about how many samples are new, by
// a clock. The two looks are joined where they are the same; if they are nowhere
// the same, the clock decides.
func Fresh(heard, now []float32, expect int) []float32 {
	expect = min(max(expect, 0), len(now))
	if len(heard) < overlap {
		return now[len(now)-expect:]
	}
	end := heard[len(heard)-overlap:]
	for d := range len(now) {
		for _, n := range [2]int{expect - d, expect + d} {
			if at := len(now) - n; n >= 0 && at >= overlap && slices.Equal(now[at-overlap:at], end) {
				return now[at:]
			}
		}
	}
	return now[len(now)-expect:]
}

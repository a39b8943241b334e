package film

import "math"

// alike is how far apart, in radii of the ball, its places have to be for their errors to be
// independent, nearly: what pulls them is in the cloth, the light and the codec's blocks, so
// places next to each other are pulled the same way. Found on rendered films of 60 and 240
// frames a second: the correlation of errors falls by a factor e in this distance.
const alike = 0.5

// crowding returns how many times more each frame's place is to be taken to scatter than it does,
// since those next to it say nearly the same. A thousand frames of a slow ball then tell
// no more than the places that it comes by.
//
// n numbers whose neighbours have the correlation c tell as much as n (1 - c) / (1 + c) that are
// independent. Source: Bayley and Hammersley, The "effective" number of independent
// observations in an autocorrelated time series, J. Roy. Stat. Soc. Suppl. 8 (1946) 184, from
// memory.
func (k *Stroke) crowding(use []bool) []float64 {
	l := k.stand.camera.lens()
	out := make([]float64, len(k.Frames))
	before, first := -1, -1
	for i := range k.Frames {
		out[i] = 1
		if !use[i] {
			continue
		}
		if before >= 0 {
			a, b := &k.Frames[before], &k.Frames[i]
			e, _ := l.ball(b.place.vec(), k.stand.radius)
			c := math.Exp(-math.Hypot(b.At.X-a.At.X, b.At.Y-a.At.Y) / (alike * e.long))
			out[i] = math.Sqrt((1 + c) / (1 - math.Min(c, mostAlike)))
			if before == first {
				out[first] = out[i]
			}
		} else {
			first = i
		}
		before = i
	}
	return out
}

// mostAlike is the greatest correlation, that of a ball that hardly moves.
const mostAlike = 0.98

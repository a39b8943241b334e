package filmtest

import "math"

// finish adds noise, passes the frame through the codec and rounds to bytes.
func (f *Film) finish() {
	s := f.s
	offset := int(f.rng.Uint32())
	for i := range f.plane {
		if i%s.Width == 0 {
			offset = int(f.rng.Uint32())
		}
		f.plane[i] += f.noise[(i+offset)&(1<<16-1)]
	}
	if s.Coarse > 0 {
		f.code()
	}
	for i, v := range f.plane {
		f.out[i] = uint8(min(max(v+0.5, 0), 255))
	}
}

// code passes the frame through a codec in the manner of all: blocks that hardly differ
// from the last frame are left as they were, and the difference of others is transformed
// and quantized.
func (f *Film) code() {
	s := f.s
	if f.coded == nil {
		f.coded = make([]float32, len(f.plane))
		for i := range f.coded {
			f.coded[i] = 100
		}
	}
	var block [64]float32
	for y := 0; y+8 <= s.Height; y += 8 {
		for x := 0; x+8 <= s.Width; x += 8 {
			most := float32(0)
			for j := range 8 {
				o := (y+j)*s.Width + x
				for i := range 8 {
					d := f.plane[o+i] - f.coded[o+i]
					block[8*j+i] = d
					most += d * d
				}
			}
			if most < 64*float32(s.Coarse*s.Coarse)/8 {
				continue
			}
			quantize(&block, float32(s.Coarse))
			for j := range 8 {
				o := (y+j)*s.Width + x
				for i := range 8 {
					f.coded[o+i] += block[8*j+i]
				}
			}
		}
	}
	for y := range s.Height {
		for x := range s.Width {
			if o := y*s.Width + x; y < s.Height/8*8 && x < s.Width/8*8 {
				f.plane[o] = f.coded[o]
			}
		}
	}
}

// cosines is the discrete cosine transform of 8 points, orthonormal.
var cosines = func() (c [8][8]float32) {
	for k := range 8 {
		scale := math.Sqrt(2.0 / 8)
		if k == 0 {
			scale = math.Sqrt(1.0 / 8)
		}
		for i := range 8 {
			c[k][i] = float32(scale * math.Cos(math.Pi*(float64(i)+0.5)*float64(k)/8))
		}
	}
	return c
}()

// quantize transforms a block, rounds its coefficients to a step that grows with
// frequency, and transforms it back. Most of them round to nothing.
func quantize(b *[64]float32, step float32) {
	var rows [64]float32
	for j := range 8 {
		for k := range 8 {
			sum := float32(0)
			for i := range 8 {
				sum += cosines[k][i] * b[8*j+i]
			}
			rows[8*j+k] = sum
		}
	}
	*b = [64]float32{}
	for k := range 8 {
		for l := range 8 {
			sum := float32(0)
			for j := range 8 {
				sum += cosines[l][j] * rows[8*j+k]
			}
			q := step * (1 + float32(k+l)/6)
			if sum > -q/2 && sum < q/2 {
				continue
			}
			sum = q * float32(math.Round(float64(sum/q)))
			for j := range 8 {
				part := sum * cosines[l][j]
				for i := range 8 {
					b[8*j+i] += part * cosines[k][i]
				}
			}
		}
	}
}

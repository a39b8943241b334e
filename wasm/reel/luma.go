package reel

// Luma returns the luma of a picture from its RGBA, by the weights of Rec. ITU-R BT.601:
// 0.299, 0.587 and 0.114. It is written to luma if that has the right length.
func Luma(rgba, luma []byte) []byte {
	luma = sized(luma, len(rgba)/4)
	for i := range luma {
		c := rgba[4*i : 4*i+4 : 4*i+4]
		luma[i] = byte((77*int(c[0]) + 150*int(c[1]) + 29*int(c[2])) >> 8)
	}
	return luma
}

// A Plane is the luma of a picture as it is in a video.
type Plane struct {
	Width, Height, Stride int
	Turn                  int  // quarter turns clockwise that set it upright, 0 to 3
	Full                  bool // it goes from 0 to 255, and not from 16 to 235
	Luma                  []byte
}

// Upright returns the luma of the picture set upright, from 0 for black to 255 for white. It is
// written to luma if that has the right length.
//
// Source: Rec. ITU-R BT.601, whose black is 16 and whose white is 235.
func (p *Plane) Upright(luma []byte) []byte {
	var levels [256]byte
	for i := range levels {
		levels[i] = byte(i)
		if !p.Full {
			levels[i] = byte(min(max((255*(i-16)+109)/219, 0), 255))
		}
	}
	w, h := p.Width, p.Height
	first, right, down := 0, 1, w
	switch p.Turn {
	case 1:
		first, right, down = h-1, h, -1
	case 2:
		first, right, down = w*h-1, -1, -w
	case 3:
		first, right, down = h*(w-1), -h, 1
	}
	luma = sized(luma, w*h)
	for y := range h {
		o := first + y*down
		for _, level := range p.Luma[y*p.Stride:][:w] {
			luma[o] = levels[level]
			o += right
		}
	}
	return luma
}

// Smaller returns the picture with fewer pixels: each is the mean of the area that it covers. It
// is written to luma if that has the right length.
func (p *Plane) Smaller(width, height int, luma []byte) Plane {
	out := *p
	out.Width, out.Height, out.Stride, out.Luma = width, height, width, sized(luma, width*height)
	sum := make([]int, p.Width) // of the rows that a row covers, in 1/height of a row
	for y := range height {
		clear(sum)
		parts(y, p.Height, height, func(row, part int) {
			for x, level := range p.Luma[row*p.Stride:][:p.Width] {
				sum[x] += part * int(level)
			}
		})
		for x := range width {
			all := p.Width * p.Height / 2
			parts(x, p.Width, width, func(column, part int) { all += part * sum[column] })
			out.Luma[y*width+x] = byte(all / (p.Width * p.Height))
		}
	}
	return out
}

// parts calls do for each of from pixels that one of to pixels covers, with how much of it, in
// parts of which a pixel has to.
func parts(i, from, to int, do func(pixel, part int)) {
	for at := i * from; at < (i+1)*from; {
		end := min((at/to+1)*to, (i+1)*from)
		do(at/to, end-at)
		at = end
	}
}

// sized returns a slice of so many bytes: the one given, if it has them.
func sized(b []byte, n int) []byte {
	if len(b) != n {
		b = make([]byte, n)
	}
	return b
}

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
		row, o := p.Luma[y*p.Stride:][:w], first+y*down
		if right == 1 {
			line := luma[o:][:len(row)]
			for x, level := range row {
				line[x] = levels[level]
			}
			continue
		}
		for _, level := range row {
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
	columns, rows := parts(p.Width, width), parts(p.Height, height)
	sum := make([]uint32, p.Width) // of the rows that a row covers
	whole := p.Width * p.Height
	for y := range height {
		clear(sum)
		for ; len(rows) > 0 && rows[0].of == y; rows = rows[1:] {
			row, part := p.Luma[rows[0].pixel*p.Stride:][:len(sum)], rows[0].part
			for x, level := range row {
				sum[x] += part * uint32(level)
			}
		}
		line := out.Luma[y*width:][:width]
		x, all := 0, whole/2
		for i := range columns {
			c := &columns[i]
			if c.of != x {
				line[x] = byte(all / whole)
				x, all = c.of, whole/2
			}
			all += int(c.part) * int(sum[c.pixel])
		}
		line[x] = byte(all / whole)
	}
	return out
}

// A part is how much of a pixel another one covers, which is of another size.
type part struct {
	of, pixel int
	part      uint32 // from 0 to the number of those that cover
}

// parts lists what each of to pixels covers of from pixels, in their order.
func parts(from, to int) (all []part) {
	for of := range to {
		for at := of * from; at < (of+1)*from; {
			pixel := at / to
			end := min((pixel+1)*to, (of+1)*from)
			all = append(all, part{of, pixel, uint32(end - at)})
			at = end
		}
	}
	return all
}

// sized returns a slice of so many bytes: the one given, if it has them.
func sized(b []byte, n int) []byte {
	if len(b) != n {
		b = make([]byte, n)
	}
	return b
}

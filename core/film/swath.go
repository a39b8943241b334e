package film

import "math"

// A swath is the likeness along lines in the direction of a ball's way. Each line is summed up
// from where it begins, so that a blur of any length is the difference of two sums.
type swath struct {
	reach float64  // half a line's length in pixels
	fine  float64  // samples a pixel
	n     int      // samples a line
	looks []likeAt // line by line
	sums  []likeAt // of all samples before one, times a sample's length in pixels; n+1 a line
}

// lay lays lines over a ball's outline, from m steps on its left to m steps on its right as it
// moves.
func (s *swath) lay(k *likeness, e *ellipse, w *way, step float64, m int) {
	s.reach = likeReach*e.long + step
	s.n = int(6*s.reach/step) + 1
	s.fine = float64(s.n) / (2 * s.reach)
	s.looks, s.sums = s.looks[:0], s.sums[:0]
	xx, xy, yy := e.stretch(1/e.long, 1/e.short)
	for j := -m; j <= m; j++ {
		sum, across := likeAt{}, step*float64(j)
		s.sums = append(s.sums, sum)
		for i := range s.n {
			along := (float64(i)+0.5)/s.fine - s.reach
			x, y := along*w.cos-across*w.sin, along*w.sin+across*w.cos
			look := k.at(xx*x+xy*y, xy*x+yy*y)
			sum = sum.plus(look, float32(1/s.fine))
			s.looks, s.sums = append(s.looks, look), append(s.sums, sum)
		}
	}
}

// to returns the sum of a line up to a place along it, in pixels from its middle, and the sample
// there. Beyond its ends is nothing but the bed.
func (s *swath) to(line int, along float64) (sum, look likeAt) {
	looks, sums := s.looks[line*s.n:(line+1)*s.n], s.sums[line*(s.n+1):(line+1)*(s.n+1)]
	at := (along + s.reach) * s.fine
	switch i := int(math.Floor(at)); {
	case i < 0:
		return likeAt{bed: float32(at / s.fine)}, likeAt{bed: 1}
	case i < s.n:
		return sums[i].plus(looks[i], float32((at-float64(i))/s.fine)), looks[i]
	}
	return sums[s.n].plus(likeAt{bed: 1}, float32(along-s.reach)), likeAt{bed: 1}
}

// A pixel is what a moving ball shows at one place, and how that changes if the ball moves
// on along its way, across it, or is blurred for longer.
type pixel struct {
	x, y                  float64 // from the ball's centre, in pixels
	mean                  likeAt
	along, across, longer likeAt
}

// smear returns the pixels about a ball that moves: a grid along and across its way, whose lines
// are a swath's.
func (s *swath) smear(e *ellipse, w *way, step float64, m int, blur float64, out []pixel) []pixel {
	n := int((1.45*e.long+blur/2)/step) + 1
	size := math.Max(blur, 0.25*step)
	out = out[:0]
	for j := range 2*m + 1 {
		c := step * float64(j-m)
		for i := -n; i <= n; i++ {
			a := step * float64(i)
			end, head := s.to(j, a+size/2)
			begin, tail := s.to(j, a-size/2)
			q := pixel{x: a*w.cos - c*w.sin, y: a*w.sin + c*w.cos}
			q.mean = end.plus(begin, -1).times(float32(1 / size))
			q.longer = head.plus(tail, 1).plus(q.mean, -2).times(float32(0.5 / math.Max(blur, step)))
			out = append(out, q)
		}
	}
	wide := 2*n + 1
	for o := wide; o < len(out)-wide; o++ {
		out[o].along = out[o-1].mean.plus(out[o+1].mean, -1).times(1 / float32(2*step))
		out[o].across = out[o-wide].mean.plus(out[o+wide].mean, -1).times(1 / float32(2*step))
	}
	return out
}

// plus adds k times another.
func (l likeAt) plus(o likeAt, k float32) likeAt {
	return likeAt{l.ball + k*o.ball, l.bed + k*o.bed, l.right + k*o.right, l.down + k*o.down}
}

func (l likeAt) times(k float32) likeAt {
	return likeAt{k * l.ball, k * l.bed, k * l.right, k * l.down}
}

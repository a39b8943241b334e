package film

import (
	"math"

	"pivotbench/core/stat"
)

// A Stand is a calibrated camera: where it stands and how it sees the table, with what is
// uncertain about that. It serves every film that is made from the same place.
type Stand struct {
	camera camera
	root   stat.Root // of the view's covariance
	radius float64   // of the balls, in metres
	balls  []Ball    // as given, with Mark and Radius as found
	found  []outline
	rms    float64
}

// Balls returns the marked balls with their marks and radii as found in the picture.
func (s *Stand) Balls() []Ball { return append([]Ball(nil), s.balls...) }

// Misfit returns how far, in pixels, the balls' outlines lie from where the camera would
// see them, as a root mean square.
func (s *Stand) Misfit() float64 { return s.rms }

// Pixel returns where the centre of a resting ball at a place appears; ok is false if it
// is behind the camera.
func (s *Stand) Pixel(at Place) (p Point, ok bool) {
	l := s.camera.lens()
	e, ok := l.ball(at.vec(), s.radius)
	return e.Point, ok
}

// Place returns where the resting ball is whose outline has its centre at p; ok is false
// if there is none.
func (s *Stand) Place(p Point) (at Place, ok bool) {
	l := s.camera.lens()
	v, ok := l.centre(p, s.radius)
	return place(v), ok
}

// Outline returns n points of the outline of a resting ball at a place, to draw.
func (s *Stand) Outline(at Place, n int) []Point {
	l := s.camera.lens()
	e, ok := l.ball(at.vec(), s.radius)
	if !ok {
		return nil
	}
	out := make([]Point, n)
	for i := range out {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		out[i] = e.on(cos, sin, 0)
	}
	return out
}

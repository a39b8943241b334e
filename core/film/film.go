// Package film measures a stroke from the frames of a video.
//
// A phone stands still beside the table and films. Balls at known places are the
// ruler: Calibrate finds from them where the camera stands. A Reader then takes the
// frames one by one, finds the strokes in them and follows the ball. Fit fits the path
// of package motion to the positions and times of a stroke.
//
//	balls := film.Layout(shot)
//	balls, err := film.Find(first, shot.Ball.Radius, balls) // a person confirms or moves the marks
//	stand, err := film.Calibrate(first, shot.Ball.Radius, balls, nil)
//	reader, err := film.NewReader(stand, first)
//	for each frame {
//		err = reader.Add(frame, time)
//	}
//	strokes, err := reader.Strokes()
//	result, err := strokes[0].Fit(film.ExpectOf(shot))
//
// Everything is read in one pass. What is kept does not grow with the film: the first
// picture, a background, and the few places in each frame of a stroke where the ball
// may be.
//
// Most phones read a picture row by row, in 10 to 25 ms (common practice, no source), and which
// row comes first depends on how they are held. A ball that crosses rows is seen later or
// earlier than its frame says, so its speed comes out too low or too high by the share that the
// time for the rows is of the time the ball takes to cross them: 3 % at 3 m/s for a ball that
// comes down 0.6 of the picture in 0.3 s. Its way on the table, and so the launch, is the same.
// Fit has the time for the rows as an unknown, which the deceleration narrows a little.
//
// The world's axes are those of core: x to the shooter's right, y down the table along
// the aim line, z up. Its origin is the centre of the cue ball at rest, so all centres
// of resting balls have z = 0. A picture's x goes right and its y down, in pixels. The
// corner of the top left pixel is (0, 0) and its centre (0.5, 0.5).
package film

import "pivotbench/core/unit"

// A Picture is the luma of one frame. Row y begins at Luma[y*Stride]. A Reader does
// not keep it.
type Picture struct {
	Width, Height, Stride int
	Luma                  []byte
}

// check returns ErrPicture if there are too few bytes for the size.
func (p Picture) check() error {
	if p.Width < smallest || p.Height < smallest || p.Stride < p.Width || len(p.Luma) < p.Stride*(p.Height-1)+p.Width {
		return ErrPicture
	}
	return nil
}

// smallest is the least width or height of a picture in pixels.
const smallest = 64

// at returns the luma at a point by bilinear interpolation. Beyond the edge it is that
// of the edge.
func (p *Picture) at(x, y float64) float64 {
	x, y = within(x-0.5, p.Width), within(y-0.5, p.Height)
	i, j := int(x), int(y)
	fx, fy := x-float64(i), y-float64(j)
	o := j*p.Stride + i
	top := float64(p.Luma[o])*(1-fx) + float64(p.Luma[o+1])*fx
	low := float64(p.Luma[o+p.Stride])*(1-fx) + float64(p.Luma[o+p.Stride+1])*fx
	return top*(1-fy) + low*fy
}

// within returns x, or the nearest place between the first and the last of so many pixels. It
// compares, since in WebAssembly Go calls a function for min or max of floats.
func within(x float64, pixels int) float64 {
	if !(x > 0) {
		return 0
	}
	if last := float64(pixels-1) - 1e-9; x > last {
		return last
	}
	return x
}

// A Point is a place in a picture, in pixels.
type Point struct{ X, Y float64 }

// A Place is a place on the table, relative to the cue ball's centre at rest.
type Place struct{ X, Y unit.Length }

// A Role is what a ball does in the scene.
type Role int

// The roles.
const (
	Cue    Role = iota // the cue ball on its spot, which is the origin
	Target             // a ball on the aim line, which it defines
	Left               // the left blocker
	Right              // the right blocker
	Other              // any other ball at a known place
)

// A Ball is a ball at a known place, with its mark in the picture.
type Ball struct {
	Role   Role
	At     Place
	Off    unit.Length // standard deviation of placing it; 0 means ByTape
	Mark   Point       // about where its centre is in the picture
	Radius float64     // about its radius in the picture in pixels; 0 if not known
}

// A Spot is a known point that is not a ball, such as a rail sight or a corner of a
// sheet of paper.
type Spot struct {
	At     Place
	Height unit.Length // above the bed
	Off    unit.Length // standard deviation of its place; 0 means ByTape
	Mark   Point
	Read   float64 // standard deviation of the mark in pixels; 0 means ByFinger
}

// The standard deviation of a place that was found with a tape, and of a point marked in
// a picture by hand. Common practice, no source.
const (
	ByTape   = 1.5 * unit.Millimetre
	ByFinger = 1.5
)

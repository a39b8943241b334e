package store

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"pivotbench/core/sitting"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/wasm/codec"
)

// A Film is what a video adds to a stroke that is also marked on a line. Its zero value
// means that the stroke was not filmed. A copy of the bench that knows no films takes the
// stroke as the mark alone.
type Film struct {
	Launch string // plan angle at which the ball left the tip, positive to the right, with its unit
	Speed  string // speed of the ball as it left the tip, with its unit
	Cov    string // lower triangle of the covariance of launch, mark and speed, row by row, in rad, m and m/s
}

func (f *Film) fields(v codec.Fields) {
	v.Text("launch", &f.Launch)
	v.Text("speed", &f.Speed)
	v.Text("cov", &f.Cov)
}

// filmed is the number of quantities in a film's covariance: launch, mark and speed.
const filmed = 3

// Filmed returns a stroke for what a film of it showed. seen has one line. Cue, Link and
// When are left empty.
func Filmed(seen sitting.Film) Stroke {
	var cov []string
	for i := range filmed {
		for j := range i + 1 {
			cov = append(cov, strconv.FormatFloat(seen.Cov[i][j], 'g', -1, 64))
		}
	}
	return Stroke{
		Mark: Length(float64(seen.At[0])),
		At:   Length(float64(seen.Lines[0])),
		Read: Length(math.Sqrt(seen.Cov[1][1])),
		Film: Film{
			Launch: unit.Exact(float64(seen.Launch), unit.AngleKind, "deg"),
			Speed:  unit.Exact(float64(seen.Speed), unit.SpeedKind, "mph"),
			Cov:    strings.Join(cov, " "),
		},
	}
}

// sight returns the film of a stroke with a valid mark, or describes what is wrong with
// it.
func (f *Film) sight(mark sitting.Mark) (seen sitting.Film, wrong []string) {
	seen = sitting.Film{Lines: []unit.Length{mark.Line}, At: []unit.Length{mark.At}, Across: mark.Across}
	launch, err := unit.Parse(f.Launch, unit.AngleKind, "")
	if err == nil && !(math.Abs(launch) < math.Pi/2) {
		err = errors.New("“" + clip(f.Launch) + "”, allowed: less than 90° to either side")
	}
	if err != nil {
		wrong = append(wrong, "the film's launch: "+err.Error())
	}
	speed, err := unit.Parse(f.Speed, unit.SpeedKind, "")
	if err == nil && !(speed > 0 && speed <= fastest) {
		err = errors.New("“" + clip(f.Speed) + "”, allowed: more than 0 and up to 60 mph")
	}
	if err != nil {
		wrong = append(wrong, "the film's speed: "+err.Error())
	}
	seen.Launch, seen.Speed = unit.Angle(launch), unit.Speed(speed)
	cov, ok := readTriangle(f.Cov)
	if !ok {
		wrong = append(wrong, "the film's covariance (cov) “"+clip(f.Cov)+"”, allowed: 6 numbers, the lower triangle of a positive definite matrix")
	}
	seen.Cov = cov
	return seen, wrong
}

// fastest is more than any ball's speed, in m/s.
const fastest = 60 * float64(unit.MilePerHour)

// readTriangle reads a film's covariance; ok is false if it is not one.
func readTriangle(text string) (cov [][]float64, ok bool) {
	words := strings.Fields(text)
	if len(words) != filmed*(filmed+1)/2 {
		return nil, false
	}
	cov = make([][]float64, filmed)
	for i := range cov {
		cov[i] = make([]float64, filmed)
		for j := range i + 1 {
			v, err := strconv.ParseFloat(words[0], 64)
			if err != nil {
				return nil, false
			}
			cov[i][j], cov[j][i] = v, v
			words = words[1:]
		}
	}
	_, ok = stat.Cholesky(cov)
	return cov, ok
}

package film_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/film"
	"pivotbench/core/film/filmtest"
	"pivotbench/core/unit"
)

// turned returns a picture turned by a quarter to the right.
func turned(p film.Picture) film.Picture {
	out := film.Picture{Width: p.Height, Height: p.Width, Stride: p.Height, Luma: make([]byte, p.Width*p.Height)}
	for y := range p.Height {
		for x := range p.Width {
			out.Luma[x*out.Stride+p.Height-1-y] = p.Luma[y*p.Stride+x]
		}
	}
	return out
}

// A phone that exposes row by row sees a ball that crosses the rows too fast or too slow. Rows run
// along the longer side of the picture, so an upright phone reads the same as one that lies on
// its side.
func TestRowsOfATurnedPhone(t *testing.T) {
	t.Parallel()
	k := quick(5) // the ball crosses half of the rows, and runs along them for a twentieth of the picture
	k.Scene.Readout, k.Scene.Length = 0.012, 0.7
	var got [2]*film.Result
	for i, turn := range []func(film.Picture) film.Picture{func(p film.Picture) film.Picture { return p }, turned} {
		f := filmtest.New(&k.Scene)
		balls := marked(&k, f)
		if i == 1 {
			for n := range balls {
				m := &balls[n].Mark
				m.X, m.Y = float64(k.Scene.Height)-m.Y, m.X
			}
		}
		p, at := f.Next()
		first := turn(p)
		st, err := film.Calibrate(first, radius, balls, nil)
		require.NoError(t, err)
		r, err := film.NewReader(st, first)
		require.NoError(t, err)
		require.NoError(t, r.Add(first, unit.Span(at)))
		for range f.Frames() - 1 {
			p, at = f.Next()
			require.NoError(t, r.Add(turn(p), unit.Span(at)))
		}
		got[i], err = only(t, r).Fit(film.ExpectOf(&k.Shot))
		require.NoError(t, err)
		within(t, k.Launch, got[i].Launch, 0.006)
		within(t, k.Speed, got[i].Speed, 0.05*k.Speed)
	}
	flat, upright := got[0].Speed, got[1].Speed
	assert.InEpsilon(t, float64(flat.Median), float64(upright.Median), 0.005)
	assert.InEpsilon(t, float64(flat.To-flat.From), float64(upright.To-upright.From), 0.05)
}

package main

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"os"
	"runtime"
	"slices"
	"sync/atomic"
	"time"

	"golang.org/x/sync/errgroup"

	"pivotbench/core/film"
	"pivotbench/core/film/filmtest"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// filmTakes is the number of rendered films that are read, and rowTakes that of films whose
// pictures are exposed row by row, as most phones' are. They are different films.
const (
	filmTakes = 100
	rowTakes  = 40
)

// A filmed is what came of reading one film.
type filmed struct {
	err     error
	heading float64       // error in degrees
	held    bool          // the 90 % interval holds the truth
	speed   float64       // error as a share
	slow    bool          // it is taken for slow motion, which it is not, and has no speed
	paced   bool          // the 90 % interval of the speed holds the truth
	frame   time.Duration // of reading a frame
	find    time.Duration // of looking for the balls without marks
	found   bool          // they were proposed
	astray  bool          // with one of them off by more than half a radius
}

// measureFilm reads rendered films from random stands, in random light, with shake,
// distortion, blur, a coarse codec, other balls, and a hand and a cue in the picture.
func measureFilm(ctx context.Context, _ *sites, _ int, r *report) error {
	all, err := readTakes(ctx, "film", 0, filmTakes, 0)
	if err != nil {
		return err
	}
	if err := tellFilms(r, "film", all); err != nil {
		return err
	}
	var find, frame []time.Duration
	proposed, astray := 0.0, 0.0
	for _, f := range all {
		find = append(find, f.find)
		if f.frame > 0 {
			frame = append(frame, f.frame)
		}
		if f.found {
			proposed++
		}
		if f.astray {
			astray++
		}
	}
	slices.Sort(find)
	slices.Sort(frame)
	r.note("film: balls proposed without marks", fmt.Sprintf("%.0f of %d films", proposed, filmTakes))
	r.atMost("film: proposals with a ball off by over half a radius", fmt.Sprintf("%.0f of %.0f", astray, proposed), 100*astray/math.Max(proposed, 1), 1, " %")
	r.note("film: time to propose the balls, native", find[len(find)/2].Round(time.Millisecond).String())
	r.note("film: time a frame of 720p, native", frame[len(frame)/2].Round(100*time.Microsecond).String())
	if all, err = readTakes(ctx, "film, row by row", filmTakes, rowTakes, 0.02); err != nil {
		return err
	}
	return tellFilms(r, "film, row by row", all)
}

// readTakes reads some random films. Their pictures are read from top to bottom in half to all
// of readout seconds, if that is not longer than the time between two frames.
func readTakes(ctx context.Context, what string, from, count int, readout float64) ([]filmed, error) {
	all := make([]filmed, count)
	var done atomic.Int32
	group, ctx := errgroup.WithContext(ctx)
	group.SetLimit(runtime.GOMAXPROCS(0))
	for i := range all {
		group.Go(func() error {
			all[i] = readTake(uint64(from+i), readout)
			if n := done.Add(1); n%10 == 0 {
				fmt.Fprintf(os.Stderr, "%s: %d of %d\n", what, n, count)
			}
			return ctx.Err()
		})
	}
	return all, group.Wait()
}

// tellFilms reports how well films were read.
func tellFilms(r *report, what string, all []filmed) error {
	var heading, speed []float64
	held, paced, wrong, slow := 0.0, 0.0, 0.0, 0.0
	why := map[string]int{}
	for _, f := range all {
		if f.err != nil {
			err := f.err
			for errors.Unwrap(err) != nil {
				err = errors.Unwrap(err)
			}
			why[err.Error()]++
			continue
		}
		heading = append(heading, f.heading)
		if f.slow {
			slow++
		} else {
			speed = append(speed, f.speed)
		}
		if f.held {
			held++
		}
		if f.paced {
			paced++
		}
		if f.heading > 1 || f.speed > 0.15 {
			wrong++
		}
	}
	n := len(heading)
	if len(speed) == 0 {
		return errors.New("no film was read")
	}
	slices.Sort(heading)
	slices.Sort(speed)
	nine, fast := 9*(n-1)/10, 9*(len(speed)-1)/10
	r.atMost(what+": heading, error of 9 in 10", fmt.Sprintf("%.3f° (median %.3f°)", heading[nine], heading[n/2]), heading[nine], 0.15, "°")
	r.within(what+": 90 % intervals of the heading that hold the truth", held/float64(n), [2]float64{0.85, 0.95})
	r.atMost(what+": speed, error of 9 in 10", fmt.Sprintf("%.1f %% (median %.1f %%)", 100*speed[fast], 100*speed[len(speed)/2]), 100*speed[fast], 3, " %")
	r.note(what+": 90 % intervals of the speed that hold the truth", fmt.Sprintf("%.1f %%", 100*paced/float64(len(speed))))
	r.note(what+": taken for slow motion", fmt.Sprintf("%.0f of %d", slow, n))
	r.atMost(what+": wrong by over 1° or 15 % and not refused", fmt.Sprintf("%.0f of %d", wrong, len(all)), 100*wrong/float64(len(all)), 1, " %")
	r.note(what+": refused", fmt.Sprintf("%d of %d", len(all)-n, len(all)))
	for _, text := range slices.Sorted(maps.Keys(why)) {
		r.note(what+": "+text, fmt.Sprint(why[text]))
	}
	return nil
}

// readTake reads a random film as a person would: marks set by a thumb, a quarter of a
// radius off.
func readTake(seed uint64, readout float64) (out filmed) {
	rng := rand.New(rand.NewPCG(seed, 11))
	k := filmtest.Random(rng, 1280, 720)
	if readout > 0 {
		k.Scene.Readout = math.Min((0.5+0.5*rng.Float64())*readout, 0.9/k.Scene.Rate)
	}
	f := filmtest.New(&k.Scene)
	balls := slices.Clone(k.Balls)
	for i := range balls {
		at := vec.V{}
		if i > 0 {
			at = k.Scene.Balls[i-1].At
		}
		x, y, deep := f.Pixel(at)
		off := 0.25 * k.Scene.Focal * k.Scene.Radius / deep
		balls[i].Mark = film.Point{X: x + off*rng.NormFloat64(), Y: y + off*rng.NormFloat64()}
	}
	p, at := f.Next()
	out.propose(&k, f, p)
	stand, err := film.Calibrate(p, unit.Length(k.Scene.Radius), balls, nil)
	if err != nil {
		out.err = err
		return out
	}
	reader, err := film.NewReader(stand, p)
	if err != nil {
		out.err = err
		return out
	}
	for i := range f.Frames() {
		if i > 0 {
			p, at = f.Next()
		}
		began := time.Now()
		if reader.Add(p, unit.Span(at)) != nil {
			break // Strokes says why, if nothing was found before
		}
		out.frame += time.Since(began) / time.Duration(f.Frames())
	}
	strokes, err := reader.Strokes()
	if err != nil {
		out.err = err
		return out
	}
	got, err := strokes[0].Fit(film.ExpectOf(&k.Shot))
	if err != nil {
		out.err = err
		return out
	}
	out.heading = math.Abs(float64(got.Launch.Median)-k.Launch) * 180 / math.Pi
	out.held = got.Launch.Holds(unit.Angle(k.Launch))
	if out.slow = got.SpeedErr != nil; !out.slow {
		out.speed, out.paced = math.Abs(float64(got.Speed.Median)/k.Speed-1), got.Speed.Holds(unit.Speed(k.Speed))
	}
	return out
}

// propose looks for the balls in the first picture without marks.
func (out *filmed) propose(k *filmtest.Take, f *filmtest.Film, first film.Picture) {
	began := time.Now()
	balls, err := film.Find(first, unit.Length(k.Scene.Radius), k.Balls)
	out.find, out.found = time.Since(began), err == nil
	for i, b := range balls {
		at := vec.V{}
		if i > 0 {
			at = k.Scene.Balls[i-1].At
		}
		x, y, deep := f.Pixel(at)
		out.astray = out.astray || math.Hypot(b.Mark.X-x, b.Mark.Y-y) > 0.5*k.Scene.Focal*k.Scene.Radius/deep
	}
}

package main

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"time"

	"golang.org/x/sync/errgroup"

	"pivotbench/core/film"
	"pivotbench/core/film/filmtest"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// filmTakes is the number of rendered films that are read.
const filmTakes = 100

// A filmed is what came of reading one film.
type filmed struct {
	err     error
	heading float64       // error in degrees
	held    bool          // the 90 % interval holds the truth
	speed   float64       // error as a share
	frame   time.Duration // of reading a frame
	find    time.Duration // of looking for the balls without marks
	found   bool          // they were proposed
	astray  bool          // with one of them off by more than half a radius
}

// measureFilm reads rendered films from random stands, in random light, with shake,
// distortion, blur, a coarse codec, other balls, and a hand and a cue in the picture.
func measureFilm(ctx context.Context, _ *sites, _ int, r *report) error {
	all := make([]filmed, filmTakes)
	group, ctx := errgroup.WithContext(ctx)
	group.SetLimit(runtime.GOMAXPROCS(0))
	for i := range all {
		group.Go(func() error {
			all[i] = readTake(uint64(i))
			return ctx.Err()
		})
	}
	if err := group.Wait(); err != nil {
		return err
	}
	var heading, speed []float64
	var frame []time.Duration
	held, wrong := 0.0, 0.0
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
		heading, speed, frame = append(heading, f.heading), append(speed, f.speed), append(frame, f.frame)
		if f.held {
			held++
		}
		if f.heading > 1 || f.speed > 0.15 {
			wrong++
		}
	}
	n := len(heading)
	if n == 0 {
		return errors.New("no film was read")
	}
	slices.Sort(heading)
	slices.Sort(speed)
	slices.Sort(frame)
	nine := 9 * (n - 1) / 10
	r.atMost("film: heading, error of 9 in 10", fmt.Sprintf("%.3f° (median %.3f°)", heading[nine], heading[n/2]), heading[nine], 0.15, "°")
	r.within("film: 90 % intervals of the heading that hold the truth", held/float64(n), [2]float64{0.85, 0.95})
	r.atMost("film: speed, error of 9 in 10", fmt.Sprintf("%.1f %% (median %.1f %%)", 100*speed[nine], 100*speed[n/2]), 100*speed[nine], 3, " %")
	r.atMost("film: wrong by over 1° or 15 % and not refused", fmt.Sprintf("%.0f of %d", wrong, filmTakes), 100*wrong/filmTakes, 1, " %")
	r.note("film: refused", fmt.Sprintf("%d of %d", filmTakes-n, filmTakes))
	for _, text := range slices.Sorted(maps.Keys(why)) {
		r.note("film: "+text, fmt.Sprint(why[text]))
	}
	proposed, astray := 0.0, 0.0
	var find []time.Duration
	for _, f := range all {
		find = append(find, f.find)
		if f.found {
			proposed++
		}
		if f.astray {
			astray++
		}
	}
	slices.Sort(find)
	r.note("film: balls proposed without marks", fmt.Sprintf("%.0f of %d films", proposed, filmTakes))
	r.atMost("film: proposals with a ball off by over half a radius", fmt.Sprintf("%.0f of %.0f", astray, proposed), 100*astray/math.Max(proposed, 1), 1, " %")
	r.note("film: time to propose the balls, native", find[len(find)/2].Round(time.Millisecond).String())
	r.note("film: time a frame of 720p, native", frame[n/2].Round(100*time.Microsecond).String())
	return nil
}

// readTake reads a random film as a person would: marks set by a thumb, a quarter of a
// radius off.
func readTake(seed uint64) (out filmed) {
	rng := rand.New(rand.NewPCG(seed, 11))
	k := filmtest.Random(rng, 1280, 720)
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
	if got.SpeedErr == nil {
		out.speed = math.Abs(float64(got.Speed.Median)/k.Speed - 1)
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

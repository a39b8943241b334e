package main

import (
	"context"
	_ "embed"
	"fmt"
)

//go:embed drag.js
var dragScript string

// twoFrames is the duration of two frames of a common screen, in ms.
const twoFrames = 33.3

// dragSteps is the number of events of a drag: two seconds at 60 Hz.
const dragSteps = 120

// measureDrag drags the bridge slider. An input event is answered completely when the
// frame that shows it has been handed to the browser.
func measureDrag(ctx context.Context, s *sites, runs int, r *report) error {
	for _, rate := range rates {
		var read, drawn, frames sample
		for range runs {
			got, err := drag(ctx, s, rate)
			if err != nil {
				return err
			}
			read, drawn, frames = append(read, got.Read...), append(drawn, got.Drawn...), append(frames, got.Frames)
		}
		at := fmt.Sprintf(", processor at 1/%g", rate)
		r.note("slider to reading"+at, read.slowest(" ms"))
		r.atMost("slider to frame"+at, drawn.slowest(" ms"), drawn.at(0.95), twoFrames, " ms at p95")
		r.note(fmt.Sprintf("frames for %d events%s", dragSteps, at), frames.spread(""))
	}
	return nil
}

// dragged is the result of a drag: the ms after each event until it showed, and the
// number of frames drawn.
type dragged struct {
	Read, Drawn sample
	Frames      float64
}

func drag(ctx context.Context, s *sites, rate float64) (got dragged, err error) {
	b, err := openSettled(ctx, s)
	if err != nil {
		return got, err
	}
	defer b.Close()
	if err := b.Slow(rate); err != nil {
		return got, err
	}
	if err := b.EvalAsync(dragScript, &got, dragSteps); err != nil {
		return got, err
	}
	if len(got.Read) != dragSteps || len(got.Drawn) != dragSteps {
		err = fmt.Errorf("of %d events, %d changed the reading and %d were drawn", dragSteps, len(got.Read), len(got.Drawn))
	}
	return got, err
}

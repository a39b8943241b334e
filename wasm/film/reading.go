//go:build js && wasm

package main

import (
	"errors"
	"io"
	"slices"
	"syscall/js"
	"time"

	"pivotbench/wasm/container"
	"pivotbench/wasm/message"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/reel"
)

// A reading is a film that is being read: what the page hands over, or what the browser
// decodes of a file.
type reading struct {
	reel  reel.Reel
	first message.FilmFirst
	file  js.Value
	clip  *clip  // the decoded file; nil where the page hands pictures over
	luma  []byte // of the last picture, used again for each
	rgba  []byte // of the last one that the page handed over, too
}

// hear returns the answer to a message, or nil if it is none of the page's.
func (r *reading) hear(p post) interface{ Object() message.Object } {
	whole := func(width, height int) bool { return len(r.luma) == width*height }
	if m, ok := message.ReadFilmFirst(p.Object); ok {
		r.shut()
		r.first, r.file = m, p.with
		if !p.with.InstanceOf(js.Global().Get("ArrayBuffer")) {
			return r.open()
		}
		if r.take(p.with); whole(m.Width, m.Height) {
			return r.reel.First(m, r.luma)
		}
	}
	if m, ok := message.ReadFilmMarks(p.Object); ok {
		return r.reel.Marks(m)
	}
	if m, ok := message.ReadFilmNext(p.Object); ok {
		return r.next(m.Start)
	}
	if m, ok := message.ReadFilmFrame(p.Object); ok {
		if r.take(p.with); whole(m.Width, m.Height) {
			return r.reel.Frame(m, r.luma)
		}
	}
	if _, ok := message.ReadFilmEnd(p.Object); ok {
		r.shut()
		return r.reel.End()
	}
	if m, ok := message.ReadFilmFit(p.Object); ok {
		return r.reel.Fit(m)
	}
	return nil
}

// take takes the RGBA that came along with a message.
func (r *reading) take(with js.Value) {
	view := js.Global().Get("Uint8Array").New(with)
	if n := view.Length(); len(r.rgba) != n {
		r.rgba = make([]byte, n)
	}
	js.CopyBytesToGo(r.rgba, view)
	r.luma = reel.Luma(r.rgba, r.luma)
}

func (r *reading) shut() {
	if r.clip != nil {
		r.clip.shut()
		r.clip = nil
	}
}

// open decodes the first picture of the file. Where the browser can't, the answer is the
// times of all pictures.
func (r *reading) open() interface{ Object() message.Object } {
	var err error
	if r.clip, err = openClip(r.file, r.first.Width, r.first.Height); err == nil {
		if r.luma, _, err = r.clip.next(r.luma); err == nil {
			return r.reel.First(r.first, r.luma)
		}
		r.shut()
	}
	return r.times()
}

// times lists when each picture of the file is shown.
func (r *reading) times() message.FilmTimes {
	film, err := container.Open(blobOf(r.file))
	if err != nil {
		return message.FilmTimes{Why: words(err)}
	}
	var out message.FilmTimes
	for {
		p, err := film.Next()
		if err != nil {
			break
		}
		if p.Time >= 0 {
			out.Times = append(out.Times, p.Time)
		}
	}
	slices.Sort(out.Times)
	if out.Times = slices.Compact(out.Times); len(out.Times) == 0 {
		out.Why = words(container.ErrBroken)
	}
	return out
}

// atATime is how long the file is read before the page is told how far.
const atATime = 150 * time.Millisecond

// next reads more of the file.
func (r *reading) next(start bool) (took message.FilmTook) {
	if start {
		r.shut()
		var err error
		if r.clip, err = openClip(r.file, r.first.Width, r.first.Height); err != nil {
			return message.FilmTook{Why: words(err)}
		}
	}
	if r.clip == nil {
		return message.FilmTook{Why: words(reel.ErrNoStand)}
	}
	for begin := time.Now(); time.Since(begin) < atATime; start = false {
		luma, at, err := r.clip.next(r.luma)
		switch {
		case errors.Is(err, io.EOF):
			return message.FilmTook{Share: 1}
		case err != nil:
			return message.FilmTook{Why: words(err)}
		}
		r.luma = luma
		frame := message.FilmFrame{Time: at, Width: r.first.Width, Height: r.first.Height, Start: start}
		if took = r.reel.Frame(frame, luma); took.Why != "" {
			return took
		}
	}
	return message.FilmTook{Share: r.clip.share(), More: true}
}

// words returns an error as a sentence.
func words(err error) string { return phrase.Upper(err.Error()) + "." }

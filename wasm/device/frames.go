//go:build js && wasm

package device

import (
	"math"
	"syscall/js"
	"time"
)

// A FilmFrame is a frame that was read: its RGBA, its time in seconds, and the share of
// the film that it ends.
type FilmFrame struct {
	Pixels js.Value
	Time   float64
	Share  float64
}

// Frames reads the film from its start and hands every frame to take, in order and one at
// a time, until take returns false or the film ends. It waits while the page is hidden.
// It must not be called from an event.
//
// The video plays, as slowly as this device needs to draw and read each frame. After a
// gap it plays that part again more slowly, and then seeks what is still missing. Where
// gaps follow each other, or the browser does not tell which frame it shows, every frame
// is sought.
func (f *Film) Frames(take func(FilmFrame) bool) error {
	r := reader{Film: f, take: take, length: f.length(), last: -1, step: 1.0 / 60, least: math.Inf(1)}
	if r.length == 0 {
		return ErrNoFrames
	}
	tells := f.video.Get("requestVideoFrameCallback").Type() == js.TypeFunction
	if tells {
		r.pace()
	}
	if _, err := f.seek(0); err != nil {
		return err
	}
	if !r.hand(FilmFrame{Pixels: f.Pixels()}) {
		return nil
	}
	if tells {
		return r.play()
	}
	return r.walk(r.length)
}

// A reader reads the frames of a film.
type reader struct {
	*Film
	take   func(FilmFrame) bool
	length float64 // of the film, in seconds
	last   float64 // time of the last frame that was handed on
	count  int     // of frames that were handed on
	step   float64 // the least time between two frames, as far as is known
	odd    int     // number of frames that came too soon
	least  float64 // the least time at which one did
	rate   float64 // at which the film plays
	over   bool    // take wants no more
	sought float64 // up to here, what is missing was sought: there is none
}

// The rates at which a film plays, as shares of its own. firstPerSecond and perSecond are
// the most frames a second that are asked for, at first and later. waiting is the most
// frames that may wait to be read.
const (
	slowest        = 0.0625 // of which browsers are capable
	paceRate       = 0.25
	firstPerSecond = 15
	perSecond      = 30
	waiting        = 3
)

// pace plays the beginning of the film to learn how far its frames are apart.
func (r *reader) pace() {
	const gaps, limit = 5, 1200 * time.Millisecond
	over := time.After(limit)
	r.video.Set("playbackRate", paceRate)
	r.Film.play()
	last, least, seen := -1.0, math.Inf(1), 0
	for seen < gaps {
		select {
		case at := <-r.shown():
			if last >= 0 && at > last+shortest {
				least = min(least, at-last)
				seen++
			}
			last = at
			continue
		case <-r.shut:
		case <-over:
		}
		break
	}
	r.video.Call("pause")
	if seen > 0 {
		r.step = least
	}
}

// mostOdd is the most frames that may come too soon before the times that the browser tells
// are no longer trusted. finest is the time between two frames of the fastest films.
const (
	mostOdd = 5
	finest  = 1.0 / 240
)

// shortest is less than the time, in seconds, between two frames of any film.
const shortest = 1.0 / 1000

// hand hands a frame on, and reports whether to go on. A frame that comes too soon after
// the last one is left out. It is that one again, since some browsers tell where they are
// as the frame's time, or the film has more frames than were seen so far.
func (r *reader) hand(frame FilmFrame) bool {
	if gap := frame.Time - r.last; r.last >= 0 && gap < 0.7*r.step {
		if gap > shortest {
			r.odd++
			r.least = min(r.least, gap)
		}
		return true
	}
	r.last = frame.Time
	r.count++
	frame.Share = min(1, frame.Time/r.length)
	r.over = !r.take(frame)
	return !r.over
}

// lacks reports whether frames are missing between the last one and a time at which the
// next one is, or the film's end.
func (r *reader) lacks(next float64) bool {
	return next > r.last+1.5*r.step && next > r.sought+shortest
}

// play plays the film and hands on what is shown.
func (r *reader) play() error {
	r.rate = max(slowest, min(firstPerSecond*r.step, 1))
	gapAfter := -1.0 // time of the last frame before the last gap
	poor := 0        // plays in a row that gave few frames
	for !r.over {
		before := r.count
		next, more, err := r.playOn()
		if err != nil || !more {
			return err
		}
		if poor++; r.count-before > 4 {
			poor = 0
		}
		switch {
		case poor >= 4:
			return r.walk(r.length)
		case r.odd > mostOdd:
			r.step = max(finest, r.least)
			return r.walk(r.length)
		case r.last > gapAfter:
			gapAfter = r.last
			r.rate = max(slowest, r.rate/2)
		default:
			if err := r.walk(next); err != nil {
				return err
			}
			r.sought = next
		}
		if _, err := r.seek(r.last + r.step/2); err != nil {
			return err
		}
	}
	return nil
}

// playOn plays from where the film is until a frame is missing, and returns the time of
// the frame after that gap. more is false at the end.
func (r *reader) playOn() (next float64, more bool, err error) {
	frames := make(chan FilmFrame, 4*waiting)
	done := false
	var heard js.Func
	heard = js.FuncOf(func(_ js.Value, args []js.Value) any {
		if done {
			heard.Release()
			return nil
		}
		if len(frames) < cap(frames) { // else it is a gap
			frames <- FilmFrame{Pixels: r.Pixels(), Time: args[1].Get("mediaTime").Float()}
		}
		if len(frames) >= waiting {
			r.video.Call("pause")
		}
		r.video.Call("requestVideoFrameCallback", heard)
		return nil
	})
	defer func() {
		done = true
		r.video.Call("pause")
	}()
	r.video.Call("requestVideoFrameCallback", heard)
	good := 0 // frames without a gap
	for {
		if !r.inSight() {
			return 0, false, nil
		}
		ended := r.video.Get("ended").Bool()
		if len(frames) == 0 && ended {
			time.Sleep(afterEnd)
			if len(frames) == 0 {
				return r.length, r.lacks(r.length), nil
			}
		}
		if len(frames) == 0 && r.video.Get("paused").Bool() {
			r.video.Set("playbackRate", r.rate)
			r.Film.play()
		}
		select {
		case frame := <-frames:
			if r.lacks(frame.Time) {
				return frame.Time, true, nil
			}
			if !r.hand(frame) {
				return 0, false, nil
			}
			if r.odd > mostOdd {
				return frame.Time, true, nil
			}
			if good++; good%8 == 0 {
				r.rate = max(slowest, min(1.3*r.rate, perSecond*r.step, 1))
			}
		case <-r.shut:
			return 0, false, nil
		case <-time.After(framePatient):
			if !r.video.Get("ended").Bool() && !hidden() {
				return 0, false, ErrNoFrames
			}
		}
	}
}

// afterEnd is how late the last frame may be shown after the film has ended.
const afterEnd = 100 * time.Millisecond

func hidden() bool { return js.Global().Get("document").Get("hidden").Bool() }

// inSight waits, with the film paused, until the page is not hidden: browsers show no
// frames while it is. It returns false if the film is let go of meanwhile.
func (r *reader) inSight() bool {
	for hidden() {
		r.video.Call("pause")
		select {
		case <-r.shut:
			return false
		case <-time.After(200 * time.Millisecond):
		}
	}
	return true
}

// settling is how late a frame may be drawn after it was sought, where the browser does not
// tell.
const settling = 40 * time.Millisecond

// walk seeks one frame after the other, until before a time. It looks where the middle of
// each frame should be.
func (r *reader) walk(until float64) error {
	for at := r.last + 1.5*r.step; at < until; at += r.step {
		if !r.inSight() {
			return nil
		}
		t, err := r.seek(at)
		if err != nil {
			return err
		}
		if r.odd > mostOdd {
			time.Sleep(settling)
			t = at - r.step/2
		} else if math.Abs(t-at) < shortest { // it tells where it was sent
			t = at - r.step/2
		}
		if !math.IsNaN(t) && t < until-shortest && !r.hand(FilmFrame{Pixels: r.Pixels(), Time: t}) {
			return nil
		}
	}
	return nil
}

//go:build js && wasm

package device

import (
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

// Frames hands the frames of the film to take, one at a time, until take returns false.
// times are those of all frames in order. The browser is sent to the middle of each: what
// it shows then is that frame, in every engine, whatever it tells of it. Frames waits while
// the page is hidden, when browsers show nothing. It must not be called from an event.
func (f *Film) Frames(times []float64, take func(FilmFrame) bool) error {
	for i, at := range times {
		if !f.inSight() {
			return nil
		}
		if err := f.show(times, i); err != nil {
			return err
		}
		if !take(FilmFrame{f.pixels(), at, float64(i+1) / float64(len(times))}) {
			return nil
		}
	}
	return nil
}

// First returns the RGBA of the first frame, shown in the same way.
func (f *Film) First(times []float64) (pixels js.Value, err error) {
	if err := f.show(times, 0); err != nil {
		return pixels, err
	}
	return f.pixels(), nil
}

// show sends the browser to the middle of a frame, by its number.
func (f *Film) show(times []float64, i int) error {
	at, end := times[i], f.length() // of the last frame
	if i+1 < len(times) {
		end = times[i+1]
	}
	return f.seek((at + max(at, end)) / 2)
}

func hidden() bool { return js.Global().Get("document").Get("hidden").Bool() }

// inSight waits until the page is not hidden. It returns false if the film is let go of
// meanwhile.
func (f *Film) inSight() bool {
	for hidden() {
		select {
		case <-f.shut:
			return false
		case <-time.After(200 * time.Millisecond):
		}
	}
	return true
}

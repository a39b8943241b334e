//go:build js && wasm

package device

import (
	"errors"
	"math"
	"strings"
	"syscall/js"
	"time"
)

// A Film is a video file in a <video> element, whose frames are drawn at most mostPixels
// long and handed on as RGBA.
type Film struct {
	video, canvas, pen, url js.Value
	Width, Height           int     // of the frames as they are handed on
	Scale                   float64 // pixels of the film for one of those
	shut                    chan struct{}
}

const (
	mostPixels   = 1280
	filmPatient  = 15 * time.Second // for the browser to open a film
	framePatient = 5 * time.Second  // for a frame
)

// Reasons why a film cannot be read.
var (
	ErrNoPicture = errors.New("there is no picture in this file, only sound")
	ErrNoFilm    = errors.New("this is not a video: choose one, such as an MP4, MOV or WebM file")
	ErrCodec     = errors.New("this browser can't open this video: it is damaged, or of a kind that it can't decode. H.264 (MP4) and VP8 or VP9 (WebM) work nearly everywhere: on a phone, choose “most compatible” in the camera's settings")
	ErrNoFrames  = errors.New("the browser stopped giving frames: close other videos and choose the film again")
)

// OpenFilm loads a file into a video element and shows its first frame. It waits for the
// browser, so it must not be called from an event.
func OpenFilm(video, file js.Value) (*Film, error) {
	kind := file.Get("type").String()
	if strings.HasPrefix(kind, "image/") || strings.HasPrefix(kind, "text/") {
		return nil, ErrNoFilm
	}
	f := &Film{video: video, shut: make(chan struct{})}
	f.url = js.Global().Get("URL").Call("createObjectURL", file)
	if err := f.open(); err != nil {
		f.Shut()
		if err == ErrCodec && !strings.HasPrefix(kind, "video/") {
			err = ErrNoFilm
		}
		return nil, err
	}
	return f, nil
}

// open loads the film, and makes ready to draw its frames.
func (f *Film) open() error {
	known, loaded, failed := f.next("loadedmetadata"), f.next("loadeddata"), f.next("error")
	f.video.Set("muted", true)
	f.video.Set("src", f.url)
	f.video.Call("load")
	if !within(known, failed) {
		return ErrCodec
	}
	width, height := f.Size()
	if width == 0 || height == 0 {
		return ErrNoPicture
	}
	f.play() // some phones load no picture before
	if !within(loaded, failed) {
		return ErrCodec
	}
	f.video.Call("pause")
	if f.length() == 0 { // a recording of a browser's own: its end tells
		if err := f.seek(1e9); err != nil {
			return err
		}
	}
	f.Scale = max(1, max(width, height)/mostPixels)
	f.Width, f.Height = int(math.Round(width/f.Scale)), int(math.Round(height/f.Scale))
	f.canvas = js.Global().Get("document").Call("createElement", "canvas")
	f.canvas.Set("width", f.Width)
	f.canvas.Set("height", f.Height)
	f.pen = f.canvas.Call("getContext", "2d", map[string]any{"willReadFrequently": true, "alpha": false})
	return f.seek(0)
}

// play plays the film from where it is, if the browser lets it.
func (f *Film) play() {
	nothing := func(js.Value) {}
	Await(f.video.Call("play"), nothing, nothing)
}

// within reports whether an event comes before another one, and soon enough.
func within(good, bad <-chan struct{}) bool {
	select {
	case <-good:
		return true
	case <-bad:
	case <-time.After(filmPatient):
	}
	return false
}

// Size returns the width and height of the film in its own pixels.
func (f *Film) Size() (width, height float64) {
	return f.video.Get("videoWidth").Float(), f.video.Get("videoHeight").Float()
}

// length returns the length of the film in seconds; 0 if it is not known.
func (f *Film) length() float64 {
	if length := f.video.Get("duration").Float(); length > 0 && length < 1e6 {
		return length
	}
	return 0
}

// Shut lets go of the film, and ends its reading.
func (f *Film) Shut() {
	select {
	case <-f.shut:
		return
	default:
	}
	close(f.shut)
	if f.video.Get("src").Equal(f.url) { // else it shows another film already
		f.video.Call("pause")
		f.video.Call("removeAttribute", "src")
		f.video.Call("load")
	}
	js.Global().Get("URL").Call("revokeObjectURL", f.url)
}

// next returns a channel that receives once the video fires an event.
func (f *Film) next(name string) <-chan struct{} {
	ch := make(chan struct{}, 1)
	var heard js.Func
	heard = js.FuncOf(func(js.Value, []js.Value) any {
		heard.Release()
		ch <- struct{}{}
		return nil
	})
	f.video.Call("addEventListener", name, heard, map[string]any{"once": true})
	return ch
}

// pixels draws the frame that the video shows, and returns its RGBA.
func (f *Film) pixels() (pixels js.Value) {
	f.pen.Call("drawImage", f.video, 0, 0, f.Width, f.Height)
	return f.pen.Call("getImageData", 0, 0, f.Width, f.Height).Get("data").Get("buffer")
}

// Seek shows the frame at a time in seconds, without waiting for it.
func (f *Film) Seek(at float64) { f.video.Set("currentTime", at) }

// seek shows the frame at a time, and waits for it.
func (f *Film) seek(at float64) error {
	seeked := f.next("seeked")
	f.video.Set("currentTime", at)
	select {
	case <-seeked:
		return nil
	case <-f.shut:
	case <-time.After(framePatient):
	}
	return ErrNoFrames
}

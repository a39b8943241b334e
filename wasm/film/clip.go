//go:build js && wasm

package main

import (
	"errors"
	"io"
	"math"
	"syscall/js"
	"time"

	"pivotbench/wasm/container"
)

// A clip is a file whose pictures the browser decodes, each once and in order, by WebCodecs.
// They are set upright, in the size that is wanted.
type clip struct {
	blob
	size          int64
	width, height int
	film          *container.Film
	planes        planes
	part          js.Value // Uint8Array of the file from one byte to another
	from, to      int64
	less          []byte // luma of the last picture that was made smaller
	pen           pen
	decoder       decoder
	fed           int     // pictures handed to the decoder
	keys          []key   // of those that need no other, the last before the picture due next, and what follows
	read          int64   // bytes of the file up to the last of them
	last          float64 // time of the last picture
	again         bool    // the decoder was started again, and nothing has come of it yet
	done          bool    // all pictures are with the decoder
}

// A key is a picture that can be decoded without any other: its number in the file, and its time
// in seconds.
type key struct {
	number int
	time   float64
}

// Reasons why a file is not decoded, or no further.
var (
	errNoDecoder = errors.New("this browser can't decode this film")
	errLost      = errors.New("the browser stopped decoding the film: read the stroke again")
)

// openClip opens a file whose pictures are to be so large.
func openClip(file js.Value, width, height int) (*clip, error) {
	b, size := blobOf(file)
	c := &clip{blob: b, size: size, width: width, height: height, last: math.Inf(-1)}
	if err := c.start(0); err != nil {
		return nil, err
	}
	return c, nil
}

// start starts a decoder that is to begin with a picture, by its number.
func (c *clip) start(from int) (err error) {
	if c.film, err = container.Open(c.blob, c.size); err != nil {
		return err
	}
	for c.fed = 0; c.fed < from; c.fed++ {
		if _, err := c.film.Next(); err != nil {
			return err
		}
	}
	c.keys, c.done = nil, false
	c.decoder, err = newDecoder(c.film)
	return err
}

func (c *clip) shut() { c.decoder.close() }

// share returns how much of the file has been read.
func (c *clip) share() float64 { return float64(c.read) / float64(c.size) }

// next returns the luma of the next picture, in luma if that is large enough, and its time in
// seconds. Its error is io.EOF after the last one, or where no more of a
// damaged file can be decoded. A decoder that the browser took away, as it may while the
// phone is locked, is started again.
func (c *clip) next(luma []byte) ([]byte, float64, error) {
	for {
		frame, err := c.decoded()
		if err == errLost && !c.again && !math.IsInf(c.last, -1) {
			c.again = true
			c.shut()
			if err = c.start(c.keys[0].number); err == nil {
				continue
			}
		}
		if err == errLost && c.again {
			err = io.EOF
		}
		if err != nil {
			return luma, 0, err
		}
		at := frame.Get("timestamp").Float() * 1e-6
		if at < 0 || at <= c.last {
			frame.Call("close")
			continue
		}
		c.last, c.again = at, false
		for len(c.keys) > 1 && c.keys[1].time <= at+tick {
			c.keys = c.keys[1:]
		}
		luma, err = c.luma(frame, luma)
		return luma, at, err
	}
}

// tick is how far a picture's time may be from the file's in seconds: WebCodecs counts
// microseconds.
const tick = 1e-6

// ahead is the most pictures that wait for the decoder, and that it may have ready.
const ahead = 4

// silent is how long a decoder may take.
const silent = 10 * time.Second

// decoded returns the next picture as the decoder has it.
func (c *clip) decoded() (frame js.Value, err error) {
	for begin := time.Now(); time.Since(begin) < silent; {
		for !c.done && len(c.decoder.frames) < ahead && c.decoder.waiting() < ahead {
			c.feed()
		}
		frame, err = c.decoder.next()
		if frame.Truthy() || err != nil {
			return frame, err
		}
	}
	return frame, errLost
}

// gulp is how much of the file is read at a time, in bytes. Each reading takes a millisecond or two,
// however little it is.
const gulp = 256 << 10

// data returns the bytes of a picture. ok is false if the device does not let them be read.
func (c *clip) data(p container.Packet) (data js.Value, ok bool) {
	if p.Offset < c.from || p.Offset+int64(p.Size) > c.to {
		buffer, ok := c.bytes(p.Offset, max(p.Size, gulp))
		if !ok {
			return buffer, false
		}
		c.part, c.from = js.Global().Get("Uint8Array").New(buffer), p.Offset
		c.to = c.from + int64(c.part.Length())
	}
	at := int(p.Offset - c.from)
	return c.part.Call("subarray", at, at+p.Size), true
}

// feed hands the decoder another picture.
func (c *clip) feed() {
	p, err := c.film.Next()
	if err != nil {
		c.done = true
		c.decoder.flush()
		return
	}
	data, ok := c.data(p)
	if !ok {
		c.done = true
		c.decoder.flush()
		return
	}
	if p.Key {
		c.keys = append(c.keys, key{c.fed, p.Time})
	}
	c.fed++
	c.read = max(c.read, p.Offset+int64(p.Size))
	c.decoder.decode(p, data)
}

// luma returns the luma of a picture, and lets go of it. It is taken as the decoder has it where
// the browser lets that be had, and drawn elsewhere.
func (c *clip) luma(frame js.Value, luma []byte) ([]byte, error) {
	defer frame.Call("close")
	wide, high := frame.Get("displayWidth").Int(), frame.Get("displayHeight").Int()
	w, h := c.width, c.height
	if c.film.Turn%2 == 1 {
		w, h = h, w
	}
	if math.Abs(float64(wide)/float64(high)*float64(h)/float64(w)-1) > 0.02 {
		return luma, errNoDecoder // the browser shows the film in another way
	}
	if plane, ok := c.planes.copy(frame, wide, high); ok {
		plane.Turn = c.film.Turn
		if wide != w || high != h {
			plane = plane.Smaller(w, h, c.less)
			c.less = plane.Luma
		}
		return plane.Upright(luma), nil
	}
	return c.pen.draw(frame, c.width, c.height, c.film.Turn, luma)
}

// Package container reads the tables of a video file: how its pictures are coded, when
// each is shown, and where its bytes are. It knows MP4 and QuickTime files, whole and in
// fragments (ISO/IEC 14496-12), and WebM and Matroska (RFC 9559). Of the pictures'
// bytes it reads none, so a file may be of any length. Plain Go.
package container

import (
	"errors"
	"io"
)

// A Film is the first picture track of a file.
type Film struct {
	Codec  string // as WebCodecs names it, such as "avc1.64001f"; empty if it is not known here
	Config []byte // what the decoder has to know besides; nil if it needs nothing
	Width  int    // of the pictures as they are coded, in pixels
	Height int
	Turn   int // clockwise quarter turns by which they are shown
	next   func() (Packet, error)
}

// A Packet is a coded picture.
type Packet struct {
	Time   float64 // when it is shown, in seconds; those before 0 are not
	Key    bool    // it needs no other picture
	Offset int64   // of its bytes in the file
	Size   int
}

// Next returns the next picture, in the order of decoding, and io.EOF after the last one
// and where the file has been cut off.
func (f *Film) Next() (Packet, error) { return f.next() }

// Errors of Open.
var (
	ErrUnknown = errors.New("this is no MP4, MOV or WebM file, so the times of its frames can't be read: save the film as one of those")
	ErrBroken  = errors.New("this file is damaged or cut: the times of its frames can't be read. Copy it from the phone again")
)

// Open reads the head of a file of the given size.
func Open(r io.ReaderAt, size int64) (*Film, error) {
	s := &source{r: r, size: size}
	head, err := s.read(0, 8)
	if err != nil {
		return nil, ErrUnknown
	}
	if string(head[:4]) == "\x1a\x45\xdf\xa3" {
		return openMatroska(s)
	}
	switch string(head[4:]) {
	case "ftyp", "moov", "mdat", "wide", "free", "skip":
		return openMP4(s)
	}
	return nil, ErrUnknown
}

// A source is a file of which small pieces are read, mostly one after the other.
type source struct {
	r    io.ReaderAt
	size int64
	held []byte // a part of the file
	at   int64  // where it begins
}

// piece is how much is read at once.
const piece = 32 << 10

// read returns n bytes at an offset. They are valid until the next read.
func (s *source) read(at int64, n int) ([]byte, error) {
	if at < 0 || n < 0 || at+int64(n) > s.size {
		return nil, io.ErrUnexpectedEOF
	}
	if at < s.at || at+int64(n) > s.at+int64(len(s.held)) {
		s.held = make([]byte, min(max(int64(n), piece), s.size-at))
		s.at = at
		if got, err := s.r.ReadAt(s.held, at); got < len(s.held) {
			s.held = nil
			return nil, err
		}
	}
	return s.held[at-s.at:][:n], nil
}

package container

import (
	"encoding/binary"
	"io"
)

// A box is a part of an MP4 file: a type and a content, which may be boxes.
type box struct {
	kind       string
	begin, end int64 // of the content in the file
}

// nextBox returns the box that begins at an offset of the file.
func nextBox(s *source, at int64) (box, error) {
	head, err := s.read(at, 8)
	if err != nil {
		return box{}, err
	}
	b := box{string(head[4:8]), at + 8, at + int64(binary.BigEndian.Uint32(head))}
	switch b.end - at {
	case 0: // to the end of the file
		b.end = s.size
	case 1:
		long, err := s.read(at+8, 8)
		if err != nil {
			return box{}, err
		}
		b.begin, b.end = at+16, at+int64(binary.BigEndian.Uint64(long))
	}
	if b.end < b.begin {
		return box{}, ErrBroken
	}
	return b, nil
}

// largest is the most bytes of a file's tables that are read: those of many hours.
const largest = 64 << 20

// content returns the content of a box.
func (b box) content(s *source) (bytes, error) {
	if b.end-b.begin > largest {
		return nil, ErrBroken
	}
	return s.read(b.begin, int(b.end-b.begin))
}

// bytes is a part of a file that has been read. What lies beyond its end reads as 0.
type bytes []byte

func (b bytes) from(at int) bytes { return b[min(max(at, 0), len(b)):] }

func (b bytes) uint(at, size int) (v uint64) {
	for i := range size {
		v <<= 8
		if at+i < len(b) {
			v |= uint64(b[at+i])
		}
	}
	return v
}

func (b bytes) u32(at int) int { return int(b.uint(at, 4)) }

// boxes calls each with the boxes in b.
func (b bytes) boxes(each func(kind string, content bytes)) {
	for len(b) >= 8 {
		size, head := b.u32(0), 8
		if size == 1 {
			size, head = int(min(b.uint(8, 8), 1<<62)), 16
		}
		if size == 0 {
			size = len(b)
		}
		if size < head || size > len(b) {
			return
		}
		each(string(b[4:8]), b[head:size])
		b = b[size:]
	}
}

// box returns the content of the first box in b along a path; nil if there is none.
func (b bytes) box(path ...string) bytes {
	for _, kind := range path {
		var found bytes
		b.boxes(func(k string, content bytes) {
			if found == nil && k == kind {
				found = content
			}
		})
		if b = found; b == nil {
			return nil
		}
	}
	return b
}

// A track is the picture track of an MP4 file.
type track struct {
	s     *source
	film  *Film
	id    int
	scale float64 // units of time a second
	start float64 // what is shown at 0, in those units
	extra [3]int  // of a picture in a fragment: duration, size, flags
	queue []Packet
	at    int64 // where the next fragment may be
}

func openMP4(s *source) (*Film, error) {
	for at := int64(0); ; {
		b, err := nextBox(s, at)
		if err != nil {
			return nil, ErrBroken
		}
		if b.kind != "moov" {
			at = b.end
			continue
		}
		content, err := b.content(s)
		if err != nil {
			return nil, ErrBroken
		}
		t := &track{s: s}
		if !t.movie(append(bytes(nil), content...)) {
			return nil, ErrBroken
		}
		t.film.next = t.next
		return t.film, nil
	}
}

// pictures is "vide", the type of a track's handler.
const pictures = 'v'<<24 | 'i'<<16 | 'd'<<8 | 'e'

// movie reads what a movie says about its first picture track. It reports whether there
// is one.
func (t *track) movie(moov bytes) bool {
	moov.boxes(func(kind string, trak bytes) {
		if kind == "trak" && t.film == nil && trak.box("mdia", "hdlr").u32(8) == pictures {
			t.head(moov, trak)
		}
	})
	if t.film == nil || t.scale == 0 {
		return false
	}
	moov.box("mvex").boxes(func(kind string, trex bytes) {
		if kind == "trex" && trex.u32(4) == t.id {
			t.extra = [3]int{trex.u32(12), trex.u32(16), trex.u32(20)}
		}
	})
	return true
}

// head reads a track: its decoder, when it begins, which way up it is, and its pictures.
func (t *track) head(moov, trak bytes) {
	tkhd, mdhd := trak.box("tkhd"), trak.box("mdia", "mdhd")
	id, matrix, scale := 12, 40, 12
	if tkhd.uint(0, 1) == 1 { // of version 1, whose times have 8 bytes
		id, matrix = 20, 52
	}
	if mdhd.uint(0, 1) == 1 {
		scale = 20
	}
	t.id, t.scale = tkhd.u32(id), float64(mdhd.u32(scale))
	table := trak.box("mdia", "minf", "stbl")
	entry := table.box("stsd").from(8) // version, flags, and the number of entries, of which the first counts
	entry = entry[:min(len(entry), max(8, entry.u32(0)))]
	f := &Film{Width: int(entry.uint(32, 2)), Height: int(entry.uint(34, 2))}
	if len(entry) >= 8 {
		f.Codec, f.Config = codecOf(string(entry[4:8]), entry.from(86))
	}
	switch [2]int32{int32(tkhd.u32(matrix)), int32(tkhd.u32(matrix + 4))} {
	case [2]int32{0, 1 << 16}:
		f.Turn = 1
	case [2]int32{-1 << 16, 0}:
		f.Turn = 2
	case [2]int32{0, -1 << 16}:
		f.Turn = 3
	}
	t.film = f
	t.edit(trak.box("edts", "elst"), moov.box("mvhd"))
	t.samples(table)
}

// edit reads what is shown first: an edit list may begin with a pause, and then show the
// track from some time on.
func (t *track) edit(elst, mvhd bytes) {
	size := 4
	if elst.uint(0, 1) == 1 {
		size = 8
	}
	scale := mvhd.u32(12)
	if mvhd.uint(0, 1) == 1 {
		scale = mvhd.u32(20)
	}
	for i := range min(elst.u32(4), len(elst)/12) {
		at := 8 + i*(2*size+4)
		from := int64(elst.uint(at+size, size))
		if size == 4 {
			from = int64(int32(from))
		}
		if from >= 0 {
			t.start += float64(from)
			return
		}
		if scale > 0 {
			t.start -= float64(elst.uint(at, size)) / float64(scale) * t.scale
		}
	}
}

// most is the most pictures that a table may have.
const most = 1 << 20

// samples lists the pictures that the movie's own tables have.
func (t *track) samples(table bytes) {
	stsz, stts, ctts, stsc, stss := table.box("stsz"), table.box("stts"), table.box("ctts"), table.box("stsc"), table.box("stss")
	count := min(stsz.u32(8), most)
	if stsz.u32(4) == 0 {
		count = min(count, max(0, len(stsz)-12)/4)
	}
	t.queue = make([]Packet, count)
	for i := range t.queue {
		t.queue[i].Size = stsz.u32(4)
		if t.queue[i].Size == 0 {
			t.queue[i].Size = stsz.u32(12 + 4*i)
		}
		t.queue[i].Key = stss == nil
	}
	for i := range min(stss.u32(4), len(stss)/4) {
		if k := stss.u32(8+4*i) - 1; k >= 0 && k < count {
			t.queue[k].Key = true
		}
	}
	runs := func(b bytes, each func(k, value int)) {
		k := 0
		for at := 8; at+8 <= len(b); at += 8 {
			for range b.u32(at) {
				if k == count {
					return
				}
				each(k, b.u32(at+4))
				k++
			}
		}
	}
	when := 0
	runs(stts, func(k, value int) {
		t.queue[k].Time = float64(when)
		when += value
	})
	runs(ctts, func(k, value int) { t.queue[k].Time += float64(int32(value)) })
	for i := range t.queue {
		t.queue[i].Time = t.seconds(t.queue[i].Time)
	}
	// Chunks follow each other anywhere in the file; the pictures of one lie side by side.
	chunks, wide := table.box("stco"), 4
	if chunks == nil {
		chunks, wide = table.box("co64"), 8
	}
	k, entry := 0, 0
	for c := range min(chunks.u32(4), max(0, len(chunks)-8)/wide) {
		for at := 8 + 12*(entry+1); at+12 <= len(stsc) && stsc.u32(at) <= c+1; at += 12 {
			entry++
		}
		offset := int64(chunks.uint(8+wide*c, wide))
		for range stsc.u32(8 + 12*entry + 4) {
			if k == count {
				return
			}
			t.queue[k].Offset = offset
			offset += int64(t.queue[k].Size)
			k++
		}
	}
	t.queue = t.queue[:k]
}

func (t *track) seconds(at float64) float64 { return (at - t.start) / t.scale }

func (t *track) next() (Packet, error) {
	for len(t.queue) == 0 {
		b, err := nextBox(t.s, t.at)
		if err != nil {
			return Packet{}, io.EOF
		}
		if b.kind == "moof" {
			content, err := b.content(t.s)
			if err != nil {
				return Packet{}, io.EOF
			}
			t.fragment(t.at, content)
		}
		t.at = b.end
	}
	p := t.queue[0]
	t.queue = t.queue[1:]
	if p.Offset+int64(p.Size) > t.s.size {
		return Packet{}, io.EOF // the file has been cut off
	}
	return p, nil
}

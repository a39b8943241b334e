package pack

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
)

// The parts of a WebAssembly program's binary form that are read here (WebAssembly Core
// Specification, Binary Format: Modules).
const (
	wasmHead = "\x00asm\x01\x00\x00\x00"

	dataSection, countSection = 11, 12

	i32Const, end = 0x41, 0x0b // of an active segment's address
)

// near is how many zeros may be written between two segments in order to join them.
const near = 256

// A segment is a piece of a program's initial memory.
type segment struct {
	at    int64
	bytes []byte
}

// joined returns a program with nearby segments of its data joined. Go's linker leaves
// out zeros even where they are few, which makes tens of thousands of segments, each with
// a header that does not compress. With the zeros back in, the compressed program is a
// twentieth smaller, and a browser has fewer segments to read.
func joined(program []byte) ([]byte, error) {
	if !bytes.HasPrefix(program, []byte(wasmHead)) {
		return nil, errors.New("this is no WebAssembly program of version 1")
	}
	out := append(make([]byte, 0, len(program)*9/8), wasmHead...)
	r := reader{rest: program[len(wasmHead):]}
	for len(r.rest) > 0 && !r.short {
		id, content := r.byte(), r.take(r.size())
		switch id {
		case countSection: // its code may refer to segments by number
			return nil, errors.New("the program counts its segments")
		case dataSection:
			segments, err := readSegments(content)
			if err != nil {
				return nil, err
			}
			content = written(join(segments))
		}
		out = append(binary.AppendUvarint(append(out, id), uint64(len(content))), content...)
	}
	if r.short {
		return nil, errors.New("the program ends within a section")
	}
	return out, nil
}

// join writes the zeros between segments that are near each other.
func join(segments []segment) []segment {
	var whole []segment
	for _, s := range segments {
		if n := len(whole); n > 0 {
			last := &whole[n-1]
			gap := s.at - last.at - int64(len(last.bytes))
			if 0 <= gap && gap <= near {
				last.bytes = append(append(last.bytes, make([]byte, gap)...), s.bytes...)
				continue
			}
		}
		whole = append(whole, segment{s.at, bytes.Clone(s.bytes)})
	}
	return whole
}

// readSegments reads a data section.
func readSegments(content []byte) ([]segment, error) {
	r := reader{rest: content}
	segments := make([]segment, 0, 1<<16)
	for left := r.size(); left > 0 && !r.short; left-- {
		kind, constant := r.byte(), r.byte()
		at := r.signed()
		if kind != 0 || constant != i32Const || r.byte() != end {
			return nil, fmt.Errorf("segment %d of the data has no plain address", len(segments))
		}
		segments = append(segments, segment{at, r.take(r.size())})
	}
	if r.short || len(r.rest) > 0 {
		return nil, errors.New("the data is not as long as it says")
	}
	return segments, nil
}

// written returns a data section with these segments.
func written(segments []segment) []byte {
	out := binary.AppendUvarint(nil, uint64(len(segments)))
	for _, s := range segments {
		out = appendSigned(append(out, 0, i32Const), s.at)
		out = append(out, end)
		out = append(binary.AppendUvarint(out, uint64(len(s.bytes))), s.bytes...)
	}
	return out
}

// A reader reads a binary form from its start.
type reader struct {
	rest  []byte
	short bool // there was less than was asked for
}

func (r *reader) byte() byte {
	if b := r.take(1); b != nil {
		return b[0]
	}
	return 0
}

func (r *reader) take(n int) []byte {
	if n < 0 || n > len(r.rest) {
		r.short, r.rest = true, nil
		return nil
	}
	taken := r.rest[:n]
	r.rest = r.rest[n:]
	return taken
}

// size reads an unsigned number.
func (r *reader) size() int {
	v, n := binary.Uvarint(r.rest)
	if n <= 0 || v > 1<<31 {
		r.short, r.rest = true, nil
		return 0
	}
	r.rest = r.rest[n:]
	return int(v)
}

// signed reads a signed LEB128 number: seven bits in each byte, the lowest first, with
// the highest bit of the last group as its sign.
func (r *reader) signed() (v int64) {
	for shift := 0; ; shift += 7 {
		b := r.byte()
		v |= int64(b&0x7f) << shift
		if b < 0x80 || r.short {
			if b&0x40 != 0 {
				v |= -1 << (shift + 7)
			}
			return v
		}
	}
}

func appendSigned(out []byte, v int64) []byte {
	for {
		b := byte(v) & 0x7f
		v >>= 7
		if v == 0 && b&0x40 == 0 || v == -1 && b&0x40 != 0 {
			return append(out, b)
		}
		out = append(out, b|0x80)
	}
}

package container

import (
	"io"
	"math"
	"math/bits"
)

// The elements that are read, by their identifiers in RFC 9559.
const (
	segment       = 0x18538067
	info          = 0x1549A966
	timeScale     = 0x2AD7B1
	tracks        = 0x1654AE6B
	trackEntry    = 0xAE
	trackNumber   = 0xD7
	trackType     = 0x83
	codecID       = 0x86
	codecPrivate  = 0x63A2
	encodings     = 0x6D80
	video         = 0xE0
	pixelWidth    = 0xB0
	pixelHeight   = 0xBA
	projection    = 0x7670
	roll          = 0x7675
	cluster       = 0x1F43B675
	clusterTime   = 0xE7
	simpleBlock   = 0xA3
	blockGroup    = 0xA0
	block         = 0xA1
	referTo       = 0xFB
	pictureTracks = 1
)

// A matroska is a file whose elements are walked through in their order.
type matroska struct {
	s     *source
	at    int64
	film  *Film
	track uint64
	tick  float64 // seconds
	now   uint64  // time of the cluster, in ticks
}

// element reads the head of the element at an offset. size is -1 if it is not known.
func (m *matroska) element(at int64) (id uint64, begin, size int64, err error) {
	head, err := m.s.read(at, int(min(12, max(2, m.s.size-at))))
	if err != nil {
		return 0, 0, 0, err
	}
	return elementOf(head, at)
}

func elementOf(head bytes, at int64) (id uint64, begin, size int64, err error) {
	long := bits.LeadingZeros8(uint8(head.uint(0, 1))) + 1
	wide := bits.LeadingZeros8(uint8(head.uint(long, 1))) + 1
	if long > 4 || wide > 8 || long+wide > len(head) {
		return 0, 0, 0, io.ErrUnexpectedEOF
	}
	length := head.uint(long, wide) &^ (1 << (7 * wide))
	size = int64(length)
	if length == 1<<(7*wide)-1 {
		size = -1
	}
	return head.uint(0, long), at + int64(long+wide), size, nil
}

// elements calls each with the elements in b.
func (b bytes) elements(each func(id uint64, content bytes)) {
	for len(b) >= 2 {
		id, begin, size, err := elementOf(b, 0)
		if err != nil || size < 0 || begin+size > int64(len(b)) {
			return
		}
		each(id, b[begin:begin+size])
		b = b[begin+size:]
	}
}

func (b bytes) number() uint64 { return b.uint(0, min(8, len(b))) }

func openMatroska(s *source) (*Film, error) {
	m := &matroska{s: s, tick: 1e-3}
	for m.film == nil {
		if _, ok, err := m.step(); err != nil || ok {
			return nil, ErrBroken // pictures before the track that has them
		}
	}
	m.film.next = func() (Packet, error) {
		for {
			if p, ok, err := m.step(); ok || err != nil {
				return p, err
			}
		}
	}
	return m.film, nil
}

// step reads the next element. ok reports whether it is a picture. Segments and clusters
// are walked into: what is in them says itself what it is, and their sizes may not be known.
func (m *matroska) step() (p Packet, ok bool, err error) {
	id, begin, size, err := m.element(m.at)
	if err != nil {
		return p, false, io.EOF
	}
	if id == segment || id == cluster {
		m.at = begin
		return p, false, nil
	}
	if size < 0 {
		return p, false, io.EOF
	}
	m.at = begin + size
	switch id {
	case info, tracks, clusterTime:
		if size > largest {
			return p, false, ErrBroken
		}
		content, err := m.s.read(begin, int(size))
		if err != nil {
			return p, false, io.EOF
		}
		m.table(id, content)
	case simpleBlock:
		return m.picture(begin, size, nil)
	case blockGroup:
		key, at, long := true, int64(0), int64(0)
		for o := begin; o < m.at; {
			id, from, size, err := m.element(o)
			if err != nil || size < 0 {
				return p, false, io.EOF
			}
			switch id {
			case block:
				at, long = from, size
			case referTo:
				key = false
			}
			o = from + size
		}
		return m.picture(at, long, &key)
	}
	return p, false, nil
}

// picture reads the head of a block. key is nil if that says whether it is a key picture.
func (m *matroska) picture(begin, size int64, key *bool) (p Packet, ok bool, err error) {
	head, err := m.s.read(begin, int(min(12, max(4, size))))
	if err != nil || begin+size > m.s.size {
		return p, false, io.EOF // the file has been cut off
	}
	wide := bits.LeadingZeros8(head[0]) + 1
	if wide > 8 || bytes(head).uint(0, wide)&^(1<<(7*wide)) != m.track {
		return p, false, nil
	}
	flags := bytes(head).uint(wide+2, 1)
	p = Packet{
		Time:   float64(int64(m.now)+int64(int16(bytes(head).uint(wide, 2)))) * m.tick,
		Key:    flags&0x80 != 0,
		Offset: begin + int64(wide) + 3,
		Size:   int(size) - wide - 3,
	}
	if key != nil {
		p.Key = *key
	}
	return p, true, nil
}

// table reads what an element says about the whole file or a cluster.
func (m *matroska) table(id uint64, content bytes) {
	switch id {
	case clusterTime:
		m.now = content.number()
	case info:
		content.elements(func(id uint64, v bytes) {
			if id == timeScale {
				m.tick = float64(v.number()) * 1e-9
			}
		})
	case tracks:
		content.elements(func(id uint64, v bytes) {
			if id == trackEntry && m.film == nil {
				m.entry(v)
			}
		})
	}
}

// entry reads a track, if it has pictures.
func (m *matroska) entry(content bytes) {
	var f Film
	var number, kind uint64
	var name string
	var private bytes
	coded := false
	content.elements(func(id uint64, v bytes) {
		switch id {
		case trackNumber:
			number = v.number()
		case trackType:
			kind = v.number()
		case codecID:
			name = string(v)
		case codecPrivate:
			private = append(private, v...)
		case encodings:
			coded = true
		case video:
			v.elements(func(id uint64, v bytes) {
				switch id {
				case pixelWidth:
					f.Width = int(v.number())
				case pixelHeight:
					f.Height = int(v.number())
				case projection:
					v.elements(func(id uint64, v bytes) {
						if id == roll { // in degrees, counter-clockwise
							f.Turn = (4 - int(math.Round(v.float()/90))%4) % 4
						}
					})
				}
			})
		}
	})
	if kind != pictureTracks {
		return
	}
	m.track, m.film = number, &f
	if !coded {
		f.Codec, f.Config = codecOfMatroska(name, private)
	}
}

// float returns a number that is a float32 or a float64.
func (b bytes) float() float64 {
	if len(b) == 4 {
		return float64(math.Float32frombits(uint32(b.number())))
	}
	return math.Float64frombits(b.number())
}

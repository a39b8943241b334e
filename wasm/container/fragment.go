package container

// Flags of a fragment's boxes, which say which fields follow.
const (
	hasBase     = 0x1
	hasEntry    = 0x2
	hasDuration = 0x8
	hasSize     = 0x10
	hasFlags    = 0x20

	runOffset     = 0x1
	runFirstFlags = 0x4
	runDuration   = 0x100
	runSize       = 0x200
	runFlags      = 0x400
	runShown      = 0x800
)

// needsOthers is set in the flags of a picture that is not a key picture.
const needsOthers = 1 << 16

// fragment lists the pictures of a fragment that begins at an offset of the file.
func (t *track) fragment(begin int64, moof bytes) {
	moof.boxes(func(kind string, traf bytes) {
		if kind != "traf" || traf.box("tfhd").u32(4) != t.id {
			return
		}
		base, usual := begin, t.extra
		head := fields{traf.box("tfhd"), 8}
		has := head.of.u32(0)
		if has&hasBase != 0 {
			base = int64(head.take(8))
		}
		if has&hasEntry != 0 {
			head.take(4)
		}
		for i, flag := range []int{hasDuration, hasSize, hasFlags} {
			if has&flag != 0 {
				usual[i] = int(head.take(4))
			}
		}
		tfdt, wide := traf.box("tfdt"), 4
		if tfdt.uint(0, 1) == 1 {
			wide = 8
		}
		when, offset := float64(tfdt.uint(4, wide)), base
		traf.boxes(func(kind string, trun bytes) {
			if kind == "trun" {
				when, offset = t.run(trun, usual, base, when, offset)
			}
		})
	})
}

// run lists the pictures of a run, and returns when and where the next one begins.
func (t *track) run(trun bytes, usual [3]int, base int64, when float64, offset int64) (float64, int64) {
	f := fields{trun, 8}
	has := trun.u32(0)
	if has&runOffset != 0 {
		offset = base + int64(int32(f.take(4)))
	}
	first := -1
	if has&runFirstFlags != 0 {
		first = int(f.take(4))
	}
	for i := range min(trun.u32(4), most) {
		if f.at >= len(trun) && has&(runDuration|runSize|runFlags|runShown) != 0 {
			break
		}
		of := usual // duration, size, flags
		if i == 0 && first >= 0 {
			of[2] = first
		}
		for j, flag := range []int{runDuration, runSize, runFlags} {
			if has&flag != 0 {
				of[j] = int(f.take(4))
			}
		}
		shown := when
		if has&runShown != 0 {
			shown += float64(int32(f.take(4)))
		}
		t.queue = append(t.queue, Packet{t.seconds(shown), of[2]&needsOthers == 0, offset, of[1]})
		when += float64(of[0])
		offset += int64(of[1])
	}
	return when, offset
}

// fields are numbers that follow each other.
type fields struct {
	of bytes
	at int
}

func (f *fields) take(size int) uint64 {
	v := f.of.uint(f.at, size)
	f.at += size
	return v
}

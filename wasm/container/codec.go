package container

import (
	"encoding/hex"
	"math/bits"
	"strconv"
	"strings"
)

// codecOf returns the name of a codec and the record that its decoder needs, from the kind
// and the boxes of an MP4 file's sample entry. The name is empty if the kind is not known.
func codecOf(kind string, boxes bytes) (codec string, config []byte) {
	switch kind {
	case "avc1", "avc3":
		return named(kind, boxes.box("avcC"))
	case "hvc1", "hev1":
		return named(kind, boxes.box("hvcC"))
	case "av01":
		return named(kind, boxes.box("av1C"))
	case "vp08":
		return "vp8", nil
	case "vp09":
		c := boxes.box("vpcC").from(4)
		return vp9(int(c.uint(0, 1)), int(c.uint(1, 1)), int(c.uint(2, 1)>>4)), nil
	}
	return "", nil
}

// codecOfMatroska does so from the name and the private data of a track.
func codecOfMatroska(name string, private bytes) (codec string, config []byte) {
	switch name {
	case "V_VP8":
		return "vp8", nil
	case "V_VP9":
		return vp9(0, 41, 8), nil
	case "V_MPEG4/ISO/AVC":
		return named("avc1", private)
	case "V_MPEGH/ISO/HEVC":
		return named("hvc1", private)
	case "V_AV1":
		return named("av01", private)
	}
	return "", nil
}

// named returns the name of a codec by its decoder configuration record: RFC 6381 for
// avc1, ISO/IEC 14496-15 for hvc1, and the AV1 codec's binding to ISO files for av01,
// whose pictures need no record.
func named(kind string, record bytes) (string, []byte) {
	if len(record) < 4 {
		return "", nil
	}
	switch kind {
	case "avc1", "avc3":
		return kind + "." + hex.EncodeToString(record[1:4]), record
	case "av01":
		tier, depth := "M", 8
		if record[2]&0x80 != 0 {
			tier = "H"
		}
		if record[2]&0x40 != 0 {
			depth = 10
		}
		return "av01." + strconv.Itoa(int(record[1]>>5)) + "." + two(int(record[1]&31)) + tier + "." + two(depth), nil
	}
	if len(record) < 13 {
		return "", nil
	}
	name := kind + "." + []string{"", "A", "B", "C"}[record[1]>>6] + strconv.Itoa(int(record[1]&31))
	name += "." + strconv.FormatUint(uint64(bits.Reverse32(uint32(record.uint(2, 4)))), 16)
	name += "." + []string{"L", "H"}[record[1]>>5&1] + strconv.Itoa(int(record[12]))
	for _, constraint := range []byte(strings.TrimRight(string(record[6:12]), "\x00")) {
		name += "." + strings.ToUpper(strconv.FormatUint(uint64(constraint), 16))
	}
	return name, record
}

func vp9(profile, level, depth int) string {
	return "vp09." + two(profile) + "." + two(level) + "." + two(depth)
}

// two returns a number with two digits at least.
func two(n int) string {
	if n < 10 {
		return "0" + strconv.Itoa(n)
	}
	return strconv.Itoa(n)
}

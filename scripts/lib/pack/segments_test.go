package pack

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// program returns a module with a section before its data and one after.
func program(data string) string {
	return wasmHead + "\x05\x03\x01\x00\x01" + "\x0b" + string(rune(len(data))) + data + "\x00\x02\x01n"
}

// The meaning of the bytes is that of the WebAssembly Core Specification, Binary Format:
// Modules, Data Section and Values, Integers. The examples of signed numbers are those of
// the Wikipedia article LEB128 (-123456 is c0 bb 78), from memory.
func TestSegmentsNearEachOtherAreJoined(t *testing.T) {
	const (
		first  = "\x00\x41\x08\x0b\x02ab"        // at 8
		near   = "\x00\x41\x0c\x0b\x01c"         // at 12, after two zeros
		far    = "\x00\x41\x80\x80\x04\x0b\x01d" // at 65536
		before = "\x00\x41\xc0\xbb\x78\x0b\x01e" // at -123456, an address near 4 GB
	)
	for what, c := range map[string][2]string{
		"none":            {"\x00", "\x00"},
		"near":            {"\x02" + first + near, "\x01\x00\x41\x08\x0b\x05ab\x00\x00c"},
		"far":             {"\x02" + first + far, "\x02" + first + far},
		"far, then below": {"\x03" + first + far + before, "\x03" + first + far + before},
		"overlapping":     {"\x02" + near + first, "\x02" + near + first},
	} {
		got, err := joined([]byte(program(c[0])))
		require.NoError(t, err, what)
		assert.Equal(t, program(c[1]), string(got), what)
	}
}

func TestJoinedRefusesWhatItCannotRead(t *testing.T) {
	for what, c := range map[string][2]string{
		"no program":            {"\x7fELF", "no WebAssembly program"},
		"half a section":        {wasmHead + "\x05\x03\x01", "ends within a section"},
		"no size":               {wasmHead + "\x05", "ends within a section"},
		"segments by number":    {wasmHead + "\x0c\x01\x01", "counts its segments"},
		"passive data":          {program("\x01\x01\x02ab"), "segment 0 of the data has no plain address"},
		"a computed address":    {program("\x01\x00\x23\x00\x0b\x01a"), "segment 0 of the data has no plain address"},
		"fewer bytes than said": {program("\x01\x00\x41\x08\x0b\x05ab"), "the data is not as long as it says"},
		"more than said":        {program("\x00ab"), "the data is not as long as it says"},
		"a size beyond all":     {wasmHead + "\x05" + strings.Repeat("\xff", 9) + "\x01", "ends within a section"},
	} {
		_, err := joined([]byte(c[0]))
		assert.ErrorContains(t, err, c[1], what)
	}
}

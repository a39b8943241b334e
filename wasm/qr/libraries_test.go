package qr

import (
	"strings"
	"testing"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode/decoder"
	"github.com/makiuchi-d/gozxing/qrcode/encoder"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"rsc.io/qr/coding"
)

// every calls f with each version and level.
func every(f func(v version, level Level)) {
	for v := version(1); v <= largest; v++ {
		for level := L; level <= H; level++ {
			f(v, level)
		}
	}
}

// drawing returns a square as text, so that a failure shows where it differs.
func drawing(size int, black func(x, y int) bool) string {
	var b strings.Builder
	for y := range size {
		for x := range size {
			if black(x, y) {
				b.WriteByte('#')
			} else {
				b.WriteByte('.')
			}
		}
		b.WriteByte('\n')
	}
	return b.String()
}

// filler returns so many pseudorandom bytes.
func filler(n int) string {
	b := make([]byte, n)
	state := uint32(n) + 1
	for i := range b {
		state = state*1664525 + 1013904223 // Knuth's random number generator, from memory
		b[i] = byte(state >> 24)
	}
	return string(b)
}

// rsc.io/qr draws any version, level and mask.
func TestEveryModuleAgainstALibrary(t *testing.T) {
	every(func(v version, level Level) {
		text := filler(v.capacity(level) - int(v)%5)
		m := unmasked(text, v, level)
		for mask := range masks {
			plan, err := coding.NewPlan(coding.Version(v), coding.Level(level), coding.Mask(mask))
			require.NoError(t, err)
			want, err := plan.Encode(coding.String(text))
			require.NoError(t, err)
			code := m.masked(level, mask)
			require.Equal(t, want.Size, code.Size)
			require.Equal(t, drawing(want.Size, want.Black), drawing(code.Size, code.Black), "version %d, level %v, mask %d", v, level, mask)
		}
	})
}

// levels are gozxing's levels.
var levels = [...]decoder.ErrorCorrectionLevel{
	L: decoder.ErrorCorrectionLevel_L, M: decoder.ErrorCorrectionLevel_M,
	Q: decoder.ErrorCorrectionLevel_Q, H: decoder.ErrorCorrectionLevel_H,
}

// gozxing has the tables of the standard written out.
func TestTablesAgainstALibrary(t *testing.T) {
	every(func(v version, level Level) {
		want, err := decoder.Version_GetVersionForNumber(int(v))
		require.NoError(t, err)
		assert.Equal(t, want.GetDimensionForVersion(), v.size())
		assert.Equal(t, want.GetTotalCodewords(), v.codewords())
		assert.ElementsMatch(t, want.GetAlignmentPatternCenters(), v.alignment())
		in := want.GetECBlocksForLevel(levels[level])
		assert.Equal(t, in.GetNumBlocks(), int(blocks[level][v-1]), "version %d, level %v", v, level)
		assert.Equal(t, in.GetECCodewordsPerBlock(), int(checks[level][v-1]), "version %d, level %v", v, level)
		assert.Equal(t, coding.Version(v).DataBytes(coding.Level(level)), v.data(level))
	})
}

// gozxing chooses version and mask itself, by the same rules.
func TestChoicesAgainstALibrary(t *testing.T) {
	seen := map[int]bool{}
	every(func(v version, level Level) {
		text := strings.Repeat("a shot&that=passes;", 200)[:v.capacity(level)]
		want, refused := encoder.Encoder_encodeWithoutHint(text, levels[level])
		require.NoError(t, refused)
		code, err := Encode(text, level)
		require.NoError(t, err)
		assert.Equal(t, int(v), want.GetVersion().GetVersionNumber())
		assert.Equal(t, drawing(v.size(), func(x, y int) bool { return want.GetMatrix().Get(x, y) == 1 }),
			drawing(code.Size, code.Black), "version %d, level %v", v, level)
		seen[want.GetMaskPattern()] = true
	})
	assert.Len(t, seen, len(masks), "each mask is the best of some code")
}

// read reads a code with gozxing.
func read(t *testing.T, c Code) (string, error) {
	t.Helper()
	grid, err := gozxing.NewSquareBitMatrix(c.Size)
	require.NoError(t, err)
	for y := range c.Size {
		for x := range c.Size {
			if c.Black(x, y) {
				grid.Set(x, y)
			}
		}
	}
	result, err := decoder.NewDecoder().DecodeWithoutHint(grid)
	if err != nil {
		return "", err
	}
	var text strings.Builder
	for _, segment := range result.GetByteSegments() {
		text.Write(segment)
	}
	return text.String(), nil
}

func TestEveryVersionIsReadBack(t *testing.T) {
	every(func(v version, level Level) {
		text := filler(v.capacity(level))
		code, err := Encode(text, level)
		require.NoError(t, err)
		assert.Equal(t, v.size(), code.Size)
		back, err := read(t, code)
		require.NoError(t, err)
		assert.Equal(t, text, back, "version %d, level %v", v, level)
	})
}

// Of the 26 codewords of version 1-H eight may be wrong, but no more (table 9, from
// memory).
func TestDamageIsCorrected(t *testing.T) {
	const text = "pass=9"
	code, err := Encode(text, H)
	require.NoError(t, err)
	damage := func(left, right, top, bottom int) {
		for y := top; y <= bottom; y++ {
			for x := left; x <= right; x++ {
				code.dark[y*code.Size+x] = !code.dark[y*code.Size+x]
			}
		}
	}
	damage(17, 20, 9, 20) // the first six codewords
	damage(15, 16, 13, 20)
	back, err := read(t, code)
	require.NoError(t, err)
	assert.Equal(t, text, back)
	damage(15, 16, 9, 12) // the ninth
	_, err = read(t, code)
	assert.Error(t, err)
}

func FuzzEncode(f *testing.F) {
	f.Add("", 0)
	f.Add("https://example.org/bench/#v=1&side=0.45&bridge=12in", 1)
	f.Add("é½漢😀\x00\xff", 2)
	f.Add(filler(300), 3)
	f.Fuzz(func(t *testing.T, text string, level int) {
		code, err := Encode(text, Level(level&3))
		if len(text) > largest.capacity(Level(level&3)) {
			require.Error(t, err)
			return
		}
		require.NoError(t, err)
		back, err := read(t, code)
		require.NoError(t, err)
		assert.Equal(t, text, back)
	})
}

package reel_test

import (
	"image/color"
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/wasm/reel"
)

// Go's image/color has the same weights, of JFIF.
func TestLuma(t *testing.T) {
	var rgba []byte
	var want []byte
	for _, c := range [][3]byte{{0, 0, 0}, {255, 255, 255}, {255, 0, 0}, {0, 255, 0}, {0, 0, 255}, {12, 120, 60}, {200, 190, 30}} {
		rgba = append(rgba, c[0], c[1], c[2], 255)
		y, _, _ := color.RGBToYCbCr(c[0], c[1], c[2])
		want = append(want, y)
	}
	got := reel.Luma(rgba, nil)
	assert.Len(t, got, len(want))
	for i := range got {
		assert.InDelta(t, want[i], got[i], 1, "colour %d", i)
	}
	again := reel.Luma(rgba, got)
	assert.Same(t, &got[0], &again[0], "written to what was given")
}

func TestUpright(t *testing.T) {
	// a b c   with two bytes to spare in each row
	// d e f
	p := reel.Plane{Width: 3, Height: 2, Stride: 5, Full: true, Luma: []byte("abc--def--")}
	for turn, want := range []string{"abcdef", "daebfc", "fedcba", "cfbead"} {
		p.Turn = turn
		assert.Equal(t, want, string(p.Upright(nil)), "%d quarter turns", turn)
	}
	short := reel.Plane{Width: 5, Height: 1, Stride: 5, Luma: []byte{0, 16, 126, 235, 255}}
	assert.Equal(t, []byte{0, 0, 128, 255, 255}, short.Upright(nil), "black is 16 and white 235")
}

// Each pixel is the mean of what it covers, which for three to one is nine pixels, and for three
// to two one whole pixel, two halves and a quarter.
func TestSmaller(t *testing.T) {
	p := reel.Plane{Width: 6, Height: 3, Stride: 7, Luma: []byte{
		0, 9, 18, 90, 90, 90, 1,
		27, 36, 45, 90, 99, 90, 1,
		54, 63, 72, 90, 90, 90, 1,
	}}
	third := p.Smaller(2, 1, nil)
	assert.Equal(t, []byte{36, 91}, third.Luma)
	assert.Equal(t, [3]int{2, 1, 2}, [3]int{third.Width, third.Height, third.Stride})

	p = reel.Plane{Width: 3, Height: 3, Stride: 3, Luma: []byte{
		0, 90, 180,
		90, 180, 90,
		180, 90, 45,
	}}
	half := p.Smaller(2, 2, make([]byte, 4))
	assert.Equal(t, []byte{60, 140, 140, 80}, half.Luma)
	same := p.Smaller(3, 3, nil)
	assert.Equal(t, p.Luma, same.Luma)
}

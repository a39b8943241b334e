package view_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/scenario"
	"pivotbench/wasm/view"
)

func TestHandsWords(t *testing.T) {
	for share, want := range map[float64]string{
		1: "back hand alone", 0: "front hand alone", 0.61: "back hand 61 %, front hand 39 %",
		1.2:  "back hand 120 %, then front hand 20 % the other way",
		-0.3: "front hand 130 %, then back hand 30 % the other way",
	} {
		assert.Equal(t, want, view.HandsWords(share))
	}
}

func TestShiftWords(t *testing.T) {
	s := scenario.Default()
	assert.Equal(t, "1.02 in left, 2.0 tips, 0.45 ball", view.ShiftWords(&s, -0.026))
	s.Units = "cm"
	assert.Equal(t, "26.0 mm left, 2.0 tips, 0.45 ball", view.ShiftWords(&s, -0.026))
}

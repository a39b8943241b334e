package view_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

func TestNoted(t *testing.T) {
	for _, c := range []struct{ link, outcome, units, want string }{
		{"v=1&bridge=9.5in", "left", "in", "try 3 noted: touched L, bridge 9.5 in, right english 0.40 R, 7.0 mph"},
		{"v=1&bridge=9.5in&side=-0.3", "clean", "cm", "try 3 noted: clean, bridge 24.1 cm, left english 0.30 R, 3.13 m/s"},
		{"v=1&side=0&stroke=8mph", "right", "in", "try 3 noted: touched R, bridge 12.0 in, no english, 8.0 mph"},
	} {
		assert.Equal(t, c.want, view.Noted(2, store.Stroke{Link: c.link, See: c.outcome}, c.units))
	}
	for _, o := range store.Outcomes {
		assert.NotEmpty(t, view.OutcomeNames[o])
	}
}

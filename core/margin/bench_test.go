package margin_test

import (
	"testing"

	"pivotbench/core/margin"
	"pivotbench/core/scenario"
)

func BenchmarkSuccess(b *testing.B) {
	sc := scenario.Default()
	sc.Bridge = 13.13 * 0.0254
	s := sc.Shot()
	m := margin.NewSampler(10000)
	b.ReportAllocs()
	for b.Loop() {
		m.Success(&s, sc.Scatter, margin.Pocketed())
	}
}

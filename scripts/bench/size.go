package main

import (
	"context"
	"fmt"

	"pivotbench/scripts/lib/pack"
)

// measureSize measures the size of the programs, and what a first visit fetches.
func measureSize(_ context.Context, s *sites, _ int, r *report) error {
	for _, p := range []struct {
		in   *pack.Report
		name string
		aim  float64 // MB of brotli; 0 for none
	}{
		{s.report, "page.wasm", 1.2},
		{s.report, "table.wasm", 2.2},
		{s.report, "film.wasm", 1},
		{s.extra, "bare.wasm", 0},
	} {
		f, err := file(p.in, p.name)
		if err != nil {
			return err
		}
		figure := fmt.Sprintf("%.2f MB raw, %.2f gzip, %.2f brotli", megabytes(f.Raw), megabytes(f.Gzip), megabytes(f.Brotli))
		if p.aim == 0 {
			r.note(p.name, figure)
			continue
		}
		r.atMost(p.name, figure, megabytes(f.Brotli), p.aim, " MB brotli")
	}
	return nil
}

func megabytes(bytes int) float64 { return float64(bytes) / 1e6 }

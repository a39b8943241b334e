package main

import (
	"fmt"
	"math"
	"slices"
)

// A sample is the results of repeated measurements.
type sample []float64

// at returns the value that a share of the sample does not exceed, by nearest rank, or
// NaN for an empty sample.
func (s sample) at(share float64) float64 {
	if len(s) == 0 {
		return math.NaN()
	}
	rank := int(math.Ceil(share * float64(len(s))))
	return slices.Sorted(slices.Values(s))[max(rank, 1)-1]
}

func (s sample) median() float64 { return s.at(0.5) }

// spread formats the median, the least and the greatest value.
func (s sample) spread(unit string) string {
	return fmt.Sprintf("%.0f%s (%.0f-%.0f)", s.median(), unit, s.at(0), s.at(1))
}

// slowest formats the median, and the value that one in twenty exceeds.
func (s sample) slowest(unit string) string {
	return fmt.Sprintf("%.1f%s, p95 %.1f", s.median(), unit, s.at(0.95))
}

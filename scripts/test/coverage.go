package main

import (
	"errors"
	"fmt"
	"maps"
	"path"
	"slices"
	"strings"
)

// leastCovered is the share of its statements that each core package's own tests must
// reach.
const leastCovered = 0.95

// A block is a sequence of statements that are reached together or not at all.
type block struct {
	statements int
	reached    bool
}

// readProfile returns the blocks of a go test profile by position,
// folder/file.go:from,to, where each end is line.column. A line of the profile is
//
//	folder/file.go:from,to statements times
//
// Every block has one line for each test program that includes it.
func readProfile(lines []string) (map[string]block, error) {
	blocks := map[string]block{}
	for _, line := range lines {
		if strings.HasPrefix(line, "mode:") {
			continue
		}
		where, counts, _ := strings.Cut(line, " ")
		var statements, times int
		if _, err := fmt.Sscanf(counts, "%d %d", &statements, &times); err != nil {
			return nil, fmt.Errorf("not a line of a coverage profile: %q", line)
		}
		blocks[where] = block{statements, times > 0 || blocks[where].reached}
	}
	return blocks, nil
}

// thinlyTested returns an error that names the packages whose tests reach less than a
// share of their statements.
func thinlyTested(blocks map[string]block, least float64) error {
	reached, all := map[string]float64{}, map[string]float64{}
	for where, b := range blocks {
		file, _, _ := strings.Cut(where, ":")
		pkg := path.Dir(file)
		all[pkg] += float64(b.statements)
		if b.reached {
			reached[pkg] += float64(b.statements)
		}
	}
	var errs []error
	for _, pkg := range slices.Sorted(maps.Keys(all)) {
		if reached[pkg] < least*all[pkg] {
			errs = append(errs, fmt.Errorf("tests of %s cover %.1f %% of its statements; at least %g %% needed", pkg, 100*reached[pkg]/all[pkg], 100*least))
		}
	}
	return errors.Join(errs...)
}

package main

import (
	"errors"
	"fmt"
	"maps"
	"path"
	"slices"
	"strings"
)

// leastCovered is the share of its statements that the tests of each package
// of the computation reach at the least.
const leastCovered = 0.95

// thinlyTested names the packages whose tests reach less than a share of their
// statements, by a profile of go test. A line of one is
//
//	folder/file.go:from,to statements times
//
// and every block has one, or one for each test program that knows of it.
func thinlyTested(profile []string, least float64) error {
	type block struct {
		statements int
		reached    bool
	}
	packages := map[string]map[string]block{}
	for _, line := range profile {
		if strings.HasPrefix(line, "mode:") {
			continue
		}
		where, counts, _ := strings.Cut(line, " ")
		var statements, times int
		if _, err := fmt.Sscanf(counts, "%d %d", &statements, &times); err != nil {
			return fmt.Errorf("not a line of a coverage profile: %q", line)
		}
		file, _, _ := strings.Cut(where, ":")
		pkg := path.Dir(file)
		if packages[pkg] == nil {
			packages[pkg] = map[string]block{}
		}
		packages[pkg][where] = block{statements, times > 0 || packages[pkg][where].reached}
	}
	var errs []error
	for _, pkg := range slices.Sorted(maps.Keys(packages)) {
		var reached, all float64
		for _, b := range packages[pkg] {
			all += float64(b.statements)
			if b.reached {
				reached += float64(b.statements)
			}
		}
		if reached < least*all {
			errs = append(errs, fmt.Errorf("the tests of %s reach %.1f %% of its statements, at least %g %% are wanted", pkg, 100*reached/all, 100*least))
		}
	}
	return errors.Join(errs...)
}

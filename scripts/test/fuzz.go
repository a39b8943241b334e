package main

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"strings"
	"sync"
	"time"

	"golang.org/x/sync/errgroup"
)

// fuzzing runs each fuzz target briefly on new inputs. The seeds, and inputs found
// earlier, are part of the ordinary tests.
func fuzzing(each time.Duration) func(context.Context) error {
	return func(ctx context.Context) error {
		listing, err := goLines(ctx, "test", "-list", "^Fuzz", "./core/...", "./wasm/...")
		if err != nil {
			return err
		}
		targets := fuzzTargets(listing)
		fmt.Println("targets:", len(targets))
		var (
			group errgroup.Group
			mu    sync.Mutex
			errs  []error
		)
		// One target at a time on each processor: this takes as long as one by one on all
		// processors, except for the pauses.
		group.SetLimit(runtime.NumCPU())
		for _, t := range targets {
			group.Go(func() error {
				// Minimizing what it finds could otherwise take all the time there is.
				err := command(ctx, nil, "go", "test", "-run", "^$", "-parallel", "1", "-fuzzminimizetime", "1s",
					"-fuzz", "^"+t.name+"$", "-fuzztime", each.String(), t.pkg)
				if timeUp(err) {
					err = nil
				}
				mu.Lock()
				defer mu.Unlock()
				errs = append(errs, err)
				return nil
			})
		}
		_ = group.Wait() // so that every failure is named, not only the first
		return errors.Join(errs...)
	}
}

// timeUp reports whether a run failed only because its time was up. Go's coordinator may
// see its deadline a moment before the contexts of its workers, and then takes that for
// an error (internal/fuzz compares the two). If it had found a failure, the input would
// have been written.
func timeUp(err error) bool {
	return err != nil && strings.Contains(err.Error(), outOfTime) && !strings.Contains(err.Error(), inputWritten)
}

type fuzzTarget struct{ pkg, name string }

// fuzzTargets reads the output of go test -list, which names a package after its
// functions.
func fuzzTargets(listing []string) []fuzzTarget {
	var targets []fuzzTarget
	var names []string
	for _, line := range listing {
		switch fields := strings.Fields(line); {
		case strings.HasPrefix(line, "Fuzz"):
			names = append(names, line)
		case len(fields) >= 2 && fields[0] == "ok":
			for _, name := range names {
				targets = append(targets, fuzzTarget{fields[1], name})
			}
			names = nil
		}
	}
	return targets
}

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

// fuzzing gives each fuzz target a short run of new inputs. The seeds, and what
// earlier runs found, are part of the ordinary tests.
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
		// One at a time on each processor: together they take as long as one by
		// one on all, but for the pauses between.
		group.SetLimit(runtime.NumCPU())
		for _, t := range targets {
			group.Go(func() error {
				// Making what it finds short may take all the time there is.
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
		_ = group.Wait() // every failure is named, not the first alone
		return errors.Join(errs...)
	}
}

// timeUp reports whether a run failed of its end alone. Go's coordinator may see
// its deadline a moment before its workers' contexts do, and then takes the end
// for an error (internal/fuzz compares the one with the other). A fault it
// found would have its input written down.
func timeUp(err error) bool {
	return err != nil && strings.Contains(err.Error(), outOfTime) && !strings.Contains(err.Error(), inputWritten)
}

type fuzzTarget struct{ pkg, name string }

// fuzzTargets reads the output of go test -list, which names a package after
// its functions.
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

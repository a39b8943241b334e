package main

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"
)

// fuzzing gives each fuzz target a short run of new inputs. The seeds, and what
// earlier runs found, are part of the ordinary tests.
func fuzzing(each time.Duration) func(context.Context) error {
	return func(ctx context.Context) error {
		listing, err := goLines(ctx, "test", "-list", "^Fuzz", "./core/...", "./wasm/app/...")
		if err != nil {
			return err
		}
		targets := fuzzTargets(listing)
		fmt.Println("targets:", len(targets))
		var errs []error
		for _, t := range targets {
			errs = append(errs, command(ctx, nil, "go", "test", "-run", "^$",
				"-fuzz", "^"+t.name+"$", "-fuzztime", each.String(), t.pkg))
		}
		return errors.Join(errs...)
	}
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

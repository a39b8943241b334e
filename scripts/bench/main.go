// Command bench measures the site on this machine and prints each figure beside its aim.
// It is a report: nothing fails by being slow.
//
//	go run ./scripts/bench [-runs 5] [-only size,load,rest,drag,memory,shot,suggest,strokes,players,film]
//
// A section may have parts, such as strokes/coverage; its name stands for all of them.
//
// Compare times only within one report, made while the machine has nothing else to do.
// Each is a median, followed by the least and the greatest.
package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"slices"
	"strings"
	"syscall"
)

// A section measures one aspect of the program. sites is nil when it needs none.
type section struct {
	name    string
	measure func(ctx context.Context, s *sites, runs int, r *report) error
	sites   bool // whether it needs the sites, which take a minute to build
}

var sections = []section{
	{"size", measureSize, true},
	{"load", measureLoad, true},
	{"rest", measureRest, true},
	{"drag", measureDrag, true},
	{"memory", measureMemory, true},
	{"shot", measureShot, true},
	{"suggest", measureSuggest, true},
	{"strokes/needed", measureStrokes, false},
	{"strokes/coverage", measureCoverage, false},
	{"strokes/misfits", measureMisfits, false},
	{"players", measurePlayers, false},
	{"film/takes", measureFilm, false},
	{"film/page", measureFilmPage, true},
}

func main() {
	runs := flag.Int("runs", 5, "number of runs of each timing")
	only := flag.String("only", "", "open only these sections: `names` joined by commas")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	if err := bench(ctx, os.Stdout, *runs, *only); err != nil {
		fmt.Fprintln(os.Stderr, "bench:", err)
		os.Exit(1)
	}
}

func bench(ctx context.Context, out io.Writer, runs int, only string) error {
	chosen, err := choose(only)
	if err != nil {
		return err
	}
	if runs < 1 {
		return fmt.Errorf("-runs %d: want at least 1", runs)
	}
	var s *sites
	if slices.ContainsFunc(chosen, func(part section) bool { return part.sites }) {
		if s, err = openSites(ctx); err != nil {
			return err
		}
		defer s.close()
	}
	fmt.Fprintln(out, machine())
	for _, part := range chosen {
		var r report
		err := part.measure(ctx, s, runs, &r)
		fmt.Fprintln(out)
		r.print(out) // whatever there is, if it was interrupted
		if err != nil {
			return fmt.Errorf("%s: %w", part.name, err)
		}
	}
	fmt.Fprintln(out, "\n"+machine())
	return nil
}

// choose returns sections by name, in the report's own order, or all if none is named.
// The part of a name before a slash stands for all sections whose names begin with it.
func choose(only string) ([]section, error) {
	if only == "" {
		return sections, nil
	}
	var chosen []section
	named := map[string]bool{}
	for _, name := range strings.Split(only, ",") {
		named[name] = false
	}
	for _, s := range sections {
		of, _, _ := strings.Cut(s.name, "/")
		for _, name := range []string{s.name, of} {
			if _, asked := named[name]; asked {
				chosen = append(chosen, s)
				named[name] = true
				break
			}
		}
	}
	for name, found := range named {
		if !found {
			return nil, fmt.Errorf("no section %q", name)
		}
	}
	return chosen, nil
}

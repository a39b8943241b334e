// Command test runs every check of the project. It first installs the browsers that some
// of them need. It needs nothing on the machine but Go.
//
//	go run ./scripts/test [-short] [-thorough] [-run regexp] [-fuzz 10s]
//
// If a step fails, the others still run, and the failures are listed at the end. The exit
// code is 1 if there were any.
package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"time"
)

func main() {
	short := flag.Bool("short", false, "skip browsers and fuzzing")
	run := flag.String("run", "", "run only the browser tests that match this `regexp`")
	thorough := flag.Bool("thorough", false, "run every browser test in every engine that supports it")
	fuzz := flag.Duration("fuzz", 3*time.Second, "time to fuzz each target; 0 to skip")
	flag.Parse()

	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()

	steps := []step{
		{"format", checkFormat},
		{"vet", vet},
		{"staticcheck", staticcheck},
		{"core tests", testCore},
		{"other tests", testOthers},
		{"races", testRaces},
		{"vulnerabilities", vulnerabilities},
	}
	if !*short {
		steps = append([]step{{"browsers", installBrowsers}, {"axe-core", fetchAxe}}, steps...)
		steps = append(steps, step{"browser tests", browserTests(*run, *thorough)})
		if *fuzz > 0 {
			steps = append(steps, step{"fuzzing", fuzzing(*fuzz)})
		}
	}
	if !runAll(ctx, os.Stdout, steps) {
		os.Exit(1)
	}
}

// A step is one check. It prints what it finds, and its error says why it failed.
type step struct {
	name string
	run  func(context.Context) error
}

// runAll runs the steps one after the other, writes a summary to out, and reports whether
// all succeeded.
func runAll(ctx context.Context, out io.Writer, steps []step) bool {
	errs := make([]error, len(steps))
	took := make([]time.Duration, len(steps))
	ok := true
	for i, s := range steps {
		fmt.Fprintf(out, "\n=== %s\n", s.name)
		start := time.Now()
		errs[i] = s.run(ctx)
		took[i] = time.Since(start)
		if errs[i] != nil {
			ok = false
			fmt.Fprintf(out, "%s failed: %v\n", s.name, errs[i])
		}
	}
	fmt.Fprintln(out, "\n=== summary")
	for i, s := range steps {
		verdict := "ok"
		if errs[i] != nil {
			verdict = fmt.Sprintf("FAILED: %v", errs[i])
		}
		fmt.Fprintf(out, "%-15s %6.1f s  %s\n", s.name, took[i].Seconds(), verdict)
	}
	return ok
}

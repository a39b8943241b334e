package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// command runs a program with our output, with env added to our environment. It prints
// the command first, so that anyone can repeat it. The error names the tests that failed,
// which are far up in the output by then.
func command(ctx context.Context, env []string, name string, args ...string) error {
	fmt.Println("$", strings.Join(append(append(env[:len(env):len(env)], name), args...), " "))
	cmd := exec.CommandContext(ctx, name, args...)
	cmd.Cancel = func() error { return cmd.Process.Signal(os.Interrupt) } // go passes it on to its tests
	cmd.WaitDelay = 10 * time.Second
	cmd.Env = append(os.Environ(), env...)
	var failed failures
	cmd.Stdout = io.MultiWriter(os.Stdout, &failed)
	cmd.Stderr = os.Stderr
	if err := cmd.Run(); err != nil {
		return fmt.Errorf("%s: %w%s", filepath.Base(name), err, failed.list())
	}
	return nil
}

// What go test prints, on lines of their own, when it stops before its last test, and
// about a fuzz target that failed.
const (
	stopped      = "panic: "
	outOfTime    = "context deadline exceeded"
	inputWritten = "Failing input written to "
)

// failures picks the lines that name what failed out of go test's output.
type failures struct {
	partial []byte
	lines   []string
}

func (f *failures) Write(b []byte) (int, error) {
	f.partial = append(f.partial, b...)
	for {
		line, rest, whole := bytes.Cut(f.partial, []byte("\n"))
		if !whole {
			return len(b), nil
		}
		if text := strings.TrimSpace(string(line)); text == outOfTime || startsWithAny(text, "--- FAIL:", "FAIL\t", stopped, inputWritten) {
			f.lines = append(f.lines, text)
		}
		f.partial = rest
	}
}

// failedTests returns the names of the top-level tests that failed in a run of go test.
// It returns none if the run stopped before its last test.
func failedTests(err error) []string {
	if err == nil || strings.Contains(err.Error(), stopped) {
		return nil
	}
	var names []string
	for line := range strings.Lines(err.Error()) {
		if rest, ok := strings.CutPrefix(strings.TrimSpace(line), "--- FAIL: "); ok {
			name, _, _ := strings.Cut(strings.Fields(rest)[0], "/")
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return slices.Compact(names)
}

func startsWithAny(text string, prefixes ...string) bool {
	return slices.ContainsFunc(prefixes, func(p string) bool { return strings.HasPrefix(text, p) })
}

// list returns each failure on an indented line of its own.
func (f *failures) list() string {
	var b strings.Builder
	for _, line := range f.lines {
		b.WriteString("\n    " + line)
	}
	return b.String()
}

// goLines runs the go command and returns the lines that it prints.
func goLines(ctx context.Context, args ...string) ([]string, error) {
	cmd := exec.CommandContext(ctx, "go", args...)
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("go %s: %w\n%s", strings.Join(args, " "), err, &stderr)
	}
	return strings.FieldsFunc(string(out), func(r rune) bool { return r == '\n' || r == '\r' }), nil
}

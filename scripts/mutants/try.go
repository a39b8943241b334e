package main

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"time"
)

// A runner builds and runs the tests of packages, and knows how long they take on the
// unchanged code.
type runner struct {
	short bool
	grace time.Duration            // time that tests may take beyond five times their usual time
	took  map[string]time.Duration // by the package's folder
}

// The results of a change.
type result int

const (
	killed  result = iota // the tests fail
	endless               // the tests do not end
	alive                 // the tests pass
	refused               // the change does not compile
)

// time runs a folder's tests once on the unchanged code. It is an error if they fail,
// since they would seem to notice everything.
func (r runner) time(ctx context.Context, dir string) error {
	if _, ok := r.took[dir]; ok {
		return nil
	}
	start := time.Now()
	switch result, err := r.ask(ctx, dir, "", 0); {
	case err != nil:
		return err
	case result != alive:
		return fmt.Errorf("the tests in %s fail without any change", dir)
	}
	r.took[dir] = time.Since(start)
	return nil
}

// try runs the tests in folders on a change, one after the other until one notices it.
func (r runner) try(ctx context.Context, dirs []string, c change) (result, error) {
	work, err := os.MkdirTemp("", "mutants-")
	if err != nil {
		return 0, err
	}
	defer os.RemoveAll(work)
	source, err := os.ReadFile(c.file)
	if err != nil {
		return 0, err
	}
	mutant, overlay := filepath.Join(work, "mutant.go"), filepath.Join(work, "overlay.json")
	if err := os.WriteFile(mutant, c.apply(source), 0o600); err != nil {
		return 0, err
	}
	text, err := json.Marshal(map[string]map[string]string{"Replace": {c.file: mutant}})
	if err != nil {
		return 0, err
	}
	if err := os.WriteFile(overlay, text, 0o600); err != nil {
		return 0, err
	}
	for _, dir := range dirs {
		// Five times as long leaves room for a machine that has become busy.
		result, err := r.ask(ctx, dir, overlay, 5*r.took[dir]+r.grace)
		if err != nil || result != alive {
			return result, err
		}
	}
	return alive, nil
}

// ask runs the tests in a folder, with an overlay if there is one, for as long as
// patience unless that is zero.
func (r runner) ask(ctx context.Context, dir, overlay string, patience time.Duration) (result, error) {
	work, err := os.MkdirTemp("", "mutants-")
	if err != nil {
		return 0, err
	}
	defer os.RemoveAll(work)
	binary := filepath.Join(work, "tests")
	build := exec.CommandContext(ctx, "go", "test", "-c", "-vet=off", "-ldflags=-s -w", "-overlay", overlay, "-o", binary, dir)
	build.Dir = dir
	if build.Run() != nil {
		return refused, ctx.Err()
	}
	if _, err := os.Stat(binary); err != nil {
		return alive, nil // there are no tests
	}
	limited := ctx
	if patience > 0 {
		var cancel context.CancelFunc
		limited, cancel = context.WithTimeout(ctx, patience)
		defer cancel()
	}
	args := []string{"-test.failfast"}
	if r.short {
		args = append(args, "-test.short")
	}
	tests := exec.CommandContext(limited, binary, args...)
	tests.Dir = dir
	switch err := tests.Run(); {
	case err == nil:
		return alive, nil
	case limited.Err() != nil:
		return endless, ctx.Err()
	}
	return killed, ctx.Err()
}

package pack

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// pagesOwn matches the packages that run once a tap. They are compiled without inlining,
// which makes the page's program 6 % smaller in brotli; the computation in core keeps it.
const pagesOwn = "pivotbench/wasm/..."

// Program returns a Make for a Go program compiled for the browser, with its data
// segments joined. It contains no paths, build ids or version-control state, so that it
// depends only on the source and the toolchain.
func Program(pkg string) func(context.Context, *Site) ([]byte, error) {
	return func(ctx context.Context, s *Site) ([]byte, error) {
		dir, err := os.MkdirTemp("", "pivotbench-program-")
		if err != nil {
			return nil, err
		}
		defer os.RemoveAll(dir)
		binary := filepath.Join(dir, "program.wasm")
		_, err = goTool(ctx, s.root, "build", "-trimpath", "-buildvcs=false",
			"-gcflags="+pagesOwn+"=-l", "-ldflags=-s -w -buildid=", "-o", binary, pkg)
		if err != nil {
			return nil, err
		}
		program, err := os.ReadFile(binary)
		if err != nil {
			return nil, err
		}
		return joined(program)
	}
}

// GoRuntime returns a Make for the JavaScript half of a Go program in the browser. It has
// to come from the toolchain that compiled the program.
func GoRuntime() func(context.Context, *Site) ([]byte, error) {
	return func(ctx context.Context, s *Site) ([]byte, error) {
		goroot, err := goTool(ctx, s.root, "env", "GOROOT")
		if err != nil {
			return nil, err
		}
		return os.ReadFile(filepath.Join(strings.TrimSpace(goroot), "lib", "wasm", "wasm_exec.js"))
	}
}

// goTool runs the go command for the browser's architecture and returns its output.
// GOWASM is cleared because it changes the instructions chosen.
func goTool(ctx context.Context, dir string, args ...string) (string, error) {
	cmd := exec.CommandContext(ctx, "go", args...)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "GOWASM=")
	var stdout, stderr bytes.Buffer
	cmd.Stdout, cmd.Stderr = &stdout, &stderr
	if err := cmd.Run(); err != nil {
		return "", fmt.Errorf("go %s: %w\n%s", strings.Join(args, " "), err, stderr.Bytes())
	}
	return stdout.String(), nil
}

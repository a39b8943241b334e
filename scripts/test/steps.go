package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
)

// browserTag is the build tag of the tests that open a browser.
const browserTag = "browser"

// staticcheckModule is pinned, so that a new release does not find something new in old
// code.
const staticcheckModule = "honnef.co/go/tools/cmd/staticcheck@v0.8.2"

// inBrowser makes the go command build for the browser, like the programs in wasm.
var inBrowser = []string{"GOOS=js", "GOARCH=wasm"}

// vet checks everything, including the browser tests and the browser's programs.
func vet(ctx context.Context) error {
	return errors.Join(
		command(ctx, nil, "go", "vet", "-tags", browserTag, "./..."),
		command(ctx, inBrowser, "go", "vet", "./wasm/..."),
	)
}

// staticcheck checks the same packages as vet.
func staticcheck(ctx context.Context) error {
	return withTool(ctx, staticcheckModule, func(tool string) error {
		return errors.Join(
			command(ctx, nil, tool, "-tags", browserTag, "./..."),
			command(ctx, inBrowser, tool, "./wasm/..."),
		)
	})
}

// withTool builds a tool for this machine. go run would build it for the browser,
// together with what it is to check.
func withTool(ctx context.Context, module string, use func(tool string) error) error {
	dir, err := os.MkdirTemp("", "tool")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	if err := command(ctx, []string{"GOBIN=" + dir}, "go", "install", module); err != nil {
		return err
	}
	name, _, _ := strings.Cut(path.Base(module), "@")
	return use(filepath.Join(dir, name))
}

// testCore tests the computation, and checks that the tests reach it, in particular every
// error that it can return. It is plain sequential code without races to detect.
func testCore(ctx context.Context) error {
	dir, err := os.MkdirTemp("", "coverage")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	profile := filepath.Join(dir, "core.out")
	if err := command(ctx, nil, "go", "test", "-coverprofile="+profile, "./core/..."); err != nil {
		return err
	}
	covered, err := goLines(ctx, "tool", "cover", "-func="+profile)
	if err != nil {
		return err
	}
	fmt.Println("core:", strings.Join(strings.Fields(covered[len(covered)-1]), " "))
	text, err := os.ReadFile(profile)
	if err != nil {
		return err
	}
	blocks, err := readProfile(strings.Split(strings.TrimSpace(string(text)), "\n"))
	if err != nil {
		return err
	}
	return errors.Join(thinlyTested(blocks, leastCovered), untestedRefusals(os.DirFS("."), blocks))
}

// testOthers tests every package outside core that needs no browser.
func testOthers(ctx context.Context) error {
	all, err := goLines(ctx, "list", "./...")
	if err != nil {
		return err
	}
	others := slices.DeleteFunc(all, func(pkg string) bool { return strings.Contains(pkg+"/", "/core/") })
	return command(ctx, nil, "go", append([]string{"test"}, others...)...)
}

// testRaces looks for races in scripts, the only place with goroutines, if there is a C
// compiler, which Go's detector needs. Long tests are skipped, since they have run
// without the detector, at a tenth of the time.
func testRaces(ctx context.Context) error {
	cgo, err := goLines(ctx, "env", "CGO_ENABLED")
	if err != nil {
		return err
	}
	if !slices.Equal(cgo, []string{"1"}) {
		fmt.Println("not looked for: there is no C compiler")
		return nil
	}
	return command(ctx, nil, "go", "test", "-race", "-short", "./scripts/...")
}

// browserTests tests the packages with browser tests, one at a time: two browsers at once
// would only slow each other down. A browser on a busy machine can miss any deadline, so
// tests that failed run once more, on their own, and are named if they pass then.
func browserTests(run string, thorough bool) func(context.Context) error {
	return func(ctx context.Context) error {
		if absent := missing(); len(absent) > 0 {
			return fmt.Errorf("not run: missing %s", strings.Join(absent, ", "))
		}
		pkgs, err := browserPackages(ctx)
		if err != nil {
			return err
		}
		// They take minutes, so -v shows how far they are, and how long each takes.
		var env []string
		if thorough {
			env = []string{"THOROUGH=1"}
		}
		test := func(run string) error {
			args := []string{"test", "-v", "-tags", browserTag, "-count=1", "-p", "1", "-timeout", "30m", "-run", run}
			return command(ctx, env, "go", append(args, pkgs...)...)
		}
		err = test(run)
		failed := failedTests(err)
		if len(failed) == 0 {
			return err
		}
		fmt.Printf("once more, on their own: %s\n", strings.Join(failed, ", "))
		if err := test("^(" + strings.Join(failed, "|") + ")$"); err != nil {
			return err
		}
		fmt.Printf("UNSTEADY: %s failed at first and passed on their own\n", strings.Join(failed, ", "))
		return nil
	}
}

// browserPackages returns the packages with test files that only the tag includes.
func browserPackages(ctx context.Context) ([]string, error) {
	const each = `{{range .TestGoFiles}}{{$.ImportPath}} {{.}}{{"\n"}}{{end}}` +
		`{{range .XTestGoFiles}}{{$.ImportPath}} {{.}}{{"\n"}}{{end}}`
	plain, err := goLines(ctx, "list", "-f", each, "./...")
	if err != nil {
		return nil, err
	}
	tagged, err := goLines(ctx, "list", "-tags", browserTag, "-f", each, "./...")
	if err != nil {
		return nil, err
	}
	var pkgs []string
	for _, file := range tagged {
		if pkg, _, _ := strings.Cut(file, " "); !slices.Contains(plain, file) && !slices.Contains(pkgs, pkg) {
			pkgs = append(pkgs, pkg)
		}
	}
	if len(pkgs) == 0 {
		return nil, errors.New("no browser test found")
	}
	return pkgs, nil
}

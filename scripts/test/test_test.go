package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestRunAll(t *testing.T) {
	var ran []string
	note := func(name string, err error) step {
		return step{name, func(context.Context) error {
			ran = append(ran, name)
			return err
		}}
	}
	var out strings.Builder
	assert.False(t, runAll(t.Context(), &out, []step{note("one", nil), note("two", errors.New("torn felt")), note("three", nil)}))
	assert.Equal(t, []string{"one", "two", "three"}, ran, "a failure does not hide what follows")
	_, summary, _ := strings.Cut(out.String(), "=== summary")
	assert.Regexp(t, `one .* ok\ntwo .* FAILED: torn felt\nthree .* ok\n`, summary)

	assert.True(t, runAll(t.Context(), &out, []step{note("one", nil)}))
}

func TestFailures(t *testing.T) {
	var f failures
	for _, part := range []string{"=== RUN TestA\n--- FA", "IL: TestA (0.00s)\n    --- FAIL: TestA/x (0.00s)\nFAIL\n", "FAIL\tpivotbench/core/vec\t0.1s\nok  \tb"} {
		_, err := f.Write([]byte(part))
		require.NoError(t, err)
	}
	assert.Equal(t, "\n    --- FAIL: TestA (0.00s)\n    --- FAIL: TestA/x (0.00s)\n    FAIL\tpivotbench/core/vec\t0.1s", f.list())
}

func TestFailedTests(t *testing.T) {
	err := errors.New("go: exit status 1\n    --- FAIL: TestKept (3.10s)\n    --- FAIL: TestKept/WebKit (2.00s)\n    --- FAIL: TestFilm (0.10s)\n    FAIL\tpivotbench/site\t9.1s")
	assert.Equal(t, []string{"TestFilm", "TestKept"}, failedTests(err))
	assert.Empty(t, failedTests(errors.New("go: exit status 2\n    FAIL\tpivotbench/site [build failed]")))
	assert.Empty(t, failedTests(errors.New("go: exit status 2\n    --- FAIL: TestKept (9.10s)\n    panic: test timed out after 30m0s")), "the tests after it have not run")
	assert.Empty(t, failedTests(nil))
}

func TestUnformatted(t *testing.T) {
	dir := t.TempDir()
	for name, source := range map[string]string{
		"good.go":            "package p\n",
		"spaced.go":          "package  p\n",
		"broken.go":          "package\n",
		"notes.txt":          "package  p",
		".hidden/spaced.go":  "package  p\n",
		"testdata/spaced.go": "package  p\n",
	} {
		path := filepath.Join(dir, name)
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(source), 0o644))
	}
	bad, err := unformatted(dir)
	require.NoError(t, err)
	assert.Equal(t, []string{filepath.Join(dir, "broken.go"), filepath.Join(dir, "spaced.go")}, bad)
}

func TestFuzzTargets(t *testing.T) {
	listing := []string{
		"FuzzParse",
		"FuzzFormat",
		"ok  \tpivotbench/core/unit\t0.003s",
		"ok  \tpivotbench/core/vec\t0.002s",
		"?   \tpivotbench/core/poly\t[no test files]",
		"FuzzLink",
		"ok  \tpivotbench/core/scenario\t0.004s",
	}
	assert.Equal(t, []fuzzTarget{
		{"pivotbench/core/unit", "FuzzParse"},
		{"pivotbench/core/unit", "FuzzFormat"},
		{"pivotbench/core/scenario", "FuzzLink"},
	}, fuzzTargets(listing))
	assert.Empty(t, fuzzTargets([]string{"?   \tpivotbench/core/poly\t[no test files]"}))
}

// The texts are those of go test itself, from a run whose time was up and from one that
// had just found something.
func TestTimeUp(t *testing.T) {
	run := func(output string) error {
		var f failures
		_, err := f.Write([]byte(output))
		require.NoError(t, err)
		return errors.New("go: exit status 1" + f.list())
	}
	const end = "fuzz: elapsed: 30s, execs: 463064 (0/sec)\n--- FAIL: FuzzFelt (30.50s)\n    context deadline exceeded\n"
	const found = "    Failing input written to testdata/fuzz/FuzzFelt/582528ddfad69eb5\n    To re-run:\n    go test -run=FuzzFelt/582528ddfad69eb5\n"
	assert.True(t, timeUp(run(end+"FAIL\nFAIL\tpivotbench/core/felt\t30.591s\n")))
	assert.False(t, timeUp(run(end+found+"FAIL\n")))
	assert.False(t, timeUp(run("--- FAIL: FuzzFelt (1.50s)\n    fuzzing process hung or terminated unexpectedly: exit status 2\n"+found)))
	assert.False(t, timeUp(nil))
}

func TestThinlyTested(t *testing.T) {
	profile := []string{
		"mode: set",
		"pivotbench/core/vec/vec.go:3.1,5.2 19 1",
		"pivotbench/core/vec/vec.go:6.1,7.2 1 0",
		"pivotbench/core/unit/unit.go:3.1,5.2 18 0",
		"pivotbench/core/unit/unit.go:6.1,7.2 2 1",
		"pivotbench/core/unit/unit.go:3.1,5.2 18 1", // reached by another test program
		"pivotbench/core/poly/poly.go:3.1,5.2 9 1",
		"pivotbench/core/poly/poly.go:6.1,7.2 1 0",
	}
	blocks, err := readProfile(profile)
	require.NoError(t, err)
	assert.EqualError(t, thinlyTested(blocks, 0.95), "tests of pivotbench/core/poly cover 90.0 % of its statements; at least 95 % needed")
	assert.NoError(t, thinlyTested(blocks, 0.9))
	_, err = readProfile([]string{"torn felt"})
	assert.ErrorContains(t, err, "torn felt")
}

// No test reaches any line of this source. The marked lines are refusals.
func TestUntestedRefusals(t *testing.T) {
	const source = `package felt

func Forwards() (int, error) { return thread() } // !
func Wraps() (int, error)    { return 0, fmt.Errorf("torn") } // !
func Bare() (err error)      { return } // !
func Answers() Answer        { return refuse(ErrTorn) } // !
func Sets(r *Reading)        { r.Err = torn() } // !
func Notes(p *Pot)           { p.Missed = err } // !
func Within()                { go func() error { return torn() }() } // !
func Good() (int, error)     { return 1, nil }
func Plain() int             { return thread() }
func Value(r *Reading)       { r.Value = 1 }
func Around() (*int, error)  { return use(func() int { return 1 }), nil }
`
	var profile, want []string
	for i, line := range strings.Split(source, "\n") {
		profile = append(profile, fmt.Sprintf("pivotbench/core/felt.go:%d.1,%d.%d 1 0", i+1, i+1, len(line)+1))
		if strings.HasSuffix(line, "// !") {
			want = append(want, fmt.Sprintf("core/felt.go:%d: no test sees this error", i+1))
		}
	}
	module := fstest.MapFS{"core/felt.go": {Data: []byte(source)}}
	blocks, err := readProfile(profile)
	require.NoError(t, err)
	err = untestedRefusals(module, blocks)
	require.Error(t, err)
	assert.ElementsMatch(t, want, strings.Split(err.Error(), "\n"))

	half := map[string]block{"pivotbench/core/felt.go:3.1,3.30": {}, "pivotbench/core/felt.go:3.30,9.40": {1, true}}
	assert.NoError(t, untestedRefusals(module, half), "only what is in the block")
	for where := range blocks {
		blocks[where] = block{1, true}
	}
	assert.NoError(t, untestedRefusals(module, blocks), "when tests reach them")
	assert.ErrorContains(t, untestedRefusals(module, map[string]block{"pivotbench/core/lost.go:1.1,2.1": {}}), "lost.go")
}

func TestUnlisted(t *testing.T) {
	assert.True(t, unlisted([]byte("govulncheck: fetching vulnerabilities: Get \"https://list.example/index/modules.json.gz\": no such host\n")))
	assert.False(t, unlisted([]byte("Vulnerability #1: GO-2026-0001\n")))
}

func TestAdvice(t *testing.T) {
	assert.Contains(t, advice("linux", true), "apt-get install chromium chromium-driver")
	assert.Contains(t, advice("linux", false), "WebKitWebDriver")
	assert.Contains(t, advice("darwin", false), "-short")
}

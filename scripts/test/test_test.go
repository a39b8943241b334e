package main

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

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
	err := thinlyTested(profile, 0.95)
	require.Error(t, err)
	assert.Equal(t, "the tests of pivotbench/core/poly reach 90.0 % of its statements, at least 95 % are wanted", err.Error())
	assert.NoError(t, thinlyTested(profile, 0.9))
	assert.ErrorContains(t, thinlyTested([]string{"torn felt"}, 0.95), "torn felt")
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

package main

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// write makes a module of one package with a test.
func write(t *testing.T, code, test string) (dir string) {
	t.Helper()
	dir = t.TempDir()
	for name, text := range map[string]string{
		"go.mod":    "module example.org/sum\n\ngo 1.26\n",
		"sum.go":    "package sum\n\n" + code,
		"s_test.go": "package sum\n\nimport \"testing\"\n\n" + test,
	} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
	}
	return dir
}

// A thorough test notices every change; one that asserts nothing notices none.
func TestThoroughTestsNoticeChanges(t *testing.T) {
	const code = "// Sum adds.\nfunc Sum(a, b int) int { return a + b }\n"
	for test, want := range map[string]result{
		"func TestSum(t *testing.T) {\n\tif Sum(2, 3) != 5 {\n\t\tt.Fail()\n\t}\n}\n": killed,
		"func TestSum(t *testing.T) { Sum(2, 3) }\n":                                  alive,
		"func TestSum(t *testing.T) {\n\tfor Sum(1, 1) != 2 {\n\t}\n}\n":              endless,
	} {
		dir := write(t, code, test)
		changes, err := changesOf(dir)
		require.NoError(t, err)
		require.Len(t, changes, 1)
		assert.Equal(t, `sum.go:4:35: "+" becomes "-"`, changes[0].String())
		got, err := runner{grace: time.Second}.try(t.Context(), []string{dir}, changes[0])
		require.NoError(t, err)
		assert.Equal(t, want, got, test)
	}
}

// A number beside an error has no meaning, and no test need notice it.
func TestNumbersBesideErrorsStay(t *testing.T) {
	changes, err := changesOf(write(t, `func f() (int, error) { return 0, io.EOF.ErrNone }
func g() (int, bool) { return 1, false }
func h() (int, error) { return 2, err }
func i() (int, bool) { return 3, true }
func j() (int, int) { return 4, 5 }
func k() (int, int, error) { return x, 6, err }
`, ""))
	require.NoError(t, err)
	var said []string
	for _, c := range changes {
		said = append(said, c.old)
	}
	assert.Equal(t, []string{"3", "4", "5"}, said)
}

func TestChanges(t *testing.T) {
	dir := write(t, "func f(a, b float64) bool {\n\tif f(a, b) {\n\t}\n\tx := -a\n\tx += 2 * b\n\treturn !(x < 0.5) && a != \"5\"[0]\n}\n", "")
	changes, err := changesOf(dir)
	require.NoError(t, err)
	var said []string
	for _, c := range changes {
		said = append(said, c.old+" "+c.new)
	}
	assert.ElementsMatch(t, []string{" !", "- ", "+= -=", "2 3", "* /", "! ", "< <=", "< >", "0.5 0.601", "&& ||", "!= ==", "0 1"}, said)
	source, err := os.ReadFile(changes[0].file)
	require.NoError(t, err)
	assert.Contains(t, string(changes[0].apply(source)), "if !f(a, b) {")
	assert.Contains(t, string(changes[1].apply(source)), "x := a\n")

	got, err := runner{}.try(t.Context(), []string{dir}, changes[1])
	require.NoError(t, err)
	assert.Equal(t, refused, got, "what does not compile is not counted")
}

// A change that a package's own tests miss is tried with those of the package that
// imports it, unless they are slow.
func TestAsksImportingPackages(t *testing.T) {
	dir := write(t, "// Sum adds.\nfunc Sum(a, b int) int { return a + b }\n", "func TestSum(t *testing.T) { Sum(2, 3) }\n")
	user := filepath.Join(dir, "user")
	require.NoError(t, os.Mkdir(user, 0o700))
	require.NoError(t, os.WriteFile(filepath.Join(user, "user_test.go"), []byte(`package user

import (
	"testing"

	"example.org/sum"
)

func TestSum(t *testing.T) {
	if sum.Sum(2, 3) != 5 {
		t.Fail()
	}
}
`), 0o600))
	changes, err := changesOf(dir)
	require.NoError(t, err)
	t.Chdir(dir)
	packages, err := list(t.Context(), "./...")
	require.NoError(t, err)
	require.Len(t, packages, 2)
	for slow, want := range map[time.Duration]result{time.Hour: killed, 0: alive} {
		r := runner{grace: time.Minute, took: map[string]time.Duration{}}
		askers, err := r.askers(t.Context(), packages[0], packages, slow)
		require.NoError(t, err)
		got, err := r.try(t.Context(), askers, changes[0])
		require.NoError(t, err)
		assert.Equal(t, want, got, askers)
	}
}

// Tests that fail on the unchanged code would notice every change.
func TestRefusesTestsThatFailAnyway(t *testing.T) {
	dir := write(t, "", "func TestLong(t *testing.T) {\n\tif !testing.Short() {\n\t\tt.Fail()\n\t}\n}\n")
	for _, short := range []bool{true, false} {
		err := runner{short: short, took: map[string]time.Duration{}}.time(t.Context(), dir)
		if short {
			assert.NoError(t, err)
		} else {
			assert.ErrorContains(t, err, "fail without any change")
		}
	}
}

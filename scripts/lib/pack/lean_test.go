package pack_test

import (
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The page's program has to start before there is a reading, so none of its imports may
// use reflection, or formatting based on it: together they would be a tenth of the
// program. The canvas's program comes later, and its library needs both.
func TestPageProgramIsLean(t *testing.T) {
	list := exec.Command("go", "list", "-deps", "./wasm/page")
	list.Dir = "../../.."
	list.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	out, err := list.Output()
	require.NoError(t, err)
	packages := strings.Fields(string(out))
	require.Contains(t, packages, "pivotbench/wasm/codec")
	for _, heavy := range []string{"reflect", "fmt", "os", "encoding/json", "encoding/csv", "net/url", "regexp", "html/template"} {
		assert.NotContains(t, packages, heavy)
	}
}

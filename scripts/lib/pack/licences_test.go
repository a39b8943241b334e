package pack

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The file names every module in a program, and has the words that its licence requires.
func TestLicences(t *testing.T) {
	text, err := Licences("./wasm/page", "./wasm/table", "./wasm/film")(t.Context(), newSite("../../..", ""))
	require.NoError(t, err)
	for _, want := range []string{
		"Pivotbench\n", "Go 1.", "The Go Authors", "github.com/hajimehoshi/ebiten/v2 v", "Apache License",
		"gonum.org/v1/gonum v", "The Gonum Authors", "golang.org/x/",
		"Stephen L. Moshier", "Sun Microsystems", // authors of code in gonum's functions
	} {
		assert.Contains(t, string(text), want)
	}
	assert.NotContains(t, string(text), "stretchr/testify", "which no program holds")
	again, err := Licences("./wasm/page", "./wasm/table", "./wasm/film")(t.Context(), newSite("../../..", ""))
	require.NoError(t, err)
	assert.Equal(t, text, again)
	root, err := filepath.Abs("../../..")
	require.NoError(t, err)
	assert.NotContains(t, string(text), root, "no path of this machine")
}

func TestModuleWithoutLicence(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "PATENTS"), []byte("none"), 0o600))
	var out bytes.Buffer
	assert.ErrorContains(t, module{"example.org/bare", "v1", dir}.writeLicence(&out), "module example.org/bare has no licence file")
	require.NoError(t, os.WriteFile(filepath.Join(dir, "LICENSE.md"), []byte("do as you like\n"), 0o600))
	out.Reset()
	require.NoError(t, module{"example.org/bare", "v1", dir}.writeLicence(&out))
	assert.Equal(t, "example.org/bare v1\n\ndo as you like\n\nnone\n", out.String())
	folder := filepath.Join(dir, "THIRD_PARTY_LICENSES")
	require.NoError(t, os.Mkdir(folder, 0o700))
	require.NoError(t, os.WriteFile(filepath.Join(folder, "Mill-LICENSE"), []byte("ask the miller"), 0o600))
	out.Reset()
	require.NoError(t, module{"example.org/bare", "v1", dir}.writeLicence(&out))
	assert.Equal(t, "example.org/bare v1\n\ndo as you like\n\nnone\n\nMill-LICENSE:\n\nask the miller\n", out.String())
	assert.ErrorContains(t, module{"example.org/gone", "v1", filepath.Join(dir, "gone")}.writeLicence(&out), "licence of example.org/gone")
}

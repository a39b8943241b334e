package pack_test

import (
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/scripts/lib/pack"
)

// Neither the folder nor the time may affect what is published: pages, programs, the
// worker's list, and the one file. In the other folder, a comment at the end of each Go
// file makes sure that our packages are compiled again. Those of others, which do not
// depend on the folder, may come from the go command's cache.
func TestSameBytesFromAnotherFolder(t *testing.T) {
	if testing.Short() {
		t.Skip("compiles both programs anew")
	}
	published := func(root string) map[string]string {
		_, files := build(t, pack.Options{
			Root: root, Out: filepath.Join(t.TempDir(), "dist"), Data: pack.PageData, OneFile: true,
		})
		return files
	}
	const here = "../../.."
	there := filepath.Join(t.TempDir(), "a folder of another name")
	for _, dir := range []string{"core", "wasm", "site"} {
		require.NoError(t, os.CopyFS(filepath.Join(there, dir), os.DirFS(filepath.Join(here, dir))))
	}
	for _, name := range []string{"go.mod", "go.sum", "LICENSE"} {
		content, err := os.ReadFile(filepath.Join(here, name))
		require.NoError(t, err)
		write(t, there, name, string(content))
	}
	require.NoError(t, filepath.WalkDir(there, func(path string, _ os.DirEntry, err error) error {
		if err != nil || filepath.Ext(path) != ".go" {
			return err
		}
		source, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		return os.WriteFile(path, append(source, "\n// In "+there+".\n"...), 0o644)
	}))

	want, got := published(here), published(there)
	require.Equal(t, slices.Sorted(maps.Keys(want)), slices.Sorted(maps.Keys(got)))
	for name, content := range want {
		assert.True(t, content == got[name], "%s differs", name) // too long to print
		if filepath.Ext(name) == ".wasm" {
			assert.True(t, strings.HasPrefix(content, "\x00asm"), "%s is no program", name)
		}
	}
}

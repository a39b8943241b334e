package axe

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// packed returns an archive with one file.
func packed(t *testing.T, name, text string) []byte {
	t.Helper()
	var out bytes.Buffer
	zip := gzip.NewWriter(&out)
	files := tar.NewWriter(zip)
	require.NoError(t, files.WriteHeader(&tar.Header{Name: name, Size: int64(len(text)), Mode: 0o644}))
	_, err := files.Write([]byte(text))
	require.NoError(t, err)
	require.NoError(t, files.Close())
	require.NoError(t, zip.Close())
	return out.Bytes()
}

func TestUnpack(t *testing.T) {
	text, err := unpack(packed(t, script, "void 0"))
	require.NoError(t, err)
	assert.Equal(t, "void 0", text)
	_, err = unpack(packed(t, "package/other.js", "void 0"))
	assert.ErrorContains(t, err, script)
	_, err = unpack([]byte("no archive"))
	assert.Error(t, err)
}

func TestCheck(t *testing.T) {
	assert.ErrorContains(t, check(packed(t, script, "another")), "expected sha512-")
}

// A different archive in the cache is not used, and without npm there is no way to get
// the right one.
func TestScriptNeedsTheRightArchive(t *testing.T) {
	t.Setenv("XDG_CACHE_HOME", t.TempDir())
	t.Setenv("HOME", t.TempDir())
	t.Setenv("PATH", "")
	_, err := Script(t.Context())
	assert.ErrorIs(t, err, ErrNoNPM)
}

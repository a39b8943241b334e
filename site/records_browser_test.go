//go:build browser

package site_test

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/scripts/lib/webdriver"
	"pivotbench/wasm/store"
)

// The records of one device are exported to a file and imported on another, which
// still has them after a reload.
func TestRecordsTravel(t *testing.T) {
	inAll(t, releaseHandler(t), tests{"OutAndIn": testOutAndIn}, nil, nil)
}

func testOutAndIn(t *testing.T, b *bench) {
	b.loadSoon(t, start)
	b.open(t, "measure")
	b.note(t, "left")
	b.note(t, "clean")
	noted := b.stored(t, "pivotbench-kept")

	want, err := store.Decode(noted)
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "pivotbench.json")
	if b.Engine == webdriver.WebKit { // WebKit's driver does not support downloads
		require.NoError(t, os.WriteFile(file, []byte(noted), 0o600))
	} else {
		require.NoError(t, b.Downloads(filepath.Dir(file)))
		b.press(t, `[data-panel="measure"] [data-do="export"]`)
		require.Eventually(t, func() bool {
			text, err := os.ReadFile(file)
			if err != nil {
				return false
			}
			out, err := store.Decode(string(text)) // other data of the device is not exported
			return err == nil && out.Encode() == want.Encode()
		}, patience, 50*time.Millisecond)
	}

	require.NoError(t, b.Eval(`localStorage.clear()`, nil))
	b.loadSoon(t, start)
	b.open(t, "measure")
	require.Zero(t, b.tries(t))
	input, err := b.Find(`[data-panel="measure"] [data-file="records"]`)
	require.NoError(t, err)
	require.NoError(t, input.SendKeys(file))
	b.wait(t, `document.querySelectorAll("#strokes tr[data-stroke]").length === 2`)
	require.NoError(t, b.Reload())
	b.wait(t, `document.querySelectorAll("#strokes tr[data-stroke]").length === 2`)
	got, err := store.Decode(b.stored(t, "pivotbench-kept"))
	require.NoError(t, err)
	assert.Equal(t, want, got)
}

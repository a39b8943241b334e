//go:build browser

package site_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/scripts/lib/webdriver"
)

// Tests the single-file version, alone in a folder and opened as by a double click,
// without a server.
func TestOneFile(t *testing.T) {
	dir, err := release()
	require.NoError(t, err)
	content, err := os.ReadFile(filepath.Join(dir, "pivotbench.html"))
	require.NoError(t, err)
	alone := filepath.Join(t.TempDir(), "bench on a stick.html")
	require.NoError(t, os.WriteFile(alone, content, 0o644))
	for _, engine := range webdriver.Engines {
		t.Run(string(engine), func(t *testing.T) {
			b := &bench{open(t, engine), "file://" + filepath.Dir(alone) + "/bench%20on%20a%20stick.html"}
			testOneFile(t, b)
		})
	}
}

func testOneFile(t *testing.T, b *bench) {
	b.load(t, start, "board")
	assertReadings(t, start, b.readings(t))
	for _, link := range shots[9:12] {
		b.show(t, link)
		assertReadings(t, link, b.readings(t))
	}
	b.show(t, start)
	b.wait(t, `document.getElementById("table").contentDocument.querySelector('[data-handle="bridge"]')`) // the canvas may be some shots behind
	b.drag(t, webdriver.Mouse, "bridge", 0, 40)
	b.wait(t, `location.hash.includes("bridge=")`)
	dragged := b.hash(t)
	assertReadings(t, dragged, b.readings(t))
	require.NoError(t, b.Back())
	b.waitHash(t, start)
	b.wait(t, `document.getElementById("board").href.endsWith(location.hash)`)
	assertReadings(t, start, b.readings(t))
	require.NoError(t, b.Forward())
	b.waitHash(t, dragged)

	require.NoError(t, b.Reload())
	require.NoError(t, b.Wait(`document.documentElement.dataset.state === "board"`, startup))
	assertReadings(t, dragged, b.readings(t))
	assert.Empty(t, b.notices(t))

	assert.Contains(t, eval[string](t, b.Session, `return document.getElementById("offline").textContent`), "all in one file")
	b.press(t, `[data-do="copy"]`)
	b.wait(t, `document.getElementById("said").textContent.includes("no public address") || document.getElementById("said").textContent.includes("Copy the address bar")`)
	if b.Engine != webdriver.WebKit { // WebKit has no log
		entries, err := b.Log()
		require.NoError(t, err)
		assert.Empty(t, entries, "its policy lets all of it run")
	}
	assert.Empty(t, eval[[]string](t, b.Session, `return [window, document.getElementById("table").contentWindow]
		.flatMap((w) => w.performance.getEntriesByType("resource").map((entry) => entry.name))
		.filter((name) => !name.startsWith("data:"))`), "nothing is fetched")

	require.NoError(t, b.Eval(`for (const d of [document, document.getElementById("table").contentDocument]) {
		d.addEventListener("securitypolicyviolation", () => { top.refused = (top.refused || 0) + 1; });
		d.body.append(Object.assign(d.createElement("script"), {textContent: "top.pwned = 1"}));
		d.defaultView.fetch("https://elsewhere.invalid/").catch(() => {});
	}`, nil))
	b.wait(t, `window.refused >= 4`)
	assert.False(t, eval[bool](t, b.Session, `return Boolean(window.pwned)`), "no script but its own")

	// The same file also shows the full-screen board.
	if b.Engine != webdriver.WebKit { // WebKit's driver can't open a file with a query
		require.NoError(t, b.Get(b.address+"?wall#v=1&bridge=9in"))
		require.NoError(t, b.Wait(`document.body.className === "board" && document.documentElement.dataset.state === "board"`, startup))
		b.wait(t, `document.querySelector('[data-handle="bridge"]')`)
	}
}

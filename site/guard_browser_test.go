//go:build browser

package site_test

import (
	"net/url"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/scripts/lib/webdriver"
)

func TestGuards(t *testing.T) {
	inEngines(t, releaseHandler(t), map[string]func(*testing.T, *bench){
		"BadLinks":      testBadLinks,
		"HostileName":   testHostileName,
		"StrayMessages": testStrayMessages,
	})
}

func testBadLinks(t *testing.T, b *bench) {
	b.show(t, "v=1")
	for _, tc := range []struct {
		link, kept string
		says       []string
	}{
		{"v=1&bridge=9in&colour=red", "v=1&bridge=9in", []string{"colour", "“red”", "no such key"}},
		{"v=1&bridge=9in&side=7", "v=1&bridge=9in", []string{"side", "“7”", "−0.80 to 0.80"}},
		{"v=1&bridge=9kg&side=0.2", "v=1&side=0.2", []string{"bridge", "“9kg”", "2.0 in to 40.0 in"}},
		{"v=1&bridge=9&side=0.2", "v=1&side=0.2", []string{"bridge", "“9”", "with its unit"}},
		{"v=1&side=NaN&bridge=9in", "v=1&bridge=9in", []string{"side", "“NaN”"}},
		{"v=1&dist=-4in&speed=Infinitymph&bridge=9in", "v=1&bridge=9in", []string{"dist", "“-4in”", "speed"}},
		{"v=1&name=%ff%fe&bridge=9in", "v=1&bridge=9in", []string{"name"}},
		{"v=2&bridge=9in", "v=1&bridge=9in", []string{"v: “2”"}},
		{"v=1&bridge=9in).", "v=1&bridge=9in", nil},
		{"v=1&bridge=9in&si", "v=1&bridge=9in", []string{"si"}},
		{"v=1&bridge=9in&" + strings.Repeat("junk&", 20_000), "v=1&bridge=9in", []string{"junk", "more"}},
	} {
		b.show(t, "v=1&side=0.1")
		require.NoError(t, b.Eval(`location.hash = arguments[0]`, nil, tc.link))
		b.wait(t, `document.getElementById("board").href.endsWith("#`+tc.kept+`")`)
		if tc.says == nil {
			b.wait(t, `document.getElementById("notices").hidden`)
		} else {
			b.wait(t, `document.getElementById("notices").textContent.includes(`+quoted(tc.says[0])+`)`)
		}
		for _, part := range tc.says {
			assert.Contains(t, b.notices(t), part, tc.kept)
		}
		assertReadings(t, tc.kept, b.readings(t))
	}
	b.press(t, `[data-do="dismiss"]`)
	assert.Empty(t, b.notices(t))

	// The same from the start.
	b.load(t, "v=1&bridge=9in&colour=red", "board")
	assert.Contains(t, b.notices(t), "colour")
	assertReadings(t, "v=1&bridge=9in", b.readings(t))
}

func testHostileName(t *testing.T, b *bench) {
	b.show(t, "v=1")
	name := `"><img src=x onerror=window.pwned=1><b>`
	require.NoError(t, b.Eval(`location.hash = arguments[0]`, nil, "v=1&name="+url.PathEscape(name)))
	b.wait(t, `document.getElementById("f-name").value === `+quoted(name))
	// A message quotes it too.
	require.NoError(t, b.Eval(`location.hash = arguments[0]`, nil, "v=1&"+url.PathEscape(name)+"=1&bridge="+url.PathEscape(name)))
	b.wait(t, `!document.getElementById("notices").hidden`)
	assert.Contains(t, b.notices(t), "<img src=x")
	assert.Equal(t, []int{0, 0}, eval[[]int](t, b.Session, `return [document.querySelectorAll("img, b").length,
		window.pwned ? 1 : 0]`))
}

// Tools and other windows post messages of every kind. None ends a program, and
// none changes the shot.
func testStrayMessages(t *testing.T, b *bench) {
	b.show(t, "v=1&bridge=9in")
	require.NoError(t, b.Eval(`
		const frame = document.getElementById("table").contentWindow;
		const odd = [null, undefined, 0, 1n, NaN, true, "", "scene", [], {}, [1n], new Date(), new Map(), /x/, new ArrayBuffer(8),
			{ready: 1}, {ready: "true"}, {ready: {}}, {ready: 1n}, {want: 1n}, {want: 5}, {failed: {}}, {failed: 1n},
			{drag: null}, {drag: 5}, {drag: 1n}, {drag: []}, {drag: {}}, {drag: {phase: 5}}, {drag: {phase: 1n}}, {drag: {phase: "wobble"}},
			{drag: {phase: "move", set: 5}}, {drag: {phase: "move", set: {bridge: 5}}}, {drag: {phase: "move", set: {bridge: 1n}}},
			{drag: {phase: "end"}}, {drag: {phase: "cancel"}},
			{scene: 5}, {scene: null}, {scene: {}}, {scene: 1n}, {look: {stretch: 10}}, {module: 5}, {module: {}}, {seq: 1}];
		for (const message of odd) {
			for (const target of [window, frame]) {
				target.postMessage(message, "*");
				target.dispatchEvent(new MessageEvent("message", {data: message}));
				// As the other of the two would have sent it.
				target.dispatchEvent(new MessageEvent("message", {data: message, source: target === window ? frame : window}));
			}
		}`, nil))
	// Whole commands, from the wrong window.
	require.NoError(t, b.Eval(`window.postMessage({drag: {phase: "end", set: {bridge: "20in"}}}, "*");
		window.postMessage({ready: true}, "*");
		window.postMessage({failed: "not really"}, "*");`, nil))
	require.NoError(t, b.Eval(`return new Promise((done) => setTimeout(done, 300))`, nil))
	assert.Equal(t, "board", eval[string](t, b.Session, "return document.documentElement.dataset.state"))
	assertReadings(t, "v=1&bridge=9in", b.readings(t))

	// Both programs still run.
	b.drag(t, webdriver.Mouse, "bridge", 0, 30)
	b.wait(t, `!location.hash.endsWith("bridge=9in")`)
	assertReadings(t, b.hash(t), b.readings(t))
}

// A normal session asks nobody else for anything, and the console stays clean.
func TestQuietSession(t *testing.T) {
	s := open(t, webdriver.Chromium)
	b := &bench{s, serve(t, releaseHandler(t)).URL + "/"}
	b.load(t, "v=1", "board")
	waitFor(t, s, "ready")
	b.choose(t, "#f-bridge", "9")
	b.waitHash(t, "v=1&bridge=9in")
	b.drag(t, webdriver.Mouse, "tip", -20, 5)
	b.press(t, `[data-stretch="1"]`)
	b.press(t, `[data-do="undo"]`)

	asked := eval[[]string](t, s, `return [window, document.getElementById("table").contentWindow]
		.flatMap((w) => w.performance.getEntriesByType("resource").map((entry) => entry.name))`)
	assert.NotEmpty(t, asked)
	for _, address := range asked {
		assert.True(t, strings.HasPrefix(address, b.address), address)
	}
	entries, err := s.Log()
	require.NoError(t, err)
	for _, e := range entries {
		assert.NotEqual(t, "SEVERE", e.Level, e.Message)
		assert.NotContains(t, e.Message, "Security Policy")
	}
}

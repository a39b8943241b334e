//go:build browser

package site_test

import (
	"net/url"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/scripts/lib/webdriver"
	"pivotbench/wasm/kept"
)

func TestGuards(t *testing.T) {
	inSome(t, releaseHandler(t), map[string]func(*testing.T, *bench){
		"BadLinks":      testBadLinks,
		"HostileName":   testHostileName,
		"StrayMessages": testStrayMessages,
		"HostileFile":   testHostileFile,
		"Junk":          testJunk,
		"Policy":        testPolicy,
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
				target.dispatchEvent(new MessageEvent("message", {data: message, origin, source: target === window ? frame : window}));
			}
		}`, nil))
	// Whole commands, from the wrong window, and from the right one while it
	// shows another site.
	require.NoError(t, b.Eval(`window.postMessage({drag: {phase: "end", set: {bridge: "20in"}}}, "*");
		window.postMessage({ready: true}, "*");
		window.postMessage({failed: "not really"}, "*");
		const frame = document.getElementById("table").contentWindow;
		const elsewhere = (target, source, data) => target.dispatchEvent(new MessageEvent("message", {data, source, origin: "https://example.org"}));
		elsewhere(window, frame, {drag: {phase: "end", set: {bridge: "20in"}}});
		elsewhere(window, frame, {failed: "not really"});
		elsewhere(frame, window, {scene: "v=1&bridge=20in"});`, nil))
	require.NoError(t, b.Eval(`return new Promise((done) => setTimeout(done, 300))`, nil))
	assert.Equal(t, "board", eval[string](t, b.Session, "return document.documentElement.dataset.state"))
	assertReadings(t, "v=1&bridge=9in", b.readings(t))

	// Both programs still run.
	b.drag(t, webdriver.Mouse, "bridge", 0, 30)
	b.wait(t, `!location.hash.endsWith("bridge=9in")`)
	assertReadings(t, b.hash(t), b.readings(t))
}

// hostile puts script into every text of some records that takes it, whatever
// those are: what a text refuses is left as it was.
func hostile(t *testing.T, records kept.Records) string {
	t.Helper()
	const script = `"><img src=x onerror=window.pwned=1><svg onload=window.pwned=1></svg><b>`
	done := 0
	var walk func(v reflect.Value)
	walk = func(v reflect.Value) {
		switch v.Kind() {
		case reflect.Struct:
			for i := range v.NumField() {
				walk(v.Field(i))
			}
		case reflect.Slice:
			for i := range v.Len() {
				walk(v.Index(i))
			}
		case reflect.String:
			was := v.String()
			for _, try := range []string{script, script[:58]} {
				v.SetString(try)
				if _, err := kept.Decode(records.Encode()); err == nil {
					done++
					return
				}
			}
			v.SetString(was)
		}
	}
	walk(reflect.ValueOf(&records).Elem())
	require.Greater(t, done, 4)
	return records.Encode()
}

func testHostileFile(t *testing.T, b *bench) {
	b.show(t, "v=1")
	s, _ := native(t, "v=1")
	text := hostile(t, kept.Records{
		Tries: []kept.Try{{Link: "v=1", Outcome: "left", When: "2026-11-24"}},
		Cues:  []kept.Cue{kept.Typed(&s, "2026-11-24")},
		Marks: kept.Marks{Rail: "50 in", Right: "-1.9 -2", Left: "2 2.1"},
	})
	b.open(t, "measure")
	b.takes(t, "records.json", text)
	b.wait(t, `document.querySelectorAll("#tries tbody tr").length === 1`)
	for _, section := range b.sections(t) {
		b.unfold(t, section)
		assert.Equal(t, []int{0, 0, 0}, eval[[]int](t, b.Session, `return [document.querySelectorAll("img, b").length,
			document.querySelectorAll("[onerror], [onload]").length, window.pwned ? 1 : 0]`), section)
	}
	b.press(t, `[data-do="undo"]`)
}

// Ten megabytes of junk, wherever text comes in, leave a page that answers.
func testJunk(t *testing.T, b *bench) {
	b.open(t, "shot")
	b.show(t, "v=1&bridge=9in")
	require.NoError(t, b.Eval(`
		const junk = "junk=%f&".repeat(10 << 20 >> 3), frame = document.getElementById("table").contentWindow;
		frame.postMessage({scene: junk, look: {theme: junk, earlier: junk, stretch: 1e300}}, "*");
		frame.postMessage({scene: "v=1&bridge=9in", look: {}}, "*");
		window.dispatchEvent(new MessageEvent("message", {origin, source: frame, data: {drag: {phase: "end", set: {bridge: junk, [junk]: junk}}}}));
		for (const el of document.querySelectorAll("#f-bridge, #f-name, #rail-right")) {
			const was = el.value;
			for (const value of [junk, was]) {
				el.value = value;
				el.dispatchEvent(new Event("input", {bubbles: true}));
				el.dispatchEvent(new Event("change", {bubbles: true}));
			}
		}
		location.hash = junk.slice(0, 1 << 20); // Chromium takes no address twice as long`, nil))
	b.show(t, "v=1&bridge=9in")
	b.wait(t, `document.getElementById("notices").textContent.length < 4000`)
	assertReadings(t, "v=1&bridge=9in", b.readings(t))
	b.assertDrags(t)
}

// The page's policy holds against script, and against asking anyone else, from
// inside the page itself.
func testPolicy(t *testing.T, b *bench) {
	b.show(t, "v=1")
	refused := eval[[]string](t, b.Session, `
		const refused = [];
		const documents = [document, document.getElementById("table").contentDocument];
		for (const d of documents) d.addEventListener("securitypolicyviolation", (event) => refused.push(event.effectiveDirective));
		const other = "https://elsewhere.invalid/";
		for (const d of documents) {
			const put = (tag, set) => d.body.append(Object.assign(d.createElement(tag), set));
			put("script", {textContent: "window.pwned = 1; top.pwned = 1"});
			put("script", {src: other + "x.js"});
			put("img", {src: other + "x.png"});
			put("iframe", {src: other});
			put("div", {innerHTML: "<p onclick='window.pwned = 1'></p>"});
			d.body.lastChild.firstChild.click();
			d.defaultView.fetch(other).catch(() => {});
		}
		return new Promise((done) => setTimeout(() => {
			for (const d of documents) for (const el of d.querySelectorAll("script[src^='https'], img, body > iframe:not(#table)")) el.remove();
			done(refused);
		}, 500))`)
	for directive, times := range map[string]int{"script-src-elem": 4, "script-src-attr": 2, "img-src": 2, "frame-src": 2, "connect-src": 2} {
		said := 0
		for _, r := range refused {
			if r == directive || r == strings.TrimSuffix(strings.TrimSuffix(directive, "-elem"), "-attr") {
				said++
			}
		}
		assert.GreaterOrEqual(t, said, times, "%s in %v", directive, refused)
	}
	assert.False(t, eval[bool](t, b.Session, `return Boolean(window.pwned || document.getElementById("table").contentWindow.pwned)`))
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

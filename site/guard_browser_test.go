//go:build browser

package site_test

import (
	"encoding/json"
	"math/rand/v2"
	"net/url"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/lesson"
	"pivotbench/scripts/lib/webdriver"
	"pivotbench/wasm/store"
)

func TestGuards(t *testing.T) {
	inOne(t, releaseHandler(t), tests{
		"BadLinks":      testBadLinks,
		"HostileLinks":  testHostileLinks,
		"Fuzzed":        testFuzzed,
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
		{"v=1&bridge=9in&colour=red", "v=1&bridge=9in", []string{"colour", "“red”", "no control has this name"}},
		{"v=1&bridge=9in&side=7", "v=1&bridge=9in", []string{"side", "“7”", "−0.80 to 0.80"}},
		{"v=1&bridge=9kg&side=0.2", "v=1&side=0.2", []string{"bridge", "“9kg”", "2.0 in to 40.0 in"}},
		{"v=1&bridge=9&side=0.2", "v=1&side=0.2", []string{"bridge", "“9”", "with its unit"}},
		{"v=1&side=NaN&bridge=9in", "v=1&bridge=9in", []string{"side", "“NaN”"}},
		{"v=1&dist=-4in&speed=Infinitymph&bridge=9in", "v=1&bridge=9in", []string{"dist", "“-4in”", "speed"}},
		{"v=1&name=" + strings.Repeat("x", 61) + "&bridge=9in", "v=1&bridge=9in", []string{"name"}},
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
	b.loadSoon(t, "v=1&bridge=9in&colour=red")
	assert.Contains(t, b.notices(t), "colour")
	assertReadings(t, "v=1&bridge=9in", b.readings(t))
}

// script is entered in every text input. None of it may run.
const script = `"><img src=x onerror=top.pwned=1><svg onload=top.pwned=1></svg><b>`

// harmless asserts that no script has run or been inserted into the page.
func (b *bench) harmless(t *testing.T, where string) {
	t.Helper()
	assert.Equal(t, []int{0, 0, 0}, eval[[]int](t, b.Session, `return [document.querySelectorAll("img, b").length,
		document.querySelectorAll("[onerror], [onload], [onclick], a[href^='javascript']").length, window.pwned ? 1 : 0]`), where)
}

// follow opens a link as a user does.
func (b *bench) follow(t *testing.T, link string) {
	t.Helper()
	require.NoError(t, b.Eval(`location.hash = arguments[0]`, nil, link))
}

func testHostileLinks(t *testing.T, b *bench) {
	b.show(t, "v=1")
	name := script[:37] + "<b>"
	b.follow(t, "v=1&name="+url.PathEscape(name))
	b.wait(t, `document.getElementById("f-name").value === `+quoted(name))
	b.harmless(t, "a shot's name")
	// A message quotes it too.
	b.follow(t, "v=1&"+url.PathEscape(name)+"=1&bridge="+url.PathEscape(name))
	b.wait(t, `!document.getElementById("notices").hidden`)
	assert.Contains(t, b.notices(t), "<img src=x")
	b.harmless(t, "what was refused")

	shot, _ := native(t, "v=1")
	cue := store.Typed(&shot, "2026-11-24")
	cue.Name, cue.Shaft, cue.Notes = name, script[:30], script
	b.follow(t, cue.Fragment())
	b.wait(t, `document.getElementById("cue-offer-words").textContent.includes(`+quoted(name)+`)`)
	b.harmless(t, "a cue")
	b.press(t, `[data-do="keep-offer"]`)
	b.wait(t, `document.getElementById("cues").textContent.includes(`+quoted(name)+`)`)
	b.harmless(t, "a cue that is kept")
	b.press(t, `[data-do="undo"]`)

	taught := lesson.Link{Lesson: lesson.Lesson{Title: script, Steps: []lesson.Step{{Link: "v=1", Caption: script}}}}
	b.follow(t, taught.Format())
	b.wait(t, `document.getElementById("lesson-words").textContent.includes(`+quoted(script)+`)`)
	b.harmless(t, "a lesson")
	b.press(t, `[data-do="undo"]`)
	b.open(t, "shot")
}

// spoil makes random changes to a text: it deletes, repeats or inserts bytes, or
// inserts script or a part of the text.
func spoil(rng *rand.Rand, text string) string {
	for range 1 + rng.IntN(4) {
		at := rng.IntN(len(text) + 1)
		end := min(len(text), at+rng.IntN(12))
		text = text[:at] + []string{"", text[at:end], string(rune(rng.IntN(0x3000))), "%" + strconv.Itoa(rng.IntN(99)), "&", script, text}[rng.IntN(7)] + text[end:]
	}
	return text[:min(len(text), 6000)]
}

// When links and files are changed at random, no script runs, the program continues,
// and messages are shown as text. The parsers themselves are fuzzed natively.
func testFuzzed(t *testing.T, b *bench) {
	b.open(t, "measure")
	rng := rand.New(rand.NewPCG(7, 11))
	shot, _ := native(t, "v=1")
	cue := store.Typed(&shot, "2026-11-24")
	cue.Name = "House 4"
	taught := lesson.Link{Lesson: lesson.Shipped[2].Lesson}
	links := []string{shots[9], shots[13], cue.Fragment(), taught.Format()}
	records := store.Records{Strokes: []store.Stroke{{Link: "v=1", See: "left"}}, Cues: []store.CueRecord{cue}}.Encode()
	var spoilt, files []string
	for i := range 40 { // WebKit allows only 100 address changes in 30 seconds
		spoilt = append(spoilt, spoil(rng, links[i%len(links)]))
		files = append(files, spoil(rng, records))
	}
	longest := eval[int](t, b.Session, `return (async (links, files) => {
		const input = document.querySelector('[data-panel="measure"] [data-file="records"]');
		let longest = 0;
		for (const [i, link] of links.entries()) {
			location.hash = link;
			const chosen = new DataTransfer();
			chosen.items.add(new File([files[i]], "records.json"));
			input.files = chosen.files;
			input.dispatchEvent(new Event("change", {bubbles: true}));
			await new Promise((done) => setTimeout(done, 20));
			longest = Math.max(longest, document.getElementById("notices").textContent.length);
		}
		return longest;
	})(`+list(t, spoilt)+`, `+list(t, files)+`)`)
	assert.Positive(t, longest, "some were refused aloud")
	assert.Less(t, longest, 4000)
	b.harmless(t, "spoilt links and files")
	require.NoError(t, b.Eval(`localStorage.clear()`, nil))
	b.loadSoon(t, "v=1&bridge=9in")
	assertReadings(t, "v=1&bridge=9in", b.readings(t))
}

// list returns texts as a JavaScript array.
func list(t *testing.T, texts []string) string {
	t.Helper()
	text, err := json.Marshal(texts)
	require.NoError(t, err)
	return string(text)
}

// Tools and other windows may post any message. No message ends a program or changes
// the shot.
func testStrayMessages(t *testing.T, b *bench) {
	b.show(t, "v=1&bridge=9in")
	require.NoError(t, b.Wait(painted, startup)) // a test before may have loaded the page
	require.NoError(t, b.Eval(`
		const frame = document.getElementById("table").contentWindow;
		const odd = [null, undefined, 0, 1n, NaN, true, "", "scene", [], {}, [1n], new Date(), new Map(), /x/, new ArrayBuffer(8),
			{ready: 1}, {ready: "true"}, {ready: {}}, {ready: 1n}, {want: 1n}, {want: 5}, {failed: {}}, {failed: 1n},
			{drag: null}, {drag: 5}, {drag: 1n}, {drag: []}, {drag: {}}, {drag: {phase: 5}}, {drag: {phase: 1n}}, {drag: {phase: "wobble"}},
			{drag: {phase: "move", set: 5}}, {drag: {phase: "move", set: {bridge: 5}}}, {drag: {phase: "move", set: {bridge: 1n}}},
			{drag: {phase: "end"}}, {drag: {phase: "cancel"}},
			{scene: 5}, {scene: null}, {scene: {}}, {scene: 1n}, {look: {stretch: 10}}, {module: 5}, {module: {}}, {drag: {phase: 1}}];
		for (const message of odd) {
			for (const target of [window, frame]) {
				target.postMessage(message, "*");
				target.dispatchEvent(new MessageEvent("message", {data: message}));
				// As the other of the two would have sent it.
				target.dispatchEvent(new MessageEvent("message", {data: message, origin, source: target === window ? frame : window}));
			}
		}`, nil))
	// Send valid commands from the wrong window, and from the right window while it
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

	// Both programs are still running.
	b.drag(t, webdriver.Mouse, "bridge", 0, 30)
	b.wait(t, `!location.hash.endsWith("bridge=9in")`)
	assertReadings(t, b.hash(t), b.readings(t))
}

// hostile inserts script into every text of some records that accepts it. Texts that
// reject it are left unchanged.
func hostile(t *testing.T, records store.Records) string {
	t.Helper()
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
			for _, try := range []string{script, script[:55]} {
				v.SetString(try)
				if _, err := store.Decode(records.Encode()); err == nil {
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
	text := hostile(t, store.Records{
		Strokes: []store.Stroke{{Link: "v=1", See: "left", When: "2026-11-24"}},
		Cues:    []store.CueRecord{store.Typed(&s, "2026-11-24")},
		Marks:   store.Marks{Rail: "50 in", Right: "-1.9 -2", Left: "2 2.1"},
	})
	b.open(t, "measure")
	b.takes(t, "records.json", text)
	b.wait(t, imports+` !== null || document.querySelectorAll("#strokes tr[data-stroke]").length === 1`)
	require.NoError(t, b.Eval(`document.querySelector('[data-panel="measure"] [data-do="import-replace"]').click()`, nil))
	b.wait(t, `document.querySelectorAll("#strokes tr[data-stroke]").length === 1`)
	for _, section := range b.sections(t) {
		b.unfold(t, section)
		b.harmless(t, section)
	}
	b.press(t, `[data-do="undo"]`)
}

// The page still responds after ten megabytes of junk in every text input.
func testJunk(t *testing.T, b *bench) {
	b.open(t, "shot")
	b.show(t, "v=1&bridge=9in")
	require.NoError(t, b.Wait(painted, startup)) // a test before may have loaded the page
	require.NoError(t, b.Eval(`
		const junk = "junk=%f&".repeat(10 << 20 >> 3), frame = document.getElementById("table").contentWindow;
		frame.postMessage({scene: junk, look: {theme: junk, earlier: junk, stretch: 1e300}}, "*");
		frame.postMessage({scene: "v=1&bridge=9in", look: {}}, "*");
		window.dispatchEvent(new MessageEvent("message", {origin, source: frame, data: {drag: {phase: "end", set: {bridge: junk, [junk]: junk}}}}));
		for (const el of document.querySelectorAll("#f-bridge, #f-name, #mark-text")) {
			const was = el.value;
			for (const value of [junk, was]) {
				el.value = value;
				el.dispatchEvent(new Event("input", {bubbles: true}));
				el.dispatchEvent(new Event("change", {bubbles: true}));
			}
		}
		location.hash = junk.slice(0, 1 << 19); // Firefox takes no address twice as long`, nil))
	b.show(t, "v=1&bridge=9in")
	b.wait(t, `document.getElementById("notices").textContent.length < 4000`)
	assertReadings(t, "v=1&bridge=9in", b.readings(t))
	b.assertDrags(t)
}

// The page's policy blocks script and requests to other hosts, even from inside the
// page.
func testPolicy(t *testing.T, b *bench) {
	b.show(t, "v=1")
	require.NoError(t, b.Wait(painted, startup)) // a test before may have loaded the page
	wanted := map[string]int{"script-src-elem": 4, "script-src-attr": 2, "script-src-eval": 2, "img-src": 2, "frame-src": 2, "connect-src": 2}
	require.NoError(t, b.Eval(`
		const documents = [document, document.getElementById("table").contentDocument];
		window.refused = [];
		// WebKit names inline script and eval by the directive that is written.
		const kind = ({effectiveDirective: d, blockedURI}) => blockedURI === "eval" ? "script-src-eval" : d;
		for (const d of documents) d.addEventListener("securitypolicyviolation", (event) => refused.push(kind(event)));
		const other = "https://elsewhere.invalid/";
		for (const d of documents) {
			const put = (tag, set) => d.body.append(Object.assign(d.createElement(tag), set));
			put("script", {textContent: "window.pwned = 1; top.pwned = 1"});
			put("script", {src: other + "x.js"});
			put("img", {src: other + "x.png"});
			put("iframe", {src: other});
			put("div", {innerHTML: "<p onclick='top.pwned = 1'></p>"});
			d.body.lastChild.firstChild.click();
			d.defaultView.setTimeout("top.pwned = 1");
			d.defaultView.fetch(other).catch(() => {});
		}`, nil))
	b.wait(t, `refused.length >= 14`)
	require.NoError(t, b.Eval(`for (const d of [document, document.getElementById("table").contentDocument])
		for (const el of d.querySelectorAll("script[src^='https'], img, body > iframe:not(#table)")) el.remove()`, nil))
	refused := eval[[]string](t, b.Session, `return refused`)
	for directive, times := range wanted {
		said := 0
		for _, r := range refused {
			if r == directive || directive != "script-src-eval" && r == strings.TrimSuffix(strings.TrimSuffix(directive, "-elem"), "-attr") {
				said++
			}
		}
		assert.GreaterOrEqual(t, said, times, "%s in %v", directive, refused)
	}
	assert.False(t, eval[bool](t, b.Session, `return Boolean(window.pwned || document.getElementById("table").contentWindow.pwned)`))
}

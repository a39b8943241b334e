//go:build browser

package site_test

import (
	"context"
	"net/http"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/scripts/lib/pack"
	"pivotbench/scripts/lib/web"
	"pivotbench/scripts/lib/webdriver"
	"pivotbench/wasm/store"
)

// Tests what the device saves and what happens to it when something is wrong. Each
// test has its own server, and so its own storage, except those that share a page.
// What depends only on the program is tested in one engine.
func TestKept(t *testing.T) {
	site := releaseHandler(t)
	for _, engine := range engines {
		t.Run(string(engine), func(t *testing.T) {
			s := open(t, engine)
			own := slices.Contains(one, engine)
			for _, tc := range []struct {
				name string
				site http.Handler
				run  bool
				test func(*testing.T, *bench)
			}{
				{"StorageRefused", spied(site, noStorage), true, testStorageRefused},
				{"TwoTabs", site, true, testTwoTabs},
				{"ClockWrong", spied(site, wrongClock), own, testClockWrong},
				{"NothingIsLost", site, own, testNothingIsLost},
				{"AskedToKeep", spied(site, asksItsUser), own, testAskedToKeep},
			} {
				if tc.run {
					t.Run(tc.name, func(t *testing.T) { tc.test(t, &bench{s, serve(t, tc.site).URL + "/"}) })
				}
			}
			b := &bench{s, serve(t, site).URL + "/"}
			b.loadSoon(t, start)
			t.Run("StorageFull", func(t *testing.T) { testStorageFull(t, b) })
			if own {
				t.Run("ImportRefused", func(t *testing.T) { testImportRefused(t, b) })
			}
			t.Run("NewVersion", func(t *testing.T) { testNewVersion(t, s) })
		})
	}
}

// loadSoon opens a link on a page without history and does not wait for the canvas.
func (b *bench) loadSoon(t *testing.T, link string) {
	t.Helper()
	require.NoError(t, b.Get("about:blank"))
	require.NoError(t, b.Get(b.address+"#"+link))
	require.NoError(t, b.Wait(`document.documentElement.dataset.state !== "still"`, startup))
}

// seenAgain makes a page reread what is saved, as a page does when it becomes
// visible again, and waits until it has.
const seenAgain = `window.dispatchEvent(new Event("pageshow")), `

// tries returns the number of strokes in the list.
func (b *bench) tries(t *testing.T) int {
	t.Helper()
	return eval[int](t, b.Session, `return document.querySelectorAll("#strokes tr[data-stroke]").length`)
}

// note records a stroke.
func (b *bench) note(t *testing.T, outcome string) {
	t.Helper()
	before := b.tries(t)
	b.press(t, `[data-outcome="`+outcome+`"]`)
	b.wait(t, `document.querySelectorAll("#strokes tr[data-stroke]").length === `+strconv.Itoa(before+1))
}

// stored returns what the device has saved.
func (b *bench) stored(t *testing.T, key string) string {
	t.Helper()
	return eval[string](t, b.Session, `return localStorage.getItem("`+key+`") || ""`)
}

// keeps returns the records on the device as a file.
func (b *bench) keeps(t *testing.T) string {
	t.Helper()
	records, err := store.Decode(b.stored(t, "pivotbench-kept"))
	require.NoError(t, err)
	return records.Encode()
}

// takes gives the page a file to import, as if a user had chosen it.
func (b *bench) takes(t *testing.T, name, text string) {
	t.Helper()
	require.NoError(t, b.Eval(`
		const files = new DataTransfer();
		files.items.add(new File([arguments[1]], arguments[0]));
		const input = document.querySelector('[data-panel="measure"] [data-file="records"]');
		input.files = files.files;
		input.dispatchEvent(new Event("change", {bubbles: true}))`, nil, name, text))
}

const refusedWords = "save your records"

func testStorageFull(t *testing.T, b *bench) {
	require.NoError(t, b.Eval(`for (let size = 1 << 20; size >= 1; size /= 2) try {
		for (let i = 0; i < 100; i++) localStorage.setItem("junk" + size + "-" + i, "x".repeat(size));
	} catch {}`, nil))
	b.open(t, "measure")
	b.note(t, "left")
	assert.Contains(t, b.notices(t), refusedWords)
	b.press(t, `[data-do="dismiss"]`)
	b.note(t, "right")
	assert.Empty(t, b.notices(t), "it is said aloud once")
	assert.Contains(t, eval[string](t, b.Session, `return document.querySelector(".kept").textContent`), refusedWords)
	assert.Empty(t, b.stored(t, "pivotbench-kept"))

	require.NoError(t, b.Eval(`for (const key of Object.keys(localStorage)) if (key.startsWith("junk")) localStorage.removeItem(key)`, nil))
	b.note(t, "clean")
	records, err := store.Decode(b.stored(t, "pivotbench-kept"))
	require.NoError(t, err)
	assert.Len(t, records.Strokes, 3, "room again: all that was noted meanwhile is kept")
	assert.NotContains(t, eval[string](t, b.Session, `return document.querySelector(".kept").textContent`), refusedWords)
}

// noStorage simulates a browser that refuses all storage: any access throws.
const noStorage = `for (const name of ["localStorage", "sessionStorage", "indexedDB", "caches"])
	Object.defineProperty(window, name, {get() { throw new DOMException("The operation is insecure.", "SecurityError"); }});`

func testStorageRefused(t *testing.T, b *bench) {
	b.load(t, start, "board")
	assertReadings(t, start, b.readings(t))
	b.open(t, "measure")
	b.note(t, "left")
	assert.Contains(t, b.notices(t), refusedWords)
	b.choose(t, "#theme", "dark")
	b.wait(t, `document.documentElement.dataset.theme === "dark"`)
	b.open(t, "shot")
	b.assertDrags(t)
}

func testTwoTabs(t *testing.T, b *bench) {
	b.loadSoon(t, start)
	b.open(t, "measure")
	b.note(t, "left")
	first, err := b.Tab()
	require.NoError(t, err)
	second, err := b.NewTab()
	require.NoError(t, err)
	b.loadSoon(t, start)
	b.open(t, "measure")
	require.Equal(t, 1, b.tries(t))
	b.note(t, "right")

	require.NoError(t, b.SwitchToTab(first))
	b.wait(t, `document.querySelectorAll("#strokes tr[data-stroke]").length === 2`)
	b.choose(t, "#f-bridge", "9")
	b.waitHash(t, "v=1&bridge=9in&dist=40in")
	b.press(t, `[data-do="undo"]`)
	b.waitHash(t, start)
	assert.Equal(t, 2, b.tries(t), "undo here takes nothing back that was done there")
	assert.True(t, eval[bool](t, b.Session, `return document.querySelector('[data-do="undo"]').disabled`), "and the try noted here before is no step of its own any more")
	b.note(t, "clean")

	require.NoError(t, b.SwitchToTab(second))
	b.wait(t, `document.querySelectorAll("#strokes tr[data-stroke]").length === 3`)

	// A stroke removed in one tab stays removed in the other tab, which recorded it,
	// and neither tab overwrites the other.
	require.NoError(t, b.Eval(`window.heard = 0;
		window.addEventListener("storage", (event) => { if (event.key === "pivotbench-kept") window.heard++ }, {capture: true})`, nil))
	b.press(t, `#strokes [data-do="delete-stroke"]`)
	require.NoError(t, b.SwitchToTab(first))
	b.wait(t, `document.querySelectorAll("#strokes tr[data-stroke]").length === 2`)
	b.note(t, "clean")
	require.NoError(t, b.SwitchToTab(second))
	b.wait(t, `document.querySelectorAll("#strokes tr[data-stroke]").length === 3`)
	assert.Equal(t, 1, eval[int](t, b.Session, `return window.heard`), "the first tab wrote once")

	// A suspended tab gets no events, so it rereads when it becomes visible again.
	require.NoError(t, b.Eval(`window.addEventListener("storage", (event) => event.stopImmediatePropagation(), {capture: true})`, nil))
	require.NoError(t, b.SwitchToTab(first))
	b.note(t, "clean")
	require.NoError(t, b.SwitchToTab(second))
	b.wait(t, seenAgain+`document.querySelectorAll("#strokes tr[data-stroke]").length === 4`)

	require.NoError(t, b.CloseTab())
	require.NoError(t, b.SwitchToTab(first))
}

// A file with errors changes nothing, and the page lists every wrong line.
func testImportRefused(t *testing.T, b *bench) {
	b.open(t, "measure")
	b.note(t, "left")
	noted := b.tries(t)
	was := b.keeps(t)
	for _, tc := range []struct {
		name, text string
		says       []string
	}{
		{"tries.csv", "link,outcome,when\nv=1,clean,x\nv=1,sideways,x\nv=1&bridge=-3in,left,y\n", []string{"Nothing was imported", "line 3", "sideways", "line 4", "-3in"}},
		{"records.json", `{"v": 2, "tries": [{"link": "v=1", "outcome": "clean"}, {"link": "v=7", "outcome": "clean"}]}`, []string{"stroke 2", "“7”"}},
		{"records.json", `{"v": 1, "tries": [`, []string{"not a Pivotbench records file"}},
		{"picture.png", "\x89PNG\r\n\x1a\n\x00\x00", []string{"Nothing was imported"}},
		{"empty", "", []string{"the file is empty"}},
		{"long", strings.Repeat("link,outcome,when\n", 10<<20/18), []string{"MB, and a records file has at most"}},
	} {
		b.takes(t, tc.name, tc.text)
		b.wait(t, `document.getElementById("notices").textContent.includes(`+quoted(tc.says[len(tc.says)-1])+`)`)
		for _, part := range tc.says {
			assert.Contains(t, b.notices(t), part, tc.name)
		}
		assert.Equal(t, noted, b.tries(t), tc.name)
		assert.Equal(t, was, b.keeps(t), tc.name)
		b.press(t, `[data-do="dismiss"]`)
	}
	b.takes(t, "records.json", store.Records{Strokes: []store.Stroke{{Link: "v=1", See: "clean"}, {Link: "v=1", See: "left"}}}.Encode())
	b.wait(t, imports+` !== null`)
	assert.Equal(t, was, b.keeps(t), "nothing is done until it is said what")
	b.press(t, `[data-panel="measure"] [data-do="import-replace"]`)
	b.wait(t, `document.querySelectorAll("#strokes tr[data-stroke]").length === 2`)
	b.press(t, `[data-do="undo"]`)
	b.wait(t, `document.querySelectorAll("#strokes tr[data-stroke]").length === `+strconv.Itoa(noted))
	assert.Equal(t, was, b.keeps(t), "undone on the device too")
}

// imports returns the question of what to do with a file.
const imports = `document.querySelector('[data-panel="measure"] [data-import]:not([hidden])')`

// Everything written can be read again: a name with invisible characters, a stroke
// that another tab did not know when it wrote, a saved visit that no page wrote.
func testNothingIsLost(t *testing.T, b *bench) {
	b.loadSoon(t, start)
	b.open(t, "measure")
	b.note(t, "left")
	before := b.stored(t, "pivotbench-kept")
	require.NoError(t, b.Eval(`const name = document.getElementById("measuring");
		name.value = "House\u00a04\u00ad \u200d";
		name.dispatchEvent(new Event("change"))`, nil))
	b.wait(t, `document.querySelector('#sitting-cues [aria-pressed="true"]')?.textContent.startsWith("House 4")`)
	require.NoError(t, b.Eval(`document.querySelector('[data-outcome="clean"]').click()`, nil))
	// Another tab knows only the earlier records.
	other := strings.Replace(before, `"see": "left"`, `"see": "right"`, 1)
	require.NotEqual(t, before, other)
	require.NoError(t, b.Eval(`localStorage.setItem("pivotbench-kept", arguments[0]); window.dispatchEvent(new StorageEvent("storage"))`, nil, other))
	b.wait(t, `JSON.parse(localStorage.getItem("pivotbench-kept")).strokes.length === 3`)
	records, err := store.Decode(b.stored(t, "pivotbench-kept"))
	require.NoError(t, err)
	var seen []string
	for _, k := range records.Strokes {
		seen = append(seen, k.Cue+"|"+k.See)
	}
	assert.ElementsMatch(t, []string{"|left", "|right", "House 4 \u200d|clean"}, seen)

	require.NoError(t, b.Eval(`window.addEventListener("pagehide", () => sessionStorage.setItem("pivotbench-place", "lessons -5 lesson&v=1&shipped=squirt"))`, nil))
	require.NoError(t, b.Reload())
	b.wait(t, `document.documentElement.dataset.state !== "still"`)
	assert.Empty(t, b.notices(t))
	b.open(t, "measure")
	b.wait(t, `document.querySelectorAll("#strokes tr[data-stroke]").length === 3`)
}

// asksItsUser simulates a browser that asks its user before it makes a site's
// storage persistent. It answers after a reload.
const asksItsUser = `window.said = [];
	document.addEventListener("DOMContentLoaded", () => new MutationObserver(() => said.push(document.getElementById("said").textContent))
		.observe(document.getElementById("said"), {childList: true}));
	navigator.storage.persist = () => {
		window.asked = performance.now();
		return sessionStorage.granted ? Promise.resolve(true) : new Promise(() => { sessionStorage.granted = "yes"; });
	}`

// The page explains why the browser asks while it asks, and not after the answer.
func testAskedToKeep(t *testing.T, b *bench) {
	const words = "Your browser may ask to store data"
	said := func() string {
		return eval[string](t, b.Session, `return said.join("\n")`)
	}
	b.loadSoon(t, start)
	b.open(t, "measure")
	assert.False(t, eval[bool](t, b.Session, `return "asked" in window`), "nobody is asked before there is something to keep")
	b.note(t, "left")
	b.wait(t, `said.some((words) => words.startsWith(`+quoted(words)+`))`)
	b.again(t)
	b.open(t, "measure")
	b.note(t, "right")
	b.wait(t, `performance.now() - window.asked > 1500`)
	assert.NotContains(t, said(), words)
	assert.NotEmpty(t, said(), "what was noted")
}

// wrongClock simulates a device clock that is wrong and jumps: 1970, 2100, 2001,
// 2023.
const wrongClock = `{
	const Right = Date, shows = [1e6, 4.1e12, 1e12, 1.7e12];
	let looked = 0;
	const now = () => shows[looked++ % shows.length];
	window.Date = class extends Right {
		constructor(...given) { given.length ? super(...given) : super(now()); }
		static now() { return now(); }
	};
}`

func testClockWrong(t *testing.T, b *bench) {
	b.loadSoon(t, start)
	assertReadings(t, start, b.readings(t))
	b.open(t, "measure")
	for _, outcome := range []string{"left", "right", "clean", "left", "right"} {
		b.note(t, outcome)
	}
	b.wait(t, `document.querySelectorAll("#strokes tr[data-stroke]").length === 5`)
	b.open(t, "cues")
	b.press(t, `[data-do="type-cue"]`)
	b.wait(t, `document.querySelectorAll("#cues li").length === 1`)
	b.open(t, "card")
	b.wait(t, `document.querySelectorAll("#card-table tbody td").length > 0`)
	records, err := store.Decode(b.stored(t, "pivotbench-kept"))
	require.NoError(t, err)
	assert.Len(t, records.Strokes, 5)
	require.NoError(t, b.Reload())
	b.wait(t, `document.documentElement.dataset.state !== "still"`)
	b.open(t, "measure")
	assert.Equal(t, 5, b.tries(t))
}

// newer builds the version that follows release, once for all tests. The address
// compiled into it identifies it.
var newer = sync.OnceValues(func() (dir string, err error) {
	dir = filepath.Join(scratch, "newer")
	_, err = pack.Build(context.Background(), pack.Options{Root: "..", Out: dir, Data: pack.PageData, Public: elsewhere})
	return dir, err
})

const elsewhere = "https://example.org/bench/"

// takesOver is the code with which a worker takes over from an earlier one. soonStuck
// makes the page wait 1 s for that instead of 15 s.
const (
	takesOver = "self.skipWaiting();"
	soonStuck = `const set = window.setTimeout;
		window.setTimeout = (f, ms) => set(f, ms === 15_000 ? 1000 : ms)`
)

// update makes the browser fetch a newer version and waits until the page offers it.
func (b *bench) update(t *testing.T) {
	t.Helper()
	require.NoError(t, b.Eval(`return navigator.serviceWorker.getRegistration().then((r) => r.update()).then((r) => new Promise((done) => {
		(function look() { r.installing ? setTimeout(look, 50) : done(true); })();
	}))`, nil))
	waitFor(t, b.Session, "update")
}

// A new version published while the page is open is offered, waits for the user's
// consent, and loses nothing.
func testNewVersion(t *testing.T, s *webdriver.Session) {
	server := serve(t, releaseHandler(t))
	b := &bench{s, server.URL + "/"}
	b.load(t, start, "board") // the worker waits for this
	waitFor(t, s, "ready")
	b.open(t, "measure")
	b.note(t, "left")

	dir, err := newer()
	require.NoError(t, err)
	server.show(workerLacks(t, dir, takesOver)) // this worker does not take over
	const public = `document.getElementById("loader").dataset.public`
	b.update(t)
	b.wait(t, `document.getElementById("offline").textContent.includes("new version ready")`)
	b.open(t, "instruments")
	b.fill(t, "speed-length", "61 1/2")
	b.open(t, "shot")
	b.write(t, "bridge", "9.25") // not yet committed
	b.wait(t, `document.getElementById("board").href.includes("bridge=9.25in")`)
	assert.Empty(t, eval[string](t, s, "return "+public), "the old one goes on working meanwhile")
	assertReadings(t, "v=1&bridge=9.25in&dist=40in", b.readings(t))

	// The page says that the update failed, and continues. The user may try again.
	require.NoError(t, s.Eval(soonStuck, nil))
	b.press(t, `[data-do="update"]`)
	waitFor(t, s, "stuck")
	b.wait(t, `document.getElementById("notices").textContent.includes("Close the other tabs")`)
	assert.Equal(t, "new version did not start Try again", b.texts(t, "#offline")[0])
	assert.True(t, eval[bool](t, s, `const {top, bottom} = document.getElementById("notices").getBoundingClientRect();
		return top >= 0 && bottom <= innerHeight`), "where it is seen")
	assertReadings(t, "v=1&bridge=9.25in&dist=40in", b.readings(t))
	b.press(t, `[data-do="update"]`)
	b.wait(t, `document.getElementById("offline").textContent === "starting the new version…"`)
	b.wait(t, `document.getElementById("offline").textContent.includes("did not start")`)

	server.show(web.Handler(dir)) // a worker that does
	b.update(t)
	b.press(t, `[data-do="update"]`)
	require.NoError(t, s.Wait(public+` === "`+elsewhere+`" && document.documentElement.dataset.state !== "still"`, startup))
	assertReadings(t, "v=1&bridge=9.25in&dist=40in", b.readings(t))
	assert.Equal(t, "61 1/2", eval[string](t, s, `return document.getElementById("speed-length").value`), "and so is this")
	b.open(t, "measure")
	assert.Equal(t, 1, b.tries(t))
}

//go:build browser

package site_test

import (
	"context"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/scripts/lib/pack"
	"pivotbench/scripts/lib/web"
	"pivotbench/scripts/lib/webdriver"
)

// The page starts on wrongly configured hosts, or says what is wrong. Engines differ
// in how they compile a program with a wrong media type and in how one worker
// replaces another; the rest is tested in one engine.
func TestStarts(t *testing.T) {
	site := releaseHandler(t)
	for _, engine := range engines {
		t.Run(string(engine), func(t *testing.T) {
			s := open(t, engine)
			own := slices.Contains(one, engine)
			for _, tc := range []struct {
				name string
				run  bool
				test func(*testing.T, *webdriver.Session, http.Handler)
			}{
				{"WrongTypes", true, testWrongTypes},
				{"DiesAtStart", own, testDiesAtStart},
				{"EarlierVersionMended", true, testEarlierVersionMended},
				{"FramesPageRefused", own, testFramesPageRefused},
				{"PartsMissing", own, testPartsMissing},
				{"Stalled", own, testStalled},
				{"BoardRefuses", own, testBoardRefuses},
				{"FingerDown", own, testFingerDown},
			} {
				if tc.run {
					t.Run(tc.name, func(t *testing.T) { tc.test(t, s, site) })
				}
			}
		})
	}
}

// typeless sends programs with a media type that no browser compiles while streaming,
// because that type must have no parameters (WebAssembly Web API, compiling a
// potential response).
type typeless struct{ http.ResponseWriter }

func (w typeless) WriteHeader(status int) {
	if strings.Contains(w.Header().Get("Content-Type"), "wasm") {
		w.Header().Set("Content-Type", "application/wasm; charset=utf-8")
	}
	w.ResponseWriter.WriteHeader(status)
}

func testWrongTypes(t *testing.T, s *webdriver.Session, site http.Handler) {
	server := serve(t, http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { site.ServeHTTP(typeless{w}, r) }))
	b := &bench{s, server.URL + "/"}
	b.load(t, start, "board")
	assertReadings(t, start, b.readings(t))
	waitFor(t, s, "ready")
	types := eval[[]string](t, s, `return (async () => {
		const out = [];
		for (const key of await caches.keys()) {
			const cache = await caches.open(key);
			for (const request of await cache.keys()) if (request.url.endsWith(".wasm")) out.push((await cache.match(request)).headers.get("Content-Type"));
		}
		return out;
	})()`)
	assert.Equal(t, []string{"application/wasm", "application/wasm", "application/wasm"}, types)

	// A file that an earlier worker cached with the host's media type is corrected.
	require.NoError(t, s.Eval(`return (async () => {
		for (const key of await caches.keys()) {
			const cache = await caches.open(key);
			for (const request of await cache.keys()) if (request.url.endsWith(".wasm")) {
				await cache.put(request, new Response(await (await cache.match(request)).blob(), {headers: {"Content-Type": "text/plain"}}));
			}
		}
	})()`, nil))
	require.NoError(t, s.Reload())
	require.NoError(t, s.Wait(painted, startup))
	waitFor(t, s, "ready")
	server.Close()
	require.NoError(t, s.Reload())
	require.NoError(t, s.Wait(painted, startup))
	assertReadings(t, start, b.readings(t))

	// The full-screen board loads its program too.
	alone := serve(t, http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { site.ServeHTTP(typeless{w}, r) }))
	require.NoError(t, s.Get(alone.URL+"/table.html#"+start))
	require.NoError(t, s.Wait(`document.documentElement.dataset.state === "board"`, startup))
}

// dying is a version in which the page's program is not a Go program and ends at
// once.
var dying = sync.OnceValues(func() (dir string, err error) {
	assets := pack.Pivotbench()
	for i, a := range assets {
		if a.Name == "page.wasm" {
			assets[i].Make = func(context.Context, *pack.Site) ([]byte, error) { return []byte("\x00asm\x01\x00\x00\x00"), nil }
		}
	}
	dir = filepath.Join(scratch, "dying")
	_, err = pack.Build(context.Background(), pack.Options{Root: "..", Out: dir, Data: pack.PageData, Assets: assets})
	return dir, err
})

func testDiesAtStart(t *testing.T, s *webdriver.Session, site http.Handler) {
	dir, err := dying()
	require.NoError(t, err)
	server := serve(t, unkept(web.Handler(dir)))
	b := &bench{s, server.URL + "/"}
	b.load(t, start, "still")
	b.assertTrouble(t, "Pivotbench stopped", "")
	waitFor(t, s, "failed")
	assert.Empty(t, cacheNames(t, s), "what would not open is not kept")

	// When it is cached all the same, as after an update, the page does not report it
	// as ready.
	require.NoError(t, s.Eval(`return navigator.serviceWorker.register("sw.js", {updateViaCache: "none"}).then(() => navigator.serviceWorker.ready).then(() => true)`, nil))
	require.NoError(t, s.Reload())
	b.assertTrouble(t, "Pivotbench stopped", "")
	waitFor(t, s, "failed")
	assert.True(t, eval[bool](t, s, `return navigator.serviceWorker.controller !== null`))
	assert.Len(t, cacheNames(t, s), 1)

	// After it has failed twice, it is replaced without asking, because the program
	// can't ask.
	// If the newer version does not take over, the page says so.
	newer, err := release()
	require.NoError(t, err)
	server.show(unkept(workerLacks(t, newer, takesOver)))
	require.NoError(t, s.Reload())
	require.NoError(t, s.Eval(soonStuck, nil))
	b.wait(t, `document.querySelector("[data-newer]") && document.querySelector("[data-newer]").innerText.includes("close the other tabs")`)
	server.show(unkept(site))
	b.update(t)
	require.NoError(t, s.Eval(`sessionStorage.removeItem("pivotbench-taken")`, nil)) // as in a later visit
	require.NoError(t, s.Reload())
	require.NoError(t, s.Wait(`document.documentElement.dataset.state === "board"`, startup))
	assertReadings(t, start, b.readings(t))
}

// without serves a site that lacks a file.
func without(site http.Handler, part string) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.Contains(r.URL.Path, part) {
			http.NotFound(w, r)
			return
		}
		site.ServeHTTP(w, r)
	})
}

func testPartsMissing(t *testing.T, s *webdriver.Session, site http.Handler) {
	server := serve(t, without(site, "/board."))
	b := &bench{s, server.URL + "/"}
	b.load(t, start, "live")
	b.assertTrouble(t, "part of it did not arrive", "")
	assertReadings(t, start, b.readings(t))
	server.show(site)
	b.press(t, "#progress button")
	require.NoError(t, s.Wait(painted, startup))
	assert.Zero(t, eval[int](t, s, `return document.querySelectorAll("#progress [role=alert]").length`), "what was said is taken back")

	server = serve(t, without(site, "/wasm_exec."))
	b = &bench{s, server.URL + "/"}
	b.load(t, start, "still")
	b.assertTrouble(t, "part of the page did not arrive", "")
	server.show(site)
	b.press(t, "#progress button")
	require.NoError(t, s.Wait(painted, startup))

	server = serve(t, without(site, "/loader."))
	b = &bench{s, server.URL + "/"}
	b.load(t, start, "still")
	require.NoError(t, s.Eval(`document.querySelector(".stuck").getAnimations()[0].finish()`, nil)) // the page waits for a while before it shows this
	require.NoError(t, s.Wait(`getComputedStyle(document.querySelector(".stuck")).visibility === "visible"`, patience))
}

// The board reports which keys of its link it rejected.
func testBoardRefuses(t *testing.T, s *webdriver.Session, site http.Handler) {
	server := serve(t, site)
	require.NoError(t, s.Get(server.URL+"/table.html#v=1&bridge=9in&colour=red"))
	require.NoError(t, s.Wait(`document.getElementById("trouble").textContent.includes("colour")`, startup))
	require.NoError(t, s.Eval(`location.hash = "v=1&bridge=10in"`, nil))
	require.NoError(t, s.Wait(`document.getElementById("trouble").hidden`, patience))
}

// The canvas does not start while a finger is down, because starting it blocks a slow
// phone for a second or more.
func testFingerDown(t *testing.T, s *webdriver.Session, site http.Handler) {
	const finger = `document.addEventListener("DOMContentLoaded", () => window.dispatchEvent(new PointerEvent("pointerdown", {pointerId: 77, buttons: 1})));`
	b := &bench{s, serve(t, spied(site, finger)).URL + "/"}
	b.load(t, start, "live")
	require.NoError(t, s.Eval(`return new Promise((done) => setTimeout(done, 4000))`, nil))
	assert.Equal(t, "live", eval[string](t, s, `return document.documentElement.dataset.state`))
	assertReadings(t, start, b.readings(t))

	// A drag of the plain drawing continues when the canvas becomes ready. The canvas
	// takes over after the drag, unless it has failed before then.
	tell := func(news string) {
		require.NoError(t, s.Eval(`window.dispatchEvent(new MessageEvent("message", {
			data: `+news+`, origin: location.origin, source: document.getElementById("table").contentWindow}))`, nil))
	}
	state := func() string { return eval[string](t, s, `return document.documentElement.dataset.state`) }
	for _, tc := range []struct{ failed, after string }{{`{failed: "no light"}`, "live"}, {"", "board"}} {
		b.show(t, start)
		x, y := b.grab(t, webdriver.Mouse, "bridge")
		was := b.value(t, "heading")
		tell(`{ready: true}`)
		assert.Equal(t, "live", state(), "the drag is under way")
		if tc.failed != "" {
			tell(tc.failed)
		}
		require.NoError(t, b.Gesture(webdriver.Mouse).Move(x, y+20).Move(x, y+30).Do())
		b.wait(t, `document.querySelector('[data-reading="heading"]').dataset.value !== `+quoted(was))
		require.NoError(t, b.Gesture(webdriver.Mouse).Up().Do())
		b.wait(t, `location.hash !== "#`+start+`"`)
		assert.Equal(t, tc.after, state())
	}

	// The end of a press may go to the browser itself, as with a menu. A later move
	// without a press then shows that it has ended.
	require.NoError(t, s.Eval(`window.dispatchEvent(new PointerEvent("pointermove", {pointerId: 77}))`, nil))
	require.NoError(t, s.Wait(painted, startup))
}

// workerLacks serves a built site with some of the worker's code removed.
func workerLacks(t *testing.T, dir, code string) http.Handler {
	t.Helper()
	whole, err := os.ReadFile(filepath.Join(dir, "sw.js"))
	require.NoError(t, err)
	lacking := strings.Replace(string(whole), code, "", 1)
	require.NotEqual(t, string(whole), lacking)
	site := web.Handler(dir)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path == "/sw.js" {
			w.Header().Set("Content-Type", "text/javascript")
			w.WriteHeader(http.StatusOK)
			_, _ = io.WriteString(w, lacking)
			return
		}
		site.ServeHTTP(w, r)
	})
}

// Files that an earlier version cached with unusable media types are corrected when a
// newer version arrives, even if the earlier one can't start. A reload is enough, and
// the newer version still needs the user's consent.
func testEarlierVersionMended(t *testing.T, s *webdriver.Session, _ http.Handler) {
	// The earlier worker does not change what it has cached.
	server := serve(t, unkept(workerLacks(t, built(t, "one"), "await mend(await caches.open(CACHE));")))
	require.NoError(t, s.Get(server.URL))
	waitFor(t, s, "ready")
	const types = `return (async () => {
		const cache = await caches.open(arguments[0]);
		const out = {};
		for (const request of await cache.keys()) {
			const kept = await cache.match(request);
			if (arguments[1]) await cache.put(request, new Response(await kept.blob(), {headers: {"Content-Type": "text/plain"}}));
			out[new URL(request.url).pathname] = (await cache.match(request)).headers.get("Content-Type");
		}
		return out;
	})()`
	name := cacheNames(t, s)[0]
	var right, spoilt, mended map[string]string
	require.NoError(t, s.Eval(types, &right, name, false))
	require.NoError(t, s.Eval(types, &spoilt, name, true))
	require.NotEqual(t, right, spoilt)
	assert.Contains(t, right, "/")
	server.show(unkept(web.Handler(built(t, "two"))))
	require.NoError(t, s.Eval(`return navigator.serviceWorker.getRegistration().then((r) => r.update())`, nil))
	waitFor(t, s, "update")
	require.NoError(t, s.Eval(types, &mended, name, false))
	assert.Equal(t, right, mended)
}

// The page reports a stalled connection, and trying again fixes it. A response that
// arrives late does not start anything a second time.
func testStalled(t *testing.T, s *webdriver.Session, site http.Handler) {
	const later = `const now = Date.now.bind(Date); window.waited = 0; Date.now = () => now() + window.waited`
	released := make(chan struct{})
	spying := spied(site, later)
	server := serve(t, http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.HasPrefix(r.URL.Path, "/page.") {
			<-released
		}
		spying.ServeHTTP(w, r)
	}))
	t.Cleanup(func() { close(released) })
	b := &bench{s, server.URL + "/"}
	b.load(t, start, "still")
	assert.Zero(t, eval[int](t, s, `return document.querySelectorAll("#progress [role=alert]").length`))
	require.NoError(t, s.Eval(`window.waited = 60000`, nil))
	b.assertTrouble(t, "has not loaded yet", "")
	server.show(spying)
	b.press(t, "#progress button")
	require.NoError(t, s.Wait(painted, startup))
	assertReadings(t, start, b.readings(t))
}

// When the frame contains something that the page can't access, trying again reloads
// the frame.
func testFramesPageRefused(t *testing.T, s *webdriver.Session, site http.Handler) {
	server := serve(t, http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path == "/table.html" {
			panic(http.ErrAbortHandler)
		}
		site.ServeHTTP(w, r)
	}))
	b := &bench{s, server.URL + "/"}
	b.load(t, start, "live")
	b.assertTrouble(t, "part of it did not arrive", "")
	server.show(site)
	b.press(t, "#progress button")
	require.NoError(t, s.Wait(painted, startup))
}

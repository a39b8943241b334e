//go:build browser

package site_test

import (
	"context"
	"net/http"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/scripts/lib/pack"
	"pivotbench/scripts/lib/web"
	"pivotbench/scripts/lib/webdriver"
)

// The bench starts on hosts that are not as they should be, and says what is
// wrong where it can't.
func TestStarts(t *testing.T) {
	site := releaseHandler(t)
	for _, engine := range one {
		t.Run(string(engine), func(t *testing.T) {
			s := open(t, engine)
			for name, test := range map[string]func(*testing.T, *webdriver.Session, http.Handler){
				"WrongTypes": testWrongTypes, "DiesAtStart": testDiesAtStart, "PartsMissing": testPartsMissing, "BoardRefuses": testBoardRefuses, "FingerDown": testFingerDown,
			} {
				t.Run(name, func(t *testing.T) { test(t, s, site) })
			}
		})
	}
}

// typeless sends programs with a type that no browser compiles as it comes.
type typeless struct{ http.ResponseWriter }

func (w typeless) WriteHeader(status int) {
	if strings.Contains(w.Header().Get("Content-Type"), "wasm") {
		w.Header().Set("Content-Type", "application/octet-stream")
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
	assert.Equal(t, []string{"application/wasm", "application/wasm"}, types)

	// What an earlier worker kept under the host's type is put right.
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

	// The board by itself fetches its program too.
	alone := serve(t, http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { site.ServeHTTP(typeless{w}, r) }))
	require.NoError(t, s.Get(alone.URL+"/table.html#"+start))
	require.NoError(t, s.Wait(`document.documentElement.dataset.state === "board"`, startup))
}

// dying is a version whose page's program is no program of Go's, and ends at once.
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
	b.assertTrouble(t, "program ended", "")
	waitFor(t, s, "ready") // it is kept all the same, and answers from now on
	server.show(unkept(site))
	require.NoError(t, s.Reload())
	// Twice dead, it is replaced without a word from the program that can't say one.
	require.NoError(t, s.Wait(`document.documentElement.dataset.state === "board"`, startup))
	assertReadings(t, start, b.readings(t))
}

// without is a site that lacks a file.
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
	b.assertTrouble(t, "a part of it did not arrive", "")
	assertReadings(t, start, b.readings(t))
	server.show(site)
	b.press(t, "#progress button")
	require.NoError(t, s.Wait(painted, startup))
	assert.Zero(t, eval[int](t, s, `return document.querySelectorAll("#progress [role=alert]").length`), "what was said is taken back")

	server = serve(t, without(site, "/wasm_exec."))
	b = &bench{s, server.URL + "/"}
	b.load(t, start, "still")
	b.assertTrouble(t, "a part of the page did not arrive", "")
	server.show(site)
	b.press(t, "#progress button")
	require.NoError(t, s.Wait(painted, startup))

	server = serve(t, without(site, "/loader."))
	b = &bench{s, server.URL + "/"}
	b.load(t, start, "still")
	require.NoError(t, s.Wait(`getComputedStyle(document.querySelector(".stuck")).visibility === "visible"`, startup))
}

// The board says which keys of its link it refused.
func testBoardRefuses(t *testing.T, s *webdriver.Session, site http.Handler) {
	server := serve(t, site)
	require.NoError(t, s.Get(server.URL+"/table.html#v=1&bridge=9in&colour=red"))
	require.NoError(t, s.Wait(`document.getElementById("trouble").textContent.includes("colour")`, startup))
	require.NoError(t, s.Eval(`location.hash = "v=1&bridge=10in"`, nil))
	require.NoError(t, s.Wait(`document.getElementById("trouble").hidden`, patience))
}

// The canvas, whose start holds a slow phone for a second or more, does not start
// while a finger is down.
func testFingerDown(t *testing.T, s *webdriver.Session, site http.Handler) {
	const finger = `document.addEventListener("DOMContentLoaded", () => window.dispatchEvent(new PointerEvent("pointerdown", {pointerId: 77})));`
	b := &bench{s, serve(t, spied(site, finger)).URL + "/"}
	b.load(t, start, "live")
	require.NoError(t, s.Eval(`return new Promise((done) => setTimeout(done, 4000))`, nil))
	assert.Equal(t, "live", eval[string](t, s, `return document.documentElement.dataset.state`))
	assertReadings(t, start, b.readings(t))
	require.NoError(t, s.Eval(`window.dispatchEvent(new PointerEvent("pointerup", {pointerId: 77}))`, nil))
	require.NoError(t, s.Wait(painted, startup))
}

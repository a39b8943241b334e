//go:build browser

// Package site_test tests the page, its canvas and its offline worker in real browsers.
package site_test

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/scripts/lib/pack"
	"pivotbench/scripts/lib/web"
	"pivotbench/scripts/lib/webdriver"
)

// The worker, its registration and the manifest are the real ones. The site around
// them is two small pages and two scripts, so that a test can make a second version.
// The page and its script each show their version, so that a mixture is visible.

const patience = 20 * time.Second

// sources is the folder of the worker and its registration.
const sources = "."

// built builds a version of the small site and returns its folder.
func built(t *testing.T, version string) string {
	t.Helper()
	root := t.TempDir()
	for _, name := range []string{"sw.js", "offline.js", "manifest.webmanifest"} {
		content, err := os.ReadFile(filepath.Join(sources, name))
		require.NoError(t, err)
		write(t, root, name, string(content))
	}
	page := `<!doctype html><html data-state="board" data-page="%s"><title>%s</title>
<link rel="manifest" href="{{asset "manifest.webmanifest"}}"><link rel="icon" href="{{asset "icon.svg"}}">
<script src="{{asset "part.js"}}" defer></script>`
	write(t, root, "index.html", fmt.Sprintf(page, version, "index")+`
<script src="{{asset "offline.js"}}" defer></script><iframe src="table.html"></iframe>`)
	write(t, root, "table.html", fmt.Sprintf(page, version, "table"))
	write(t, root, "part.js", fmt.Sprintf(`document.documentElement.dataset.part = %q;
sessionStorage.loads = Number(sessionStorage.loads || 0) + (window === top);`, version))
	out := filepath.Join(root, "dist")
	_, err := pack.Build(t.Context(), pack.Options{Root: root, Out: out, Assets: []pack.Asset{
		{Name: "part.js", Make: pack.Source("site/part.js")},
		{Name: "offline.js", Make: pack.Source("site/offline.js")},
		{Name: "icon.svg", Make: pack.VectorIcon()},
		{Name: "icon-192.png", Make: pack.Icon(192, pack.Rounded)},
		{Name: "icon-512.png", Make: pack.Icon(512, pack.Rounded)},
		{Name: "icon-maskable-512.png", Make: pack.Icon(512, pack.Maskable)},
		{Name: "manifest.webmanifest", Make: pack.Rendered("site/manifest.webmanifest")},
	}})
	require.NoError(t, err)
	return out
}

func write(t *testing.T, root, name, content string) {
	t.Helper()
	file := filepath.Join(root, "site", name)
	require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
	require.NoError(t, os.WriteFile(file, []byte(content), 0o644))
}

// host is a server whose content can be changed while it runs.
type host struct {
	*httptest.Server
	handler atomic.Pointer[http.Handler]
}

func serve(t *testing.T, h http.Handler) *host {
	t.Helper()
	s := &host{}
	s.show(h)
	s.Server = httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		(*s.handler.Load()).ServeHTTP(w, r)
	}))
	t.Cleanup(s.Close)
	return s
}

func (s *host) show(h http.Handler) { s.handler.Store(&h) }

// unkept marks every response as not cacheable. Whatever a browser still has after
// the server has stopped was cached by the worker.
func unkept(h http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h.ServeHTTP(uncached{w}, r)
	})
}

type uncached struct{ http.ResponseWriter }

func (w uncached) WriteHeader(status int) {
	w.Header().Set("Cache-Control", "no-store")
	w.ResponseWriter.WriteHeader(status)
}

// Every test has its own server, and so its own origin. The tests can therefore share
// a browser without sharing its storage.
func TestOffline(t *testing.T) {
	for _, engine := range engines {
		t.Run(string(engine), func(t *testing.T) {
			s := open(t, engine)
			for _, tc := range []struct {
				name string
				test func(*testing.T, *webdriver.Session)
			}{
				{"OpensWithoutNetwork", testOpensWithoutNetwork},
				{"HostThatRedirects", testHostThatRedirects},
				{"HalfServedLeavesNothing", testHalfServedLeavesNothing},
				{"NewVersionWaitsUntilAgreed", testNewVersionWaitsUntilAgreed},
				{"ReadyMeansEveryFileIsHeld", testReadyMeansEveryFileIsHeld},
				{"CopiesOnOneHost", testCopiesOnOneHost},
				{"FromAFile", testFromAFile},
			} {
				t.Run(tc.name, func(t *testing.T) { tc.test(t, s) })
			}
		})
	}
}

// thrifty turns off Chromium features that pay off only in a long-lived page: its
// optimising compiler for WebAssembly, and painting text through software WebGL.
var thrifty = []string{"--js-flags=--liftoff-only", "--disable-gpu-rasterization"}

// browsers are the running browsers, one per engine. Starting one takes as long as
// some tests.
var browsers = map[webdriver.Engine]*webdriver.Session{}

// open returns the engine's browser with a single empty tab of 1280 by 800. Other
// tests' storage does not matter, because each site has its own port and so its own
// origin.
func open(t *testing.T, engine webdriver.Engine) *webdriver.Session {
	t.Helper()
	s := browsers[engine]
	if s != nil && s.Renew() != nil { // undo what an earlier test changed
		assert.NoError(t, s.Close())
		s = nil
	}
	if s == nil {
		var o webdriver.Options
		if engine == webdriver.Chromium {
			o.Args = thrifty
		}
		var err error
		s, err = webdriver.Open(context.Background(), engine, o)
		require.NoError(t, err)
		browsers[engine] = s
	}
	if engine != webdriver.WebKit { // WebKit has no log
		_, err := s.Log() // discard messages from other tests' pages
		require.NoError(t, err)
	}
	return s
}

func waitFor(t *testing.T, s *webdriver.Session, state string) {
	t.Helper()
	require.NoError(t, s.Wait(fmt.Sprintf("document.documentElement.dataset.offline === %q", state), patience))
}

func eval[T any](t *testing.T, s *webdriver.Session, script string) (result T) {
	t.Helper()
	require.NoError(t, s.Eval(script, &result))
	return result
}

// shown is what a page shows: its title, its version and its script's version.
func shown(t *testing.T, s *webdriver.Session) string {
	t.Helper()
	return eval[string](t, s, `const d = document.documentElement.dataset;
		return [document.title, d.page, d.part].join(" ")`)
}

func cacheNames(t *testing.T, s *webdriver.Session) []string {
	t.Helper()
	return eval[[]string](t, s, "return caches.keys()")
}

func testOpensWithoutNetwork(t *testing.T, s *webdriver.Session) {
	server := serve(t, http.StripPrefix("/bench", unkept(web.Handler(built(t, "one")))))
	require.NoError(t, s.Get(server.URL+"/bench/"))
	waitFor(t, s, "ready")
	server.Close()

	require.NoError(t, s.Reload())
	assert.Equal(t, "index one one", shown(t, s))
	assert.Equal(t, "table", eval[string](t, s, `return document.querySelector("iframe").contentDocument.title`))
	waitFor(t, s, "ready")
	for path, want := range map[string]string{
		"":                       "index one one",
		"?from=home":             "index one one",
		"index.html?v=2#v=1":     "index one one",
		"table.html":             "table one one",
		"table.html?wall#side=0": "table one one",
	} {
		require.NoError(t, s.Get(server.URL+"/bench/"+path))
		assert.Equal(t, want, shown(t, s), path)
	}
	// A request for something that is not a page of this site does not return a page.
	if err := s.Get(server.URL + "/bench/other.html"); err == nil {
		assert.NotContains(t, eval[string](t, s, "return document.title"), "index")
	}
}

func testHostThatRedirects(t *testing.T, s *webdriver.Session) {
	site := web.Handler(built(t, "one"))
	server := serve(t, unkept(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch r.URL.Path {
		case "/index.html":
			http.Redirect(w, r, "/", http.StatusMovedPermanently)
		case "/table.html":
			http.Redirect(w, r, "/table", http.StatusMovedPermanently)
		case "/table":
			r.URL.Path = "/table.html"
			site.ServeHTTP(w, r)
		default:
			site.ServeHTTP(w, r)
		}
	})))
	require.NoError(t, s.Get(server.URL))
	waitFor(t, s, "ready")
	server.Close()
	for path, want := range map[string]string{
		"/": "index one one", "/index.html": "index one one",
		"/table": "table one one", "/table.html": "table one one",
	} {
		require.NoError(t, s.Get(server.URL+path))
		assert.Equal(t, want, shown(t, s), path)
	}
}

// spoilt serves a site with one faulty file.
func spoilt(site http.Handler, like string, status int) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !strings.Contains(r.URL.Path, like) {
			site.ServeHTTP(w, r)
			return
		}
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		w.WriteHeader(status)
		fmt.Fprint(w, "<!doctype html>spoilt")
	})
}

const noWorker = `return navigator.serviceWorker.getRegistration().then((r) => !r || !r.active)`

func testHalfServedLeavesNothing(t *testing.T, s *webdriver.Session) {
	site := unkept(web.Handler(built(t, "one")))
	server := serve(t, spoilt(site, "/table.html", http.StatusInternalServerError))
	require.NoError(t, s.Get(server.URL))
	waitFor(t, s, "failed")
	assert.Empty(t, cacheNames(t, s))
	assert.True(t, eval[bool](t, s, noWorker))

	// The right status with the wrong bytes: a network's sign-in page.
	server.show(spoilt(site, "/table.html", http.StatusOK))
	require.NoError(t, s.Reload())
	waitFor(t, s, "failed")
	assert.Empty(t, cacheNames(t, s))
	assert.True(t, eval[bool](t, s, noWorker))

	// Only half of the right file arrives.
	server.show(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path != "/table.html" {
			site.ServeHTTP(w, r)
			return
		}
		whole := httptest.NewRecorder()
		r.Header.Del("Accept-Encoding")
		site.ServeHTTP(whole, r)
		body := whole.Body.Bytes()
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		w.Header().Set("Content-Length", strconv.Itoa(len(body)))
		_, _ = w.Write(body[:len(body)/2])
		w.(http.Flusher).Flush()
		panic(http.ErrAbortHandler)
	}))
	require.NoError(t, s.Eval(`window.dispatchEvent(new Event("online"))`, nil))
	waitFor(t, s, "failed")
	assert.Empty(t, cacheNames(t, s))
	assert.True(t, eval[bool](t, s, noWorker))

	server.show(site)
	require.NoError(t, s.Eval(`window.dispatchEvent(new Event("online"))`, nil))
	waitFor(t, s, "ready")
	assert.Len(t, cacheNames(t, s), 1)
}

const applyUpdate = `document.dispatchEvent(new CustomEvent("apply-update"))`

func testNewVersionWaitsUntilAgreed(t *testing.T, s *webdriver.Session) {
	server := serve(t, web.Handler(built(t, "one")))
	require.NoError(t, s.Get(server.URL))
	waitFor(t, s, "ready")
	before := cacheNames(t, s)

	// The first download of the new version is interrupted; the old one stays intact.
	two := web.Handler(built(t, "two"))
	server.show(spoilt(two, "/part.", http.StatusInternalServerError))
	require.NoError(t, s.Reload())
	require.NoError(t, s.Eval(`return navigator.serviceWorker.getRegistration().then((r) => r.update()).catch(() => {})`, nil))
	waitFor(t, s, "ready")
	assert.Equal(t, before, cacheNames(t, s))

	server.show(two)
	require.NoError(t, s.Reload())
	waitFor(t, s, "update")
	require.NoError(t, s.Reload())
	waitFor(t, s, "update")
	assert.Equal(t, "index one one", shown(t, s), "a reload alone changes nothing")
	require.NoError(t, s.Eval(`document.querySelector("iframe").contentWindow.location.reload()`, nil))
	require.NoError(t, s.Wait(`document.querySelector("iframe").contentDocument.documentElement.dataset.part === "one"`, patience))

	first, err := s.Tab()
	require.NoError(t, err)
	second, err := s.NewTab()
	require.NoError(t, err)
	require.NoError(t, s.SwitchToTab(second))
	require.NoError(t, s.Get(server.URL))
	waitFor(t, s, "update")
	assert.Equal(t, "index one one", shown(t, s))

	require.NoError(t, s.SwitchToTab(first))
	loads := eval[int](t, s, "return Number(sessionStorage.loads)")
	require.NoError(t, s.Eval(applyUpdate, nil))
	require.NoError(t, s.Wait(`document.documentElement.dataset.part === "two"`, patience))
	waitFor(t, s, "ready")
	assert.Equal(t, "index two two", shown(t, s))
	after := cacheNames(t, s)
	assert.Len(t, after, 1)
	assert.NotEqual(t, before, after)
	assert.Equal(t, loads+1, eval[int](t, s, "return Number(sessionStorage.loads)"), "reloaded once")

	// The other tab is notified, and is not changed until its user agrees too.
	require.NoError(t, s.SwitchToTab(second))
	waitFor(t, s, "update")
	assert.Equal(t, "index one one", shown(t, s))
	require.NoError(t, s.Eval(applyUpdate, nil))
	require.NoError(t, s.Wait(`document.documentElement.dataset.part === "two"`, patience))

	server.Close()
	require.NoError(t, s.Reload())
	assert.Equal(t, "index two two", shown(t, s))
	require.NoError(t, s.CloseTab())
	require.NoError(t, s.SwitchToTab(first))
}

// dropFile deletes one file from the cache, as a browser short of space does.
const dropFile = `return caches.keys().then(([name]) => caches.open(name)).then(async (cache) => {
	const part = (await cache.keys()).find((request) => request.url.includes("/part."));
	return cache.delete(part);
})`

func testReadyMeansEveryFileIsHeld(t *testing.T, s *webdriver.Session) {
	server := serve(t, unkept(web.Handler(built(t, "one"))))
	require.NoError(t, s.Get(server.URL))
	waitFor(t, s, "ready")
	require.True(t, eval[bool](t, s, dropFile))
	require.NoError(t, s.Reload())
	waitFor(t, s, "ready")

	// The same holds for the page's own address, which is that of the folder.
	require.True(t, eval[bool](t, s, `return caches.keys().then(([name]) => caches.open(name)).then((cache) => cache.delete(new URL("./", location)))`))
	require.NoError(t, s.Reload())
	waitFor(t, s, "ready")
	require.True(t, eval[bool](t, s, `return caches.match(new URL("./", location)).then(Boolean)`), "it was fetched again")

	require.True(t, eval[bool](t, s, dropFile), "it was fetched again")
	server.Close()
	require.NoError(t, s.Reload())
	waitFor(t, s, "failed")
}

func testCopiesOnOneHost(t *testing.T, s *webdriver.Session) {
	one, two := web.Handler(built(t, "one")), web.Handler(built(t, "two"))
	host := func(outer http.Handler) http.Handler {
		mux := http.NewServeMux()
		mux.Handle("/a/", http.StripPrefix("/a", outer))
		mux.Handle("/a/b/", http.StripPrefix("/a/b", one))
		return mux
	}
	server := serve(t, host(one))
	for _, path := range []string{"/a/", "/a/b/"} {
		require.NoError(t, s.Get(server.URL+path))
		waitFor(t, s, "ready")
	}
	require.Len(t, cacheNames(t, s), 2)

	server.show(host(two))
	require.NoError(t, s.Get(server.URL+"/a/"))
	waitFor(t, s, "update")
	require.NoError(t, s.Eval(applyUpdate, nil))
	require.NoError(t, s.Wait(`document.documentElement.dataset.part === "two"`, patience))
	waitFor(t, s, "ready")
	assert.Len(t, cacheNames(t, s), 2)

	server.Close()
	require.NoError(t, s.Get(server.URL+"/a/b/"))
	assert.Equal(t, "index one one", shown(t, s))
	require.NoError(t, s.Get(server.URL+"/a/"))
	assert.Equal(t, "index two two", shown(t, s))
}

func testFromAFile(t *testing.T, s *webdriver.Session) {
	require.NoError(t, s.Get("file://"+built(t, "one")+"/index.html"))
	waitFor(t, s, "unsupported")
}

// Only Chromium reports errors in a manifest.
func TestInstallable(t *testing.T) {
	s := open(t, webdriver.Chromium)
	server := serve(t, http.StripPrefix("/bench", web.Handler(built(t, "one"))))
	require.NoError(t, s.Get(server.URL+"/bench/"))
	waitFor(t, s, "ready")
	var manifest struct {
		Errors []any
		Parsed struct {
			ID, StartURL, Scope string
		} `json:"manifest"`
	}
	require.NoError(t, s.CDP("Page.getAppManifest", map[string]any{}, &manifest))
	assert.Empty(t, manifest.Errors)
	assert.Equal(t, server.URL+"/bench/", manifest.Parsed.ID, "copies at other paths are other apps")
	assert.Equal(t, server.URL+"/bench/", manifest.Parsed.StartURL)
	assert.Equal(t, server.URL+"/bench/", manifest.Parsed.Scope)
	var installability struct {
		InstallabilityErrors []any
	}
	require.NoError(t, s.CDP("Page.getInstallabilityErrors", map[string]any{}, &installability))
	assert.Empty(t, installability.InstallabilityErrors)
}

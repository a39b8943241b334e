package web_test

import (
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/scripts/lib/web"
)

// folder returns a small built site. Its compressed forms are only marked by their text,
// since the handler does not read them.
func folder(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	for name, content := range map[string]string{
		"index.html":                      "index",
		"index.html.gz":                   "index gz",
		"table.html":                      "table",
		"sw.js":                           "worker",
		"page.0123456789.wasm":            "program",
		"page.0123456789.wasm.gz":         "program gz",
		"page.0123456789.wasm.br":         "program br",
		"manifest.abcdef0123.webmanifest": "{}",
		"style.abcdef0123.css":            "css",
		"icon.abcdef0123.svg":             "svg",
		"icon.abcdef0123.png":             "png",
		"notes.doc":                       "no part of a site",
	} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(content), 0o644))
	}
	require.NoError(t, os.Mkdir(filepath.Join(dir, "sub"), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(filepath.Dir(dir), "outside.html"), []byte("outside"), 0o644))
	return dir
}

func get(t *testing.T, h http.Handler, path string, header ...string) *httptest.ResponseRecorder {
	t.Helper()
	r := httptest.NewRequest(http.MethodGet, path, nil)
	for i := 0; i < len(header); i += 2 {
		r.Header.Set(header[i], header[i+1])
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

func TestContentType(t *testing.T) {
	h := web.Handler(folder(t))
	for path, want := range map[string]string{
		"/":                                "text/html; charset=utf-8",
		"/table.html":                      "text/html; charset=utf-8",
		"/sw.js":                           "text/javascript; charset=utf-8",
		"/page.0123456789.wasm":            "application/wasm",
		"/manifest.abcdef0123.webmanifest": "application/manifest+json; charset=utf-8",
		"/style.abcdef0123.css":            "text/css; charset=utf-8",
		"/icon.abcdef0123.svg":             "image/svg+xml; charset=utf-8",
		"/icon.abcdef0123.png":             "image/png",
	} {
		// A compressed form has the type of its content.
		w := get(t, h, path, "Accept-Encoding", "gzip")
		assert.Equal(t, http.StatusOK, w.Code, path)
		assert.Equal(t, want, w.Header().Get("Content-Type"), path)
		assert.Equal(t, "nosniff", w.Header().Get("X-Content-Type-Options"), path)
	}
}

func TestEncoding(t *testing.T) {
	h := web.Handler(folder(t))
	for _, c := range []struct{ path, accept, encoding, body string }{
		{"/page.0123456789.wasm", "gzip, deflate, br, zstd", "br", "program br"},
		{"/page.0123456789.wasm", "gzip", "gzip", "program gz"},
		{"/page.0123456789.wasm", "GZIP;q=0.5", "gzip", "program gz"},
		{"/page.0123456789.wasm", "gzip, br;q=0", "gzip", "program gz"},
		{"/page.0123456789.wasm", "br; q=0.000, gzip; q=0", "", "program"},
		{"/page.0123456789.wasm", "brotli", "", "program"},
		{"/page.0123456789.wasm", "", "", "program"},
		{"/", "br, gzip", "gzip", "index gz"},
		{"/table.html", "br, gzip", "", "table"},
	} {
		w := get(t, h, c.path, "Accept-Encoding", c.accept)
		assert.Equal(t, c.body, w.Body.String(), "%s with %q", c.path, c.accept)
		assert.Equal(t, c.encoding, w.Header().Get("Content-Encoding"), "%s with %q", c.path, c.accept)
		assert.Equal(t, "Accept-Encoding", w.Header().Get("Vary"))
	}
}

func TestRangeOfCompressedFormIsTheWhole(t *testing.T) {
	h := web.Handler(folder(t))
	w := get(t, h, "/page.0123456789.wasm", "Accept-Encoding", "br", "Range", "bytes=0-3")
	assert.Equal(t, http.StatusOK, w.Code)
	assert.Equal(t, "10", w.Header().Get("Content-Length"))
	w = get(t, h, "/page.0123456789.wasm", "Range", "bytes=0-3")
	assert.Equal(t, http.StatusPartialContent, w.Code)
	assert.Equal(t, "prog", w.Body.String())
}

func TestCaching(t *testing.T) {
	dir := folder(t)
	h := web.Handler(dir)
	hashed := get(t, h, "/style.abcdef0123.css")
	assert.Equal(t, "public, max-age=31536000, immutable", hashed.Header().Get("Cache-Control"))

	for _, path := range []string{"/", "/index.html", "/table.html", "/sw.js"} {
		first := get(t, h, path)
		assert.Equal(t, "no-cache", first.Header().Get("Cache-Control"), path)
		again := get(t, h, path, "If-None-Match", first.Header().Get("ETag"))
		assert.Equal(t, http.StatusNotModified, again.Code, path)
		assert.Empty(t, again.Body.String(), path)
	}

	plain, gz := get(t, h, "/"), get(t, h, "/", "Accept-Encoding", "gzip")
	assert.NotEqual(t, plain.Header().Get("ETag"), gz.Header().Get("ETag"), "each form has its own tag")

	require.NoError(t, os.WriteFile(filepath.Join(dir, "table.html"), []byte("newer"), 0o644))
	newer := get(t, h, "/table.html", "If-None-Match", get(t, web.Handler(folder(t)), "/table.html").Header().Get("ETag"))
	assert.Equal(t, http.StatusOK, newer.Code)
	assert.Equal(t, "newer", newer.Body.String())
}

func TestNotServed(t *testing.T) {
	h := web.Handler(folder(t))
	for _, path := range []string{
		"/sub", "/sub/", "/sub/index.html", "/none.html", "/notes.doc", "/index.html.gz",
		"/page.0123456789.wasm.br", "/../outside.html", "/sub/../../outside.html", "//index.html",
	} {
		r := httptest.NewRequest(http.MethodGet, "/", nil)
		r.URL.Path = path
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		assert.Equal(t, http.StatusNotFound, w.Code, path)
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest(http.MethodPost, "/index.html", nil))
	assert.Equal(t, http.StatusMethodNotAllowed, w.Code)
	assert.Equal(t, "GET, HEAD", w.Header().Get("Allow"))
}

func TestUnderAPath(t *testing.T) {
	h := http.StripPrefix("/tools/bench", web.Handler(folder(t)))
	assert.Equal(t, "index", get(t, h, "/tools/bench/").Body.String())
	assert.Equal(t, "table", get(t, h, "/tools/bench/table.html").Body.String())
}

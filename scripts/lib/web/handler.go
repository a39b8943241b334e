// Package web serves a built site like a good static host.
package web

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"net/http"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// types are the media types of a built site's files. No other kind of file is served.
var types = map[string]string{
	".html":        "text/html; charset=utf-8",
	".css":         "text/css; charset=utf-8",
	".js":          "text/javascript; charset=utf-8",
	".wasm":        "application/wasm",
	".webmanifest": "application/manifest+json; charset=utf-8",
	".svg":         "image/svg+xml; charset=utf-8",
	".png":         "image/png",
	".txt":         "text/plain; charset=utf-8",
	".json":        "application/json",
}

// hashed matches a name with the hash of its content, which therefore never changes.
var hashed = regexp.MustCompile(`\.[0-9a-f]{8,12}\.[a-z]+$`)

// encodings are the compressed forms that a build puts beside a file, best first.
var encodings = []struct{ name, ext string }{{"br", ".br"}, {"gzip", ".gz"}}

// Handler serves the files of dir, which may be rebuilt meanwhile. Browsers must
// revalidate pages and the worker each time, and may keep hashed files for ever. There
// are no listings, and the root is index.html.
func Handler(dir string) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.Method != http.MethodGet && r.Method != http.MethodHead {
			w.Header().Set("Allow", "GET, HEAD")
			http.Error(w, "only GET and HEAD", http.StatusMethodNotAllowed)
			return
		}
		serve(w, r, dir)
	})
}

func serve(w http.ResponseWriter, r *http.Request, dir string) {
	name := strings.TrimPrefix(r.URL.Path, "/")
	if name == "" {
		name = "index.html"
	}
	contentType, known := types[path.Ext(name)]
	if !known || !filepath.IsLocal(name) {
		http.NotFound(w, r)
		return
	}
	content, encoding, err := read(filepath.Join(dir, name), r.Header.Get("Accept-Encoding"))
	if err != nil {
		http.NotFound(w, r)
		return
	}
	h := w.Header()
	h.Set("Content-Type", contentType)
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Vary", "Accept-Encoding")
	if encoding != "" {
		h.Set("Content-Encoding", encoding)
		h.Set("Content-Length", strconv.Itoa(len(content)))
		r.Header.Del("Range") // a part of a compressed form is of no use to anyone
	}
	if hashed.MatchString(name) {
		h.Set("Cache-Control", "public, max-age=31536000, immutable")
	} else {
		h.Set("Cache-Control", "no-cache")
		sum := sha256.Sum256(content)
		h.Set("ETag", `"`+hex.EncodeToString(sum[:16])+`"`)
	}
	http.ServeContent(w, r, name, time.Time{}, bytes.NewReader(content))
}

// read returns the best form of a file that the client accepts.
func read(file, accept string) (content []byte, encoding string, err error) {
	for _, e := range encodings {
		if !accepts(accept, e.name) {
			continue
		}
		if content, err := os.ReadFile(file + e.ext); err == nil {
			return content, e.name, nil
		}
	}
	content, err = os.ReadFile(file)
	return content, "", err
}

// accepts reports whether an Accept-Encoding header accepts an encoding. An encoding with
// a weight of zero is refused.
func accepts(header, encoding string) bool {
	for part := range strings.SplitSeq(header, ",") {
		token, weight, _ := strings.Cut(strings.TrimSpace(part), ";")
		if !strings.EqualFold(strings.TrimSpace(token), encoding) {
			continue
		}
		value, found := strings.CutPrefix(strings.TrimSpace(weight), "q=")
		q, err := strconv.ParseFloat(value, 64)
		return !found || (err == nil && q > 0)
	}
	return false
}

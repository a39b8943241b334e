package pack

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"text/template"
)

// Asset is a file that is published under a name with its hash.
type Asset struct {
	// Name is its name in templates: "style.css" is published as, for example,
	// style.0123456789.css.
	Name string

	// Make returns its content. It may refer to assets listed before it.
	Make func(context.Context, *Site) ([]byte, error)
}

// Pivotbench lists the project's own assets, each after those that it refers to.
func Pivotbench() []Asset {
	return []Asset{
		{"style.css", Source("site/style.css")},
		{"loader.js", Source("site/loader.js")},
		{"board.js", Source("site/board.js")},
		{"offline.js", Source("site/offline.js")},
		{"wasm_exec.js", GoRuntime()},
		{"page.wasm", Program("./wasm/page")},
		{"table.wasm", Program("./wasm/table")},
		{"film.wasm", Program("./wasm/film")},
		{"film.js", Rendered("site/film.js")},
		{"licences.txt", Licences("./wasm/page", "./wasm/table", "./wasm/film")},
		{"example.json", Source("site/example.json")},
		{"icon.svg", VectorIcon()},
		{"icon-192.png", Icon(192, Rounded)},
		{"icon-512.png", Icon(512, Rounded)},
		{"icon-maskable-512.png", Icon(512, Maskable)},
		{"apple-touch-icon.png", Icon(180, Square)},
		{"manifest.webmanifest", Rendered("site/manifest.webmanifest")},
	}
}

// Source returns a Make for a file of the tree, unchanged.
func Source(path string) func(context.Context, *Site) ([]byte, error) {
	return func(_ context.Context, s *Site) ([]byte, error) {
		return os.ReadFile(filepath.Join(s.root, path))
	}
}

// Rendered returns a Make for a file of the tree that uses the template functions of a
// page.
func Rendered(path string) func(context.Context, *Site) ([]byte, error) {
	return func(_ context.Context, s *Site) ([]byte, error) {
		text, err := os.ReadFile(filepath.Join(s.root, path))
		if err != nil {
			return nil, err
		}
		t, err := template.New(path).Funcs(s.functions()).Parse(string(text))
		if err != nil {
			return nil, err
		}
		var out bytes.Buffer
		err = t.Execute(&out, nil)
		return out.Bytes(), err
	}
}

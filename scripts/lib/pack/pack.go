// Package pack makes the folder a static host serves: the two programs, the
// pages, and the offline worker with its list of every file, all named by what
// they hold and referring to each other by relative address.
package pack

import (
	"context"
	"fmt"
	"net/url"
	"strings"
)

// Options say what to build and where to put it.
type Options struct {
	// Root is the module's folder: it holds site/ and wasm/.
	Root string

	// Out is the folder to make. It is swapped in whole when everything has
	// been made; an older build there is replaced, anything else is refused.
	Out string

	// Brotli adds a .br beside each file that shrinks. The first build takes
	// half a minute longer for it; later ones take it from the user's cache.
	Brotli bool

	// Public is the address the site will be reached at, for links shared from
	// a copy that has no public address of its own. May be empty.
	Public string

	// Data makes what index.html is executed with. May be nil.
	Data func() (any, error)

	// OneFile adds the whole as a single page.
	OneFile bool

	// Assets are the files with hashed names, each after those it refers to.
	// Nil means Pivotbench's own.
	Assets []Asset
}

// Report says what was made.
type Report struct {
	// Version names this set of files: two builds have the same version exactly
	// when every file the worker keeps is the same.
	Version string

	// Files are all files made, sorted by name.
	Files []File
}

// File is one file made. Sizes are in bytes; 0 means that form was not made.
type File struct {
	Name              string
	Raw, Gzip, Brotli int
}

// Build makes the site in o.Out. The same tree gives the same bytes.
func Build(ctx context.Context, o Options) (*Report, error) {
	public, err := publicAddress(o.Public)
	if err != nil {
		return nil, err
	}
	assets := o.Assets
	if assets == nil {
		assets = Pivotbench()
	}
	s := newSite(o.Root, public)
	for _, a := range assets {
		content, err := a.Make(ctx, s)
		if err != nil {
			return nil, fmt.Errorf("making %s: %w", a.Name, err)
		}
		if err := s.add(a.Name, content); err != nil {
			return nil, err
		}
	}
	var filling any
	if o.Data != nil {
		if filling, err = o.Data(); err != nil {
			return nil, fmt.Errorf("data of index.html: %w", err)
		}
	}
	if err := s.addPages(filling); err != nil {
		return nil, err
	}
	version, err := s.addWorker()
	if err != nil {
		return nil, err
	}
	if o.OneFile { // after the worker, which does not keep it
		if err := s.addOneFile(filling); err != nil {
			return nil, err
		}
	}
	forms, err := compressAll(ctx, s.files, o.Brotli)
	if err != nil {
		return nil, err
	}
	if err := replaceFolder(o.Out, forms); err != nil {
		return nil, err
	}
	return &Report{Version: version, Files: sizes(s.files, forms)}, nil
}

// publicAddress checks a public address and ends it with the slash that makes
// it a folder, so that a link is the address and its fragment.
func publicAddress(text string) (string, error) {
	if text == "" {
		return "", nil
	}
	u, err := url.Parse(text)
	if err != nil {
		return "", fmt.Errorf("public address: %w", err)
	}
	if (u.Scheme != "https" && u.Scheme != "http") || u.Host == "" || u.RawQuery != "" || u.Fragment != "" {
		return "", fmt.Errorf("public address %q: want https://host/path/ without query or fragment", text)
	}
	return strings.TrimSuffix(text, "/") + "/", nil
}

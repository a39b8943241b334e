// Package pack makes the folder for a static host: the two programs, the pages, and the
// offline worker with its list of every file. Files are named by the hash of their
// content and refer to each other by relative address.
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

	// Out is the folder to make. It is replaced as a whole when everything has been made.
	// Only an older build is replaced; anything else is refused.
	Out string

	// Brotli adds a .br beside each file that shrinks. The first build takes half a
	// minute longer for it; later ones take it from the user's cache.
	Brotli bool

	// Public is the address at which the site will be reached, for links shared from a
	// copy without a public address of its own. It may be empty.
	Public string

	// Data returns the data of index.html. It may be nil.
	Data func() (any, error)

	// OneFile adds the whole bench as a single page.
	OneFile bool

	// Assets are the files with hashed names, each after those that it refers to. Nil
	// means Pivotbench's own.
	Assets []Asset
}

// Report describes what was made.
type Report struct {
	// Version identifies this set of files: two builds have the same version exactly if
	// every file that the worker stores is the same.
	Version string

	// Files are all files made, sorted by name.
	Files []File
}

// File is one file made. Sizes are in bytes; 0 means that the form was not made.
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
	if o.OneFile { // after the worker, which does not store it
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

// publicAddress checks a public address and appends a slash if it lacks one, so that a
// link is the address and its fragment.
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

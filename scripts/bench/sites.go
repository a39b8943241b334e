package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"

	"pivotbench/scripts/lib/pack"
	"pivotbench/scripts/lib/web"
)

// sites are Pivotbench as it is published, and the same with the bench's own programs
// added, packed and served in the same way.
type sites struct {
	report, extra *pack.Report
	site          string // address of Pivotbench
	extras        string // address of the one with further programs
	undo          []func() error
}

func openSites(ctx context.Context) (*sites, error) {
	s := new(sites)
	if err := s.open(ctx); err != nil {
		return nil, errors.Join(err, s.close())
	}
	return s, nil
}

func (s *sites) open(ctx context.Context) error {
	dir, err := os.MkdirTemp("", "pivotbench-bench-")
	if err != nil {
		return err
	}
	s.undo = append(s.undo, func() error { return os.RemoveAll(dir) })
	own := []pack.Asset{
		{Name: "bare.wasm", Make: pack.Program("./scripts/bench/bare")},
		{Name: "bare.html", Make: pack.Rendered("scripts/bench/bare/page.html")},
		{Name: "shot.wasm", Make: pack.Program("./scripts/bench/shotwasm")},
		{Name: "shot.html", Make: pack.Rendered("scripts/bench/shotwasm/page.html")},
	}
	s.report, s.site, err = s.make(ctx, filepath.Join(dir, "site"), nil)
	if err != nil {
		return err
	}
	s.extra, s.extras, err = s.make(ctx, filepath.Join(dir, "extra"), own)
	return err
}

// make builds a site with further assets and serves it from an origin of its own.
func (s *sites) make(ctx context.Context, dir string, further []pack.Asset) (*pack.Report, string, error) {
	made, err := pack.Build(ctx, pack.Options{
		Root: ".", Out: dir, Brotli: true, Data: pack.PageData,
		Assets: append(pack.Pivotbench(), further...),
	})
	if err != nil {
		return nil, "", err
	}
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return nil, "", err
	}
	server := &http.Server{Handler: web.Handler(dir)}
	go server.Serve(listener) // ends with Close
	s.undo = append(s.undo, server.Close)
	return made, "http://" + listener.Addr().String() + "/", nil
}

func (s *sites) close() error {
	var errs []error
	for _, undo := range s.undo {
		errs = append(errs, undo())
	}
	return errors.Join(errs...)
}

// file returns a file of a build by its name without the hash.
func file(r *pack.Report, name string) (pack.File, error) {
	stem, ext, _ := strings.Cut(name, ".")
	for _, f := range r.Files {
		if strings.HasPrefix(f.Name, stem+".") && strings.HasSuffix(f.Name, "."+ext) {
			return f, nil
		}
	}
	return pack.File{}, fmt.Errorf("the build made no %s", name)
}

// extraPage returns the address of one of the bench's own pages.
func (s *sites) extraPage(name string) (string, error) {
	f, err := file(s.extra, name)
	return s.extras + f.Name, err
}

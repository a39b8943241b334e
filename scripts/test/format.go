package main

import (
	"bytes"
	"context"
	"fmt"
	"go/format"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// checkFormat fails if gofmt would change any Go file here.
func checkFormat(context.Context) error {
	bad, err := unformatted(".")
	if err != nil {
		return err
	}
	if len(bad) > 0 {
		return fmt.Errorf("not formatted by gofmt: %s", strings.Join(bad, ", "))
	}
	return nil
}

// unformatted lists the Go files under root that gofmt would change or cannot read. It
// leaves out hidden folders and testdata, whose files may be wrong on purpose.
func unformatted(root string) ([]string, error) {
	var bad []string
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if path != root && (strings.HasPrefix(d.Name(), ".") || d.Name() == "testdata") {
				return filepath.SkipDir
			}
			return nil
		}
		if filepath.Ext(path) != ".go" {
			return nil
		}
		source, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		if tidy, err := format.Source(source); err != nil || !bytes.Equal(tidy, source) {
			bad = append(bad, path)
		}
		return nil
	})
	return bad, err
}

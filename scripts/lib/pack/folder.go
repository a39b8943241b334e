package pack

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// replaceFolder writes files to a new folder beside dir and then swaps the two, so that
// dir never holds half a build. It refuses to replace a folder that is neither empty nor
// a build, which has a worker in it.
func replaceFolder(dir string, files map[string][]byte) error {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return err
	}
	if err := replaceable(dir); err != nil {
		return err
	}
	parent := filepath.Dir(dir)
	if err := os.MkdirAll(parent, 0o755); err != nil {
		return err
	}
	work, err := os.MkdirTemp(parent, "."+filepath.Base(dir)+"-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(work)
	fresh, old := filepath.Join(work, "new"), filepath.Join(work, "old")
	if err := os.Mkdir(fresh, 0o755); err != nil {
		return err
	}
	for name, content := range files {
		if err := os.WriteFile(filepath.Join(fresh, name), content, 0o644); err != nil {
			return err
		}
	}
	if err := os.Rename(dir, old); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return os.Rename(fresh, dir)
}

func replaceable(dir string) error {
	entries, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) || (err == nil && len(entries) == 0) {
		return nil
	}
	if err != nil {
		return err
	}
	if _, err := os.Stat(filepath.Join(dir, "sw.js")); err != nil {
		return fmt.Errorf("%s holds something other than a build: not replacing it", dir)
	}
	return nil
}

// writeWhole writes a file so that a reader finds all of it or nothing.
func writeWhole(name string, content []byte) error {
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		return err
	}
	temp, err := os.CreateTemp(filepath.Dir(name), ".new-")
	if err != nil {
		return err
	}
	defer os.Remove(temp.Name())
	if _, err := temp.Write(content); err != nil {
		temp.Close()
		return err
	}
	if err := temp.Close(); err != nil {
		return err
	}
	return os.Rename(temp.Name(), name)
}

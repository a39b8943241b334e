// Package axe provides axe-core, the checker of accessibility rules, for the browser
// tests. The npm command fetches it from the npm registry, or the one that npm is set up
// for, and it stays in the user's cache. It is not part of the site.
package axe

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"context"
	"crypto/sha512"
	"encoding/base64"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

const (
	// version is pinned, so that a new release does not find something new in old pages.
	version = "4.14.1"
	// integrity is the SHA-512 of the archive, as the registry states it.
	integrity = "sha512-FHfa+lmNjQZfJz1q8wKqIDwC6DExcHt/pkjNQb09a3NPjCKg2rhu5qb2S4r76ASyFNNtuFooJpZe37OgudVGtQ=="
	script    = "package/axe.min.js"
	// largest exceeds the size of the script, and limits what an archive unpacks to.
	largest = 8 << 20
)

// ErrNoNPM means that the script is not in the cache and cannot be fetched.
var ErrNoNPM = errors.New("axe-core is not in the cache, and the npm command to fetch it with is not installed")

// Script returns the source of axe-core from the cache, or fetches it into the cache.
func Script(ctx context.Context) (string, error) {
	dir, err := os.UserCacheDir()
	if err != nil {
		return "", err
	}
	dir = filepath.Join(dir, "pivotbench")
	archive, err := os.ReadFile(filepath.Join(dir, name))
	if err == nil && check(archive) == nil {
		return unpack(archive)
	}
	if err := fetch(ctx, dir); err != nil {
		return "", err
	}
	if archive, err = os.ReadFile(filepath.Join(dir, name)); err != nil {
		return "", err
	}
	if err := check(archive); err != nil {
		return "", err
	}
	return unpack(archive)
}

// name is the name that npm gives the archive.
const name = "axe-core-" + version + ".tgz"

// fetch makes npm put the archive into a folder.
func fetch(ctx context.Context, dir string) error {
	npm, err := exec.LookPath("npm")
	if err != nil {
		return ErrNoNPM
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	words := []string{"pack", "axe-core@" + version, "--pack-destination", dir}
	cmd := exec.CommandContext(ctx, npm, words...)
	cmd.Dir = dir // no settings of another project apply
	if out, err := cmd.CombinedOutput(); err != nil {
		return fmt.Errorf("fetching axe-core, once, needs a network; by hand: npm %s: %w\n%s", strings.Join(words, " "), err, out)
	}
	return nil
}

// check compares an archive with the pinned integrity.
func check(archive []byte) error {
	sum := sha512.Sum512(archive)
	if got := "sha512-" + base64.StdEncoding.EncodeToString(sum[:]); got != integrity {
		return fmt.Errorf("%s has the integrity %s, expected %s", name, got, integrity)
	}
	return nil
}

// unpack returns the script in an archive.
func unpack(archive []byte) (string, error) {
	unzipped, err := gzip.NewReader(bytes.NewReader(archive))
	if err != nil {
		return "", err
	}
	for files := tar.NewReader(unzipped); ; {
		file, err := files.Next()
		if err != nil {
			return "", fmt.Errorf("%s in %s: %w", script, name, err)
		}
		if file.Name == script {
			text, err := io.ReadAll(io.LimitReader(files, largest))
			return string(text), err
		}
	}
}

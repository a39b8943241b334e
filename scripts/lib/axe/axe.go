// Package axe brings axe-core, the checker of accessibility rules, to the
// browser tests. It comes from the npm registry, or the one npm is set up for,
// by the npm command, and stays in the user's cache. It is no part of the site.
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
	// version is pinned, so that a new release finds nothing new in old pages.
	version = "4.14.1"
	// integrity is the archive's, as the registry gives it: the SHA-512.
	integrity = "sha512-FHfa+lmNjQZfJz1q8wKqIDwC6DExcHt/pkjNQb09a3NPjCKg2rhu5qb2S4r76ASyFNNtuFooJpZe37OgudVGtQ=="
	script    = "package/axe.min.js"
	// largest is more than the script has, and bounds what an archive unpacks to.
	largest = 8 << 20
)

// ErrNoNPM is that there is nothing to fetch it with.
var ErrNoNPM = errors.New("axe-core is not in the cache, and the npm command to fetch it with is not installed")

// Script is the source of axe-core: from the cache, or fetched into it.
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

// name is what npm calls the archive.
const name = "axe-core-" + version + ".tgz"

// fetch has npm put the archive into a folder.
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
	cmd.Dir = dir // no other project's settings
	if out, err := cmd.CombinedOutput(); err != nil {
		return fmt.Errorf("fetching axe-core, once, needs a network; by hand: npm %s: %w\n%s", strings.Join(words, " "), err, out)
	}
	return nil
}

// check holds an archive against the pinned integrity.
func check(archive []byte) error {
	sum := sha512.Sum512(archive)
	if got := "sha512-" + base64.StdEncoding.EncodeToString(sum[:]); got != integrity {
		return fmt.Errorf("%s has the integrity %s, expected %s", name, got, integrity)
	}
	return nil
}

// unpack is the script in an archive.
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

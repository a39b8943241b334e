package pack

import (
	"bytes"
	"compress/gzip"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"io"
	"maps"
	"os"
	"path"
	"path/filepath"
	"runtime/debug"
	"slices"
	"sync"

	"github.com/andybalholm/brotli"
	"golang.org/x/sync/errgroup"
)

// brotliLevel is the highest level: a file is packed once and fetched many times.
const brotliLevel = 11

// compressAll returns files and, for each that shrinks, its compressed forms.
func compressAll(ctx context.Context, files map[string][]byte, withBrotli bool) (map[string][]byte, error) {
	forms := maps.Clone(files)
	var mu sync.Mutex
	group, ctx := errgroup.WithContext(ctx)
	add := func(name string, content []byte, compress func([]byte) ([]byte, error)) {
		group.Go(func() error {
			if err := ctx.Err(); err != nil {
				return err
			}
			packed, err := compress(content)
			if err != nil || len(packed) >= len(content) {
				return err
			}
			mu.Lock()
			defer mu.Unlock()
			forms[name] = packed
			return nil
		})
	}
	for name, content := range files {
		if path.Ext(name) == ".png" || name == OneFile {
			continue // it contains packed data already
		}
		add(name+".gz", content, gzipped)
		if withBrotli {
			add(name+".br", content, cachedBrotli)
		}
	}
	return forms, group.Wait()
}

// gzipped leaves the time and name in the header empty, so that the same content gives
// the same bytes.
func gzipped(content []byte) ([]byte, error) {
	var out bytes.Buffer
	w, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	return packed(w, &out, content)
}

func packed(w io.WriteCloser, out *bytes.Buffer, content []byte) ([]byte, error) {
	if _, err := w.Write(content); err != nil {
		return nil, err
	}
	err := w.Close()
	return out.Bytes(), err
}

// cachedBrotli keeps its results in the user's cache folder, by content and by the
// packer's version. Without such a folder it packs every time.
func cachedBrotli(content []byte) ([]byte, error) {
	var kept string
	if dir, err := os.UserCacheDir(); err == nil {
		sum := sha256.Sum256(content)
		kept = filepath.Join(dir, "pivotbench", "brotli", brotliVersion(), hex.EncodeToString(sum[:])+".br")
		if found, err := os.ReadFile(kept); err == nil {
			return found, nil
		}
	}
	var out bytes.Buffer
	result, err := packed(brotli.NewWriterLevel(&out, brotliLevel), &out, content)
	if err == nil && kept != "" {
		// A cache that cannot be written costs time but does not fail the build.
		_ = writeWhole(kept, result)
	}
	return result, err
}

// brotliVersion returns the version of the packer, so that the results of different
// releases are kept apart.
func brotliVersion() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	i := slices.IndexFunc(info.Deps, func(m *debug.Module) bool { return m.Path == "github.com/andybalholm/brotli" })
	if i < 0 {
		return "unknown"
	}
	return info.Deps[i].Version
}

// sizes returns the report's list, sorted by name.
func sizes(files, forms map[string][]byte) []File {
	var list []File
	for _, name := range slices.Sorted(maps.Keys(files)) {
		list = append(list, File{name, len(files[name]), len(forms[name+".gz"]), len(forms[name+".br"])})
	}
	return list
}

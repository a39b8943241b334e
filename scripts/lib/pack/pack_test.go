package pack_test

import (
	"compress/gzip"
	"context"
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"errors"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/andybalholm/brotli"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/scripts/lib/pack"
)

// tree writes a small site's sources, without a program to compile.
func tree(t *testing.T) string {
	t.Helper()
	root := t.TempDir()
	write(t, root, "site/index.html", `<!doctype html><html data-public="{{public}}">
<link rel="stylesheet" href="{{asset "style.css"}}" integrity="{{integrity "style.css"}}">
<link rel="manifest" href="{{asset "manifest.webmanifest"}}">
<script src="{{asset "loader.js"}}" data-page="{{asset "page.wasm"}}" data-page-size="{{size "page.wasm"}}" defer></script>
<p>{{.}}</p></html>
`)
	write(t, root, "site/table.html", `<!doctype html><script src="{{asset "loader.js"}}" defer></script>`)
	write(t, root, "site/style.css", strings.Repeat("body { margin: 0 }\n", 50))
	write(t, root, "site/loader.js", strings.Repeat("void 0;\n", 50))
	write(t, root, "site/page.wasm", strings.Repeat("\x00asm", 300))
	write(t, root, "site/sw.js", "onfetch = () => {};\n")
	write(t, root, "site/manifest.webmanifest", `{"icons":[{"src":"{{asset "icon.png"}}"}]}`)
	return root
}

func assets() []pack.Asset {
	return []pack.Asset{
		{Name: "style.css", Make: pack.Source("site/style.css")},
		{Name: "loader.js", Make: pack.Source("site/loader.js")},
		{Name: "page.wasm", Make: pack.Source("site/page.wasm")},
		{Name: "icon.png", Make: pack.Icon(32, pack.Square)},
		{Name: "manifest.webmanifest", Make: pack.Rendered("site/manifest.webmanifest")},
	}
}

func options(t *testing.T, root string) pack.Options {
	t.Helper()
	t.Setenv("XDG_CACHE_HOME", t.TempDir())
	return pack.Options{
		Root: root, Out: filepath.Join(t.TempDir(), "dist"), Brotli: true, Assets: assets(),
		Data: func() (any, error) { return "filled <in>", nil },
	}
}

func write(t *testing.T, root, name, content string) {
	t.Helper()
	file := filepath.Join(root, name)
	require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
	require.NoError(t, os.WriteFile(file, []byte(content), 0o644))
}

// read returns every file of a folder by name.
func read(t *testing.T, dir string) map[string]string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	files := map[string]string{}
	for _, e := range entries {
		content, err := os.ReadFile(filepath.Join(dir, e.Name()))
		require.NoError(t, err)
		files[e.Name()] = string(content)
	}
	return files
}

func build(t *testing.T, o pack.Options) (*pack.Report, map[string]string) {
	t.Helper()
	report, err := pack.Build(context.Background(), o)
	require.NoError(t, err)
	return report, read(t, o.Out)
}

// listed returns the version and the list of files in a built worker.
func listed(t *testing.T, worker string) (string, map[string]string) {
	t.Helper()
	line, script, _ := strings.Cut(worker, "\n")
	assert.Equal(t, "onfetch = () => {};\n", script)
	var release struct {
		Version string
		Files   map[string]string
	}
	constant := strings.TrimSuffix(strings.TrimPrefix(line, "const RELEASE = "), ";")
	require.NoError(t, json.Unmarshal([]byte(constant), &release))
	return release.Version, release.Files
}

func sha(content string) []byte {
	sum := sha256.Sum256([]byte(content))
	return sum[:]
}

func TestPagesReferToFilesThatExist(t *testing.T) {
	o := options(t, tree(t))
	o.Public = "https://example.org/bench"
	_, files := build(t, o)

	index := files["index.html"]
	references := regexp.MustCompile(`(?:src|href|data-page)="([^"]*)"`).FindAllStringSubmatch(index, -1)
	require.Len(t, references, 4)
	for _, r := range references {
		assert.Regexp(t, `^[a-z]+\.[0-9a-f]{10}\.[a-z]+$`, r[1], "relative, and hashed")
		assert.Contains(t, files, r[1])
	}
	assert.Contains(t, index, `data-page-size="1200"`)
	assert.Contains(t, index, `data-public="https://example.org/bench/"`)
	assert.Contains(t, index, "<p>filled &lt;in&gt;</p>")
	attribute := regexp.MustCompile(`integrity="([^"]*)"`).FindStringSubmatch(index)[1]
	style, err := os.ReadFile(filepath.Join(o.Root, "site/style.css"))
	require.NoError(t, err)
	want := "sha256-" + base64.StdEncoding.EncodeToString(sha(string(style)))
	assert.Equal(t, want, strings.ReplaceAll(attribute, "&#43;", "+"))

	for name, content := range files {
		if strings.HasSuffix(name, ".webmanifest") {
			icon := regexp.MustCompile(`"src":"([^"]*)"`).FindStringSubmatch(content)[1]
			assert.Contains(t, files, icon)
		}
	}
}

func TestWorkerListsEveryFileWithItsHash(t *testing.T) {
	report, files := build(t, options(t, tree(t)))
	version, list := listed(t, files["sw.js"])
	assert.Equal(t, report.Version, version)
	for name, hash := range list {
		require.Contains(t, files, name)
		assert.Equal(t, "sha256-"+base64.StdEncoding.EncodeToString(sha(files[name])), hash, name)
	}
	for name := range files {
		compressed := strings.HasSuffix(name, ".gz") || strings.HasSuffix(name, ".br")
		if name != "sw.js" && !compressed {
			assert.Contains(t, list, name)
		}
	}
	assert.Len(t, list, len(assets())+2)
}

func TestCompressedFormsHoldTheSame(t *testing.T) {
	report, files := build(t, options(t, tree(t)))
	for _, f := range report.Files {
		assert.Len(t, files[f.Name], f.Raw)
		assert.Len(t, files[f.Name+".gz"], f.Gzip)
		assert.Len(t, files[f.Name+".br"], f.Brotli)
		if f.Gzip > 0 {
			r, err := gzip.NewReader(strings.NewReader(files[f.Name+".gz"]))
			require.NoError(t, err)
			assert.True(t, r.ModTime.IsZero())
			content, err := io.ReadAll(r)
			require.NoError(t, err)
			assert.Equal(t, files[f.Name], string(content))
		}
		if f.Brotli > 0 {
			content, err := io.ReadAll(brotli.NewReader(strings.NewReader(files[f.Name+".br"])))
			require.NoError(t, err)
			assert.Equal(t, files[f.Name], string(content))
		}
		if strings.HasSuffix(f.Name, ".wasm") || strings.HasSuffix(f.Name, ".css") {
			assert.Positive(t, f.Gzip, f.Name)
			assert.Positive(t, f.Brotli, f.Name)
		}
		if strings.HasSuffix(f.Name, ".png") || f.Name == "table.html" {
			assert.Zero(t, f.Gzip, "%s does not shrink", f.Name)
		}
	}
}

func TestSameBytesTwice(t *testing.T) {
	first := options(t, tree(t))
	report, files := build(t, first)
	// In another folder and over an older build, once with new and once with cached
	// brotli.
	second := options(t, tree(t))
	for range 2 {
		again, same := build(t, second)
		assert.Equal(t, report, again)
		assert.Equal(t, files, same)
	}
}

func TestVersionFollowsContent(t *testing.T) {
	o := options(t, tree(t))
	before, files := build(t, o)
	write(t, o.Root, "site/style.css", "body { margin: 1px }")
	after, newer := build(t, o)
	assert.NotEqual(t, before.Version, after.Version)
	for name := range files {
		if strings.HasPrefix(name, "style.") {
			assert.NotContains(t, newer, name, "a new build leaves nothing of the old one")
		}
	}
}

func TestFailureLeavesTheOldBuild(t *testing.T) {
	o := options(t, tree(t))
	_, before := build(t, o)
	for _, broken := range []func(*pack.Options){
		func(o *pack.Options) { o.Data = func() (any, error) { return nil, errors.New("no data") } },
		func(o *pack.Options) { o.Public = "ftp://example.org" },
		func(o *pack.Options) { o.Public = "https://example.org/?q" },
		func(o *pack.Options) { o.Assets = append(assets(), assets()[0]) },
		func(o *pack.Options) { o.Assets = assets()[1:] },                             // style.css is referred to but never made
		func(o *pack.Options) { o.Assets[0], o.Assets[4] = o.Assets[4], o.Assets[0] }, // before the icon that it refers to
		func(o *pack.Options) {
			o.Assets = append(assets(), pack.Asset{Name: "gone.js", Make: pack.Source("site/gone.js")})
		},
	} {
		failing := o
		failing.Assets = assets()
		broken(&failing)
		_, err := pack.Build(context.Background(), failing)
		assert.Error(t, err)
		assert.Equal(t, before, read(t, o.Out))
	}
	left, err := os.ReadDir(filepath.Dir(o.Out))
	require.NoError(t, err)
	assert.Len(t, left, 1, "no working folder stays behind")
}

func TestDoesNotReplaceWhatIsNoBuild(t *testing.T) {
	o := options(t, tree(t))
	write(t, o.Out, "letter.txt", "dear reader")
	_, err := pack.Build(context.Background(), o)
	require.Error(t, err)
	assert.Equal(t, map[string]string{"letter.txt": "dear reader"}, read(t, o.Out))
}

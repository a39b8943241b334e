package pack_test

import (
	"compress/gzip"
	"context"
	"encoding/base64"
	"html"
	"io"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/scripts/lib/pack"
)

// whole returns options for the small site with its page as one file too.
func whole(t *testing.T) pack.Options {
	t.Helper()
	root := tree(t)
	write(t, root, "site/index.html", `<!doctype html>{{block "head" .}}<link rel="stylesheet" href="{{asset "style.css"}}">{{end}}<p>{{.}}</p>`)
	write(t, root, "site/table.html", `<!doctype html>{{block "board-head" .}}{{end}}<p title="&amp;">board</p>`)
	write(t, root, "site/icon.svg", `<svg xmlns="http://www.w3.org/2000/svg"/>`)
	write(t, root, "site/onefile.html", `{{define "head"}}<meta content="'{{integrity "style.css"}}' '{{integrity "loader.js"}}'">
<link href="{{picture "icon.svg"}}"><style>{{style "style.css"}}</style>
<script type="application/gzip" id="page">{{packed "page.wasm"}}</script><script data-board="{{board}}">{{script "loader.js"}}</script>{{end}}
{{define "board-head"}}<style>{{style "style.css"}}</style>{{end}}`)
	o := options(t, root)
	o.Assets = append(o.Assets, pack.Asset{Name: "icon.svg", Make: pack.Source("site/icon.svg")})
	o.OneFile = true
	return o
}

func TestOneFileHoldsAllItNeeds(t *testing.T) {
	o := whole(t)
	report, files := build(t, o)
	page := files[pack.OneFile]
	assert.Contains(t, page, "<p>filled &lt;in&gt;</p>", "the same page")

	between := func(open, close string) string {
		t.Helper()
		_, after, found := strings.Cut(page, open)
		require.True(t, found, open)
		text, _, found := strings.Cut(after, close)
		require.True(t, found, close)
		return text
	}
	style, script := between("<style>", "</style>"), between(`">void`, "</script>")
	assert.Equal(t, strings.Repeat("body { margin: 0 }\n", 50), style)
	assert.Equal(t, strings.Repeat("void 0;\n", 50), "void"+script)
	policy := html.UnescapeString(between(`content="`, `"`))
	for _, text := range []string{style, "void" + script} {
		assert.Contains(t, policy, "'sha256-"+base64.StdEncoding.EncodeToString(sha(text))+"'")
	}

	packed, err := gzip.NewReader(base64.NewDecoder(base64.StdEncoding, strings.NewReader(between(`id="page">`, "</script>"))))
	require.NoError(t, err)
	program, err := io.ReadAll(packed)
	require.NoError(t, err)
	assert.Equal(t, strings.Repeat("\x00asm", 300), string(program))
	address := html.UnescapeString(between(`<link href="`, `"`))
	icon, err := base64.StdEncoding.DecodeString(strings.TrimPrefix(address, "data:image/svg+xml;base64,"))
	require.NoError(t, err)
	assert.Equal(t, `<svg xmlns="http://www.w3.org/2000/svg"/>`, string(icon))

	board := html.UnescapeString(between(`data-board="`, `"`))
	assert.Equal(t, "<!doctype html><style>"+style+`</style><p title="&amp;">board</p>`, board)
	assert.Empty(t, regexp.MustCompile(`(src|href)="[^"d]`).FindString(page), "it asks for no other file")

	_, list := listed(t, files["sw.js"])
	assert.NotContains(t, list, pack.OneFile, "the worker leaves it alone")
	for _, f := range report.Files {
		if f.Name == pack.OneFile {
			assert.Equal(t, pack.File{Name: pack.OneFile, Raw: len(page)}, f, "packed already")
		}
	}
}

func TestOneFileRefusesWhatWouldEndItsElement(t *testing.T) {
	for name, text := range map[string]string{
		"loader.js": `"</script>"`,
		"style.css": "/* </STYLE> */",
	} {
		o := whole(t)
		write(t, o.Root, "site/"+name, text)
		_, err := pack.Build(context.Background(), o)
		assert.ErrorContains(t, err, name+" holds")
	}
}

package words_test

import (
	"bytes"
	"encoding/xml"
	"go/ast"
	"go/parser"
	"go/token"
	"html/template"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/lesson"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/scripts/lib/pack"
	"pivotbench/scripts/lib/words"
)

const root = "../../.."

// A piece is a text that people read, and where it stands.
type piece struct{ where, text string }

// rendered returns a page of the site as its template makes it, with empty assets. Further
// files may redefine its parts.
func rendered(t *testing.T, name string, further ...string) []byte {
	t.Helper()
	none := func(...string) string { return "" }
	functions := template.FuncMap{"size": func(string) int { return 0 }}
	for _, name := range []string{"asset", "integrity", "public", "picture", "style", "script", "text", "packed", "board"} {
		functions[name] = none
	}
	files, err := filepath.Glob(filepath.Join(root, "site", "sections", "*.html"))
	require.NoError(t, err)
	for _, file := range append([]string{name}, further...) {
		files = append(files, filepath.Join(root, "site", file))
	}
	page, err := template.New(name).Funcs(functions).ParseFiles(files...)
	require.NoError(t, err)
	data, err := pack.PageData()
	require.NoError(t, err)
	var out bytes.Buffer
	require.NoError(t, page.Execute(&out, data))
	return out.Bytes()
}

// A node is an element of a page or, with an empty name, a text.
type node struct {
	name, text string
	attr       map[string]string
	children   []*node
	parent     *node
}

// parse reads a page. HTML that is not quite XML is allowed.
func parse(t *testing.T, page []byte) *node {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(page))
	d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	top := &node{}
	at := top
	for {
		token, _ := d.Token()
		switch token := token.(type) {
		case nil:
			require.Equal(t, top, at, "every element is closed")
			return top
		case xml.StartElement:
			child := &node{name: token.Name.Local, attr: map[string]string{}, parent: at}
			for _, a := range token.Attr {
				child.attr[a.Name.Local] = a.Value
			}
			at.children = append(at.children, child)
			at = child
		case xml.EndElement:
			at = at.parent
		case xml.CharData:
			at.children = append(at.children, &node{text: string(token), parent: at})
		}
	}
}

// walk visits an element and everything within it.
func (n *node) walk(visit func(*node)) {
	visit(n)
	for _, child := range n.children {
		child.walk(visit)
	}
}

// content returns the text within an element, without code, scripts and pictures.
func (n *node) content() string {
	if slices.Contains([]string{"code", "script", "style", "svg", "pre"}, n.name) {
		return ""
	}
	text := n.text
	for _, child := range n.children {
		text += child.content()
		if child.name != "" && !slices.Contains(inline, child.name) {
			text += "\n"
		}
	}
	return text
}

var inline = []string{"a", "strong", "em", "sub", "sup", "span", "code", "b", "i"}

// blocks are the elements whose whole content is one text.
var blocks = []string{"p", "li", "dt", "dd", "h1", "h2", "h3", "legend", "summary", "label", "button", "option", "a", "th", "title", "output"}

// texts returns what an element shows or says.
func (n *node) texts(where string) (out []piece) {
	n.walk(func(n *node) {
		for _, name := range []string{"aria-label", "title", "placeholder", "alt", "aria-valuetext"} {
			if text := n.attr[name]; text != "" {
				out = append(out, piece{where + " " + name, text})
			}
		}
		if n.name == "meta" && n.attr["name"] == "description" {
			out = append(out, piece{where + " description", n.attr["content"]})
		}
		if !slices.Contains(blocks, n.name) || strings.Contains(n.attr["class"], "formula") || strings.Contains(n.attr["class"], "source") {
			return
		}
		if text := strings.Join(strings.Fields(n.content()), " "); text != "" {
			out = append(out, piece{where + " <" + n.name + ">", text})
		}
	})
	return out
}

// markup returns the texts of the pages.
func markup(t *testing.T) (out []piece) {
	t.Helper()
	out = append(out, parse(t, rendered(t, "index.html")).texts("index.html")...)
	out = append(out, parse(t, rendered(t, "table.html")).texts("table.html")...)
	return append(out, parse(t, rendered(t, "index.html", "onefile.html")).texts("onefile.html")...)
}

// literals returns the strings in the program's source that may be texts: all that have a
// space between words, or begin with a capital letter.
func literals(t *testing.T, dirs ...string) (out []piece) {
	t.Helper()
	worded := regexp.MustCompile(`[\pL\pN]\pP* \pP*[\pL\pN]|^\p{Lu}\p{Ll}`)
	named := regexp.MustCompile(`\{[a-z-]+\}`) // a value in a caption
	for _, dir := range dirs {
		require.NoError(t, filepath.WalkDir(filepath.Join(root, dir), func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			files := token.NewFileSet()
			file, err := parser.ParseFile(files, path, nil, 0)
			if err != nil {
				return err
			}
			ast.Inspect(file, func(n ast.Node) bool {
				if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
					text, err := strconv.Unquote(lit.Value)
					if err == nil && worded.MatchString(text) {
						out = append(out, piece{files.Position(lit.Pos()).String(), named.ReplaceAllString(text, "9")})
					}
				}
				return true
			})
			return nil
		}))
	}
	return out
}

// scripts returns the strings in the page's scripts that may be texts.
func scripts(t *testing.T) (out []piece) {
	t.Helper()
	quoted := regexp.MustCompile("'([^'\n]*)'|\"([^\"\n]*)\"|`([^`\n]*)`")
	comment := regexp.MustCompile(`(?m)^\s*//.*$`)
	for _, name := range []string{"loader.js", "board.js", "offline.js", "sw.js"} {
		source, err := os.ReadFile(filepath.Join(root, "site", name))
		require.NoError(t, err)
		for _, m := range quoted.FindAllStringSubmatch(comment.ReplaceAllString(string(source), ""), -1) {
			if text := m[1] + m[2] + m[3]; strings.Contains(text, " ") {
				out = append(out, piece{name, text})
			}
		}
	}
	return out
}

// readme returns the paragraphs of the README, without what is code.
func readme(t *testing.T) (out []piece) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(root, "README.md"))
	require.NoError(t, err)
	code := regexp.MustCompile("`[^`]*`")
	for _, block := range regexp.MustCompile(`\n\n|\n- `).Split(string(text), -1) {
		if !strings.HasPrefix(block, "    ") && !strings.HasPrefix(block, "!") {
			out = append(out, piece{"README", strings.Join(strings.Fields(code.ReplaceAllString(block, "x")), " ")})
		}
	}
	return out
}

// captions returns the texts of the lessons that come with Pivotbench.
func captions() (out []piece) {
	value := regexp.MustCompile(`\{[a-z-]+\}`)
	add := func(where, text string) { out = append(out, piece{where, value.ReplaceAllString(text, "9")}) }
	for _, l := range lesson.Shipped {
		add(l.Name, l.Title)
		for _, s := range l.Steps {
			add(l.Name, s.Caption)
		}
		add(l.Name, l.Question.Text)
	}
	return out
}

func everything(t *testing.T) []piece {
	return slices.Concat(markup(t), literals(t, "core", "wasm"), scripts(t), readme(t), captions())
}

// No text uses a word that has a plainer name now.
func TestNoOldWords(t *testing.T) {
	all := everything(t)
	require.Greater(t, len(all), 1000)
	for _, p := range all {
		if strings.Contains(p.text, "pivotspin") {
			continue // the list of keys that a link writes for one cue
		}
		if found := words.Old(p.text); found != "" {
			t.Errorf("%s: %q in %q", p.where, found, p.text)
		}
	}
}

// Half of all texts of eight words or more are for readers of grade 8 or below, by
// Flesch and Kincaid's formula, and nine in ten for those of grade 10 or below.
func TestTextsAreReadable(t *testing.T) {
	var grades []float64
	var hard []piece
	before := map[string]bool{}
	for _, p := range everything(t) {
		if before[p.text] {
			continue
		}
		before[p.text] = true
		if len(strings.Fields(p.text)) < 8 {
			continue // a label, or part of a sentence
		}
		grade := words.Grade(p.text)
		grades = append(grades, grade)
		if grade > 14 {
			hard = append(hard, p)
		}
	}
	slices.Sort(grades)
	require.Greater(t, len(grades), 300)
	t.Logf("%d texts: median grade %.1f, nine in ten below %.1f", len(grades), grades[len(grades)/2], grades[len(grades)*9/10])
	for _, p := range hard {
		t.Logf("grade %.0f, %s: %s", words.Grade(p.text), p.where, p.text)
	}
	assert.LessOrEqual(t, grades[len(grades)/2], 8.0)
	assert.LessOrEqual(t, grades[len(grades)*9/10], 10.0)
}

// accessible returns the accessible name of a control: its aria-label, its label, its text, or
// its title.
func (n *node) accessible(labels map[string]string) string {
	own := strings.Join(strings.Fields(n.content()), " ")
	switch {
	case n.attr["aria-label"] != "":
		return n.attr["aria-label"]
	case labels[n.attr["id"]] != "":
		return labels[n.attr["id"]]
	case n.parent.name == "label":
		return strings.Join(strings.Fields(n.parent.content()), " ")
	case own != "" && n.name != "select":
		return own
	}
	return n.attr["title"]
}

// section returns the section, the dialog or the start that an element is in, or "" if it
// is outside of all.
func (n *node) section() string {
	for ; n != nil; n = n.parent {
		switch {
		case n.attr["data-panel"] != "":
			return n.attr["data-panel"]
		case n.name == "dialog" || n.attr["id"] == "start":
			return n.attr["id"]
		}
	}
	return ""
}

// Every control has a name, and no two controls of a section have the same one. The bar
// and what else is outside of the sections is one section here.
func TestControlsHaveOneNameEach(t *testing.T) {
	for _, page := range []string{"index.html", "table.html"} {
		top := parse(t, rendered(t, page))
		labels := map[string]string{}
		top.walk(func(n *node) {
			if n.name == "label" && n.attr["for"] != "" {
				assert.Empty(t, labels[n.attr["for"]], "a second label")
				labels[n.attr["for"]] = strings.Join(strings.Fields(n.content()), " ")
			}
		})
		seen, count := map[string]map[string]bool{}, 0
		top.walk(func(n *node) {
			_, filled := dynamic[n.attr["id"]]
			if !slices.Contains([]string{"button", "input", "select", "textarea", "a", "summary"}, n.name) || filled {
				return
			}
			count++
			section, name := n.section(), n.accessible(labels)
			where := page + " " + section + " <" + n.name + " " + n.attr["id"] + n.attr["data-do"] + ">"
			assert.NotEmpty(t, name, where)
			if seen[section] == nil {
				seen[section] = map[string]bool{}
			}
			assert.False(t, seen[section][name], "%s: a second %q", where, name)
			seen[section][name] = true
		})
		if page == "index.html" {
			assert.Greater(t, count, 200)
		}
	}
}

// dynamic are the controls whose names the program writes.
var dynamic = map[string]string{"lesson-drag": "lesson-control", "talk-drag": "talk-control"}

// A reading has one label, and a control has one label, over all sections. Where a
// reading and a control have the same label, they are the same quantity: one is set and
// the other follows.
func TestReadingsAndKeysHaveOneNameEach(t *testing.T) {
	readings, keys := map[string]string{}, map[string]string{}
	for _, s := range shot.Specs {
		assert.Empty(t, readings[s.Label], s.Label)
		readings[s.Label] = s.Name
	}
	for _, k := range scenario.Keys() {
		assert.Empty(t, keys[k.Label], k.Label)
		keys[k.Label] = k.Name
	}
	same := map[string]string{"cue-speed": "stroke", "ball-speed": "speed"}
	for label, name := range readings {
		assert.Equal(t, same[name], keys[label], label)
	}
	// The page shows each reading once, under its label.
	shown := map[string]string{}
	parse(t, rendered(t, "index.html")).walk(func(n *node) {
		name := n.attr["data-reading"]
		if name == "" || name == "verdict" {
			return
		}
		assert.Empty(t, shown[name], name)
		for _, sibling := range n.parent.parent.children {
			if sibling.name == "dt" {
				shown[name] = sibling.content()
			}
		}
	})
	require.Len(t, shown, len(shot.Specs))
	for _, s := range shot.Specs {
		assert.Equal(t, s.Label, strings.TrimSpace(shown[s.Name]))
	}
}

// What a section says comes from the views and the templates, so that it can be tested,
// and translated, without a browser. Selectors and names of the browser's own are not
// words.
func TestSectionsHaveNoWordsOfTheirOwn(t *testing.T) {
	said := regexp.MustCompile(`\pL\pP* \pP*\pL`)
	machine := regexp.MustCompile(`[#\[]|^[.:]|^(input|button), |^\((prefers|forced|pointer)|px |^LayoutF`)
	for _, p := range literals(t, "wasm/section", "wasm/page", "wasm/table", "wasm/pointer") {
		if said.MatchString(p.text) && !machine.MatchString(p.text) {
			t.Errorf("%s: %q", p.where, p.text)
		}
	}
}

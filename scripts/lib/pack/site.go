package pack

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"fmt"
	"html/template"
	"path"
	"path/filepath"
	"strings"
)

// hashDigits is the number of hexadecimal digits of the SHA-256 in a hashed name.
const hashDigits = 10

// Site is a build in progress, with what has been made so far.
type Site struct {
	root   string
	public string
	names  map[string]string // name in templates -> hashed name
	files  map[string][]byte // name as served -> content
}

func newSite(root, public string) *Site {
	return &Site{root: root, public: public, names: map[string]string{}, files: map[string][]byte{}}
}

// add adds an asset under its hashed name.
func (s *Site) add(name string, content []byte) error {
	if _, taken := s.names[name]; taken {
		return fmt.Errorf("asset %s is listed twice", name)
	}
	sum := sha256.Sum256(content)
	ext := path.Ext(name)
	hashed := strings.TrimSuffix(name, ext) + "." + hex.EncodeToString(sum[:])[:hashDigits] + ext
	s.names[name] = hashed
	s.files[hashed] = content
	return nil
}

// functions returns the functions that every template can call:
//
//	asset "style.css"      the hashed name, a relative address
//	size "page.wasm"       bytes once decoded, for a progress bar: the length a
//	                       server announces is that of the compressed form
//	integrity "loader.js"  for the integrity attribute, or fetch
//	public                 the public address, ending in a slash, or empty
func (s *Site) functions() template.FuncMap {
	return template.FuncMap{
		"asset": s.asset,
		"size": func(name string) (int, error) {
			content, err := s.content(name)
			return len(content), err
		},
		"integrity": func(name string) (string, error) {
			content, err := s.content(name)
			return integrity(content), err
		},
		"public": func() string { return s.public },
	}
}

func (s *Site) asset(name string) (string, error) {
	hashed, made := s.names[name]
	if !made {
		return "", fmt.Errorf("no asset %q has been made before this", name)
	}
	return hashed, nil
}

// content returns the content of an asset, by its name in templates.
func (s *Site) content(name string) ([]byte, error) {
	hashed, err := s.asset(name)
	return s.files[hashed], err
}

// addPages executes the two pages. Only the first has data: the board is filled by its
// program.
func (s *Site) addPages(filling any) error {
	for name, data := range map[string]any{"index.html": filling, "table.html": nil} {
		page, err := s.execute(name, data, nil)
		if err != nil {
			return err
		}
		s.files[name] = page
	}
	return nil
}

// execute executes a page of site/ with the sections there. Further files may redefine
// its parts, with functions of their own.
func (s *Site) execute(name string, data any, more template.FuncMap, further ...string) ([]byte, error) {
	files, err := filepath.Glob(filepath.Join(s.root, "site", "sections", "*.html"))
	if err != nil {
		return nil, err
	}
	for _, file := range append([]string{name}, further...) {
		files = append(files, filepath.Join(s.root, "site", file))
	}
	t, err := template.New(name).Funcs(s.functions()).Funcs(more).ParseFiles(files...)
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	err = t.Execute(&out, data)
	return out.Bytes(), err
}

// integrity returns the hash of content in the form that browsers check.
func integrity(content []byte) string {
	sum := sha256.Sum256(content)
	return "sha256-" + base64.StdEncoding.EncodeToString(sum[:])
}

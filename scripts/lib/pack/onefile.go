package pack

import (
	"encoding/base64"
	"fmt"
	"html/template"
	"strings"
)

// OneFile is the name of the file that contains the whole bench and opens without a
// server.
const OneFile = "pivotbench.html"

// addOneFile makes it from the same pages and assets. The worker does not store it: it is
// meant for places other than this site.
func (s *Site) addOneFile(filling any) error {
	content, err := s.execute("index.html", filling, s.inside(), "onefile.html")
	if err != nil {
		return err
	}
	s.files[OneFile] = content
	return nil
}

// inside returns the functions that insert an asset into a page:
//
//	style "style.css"      between <style> and </style>
//	script "loader.js"     between <script> and </script>
//	text "licences.txt"    as words
//	picture "icon.svg"     as an address
//	packed "page.wasm"     gzipped, in base64
//	board                  the board's page, for an attribute
func (s *Site) inside() template.FuncMap {
	return template.FuncMap{
		"style": func(name string) (template.CSS, error) {
			text, err := s.between(name, "style")
			return template.CSS(text), err
		},
		"script": func(name string) (template.JS, error) {
			text, err := s.between(name, "script")
			return template.JS(text), err
		},
		"text": func(name string) (string, error) {
			content, err := s.content(name)
			return string(content), err
		},
		"picture": func(name string) (template.URL, error) {
			content, err := s.content(name)
			return template.URL("data:image/svg+xml;base64," + base64.StdEncoding.EncodeToString(content)), err
		},
		"packed": func(name string) (template.HTML, error) {
			content, err := s.content(name)
			if err != nil {
				return "", err
			}
			small, err := gzipped(content)
			return template.HTML(base64.StdEncoding.EncodeToString(small)), err
		},
		"board": func() (string, error) {
			inside := s.inside()
			inside["board"] = func() string { return "" } // it contains none itself
			page, err := s.execute("table.html", nil, inside, "onefile.html")
			return string(page), err
		},
	}
}

// between returns an asset for the inside of an element, which its text must not end.
func (s *Site) between(name, element string) (string, error) {
	content, err := s.content(name)
	for _, ends := range []string{"</" + element, "<!--"} {
		if err == nil && strings.Contains(strings.ToLower(string(content)), ends) {
			err = fmt.Errorf("%s holds %q and can't stand in a page", name, ends)
		}
	}
	return string(content), err
}

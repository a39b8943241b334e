package sheet

import (
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// parts reads an SVG as XML and returns the number of elements by name, and its texts.
func parts(t testing.TB, svg string) (elements map[string]int, words []string, title string) {
	t.Helper()
	elements = map[string]int{}
	for d := xml.NewDecoder(strings.NewReader(svg)); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return elements, words, title
		}
		require.NoError(t, err)
		switch tok := token.(type) {
		case xml.StartElement:
			elements[tok.Name.Local]++
			for _, a := range tok.Attr {
				if a.Name.Local == "aria-label" {
					title = a.Value
				}
				assert.False(t, strings.HasPrefix(a.Name.Local, "on"), "%s=%s", a.Name.Local, a.Value)
			}
		case xml.CharData:
			words = append(words, string(tok))
		}
	}
}

func TestSVGIsWellFormed(t *testing.T) {
	everySheet(t, func(t *testing.T, name string, s Sheet, v View) {
		elements, words, title := parts(t, SVG(&s, "Clean, 0.25 in to spare"))
		texts := 0
		for _, item := range s.Items {
			if text, ok := item.(Text); ok {
				if texts >= len(words) || words[texts] != text.Words {
					t.Fatalf("%s: %q is not in its place", name, text.Words)
				}
				texts++
			}
		}
		if len(s.Items) != elements["path"]+elements["circle"]+elements["text"] || elements["svg"] != 1 || len(elements) != 4 || texts != elements["text"] {
			t.Errorf("%s: %v", name, elements)
		}
		if title != "Clean, 0.25 in to spare" {
			t.Errorf("%s: title %q", name, title)
		}
	})
}

func TestSVGEscapesWhatPeopleWrite(t *testing.T) {
	s := Sheet{Width: 10, Height: 10, Items: []Item{Text{Words: `<script>alert("1")</script> & 'x' ]]> "`, Size: 10}}}
	svg := SVG(&s, `"><img src=x onerror=alert(1)>`)
	elements, words, title := parts(t, svg)
	assert.Equal(t, map[string]int{"svg": 1, "text": 1}, elements)
	assert.Equal(t, []string{`<script>alert("1")</script> & 'x' ]]> "`}, words)
	assert.Equal(t, `"><img src=x onerror=alert(1)>`, title)
}

func TestSVGOfAHostileName(t *testing.T) {
	_, _, s := drawn(t, "v=1&name=%3Cimg%20src%3Dx%20onerror%3Dalert(1)%3E", View{Width: 1920, Height: 1080, Board: true, Stretch: 4})
	svg := SVG(&s, "")
	assert.NotContains(t, svg, "<img")
	_, words, _ := parts(t, svg)
	assert.Contains(t, strings.Join(words, "\n"), "<img src=x onerror=")
}

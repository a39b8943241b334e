package sheet

import (
	"strconv"
	"strings"
)

// SVG returns a sheet as an svg element. Colours are left to the style sheet: each item
// has the class of its ink, s-… for strokes and f-… for fills. title describes the whole
// for screen readers.
func SVG(sh *Sheet, title string) string {
	w := svgWriter{}
	w.open("svg", "xmlns", "http://www.w3.org/2000/svg", "class", "sheet-svg", "role", "img",
		"viewBox", "0 0 "+px(sh.Width)+" "+px(sh.Height), "aria-label", title)
	w.b.WriteString(">")
	for _, item := range sh.Items {
		switch it := item.(type) {
		case Path:
			w.path(it)
		case Circle:
			w.circle(it)
		case Text:
			w.text(it)
		}
	}
	w.b.WriteString("</svg>")
	return w.b.String()
}

// escaped replaces the characters that mean something in markup. Package html would do
// it too, and bring its table of two thousand named characters into the page's program.
var escaped = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&#34;", "'", "&#39;")

type svgWriter struct{ b strings.Builder }

// open writes an element's name and attributes, without the final bracket.
func (w *svgWriter) open(name string, attrs ...string) {
	w.b.WriteString("<" + name)
	w.attrs(attrs...)
}

func (w *svgWriter) attrs(pairs ...string) {
	for i := 0; i < len(pairs); i += 2 {
		w.b.WriteString(" " + pairs[i] + `="` + escaped.Replace(pairs[i+1]) + `"`)
	}
}

func (w *svgWriter) stroke(st Stroke, fill Ink) {
	class := "s-" + string(st.Ink)
	if fill != "" {
		class += " f-" + string(fill)
	}
	w.attrs("class", class, "stroke-width", px(st.Width))
	if st.Dash != nil {
		parts := make([]string, len(st.Dash))
		for i, d := range st.Dash {
			parts[i] = px(d)
		}
		w.attrs("stroke-dasharray", strings.Join(parts, " "))
	}
	w.b.WriteString("/>")
}

func (w *svgWriter) path(p Path) {
	var d strings.Builder
	for i, pt := range p.Points {
		d.WriteString(map[bool]string{true: "M", false: "L"}[i == 0] + px(pt.X) + " " + px(pt.Y))
	}
	w.open("path", "d", d.String())
	w.stroke(p.Stroke, p.Fill)
}

func (w *svgWriter) circle(c Circle) {
	w.open("circle", "cx", px(c.At.X), "cy", px(c.At.Y), "r", px(c.Radius))
	w.stroke(c.Stroke, c.Fill)
}

func (w *svgWriter) text(t Text) {
	class := "f-" + string(t.Ink)
	if t.Bold {
		class += " bold"
	}
	w.open("text", "x", px(t.At.X), "y", px(t.At.Y), "class", class, "font-size", px(t.Size), "text-anchor", string(t.Anchor))
	if t.Turned {
		w.attrs("transform", "rotate(-90 "+px(t.At.X)+" "+px(t.At.Y)+")")
	}
	w.b.WriteString(">" + escaped.Replace(t.Words) + "</text>")
}

// px formats a length in pixels to a hundredth.
func px(v float64) string {
	text := strconv.FormatFloat(v, 'f', 2, 64)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

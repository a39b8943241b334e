package sheet

import "strings"

// A legend explains a chart under it: in each row a sample, and what it stands for. Long
// names take several lines, so that they are whole.
type legend struct {
	left, room float64 // the left edge, and the width up to the right edge
	y          float64 // the baseline of the next line
}

const legendLine = 17

// row writes a row and returns the place of its sample.
func (l *legend) row(p *pen, words string) box {
	const sample, size = 34, 12
	at := box{l.left, l.y - 10, l.left + sample - 8, l.y + 2}
	for _, line := range wrapped(Text{Words: words, Size: size}, l.room-sample) {
		p.text(Text{At: Point{l.left + sample, l.y}, Words: line, Size: size, Ink: Line, Anchor: FromStart})
		l.y += legendLine
	}
	return at
}

// foot returns the height of a sheet that ends with the legend.
func (l *legend) foot() float64 { return l.y - 4 }

// wrapped breaks a text into lines that fit, between words where possible.
func wrapped(t Text, room float64) (lines []string) {
	line := ""
	for _, word := range strings.Fields(t.Words) {
		t.Words = strings.TrimSpace(line + " " + word)
		if t.framed() <= room {
			line = t.Words
			continue
		}
		if line != "" {
			lines, line = append(lines, line), ""
		}
		for _, r := range word { // a word may be longer than a line
			if t.Words = line + string(r); t.framed() > room && line != "" {
				lines, line = append(lines, line), ""
			}
			line += string(r)
		}
	}
	return append(lines, line)
}

package sheet

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/wasm/app"
)

// Where the end of the bed would run through a text, there is paper between them.
func TestCushionsPassBehindTexts(t *testing.T) {
	crossed := 0
	for _, link := range []string{"v=1", "v=1&bridge=22.75in", "v=1&bridge=6in", "v=1&bridge=18in&units=cm", "v=1&dist=60in&gate=50in"} {
		s := parsed(t, link)
		m := app.Start()
		m.Scene = s
		for _, v := range []View{{Width: 320, Height: 230}, {Width: 390, Height: 360}, {Width: 844, Height: 701}} {
			g := Glass{Width: v.Width, Height: v.Height}
			p := pen{s: &s, v: g.View(&m), plan: newPlan(&s, g.View(&m))}
			p.cushions()
			sheet := Draw(&s, m.Play(), g.View(&m))
			texts := 0
			for _, item := range sheet.Items {
				text, ok := item.(Text)
				if !ok {
					continue
				}
				texts++
				b := text.box()
				if !p.bed.meets(b) || p.bed.holds(b) {
					continue
				}
				crossed++
				assert.Contains(t, grounds(&sheet), box{b.left - 3, b.top - 2, b.right + 3, b.bottom + 2}, "%s at %v: %s", link, v, text.Words)
			}
			assert.Greater(t, texts, 6)
		}
	}
	assert.Greater(t, crossed, 5)
}

// grounds returns the pieces of plain paper that come before everything but the table.
func grounds(sh *Sheet) []box {
	var out []box
	for _, item := range sh.Items {
		switch it := item.(type) {
		case Text:
			return out
		case Path:
			if it.Fill == Ground && len(it.Points) == 4 {
				out = append(out, box{it.Points[0].X, it.Points[0].Y, it.Points[2].X, it.Points[2].Y})
			}
		}
	}
	return out
}

//go:build js && wasm

package main

import (
	"strings"
	"time"

	"pivotbench/core/scenario"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/sheet"
)

// rest is how long the board's shot has to stay unchanged before it is spoken. A drag is
// spoken once, when it ends.
const rest = 500 * time.Millisecond

// nudged moves a handle of the board by an arrow key.
func (b *bench) nudged(id sheet.HandleID, x, y float64, slow bool) {
	sets := sheet.Nudge(&b.model.Scene, b.glass.View(&b.model), id, x, y, slow)
	b.do(app.SetAll{Sets: sets})
}

// valued returns the value of a handle for a screen reader.
func (b *bench) valued(id sheet.HandleID) (number float64, text string) {
	var said []string
	for _, name := range id.Keys() {
		said = append(said, scenario.Find(name).Shown(&b.model.Scene))
	}
	number, _ = scenario.Find(id.Keys()[0]).Number(&b.model.Scene)
	return number, strings.Join(said, ", ")
}

// speakSoon speaks the result of the board's shot, which is otherwise only painted.
func (b *bench) speakSoon() {
	if b.resting == nil {
		b.resting = time.AfterFunc(rest, func() {
			if b.model.Dragging {
				b.resting.Reset(rest)
				return
			}
			said := phrase.Verdict(&b.model.Scene, &b.model.Play().Reading)
			if text := said.Head + ", " + said.Detail; dom.ByID("spoken").Get("textContent").String() != text {
				dom.ByID("spoken").Set("textContent", text)
			}
		})
	}
	b.resting.Reset(rest)
}

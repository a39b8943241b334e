//go:build js && wasm

// Command table is the program of the canvas. It paints a sheet with ebiten and reports
// drags of its handles. In a frame of the page it shows what it is sent. Opened by itself
// it is the board, with a scenario of its own from the address.
package main

import (
	"github.com/hajimehoshi/ebiten/v2"

	"pivotbench/wasm/dom"
	"pivotbench/wasm/pointer"
)

func main() {
	b := newBench()
	b.layer = pointer.New(dom.ByID("layer"), b.dragged)
	if framed() {
		b.listen()
	} else {
		b.layer.Keys(b.nudged, b.valued)
		b.openAddress()
		b.talk, b.play = newTalk(b), newPlay(b)
	}
	b.followColours()
	ebiten.SetTPS(ebiten.SyncWithFPS) // one Update per frame, and frames only on request
	if err := ebiten.RunGameWithOptions(b, &ebiten.RunGameOptions{InitUnfocused: true}); err != nil {
		panic(err) // the loader catches it, and the page keeps its own drawing
	}
}

// framed reports whether the program runs in a frame of the page.
func framed() bool { return !dom.Window.Equal(dom.Window.Get("parent")) }

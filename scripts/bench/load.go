package main

import (
	"context"
	"fmt"
	"time"

	"pivotbench/scripts/lib/webdriver"
)

const (
	// patience is how long a page may take to come up: longer is a fault.
	patience = time.Minute
	// calm is how long a browser just opened, or a page just left, is given to
	// get over it.
	calm = time.Second
)

// rates are the slowdowns of the page's processor: this machine, and about a
// middling phone.
var rates = []float64{1, 4}

// watch notes when the page's state changes, from the start of the navigation.
const watch = `if (window === top) {
	window.marks = {};
	new MutationObserver(() => {
		const state = document.documentElement.dataset.state;
		if (state && !(state in window.marks)) window.marks[state] = performance.now();
	}).observe(document, { subtree: true, attributes: true, attributeFilter: ['data-state'] });
}`

// marks are the times of a load, in ms since the navigation began.
type marks struct{ Live, Board float64 }

// measureLoad opens Pivotbench and a bare ebiten program in turn, each time in
// a browser that has never seen either, and compares. Pivotbench is then
// opened once more from what its worker kept.
func measureLoad(ctx context.Context, s *sites, runs int, r *report) error {
	bare, err := s.extraPage("bare.html")
	if err != nil {
		return err
	}
	for _, rate := range rates {
		var bareBoard, live, board, liveAgain, boardAgain sample
		for range runs {
			m, err := loads(ctx, bare, rate, false)
			if err != nil {
				return fmt.Errorf("the bare program: %w", err)
			}
			bareBoard = append(bareBoard, m[0].Board)
			if m, err = loads(ctx, s.site, rate, true); err != nil {
				return err
			}
			live, board = append(live, m[0].Live), append(board, m[0].Board)
			liveAgain, boardAgain = append(liveAgain, m[1].Live), append(boardAgain, m[1].Board)
		}
		at := fmt.Sprintf(", processor at 1/%g", rate)
		r.note("bare ebiten, first frame"+at, bareBoard.spread(" ms"))
		compare := func(what string, a, b sample) (figure string, ratio float64) {
			ratio = a.median() / b.median()
			return fmt.Sprintf("%s, %.2f of %s", a.spread(" ms"), ratio, what), ratio
		}
		figure, ratio := compare("bare", live, bareBoard)
		r.atMost("first reading"+at, figure, ratio, 0.5, " of bare")
		figure, ratio = compare("bare", board, bareBoard)
		r.atMost("canvas, first frame"+at, figure, ratio, 1.2, " of bare")
		figure, _ = compare("cold", liveAgain, live)
		r.note("first reading, second visit"+at, figure)
		figure, _ = compare("cold", boardAgain, board)
		r.note("canvas, second visit"+at, figure)
	}
	return nil
}

// loads opens an address in a new browser and, if again, once more when the
// worker holds everything.
func loads(ctx context.Context, url string, rate float64, again bool) (m []marks, err error) {
	b, err := openBrowser(ctx, rate)
	if err != nil {
		return nil, err
	}
	defer b.Close()
	first, err := load(b, url)
	if err != nil || !again {
		return []marks{first}, err
	}
	if err := b.Wait(`document.documentElement.dataset.offline === "ready"`, patience); err != nil {
		return nil, err
	}
	time.Sleep(calm)
	if err := b.Get("about:blank"); err != nil {
		return nil, err
	}
	time.Sleep(calm)
	second, err := load(b, url)
	return []marks{first, second}, err
}

// plainRaster keeps the browser from painting text and controls through its
// software WebGL, where a page of them takes longer than all programs together.
// The canvas is painted through it either way.
const plainRaster = "--disable-gpu-rasterization"

// openBrowser opens a browser that watches the page's state.
func openBrowser(ctx context.Context, rate float64) (*webdriver.Session, error) {
	b, err := webdriver.Open(ctx, webdriver.Chromium, webdriver.Options{Args: []string{plainRaster}})
	if err != nil {
		return nil, err
	}
	time.Sleep(calm)
	err = b.CDP("Page.addScriptToEvaluateOnNewDocument", map[string]string{"source": watch}, nil)
	if err == nil {
		err = b.Slow(rate)
	}
	if err != nil {
		b.Close()
		return nil, err
	}
	return b, nil
}

// load opens an address and waits for its canvas.
func load(b *webdriver.Session, url string) (m marks, err error) {
	if err := b.Get(url); err != nil {
		return m, err
	}
	if err := b.Wait(`window.marks.board > 0`, patience); err != nil {
		return m, err
	}
	err = b.Eval(`return {Live: window.marks.live ?? 0, Board: window.marks.board}`, &m)
	return m, err
}

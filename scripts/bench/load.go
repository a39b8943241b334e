package main

import (
	"context"
	"fmt"
	"time"

	"pivotbench/scripts/lib/webdriver"
)

const (
	// patience is how long a page may take to come up; longer is an error.
	patience = time.Minute
	// calm is the time that a browser just opened, or a page just left, gets to settle.
	calm = time.Second
)

// rates are the slowdowns of the page's processor: this machine, and roughly a mid-range
// phone.
var rates = []float64{1, 4}

// watch records when the page's state changes, from the start of the navigation.
const watch = `if (window === top) {
	window.marks = {};
	new MutationObserver(() => {
		const state = document.documentElement.dataset.state;
		if (state && !(state in window.marks)) window.marks[state] = performance.now();
	}).observe(document, { subtree: true, attributes: true, attributeFilter: ['data-state'] });
}`

// marks are the times of a load, in ms since the navigation began.
type marks struct{ Live, Board float64 }

// visits are the visits to Pivotbench in one browser. In the first the worker stores the
// site, and in the second the browser stores the code that it compiled from that; later
// visits are like the third.
var visits = []string{"first", "second", "third"}

// measureLoad opens Pivotbench and a bare ebiten program alternately, each time in a
// browser that has never seen either, and compares them. It then opens Pivotbench again,
// as stored by its worker.
func measureLoad(ctx context.Context, s *sites, runs int, r *report) error {
	bareURL, err := s.extraPage("bare.html")
	if err != nil {
		return err
	}
	for _, rate := range rates {
		var bare sample
		live, board := make([]sample, len(visits)), make([]sample, len(visits))
		for range runs {
			m, err := loads(ctx, bareURL, rate, 1)
			if err != nil {
				return fmt.Errorf("the bare program: %w", err)
			}
			bare = append(bare, m[0].Board)
			if m, err = loads(ctx, s.site, rate, len(visits)); err != nil {
				return err
			}
			for i := range visits {
				live[i], board[i] = append(live[i], m[i].Live), append(board[i], m[i].Board)
			}
		}
		at := fmt.Sprintf(", processor at 1/%g", rate)
		r.note("bare ebiten, first frame"+at, bare.spread(" ms"))
		compare := func(what string, a, b sample, most float64, unit string) {
			ratio := a.median() / b.median()
			r.atMost(what+at, fmt.Sprintf("%s, %.2f%s", a.spread(" ms"), ratio, unit), ratio, most, unit)
		}
		compare("first reading", live[0], bare, 0.5, " of bare")
		compare("canvas, first frame", board[0], bare, 1.2, " of bare")
		for i := 1; i < len(visits); i++ {
			compare("first reading, "+visits[i]+" visit", live[i], live[0], 0.5, " of cold")
			compare("canvas, "+visits[i]+" visit", board[i], board[0], 0.5, " of cold")
		}
	}
	return nil
}

// loads opens an address in a new browser so many times. From the second time on it first
// waits until the worker has stored everything.
func loads(ctx context.Context, url string, rate float64, times int) (m []marks, err error) {
	b, err := openBrowser(ctx, rate)
	if err != nil {
		return nil, err
	}
	defer b.Close()
	for {
		one, err := load(b, url)
		if m = append(m, one); err != nil || len(m) == times {
			return m, err
		}
		if err := b.Wait(`document.documentElement.dataset.offline === "ready"`, patience); err != nil {
			return nil, err
		}
		time.Sleep(calm)
		if err := b.Get("about:blank"); err != nil {
			return nil, err
		}
		time.Sleep(calm)
	}
}

// plainRaster keeps the browser from painting text and controls through its software
// WebGL, where a page of them takes longer than all programs together. The canvas is
// painted through it either way.
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

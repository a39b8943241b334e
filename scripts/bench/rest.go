package main

import (
	"context"
	"fmt"
	"time"

	"pivotbench/scripts/lib/webdriver"
)

const (
	restFrames = 3 * time.Second // for which the frames drawn are counted
	restShare  = 5 * time.Second // over which the main thread's work is added up
)

// framesDrawn is how many frames the canvas has drawn.
const framesDrawn = `document.getElementById("table").contentWindow.framesDrawn`

// measureRest looks at a page that has come up and is left alone.
func measureRest(ctx context.Context, s *sites, _ int, r *report) error {
	b, err := openSettled(ctx, s)
	if err != nil {
		return err
	}
	defer b.Close()
	var before, after int
	if err := b.Eval("return "+framesDrawn, &before); err != nil {
		return err
	}
	time.Sleep(restFrames)
	if err := b.Eval("return "+framesDrawn, &after); err != nil {
		return err
	}
	drawn := after - before
	r.atMost(fmt.Sprintf("frames in %v at rest", restFrames), fmt.Sprint(drawn), float64(drawn), 0, "")
	share, err := mainThread(b, restShare)
	r.atMost(fmt.Sprintf("main thread over %v at rest", restShare), fmt.Sprintf("%.2f %%", 100*share), 100*share, 1, " %")
	return err
}

// openSettled opens the site and waits until its worker, too, has done its work.
func openSettled(ctx context.Context, s *sites) (*webdriver.Session, error) {
	b, err := openBrowser(ctx, 1)
	if err != nil {
		return nil, err
	}
	if _, err = load(b, s.site); err == nil {
		err = b.Wait(`document.documentElement.dataset.offline === "ready"`, patience)
	}
	if err != nil {
		b.Close()
		return nil, err
	}
	time.Sleep(calm)
	return b, nil
}

// mainThread is the share of a while that the page's main thread works.
func mainThread(b *webdriver.Session, during time.Duration) (float64, error) {
	if err := b.CDP("Performance.enable", nil, nil); err != nil {
		return 0, err
	}
	began, before, err := tasks(b)
	if err != nil {
		return 0, err
	}
	time.Sleep(during)
	ended, after, err := tasks(b)
	return (after - before) / (ended - began), err
}

// tasks are the browser's clock and what the main thread has worked so far,
// both in seconds.
func tasks(b *webdriver.Session) (clock, worked float64, err error) {
	var got struct {
		Metrics []struct {
			Name  string
			Value float64
		}
	}
	err = b.CDP("Performance.getMetrics", nil, &got)
	for _, m := range got.Metrics {
		switch m.Name {
		case "Timestamp":
			clock = m.Value
		case "TaskDuration":
			worked = m.Value
		}
	}
	return clock, worked, err
}

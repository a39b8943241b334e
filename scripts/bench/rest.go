package main

import (
	"context"
	"fmt"
	"time"

	"pivotbench/scripts/lib/webdriver"
)

const (
	restFrames = 3 * time.Second  // during which frames are counted
	restShare  = 10 * time.Second // during which work is added up
)

// framesDrawn is the number of frames that the canvas has drawn in its iframe.
const framesDrawn = `document.getElementById("table").contentWindow.framesDrawn`

// measureRest measures a page that has loaded and is left alone, in sight and behind
// another tab. The canvas's iframe has the page's own origin, so the two share a process
// and its main thread, and the work of both counts.
func measureRest(ctx context.Context, s *sites, _ int, r *report) error {
	b, err := openSettled(ctx, s)
	if err != nil {
		return err
	}
	defer b.Close()
	if err := b.CDP("Performance.enable", nil, nil); err != nil {
		return err
	}
	pids := renderers()
	if err := resting(b, pids, "in sight", r); err != nil {
		return err
	}
	if err := b.CDP("Target.createTarget", map[string]any{"url": "about:blank", "background": false}, nil); err != nil {
		return err
	}
	if err := b.Wait("document.hidden", patience); err != nil {
		return err
	}
	time.Sleep(calm)
	if err := resting(b, pids, "behind a tab", r); err != nil {
		return err
	}
	return b.Wait("document.hidden", 0) // it was hidden all the time
}

// resting measures the work of a page that is left alone, given its processes.
func resting(b *webdriver.Session, pids []int, where string, r *report) error {
	var before, after int
	if err := b.Eval("return "+framesDrawn, &before); err != nil {
		return err
	}
	time.Sleep(restFrames)
	if err := b.Eval("return "+framesDrawn, &after); err != nil {
		return err
	}
	drawn := after - before
	r.atMost(fmt.Sprintf("frames in %v, %s", restFrames, where), fmt.Sprint(drawn), float64(drawn), 0, "")

	used := processorTime(pids)
	thread, err := mainThread(b, restShare)
	if err != nil {
		return err
	}
	share := 100 * (processorTime(pids) - used).Seconds() / restShare.Seconds()
	r.atMost(fmt.Sprintf("main thread over %v, %s", restShare, where), fmt.Sprintf("%.2f %%", 100*thread), 100*thread, 1, " %")
	what := "page's and frame's process, " + where
	if len(pids) == 0 {
		r.note(what, "unknown on this system")
		return nil
	}
	r.atMost(what, fmt.Sprintf("%.2f %% of a core", share), share, 1, " %")
	return nil
}

// openSettled opens the site and waits until its worker has finished too.
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

// mainThread returns the share of a time during which the page's main thread works.
func mainThread(b *webdriver.Session, during time.Duration) (float64, error) {
	began, before, err := tasks(b)
	if err != nil {
		return 0, err
	}
	time.Sleep(during)
	ended, after, err := tasks(b)
	return (after - before) / (ended - began), err
}

// tasks returns the browser's clock and the total work of the main thread, both in
// seconds.
func tasks(b *webdriver.Session) (clock, worked float64, err error) {
	got, err := counts(b)
	return got["Timestamp"], got["TaskDuration"], err
}

// counts returns the browser's performance counters of a page. They must be enabled
// before.
func counts(b *webdriver.Session) (map[string]float64, error) {
	var got struct {
		Metrics []struct {
			Name  string
			Value float64
		}
	}
	err := b.CDP("Performance.getMetrics", nil, &got)
	named := map[string]float64{}
	for _, m := range got.Metrics {
		named[m.Name] = m.Value
	}
	return named, err
}

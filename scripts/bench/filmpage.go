package main

import (
	"context"
	_ "embed"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

//go:embed filmpage.js
var filmScript string

// measureFilmPage reads a film of two seconds, of 720p and 60 frames a second, in the page:
// how long that takes and how much memory.
func measureFilmPage(ctx context.Context, s *sites, runs int, r *report) error {
	films := filepath.Join("testdata", "film")
	film, err := os.ReadFile(filepath.Join(films, "large.mp4"))
	if err != nil {
		return err
	}
	text, err := os.ReadFile(filepath.Join(films, "stroke.json"))
	if err != nil {
		return err
	}
	var of struct{ Link string }
	if err := json.Unmarshal(text, &of); err != nil {
		return err
	}
	b, err := openBrowser(ctx, 1)
	if err != nil {
		return err
	}
	defer b.Close()
	if _, err := load(b, s.site+"#"+of.Link); err != nil {
		return err
	}
	time.Sleep(calm)
	pages := renderers()
	before := memoryOf(pages)
	most := mostMemory(pages)
	var took sample
	for range runs {
		var ms float64
		if err := b.EvalAsync(filmScript, &ms, base64.StdEncoding.EncodeToString(film)); err != nil {
			return fmt.Errorf("the film is not read: %w", err)
		}
		took = append(took, ms/1000)
	}
	grown := most() - before
	r.atMost("film: time to read 2 s of 720p60 in the page", fmt.Sprintf("%.1f s (%.1f-%.1f)", took.median(), took.at(0), took.at(1)), took.median(), 4, " s")
	if len(pages) > 0 {
		r.atMost(fmt.Sprintf("film: most memory beyond the page's, over %d readings", runs), fmt.Sprintf("%.0f MB beyond %.0f", grown, before), grown, 200, " MB")
	}
	return nil
}

// mostMemory watches the memory of some processes. The function that it returns ends that, and
// answers with the most there was.
func mostMemory(pids []int) func() float64 {
	const often = 50 * time.Millisecond
	end, most := make(chan struct{}), make(chan float64)
	go func() {
		sofar := 0.0
		for {
			sofar = max(sofar, memoryOf(pids))
			select {
			case <-end:
				most <- sofar
				return
			case <-time.After(often):
			}
		}
	}()
	return func() float64 {
		close(end)
		return <-most
	}
}

// memoryOf returns the memory of some processes in MB. What they share with others counts in
// part, as Linux has it.
func memoryOf(pids []int) (mb float64) {
	for _, pid := range pids {
		text, _ := os.ReadFile(filepath.Join("/proc", strconv.Itoa(pid), "smaps_rollup")) // it may have ended meanwhile
		for _, line := range strings.Split(string(text), "\n") {
			if of, ok := strings.CutPrefix(line, "Pss:"); ok {
				kB, _ := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(of, "kB")), 64)
				mb += kB / 1000
			}
		}
	}
	return mb
}

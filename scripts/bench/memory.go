package main

import (
	"context"
	_ "embed"
	"errors"
	"fmt"
	"time"

	"pivotbench/scripts/lib/webdriver"
)

//go:embed pull.js
var pullScript string

//go:embed turn.js
var turnScript string

// A program releases what it held of the page only at its next garbage collection, so one
// measurement may find more than is needed. The least of several measurements counts,
// before and after. looks is their number.
const looks = 5

// clearing is the number of drags that make enough garbage for a collection.
const clearing = 200

// mayGrow is the allowed growth after everything has been done, in per cent.
const mayGrow = 5.0

// keepMemories stores the linear memory of each program that a page or a frame starts, so
// that it can be measured. It also makes the programs collect garbage after a tenth more
// of it instead of four times as much: otherwise what they hold of the page in between
// varies by more than a leak would show.
const keepMemories = `{
	let go;
	Object.defineProperty(window, 'Go', {
		get: () => go,
		set(Go) {
			go = class extends Go {
				env = new Proxy({ GOGC: '10' }, { set: () => true });
			};
		},
	});
	const start = WebAssembly.instantiate;
	window.linear = [];
	WebAssembly.instantiate = async (...args) => {
		const made = await start(...args);
		const { mem } = (made.instance || made).exports;
		if (mem) window.linear.push(mem);
		return made;
	};
}`

// measureMemory drags the handles and opens the sections so often that a leak in either
// would show.
func measureMemory(ctx context.Context, s *sites, _ int, r *report) error {
	b, err := openBrowser(ctx, 1)
	if err != nil {
		return err
	}
	defer b.Close()
	if err := b.CDP("Page.addScriptToEvaluateOnNewDocument", map[string]string{"source": keepMemories}, nil); err != nil {
		return err
	}
	if err := b.CDP("Performance.enable", nil, nil); err != nil {
		return err
	}
	if _, err := load(b, s.site); err != nil {
		return err
	}
	time.Sleep(calm)
	for _, deed := range []struct {
		what       string
		many, some int // in all, and between two measurements
		do         func(b *webdriver.Session, times int) error
	}{{"drags", 10_000, 200, pull}, {"openings of a section", 100, 40, turnOver}} {
		if err := deed.do(b, looks*deed.some); err != nil { // creates what is only created once
			return err
		}
		before, err := leanest(b, deed.some, deed.do)
		if err != nil {
			return err
		}
		if err := deed.do(b, deed.many); err != nil {
			return err
		}
		after, err := leanest(b, deed.some, deed.do)
		if err != nil {
			return err
		}
		for i, was := range before {
			is := after[i].value
			grown := 100 * (is/was.value - 1)
			r.atMost(fmt.Sprintf("%s over %d %s", was.name, deed.many, deed.what),
				fmt.Sprintf("%.*f to %.*f%s, %+.1f %%", was.digits, was.value, was.digits, is, was.unit, grown), grown, mayGrow, " %")
		}
	}
	return nil
}

// leanest returns the least amount of each stock over several measurements, with more
// done before each, and enough drags that the program collects its garbage after them.
func leanest(b *webdriver.Session, some int, do func(*webdriver.Session, int) error) (least []stock, err error) {
	for range looks {
		if err := errors.Join(do(b, some), pull(b, clearing)); err != nil {
			return nil, err
		}
		now, err := footing(b)
		if err != nil {
			return nil, err
		}
		for i := range least {
			now[i].value = min(now[i].value, least[i].value)
		}
		least = now
	}
	return least, nil
}

// pull drags handles in the canvas's frame.
func pull(b *webdriver.Session, times int) error {
	frame, err := b.Find("#table")
	if err != nil {
		return err
	}
	if err := b.SwitchToFrame(frame); err != nil {
		return err
	}
	if err := leave(b, pullScript, times); err != nil {
		return err
	}
	return b.SwitchToTop()
}

// turnOver opens sections.
func turnOver(b *webdriver.Session, times int) error { return leave(b, turnScript, times) }

// leave makes the page do something so many times by itself, and rarely checks whether it
// is done. A driver that waits for a script asks ten times a second, and each time leaves
// something behind that would look like a leak.
func leave(b *webdriver.Session, script string, times int) error {
	const seldom = 2 * time.Second
	if err := b.Eval("window.deeds = false; (function() {"+script+"})(arguments[0], () => { window.deeds = true; })", nil, times); err != nil {
		return err
	}
	for begin := time.Now(); time.Since(begin) < 10*patience; {
		time.Sleep(seldom)
		var done bool
		if err := b.Eval("return window.deeds", &done); err != nil || done {
			return err
		}
	}
	return fmt.Errorf("the page is still busy after %d times", times)
}

// A stock is an amount of something in memory.
type stock struct {
	name   string
	value  float64
	unit   string
	digits int
}

// footing returns what the page and its frame hold after garbage collection.
func footing(b *webdriver.Session) ([]stock, error) {
	for range 3 { // what one collection releases, the next collects
		if err := b.CDP("HeapProfiler.collectGarbage", nil, nil); err != nil {
			return nil, err
		}
		time.Sleep(calm / 5)
	}
	var linear [2]float64
	if err := b.Eval(`return [window, document.getElementById("table").contentWindow]
		.map((w) => w.linear.reduce((sum, memory) => sum + memory.buffer.byteLength, 0))`, &linear); err != nil {
		return nil, err
	}
	counts, err := counts(b)
	return []stock{
		{"JS heap", counts["JSHeapUsedSize"] / 1e6, " MB", 2},
		{"page.wasm's memory", linear[0] / 1e6, " MB", 1},
		{"table.wasm's memory", linear[1] / 1e6, " MB", 1},
		{"DOM nodes", counts["Nodes"], "", 0},
		{"listeners", counts["JSEventListeners"], "", 0},
	}, err
}

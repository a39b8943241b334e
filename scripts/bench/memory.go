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

// A program lets go of what it held of the page only when it next clears up
// itself, so one look at the memory may find more than is needed: the least of
// some looks is what counts, before and after.
const looks = 5

// clearing is how many drags make garbage enough for that.
const clearing = 200

// mayGrow is how much more there may be after all that is done, in per cent.
const mayGrow = 5.0

// keepMemories keeps the linear memory of each program that a page or a frame
// starts where it can be measured, and has the programs clear up after a tenth
// more garbage instead of after four times as much: what they hold of the page
// in between goes up and down by more than a leak would show.
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

// measureMemory drags the handles and opens the sections so often that what is
// left behind each time would show.
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
		many, some int // all told, and between two looks
		do         func(b *webdriver.Session, times int) error
	}{{"drags", 10_000, 200, pull}, {"openings of a section", 100, 40, turnOver}} {
		if err := deed.do(b, looks*deed.some); err != nil { // what is only made once has been made then
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

// leanest is the least there is of each thing at some looks, with more done
// before each, and drags enough that the program clears up after it.
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

// pull drags handles, in the canvas's frame.
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

// leave has the page do something so many times by itself, and looks seldom
// whether it is done. A driver that waits for a script asks ten times a second,
// and each time leaves something behind that would be taken for a leak.
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
	return fmt.Errorf("the page is still busy with what it was to do %d times", times)
}

// A stock is how much there is of something.
type stock struct {
	name   string
	value  float64
	unit   string
	digits int
}

// footing is what the page and its frame keep, once the garbage is gone.
func footing(b *webdriver.Session) ([]stock, error) {
	for range 3 { // what one collection lets go of, the next takes
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

//go:build browser

package site_test

import (
	"context"
	"fmt"
	"maps"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/scripts/lib/pack"
	"pivotbench/scripts/lib/web"
	"pivotbench/scripts/lib/webdriver"
)

// The tests of the page use the site as it is released. They use only what users
// and scripts may use: its controls, its address and its documented data-
// attributes.

// thorough is set by go run ./scripts/test -thorough. Every test then runs in every
// engine that supports it.
var thorough = os.Getenv("THOROUGH") != ""

// The number of engines that a test runs in is limited to save time. The main flows
// run in all of webdriver.Engines: start, every section, a drag of the canvas and of
// a slider, no network, export and import of records, the single-file version.
var (
	// engines are used for what has differed between engines: the other controls,
	// the rest of the sheet, storage, faults.
	engines = few(2)
	// one is used for the sections, which depend on what the other tests cover.
	one = few(1)
)

func few(n int) []webdriver.Engine {
	if thorough {
		return webdriver.Engines
	}
	return webdriver.Engines[:n]
}

// startup is the time that a browser with software rendering may take to start the
// canvas on a busy machine.
const startup = time.Minute

// scratch holds the built site.
var scratch string

func TestMain(m *testing.M) {
	os.Exit(func() int {
		defer func() { os.RemoveAll(scratch) }()
		defer func() {
			for _, s := range browsers {
				s.Close()
			}
		}()
		return m.Run()
	}())
}

// release builds the site once for all tests.
var release = sync.OnceValues(func() (dir string, err error) {
	if scratch, err = os.MkdirTemp("", "pivotbench-site-"); err != nil {
		return "", err
	}
	dir = filepath.Join(scratch, "dist")
	_, err = pack.Build(context.Background(), pack.Options{Root: "..", Out: dir, Data: pack.PageData, OneFile: true})
	return dir, err
})

func releaseHandler(t *testing.T) http.Handler {
	t.Helper()
	dir, err := release()
	require.NoError(t, err)
	return web.Handler(dir)
}

// spied serves the site with a script of the test before all other scripts, on both
// pages. The worker checks what it caches, so it refuses these pages.
func spied(site http.Handler, script string) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch r.URL.Path {
		case "/spy.js":
			w.Header().Set("Content-Type", "text/javascript")
			fmt.Fprint(w, script)
		case "/", "/table.html":
			r.Header.Del("Accept-Encoding")
			r.Header.Del("If-None-Match")
			got := httptest.NewRecorder()
			site.ServeHTTP(got, r)
			w.Header().Set("Content-Type", "text/html; charset=utf-8")
			fmt.Fprint(w, strings.Replace(got.Body.String(), "<head>", `<head><script src="spy.js"></script>`, 1))
		default:
			site.ServeHTTP(w, r)
		}
	})
}

// bench is a browser and the site that it shows.
type bench struct {
	*webdriver.Session
	address string
}

// tests are tests that share a page.
type tests = map[string]func(*testing.T, *bench)

// inAll runs the tests of main flows in every engine and the others in some engines.
// All tests of an engine run in one browser on one site.
func inAll(t *testing.T, site http.Handler, flows tests, some []webdriver.Engine, others tests) {
	for _, engine := range webdriver.Engines {
		run := maps.Clone(flows)
		if slices.Contains(some, engine) {
			maps.Copy(run, others)
		}
		in(t, engine, site, run)
	}
}

// inEngines runs tests in each of engines.
func inEngines(t *testing.T, site http.Handler, run tests) {
	for _, engine := range engines {
		in(t, engine, site, run)
	}
}

// inOne runs tests in one engine, or in every engine for thorough tests.
func inOne(t *testing.T, site http.Handler, run tests) {
	for _, engine := range one {
		in(t, engine, site, run)
	}
}

func in(t *testing.T, engine webdriver.Engine, site http.Handler, run tests) {
	t.Run(string(engine), func(t *testing.T) {
		b := &bench{open(t, engine), serve(t, site).URL + "/"}
		for name, test := range run {
			t.Run(name, func(t *testing.T) { test(t, b) })
		}
	})
}

// show opens a link on the current page, or loads the page if it is not open.
func (b *bench) show(t *testing.T, link string) {
	t.Helper()
	if !eval[bool](t, b.Session, `return location.href.startsWith(`+quoted(b.address)+`) && document.documentElement.dataset.state !== "still"`) {
		b.load(t, link, "board")
		return
	}
	require.NoError(t, b.Eval(`location.hash = arguments[0]`, nil, link))
	s, problems := scenario.Parse(link)
	require.Empty(t, problems)
	b.wait(t, `document.getElementById("board").href.endsWith("#" + `+quoted(s.Format())+`)`)
}

// load opens a link on a page without history and waits for a state.
func (b *bench) load(t *testing.T, link, state string) {
	t.Helper()
	require.NoError(t, b.Get("about:blank"))
	require.NoError(t, b.Get(b.address+"#"+link))
	require.NoError(t, b.Wait(`document.documentElement.dataset.state === `+quoted(state), startup))
}

func quoted(text string) string { return fmt.Sprintf("%q", text) }

func (b *bench) wait(t *testing.T, expr string) {
	t.Helper()
	if err := b.Wait(expr, patience); err != nil {
		var stands string // state of the page, for the failure message
		_ = b.Eval(`return JSON.stringify({...document.documentElement.dataset}) + " " +
			[...document.querySelectorAll("[role=status], [role=alert], [id$=-said]")].map((e) => e.innerText).filter(Boolean).join(" | ")`, &stands)
		require.NoError(t, err, stands)
	}
}

// hash returns the link in the address bar without the #.
func (b *bench) hash(t *testing.T) string {
	t.Helper()
	return eval[string](t, b.Session, `return location.hash.slice(1)`)
}

// waitHash waits until the address has a link.
func (b *bench) waitHash(t *testing.T, link string) {
	t.Helper()
	b.wait(t, `location.hash === "#" + `+quoted(link))
}

// reading returns the value of an element with data-reading.
type reading struct{ Value, Why string }

func (b *bench) readings(t *testing.T) map[string]reading {
	t.Helper()
	return eval[map[string]reading](t, b.Session, `return Object.fromEntries(Array.from(
		document.querySelectorAll("[data-reading]"),
		(el) => [el.dataset.reading, {Value: el.dataset.value, Why: el.dataset.why || ""}]))`)
}

func (b *bench) value(t *testing.T, name string) string {
	t.Helper()
	return b.readings(t)[name].Value
}

// field returns the text in the field of a key.
func (b *bench) field(t *testing.T, key string) string {
	t.Helper()
	return eval[string](t, b.Session, `return document.getElementById("f-`+key+`").value`)
}

// notices returns the messages that the page shows.
func (b *bench) notices(t *testing.T) string {
	t.Helper()
	return eval[string](t, b.Session, `const box = document.getElementById("notices");
		return box.hidden ? "" : Array.from(box.querySelectorAll("li"), (li) => li.textContent).join("\n")`)
}

// choose sets a control the way a browser does when a user picks a value.
func (b *bench) choose(t *testing.T, selector, value string) {
	t.Helper()
	require.NoError(t, b.Eval(`const el = document.querySelector(arguments[0]);
		el.value = arguments[1];
		el.dispatchEvent(new Event("change", {bubbles: true}));`, nil, selector, value))
}

// write replaces the text in the field of a key by typing.
func (b *bench) write(t *testing.T, key, text string) {
	t.Helper()
	require.NoError(t, b.Eval(`const el = document.getElementById("f-`+key+`");
		if (el.closest("details")) el.closest("details").open = true;
		el.focus();
		el.select();`, nil))
	require.NoError(t, b.Keys(text))
}

func (b *bench) press(t *testing.T, selector string) {
	t.Helper()
	el, err := b.Find(selector)
	require.NoError(t, err)
	// WebKit's driver scrolls the page but no box within it. A click misses its
	// target when the sheet appears meanwhile and moves the content below it.
	require.NoError(t, b.Eval(`
		const el = arguments[0];
		el.scrollIntoView({block: "nearest"});
		return new Promise((done) => {
			let last, same = 0;
			(function look() {
				const r = el.getBoundingClientRect(), at = r.left + " " + r.top;
				same = at === last ? same + 1 : 0;
				last = at;
				same === 2 ? done() : setTimeout(look, 8);
			})();
		})`, nil, el))
	require.NoError(t, el.Click())
}

// handle returns the position of a handle of the sheet on the page after it has
// stopped moving. The handle is in the frame when the canvas has started, otherwise
// on the plain drawing.
func (b *bench) handle(t *testing.T, id string) (x, y float64) {
	t.Helper()
	at := eval[[2]float64](t, b.Session, `
		const frame = document.getElementById("table");
		const board = document.documentElement.dataset.state === "board";
		function look() {
			const from = board ? frame.getBoundingClientRect() : {left: 0, top: 0};
			const el = (board ? frame.contentDocument : document).querySelector('[data-handle="`+id+`"]');
			const r = el.getBoundingClientRect();
			return [from.left + r.left + r.width / 2, from.top + r.top + r.height / 2];
		}
		const still = 5; // looks without a change
		return new Promise((done) => {
			let last = [], same = 0;
			(function again() {
				const at = look();
				same = String(at) === String(last) ? same + 1 : 0;
				last = at;
				if (same === still) done(at);
				else setTimeout(again, 60);
			})();
		})`)
	return at[0], at[1]
}

// drag drags a handle by an offset.
func (b *bench) drag(t *testing.T, p webdriver.Pointer, id string, dx, dy float64) {
	t.Helper()
	x, y := b.handle(t, id)
	require.NoError(t, b.Drag(p, x, y, x+dx, y+dy, 6))
}

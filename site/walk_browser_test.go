//go:build browser

package site_test

import (
	"fmt"
	"net/http"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
	"pivotbench/scripts/lib/webdriver"
)

// A walker uses the page on a phone's screen the way a person does: it touches what is in
// sight, or goes there with the Tab key, and counts.
type walker struct {
	*bench
	frame *webdriver.Element // that the page is in; nil for a page of its own
	keys  bool               // goes by keyboard
	taps  int
}

// walkerIn returns a walker in one of the engines.
func walkerIn(t *testing.T, engine webdriver.Engine) *walker {
	site := releaseHandler(t)
	server := serve(t, http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path != "/harness" {
			site.ServeHTTP(w, r)
			return
		}
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		fmt.Fprint(w, `<!doctype html><style>body { margin: 0 }</style><iframe style="border: 0"></iframe>`)
	}))
	return &walker{bench: &bench{open(t, engine), server.URL + "/"}}
}

// phones returns the sizes of screens to walk on in an engine.
func phones(engine webdriver.Engine) []size {
	if engine == webdriver.Chromium || thorough {
		return screens[:3]
	}
	return screens[1:2]
}

// visit opens a link on a screen as a first visit does. WebKit's window can't be as
// narrow as a phone's screen, so the page is in a frame there.
func (w *walker) visit(t *testing.T, screen size, link string) {
	t.Helper()
	require.NoError(t, w.Get(w.address+"nothing")) // the same origin, without a program that keeps anything
	require.NoError(t, w.Eval(`localStorage.clear(); sessionStorage.clear()`, nil))
	if w.Engine != webdriver.WebKit {
		require.NoError(t, w.Viewport(screen.w, screen.h, 1, w.Engine == webdriver.Chromium))
		require.NoError(t, w.Get(w.address+link))
		return
	}
	require.NoError(t, w.Get(w.address+"harness"))
	frame, err := w.Find("iframe")
	require.NoError(t, err)
	require.NoError(t, w.Eval(`const [frame, wide, high, link] = arguments;
		frame.width = wide;
		frame.height = high;
		return new Promise((done) => { frame.onload = () => done(); frame.src = "./" + link; })`, nil, frame, screen.w, screen.h, link))
	require.NoError(t, w.SwitchToFrame(frame))
	w.frame = &frame
}

// press touches the middle of an element, which nothing may cover, or moves the focus to
// it and presses Enter.
func (w *walker) press(t *testing.T, selector string) {
	t.Helper()
	w.taps++
	if w.keys {
		w.reach(t, selector)
		require.NoError(t, w.Keys(webdriver.KeyEnter))
		return
	}
	w.wait(t, fmt.Sprintf(`document.querySelector(%q)?.checkVisibility({visibilityProperty: true})`, selector))
	var at struct {
		X, Y    float64
		Covered string
	}
	require.NoError(t, w.Eval(`
		const el = document.querySelector(arguments[0]);
		el.scrollIntoView({block: "center"});
		return new Promise((done) => {
			let last, same = 0;
			(function look() {
				const r = el.getBoundingClientRect();
				let X = r.left + r.width / 2, Y = r.top + r.height / 2;
				same = X + " " + Y === last ? same + 1 : 0;
				last = X + " " + Y;
				if (same < 6) return setTimeout(look, 30);
				const over = document.elementFromPoint(X, Y);
				if (!over) { // the page has scrolled since
					el.scrollIntoView({block: "center"});
					same = 0;
					return setTimeout(look, 30);
				}
				const frame = window.frameElement?.getBoundingClientRect(); // which the top page may have scrolled
				if (frame) X += frame.left, Y += frame.top;
				done({X, Y, Covered: el.contains(over) || over.contains(el) ? "" : over.outerHTML.slice(0, 80)});
			})();
		})`, &at, selector))
	require.Empty(t, at.Covered, selector)
	if w.frame != nil {
		require.NoError(t, w.SwitchToTop())
	}
	require.NoError(t, w.Gesture(webdriver.Touch).Move(at.X, at.Y).Down().Up().Do())
	if w.frame != nil {
		require.NoError(t, w.SwitchToFrame(*w.frame))
	}
}

// reach moves the focus to an element with the Tab key.
func (w *walker) reach(t *testing.T, selector string) {
	t.Helper()
	const most = 120
	for range most {
		if eval[bool](t, w.Session, `return document.activeElement.matches(`+quoted(selector)+`)`) {
			return
		}
		require.NoError(t, w.Keys(webdriver.KeyTab))
	}
	require.Fail(t, "the Tab key does not reach it", selector)
}

// write types into a field.
func (w *walker) write(t *testing.T, selector, text string) {
	t.Helper()
	if w.keys {
		w.reach(t, selector)
	} else {
		w.press(t, selector)
	}
	require.NoError(t, w.Keys(text, webdriver.KeyTab))
}

// walkStart goes from the start to the first noted stroke.
func (w *walker) walkStart(t *testing.T) {
	t.Helper()
	require.NoError(t, w.Wait(`document.documentElement.dataset.state !== "still" && `+startShown, startup))
	w.taps = 0
	w.press(t, `[data-door="measure"]`)
	w.write(t, "#measuring", "House 3")
	w.press(t, `[data-outcome="clean"]`)
	w.wait(t, `document.querySelectorAll("#strokes tr[data-stroke]").length === 1`)
	assert.Equal(t, "House 3", eval[string](t, w.Session, `return JSON.parse(localStorage.getItem("pivotbench-kept")).strokes[0].cue`))
	t.Logf("taps from opening to the first noted stroke: %d", w.taps)
	assert.LessOrEqual(t, w.taps, 3)
}

// walkExample goes to the example and leaves it.
func (w *walker) walkExample(t *testing.T) {
	t.Helper()
	w.press(t, `[data-do="start"]`)
	w.press(t, `[data-do="example"]`)
	w.wait(t, `document.querySelectorAll("#cues > li").length === 3`)
	w.press(t, `[data-do="example-leave"]`)
	w.wait(t, `document.getElementById("example").hidden`)
}

// walkCue goes on from the first stroke to a saved cue after eight, each the suggested one.
func (w *walker) walkCue(t *testing.T) {
	t.Helper()
	for n := 1; n < 8; n++ {
		w.wait(t, fmt.Sprintf(`document.querySelector("#facts dd")?.textContent === "%d"`, n))
		w.press(t, `[data-do="take-next"]`)
		s, _ := scenario.Parse(w.hash(t))
		s.Pivot = 10 * unit.Inch // of the cue that is measured
		sh, res := s.Shot(), new(shot.Result)
		shot.Play(&sh, res)
		w.press(t, `[data-outcome="`+string(res.Reading.Verdict.Value)+`"]`)
	}
	w.wait(t, `document.querySelector("#facts dd")?.textContent === "8"`)
	w.wait(t, `!document.querySelector('[data-do="save-measured"]').disabled`)
	w.press(t, `[data-do="save-measured"]`)
	w.wait(t, `JSON.parse(localStorage.getItem("pivotbench-kept")).cues?.length === 1`)
	t.Logf("taps from opening to a saved cue after 8 strokes: %d", w.taps)
}

// walkCard goes from any section to a printed card.
func (w *walker) walkCard(t *testing.T) {
	t.Helper()
	require.NoError(t, w.Eval(`window.print = () => { window.printed = true; }`, nil))
	w.taps = 0
	w.press(t, `.tabs [data-section="card"]`)
	w.press(t, `[data-panel="card"] [data-do="print"]`)
	w.wait(t, `window.printed === true`)
	t.Logf("taps from opening to a printed card: %d", w.taps)
	assert.LessOrEqual(t, w.taps, 2)
}

// The first minute on two phones, upright and on its side, by touch alone and by keyboard
// alone.
func TestWalk(t *testing.T) {
	for _, engine := range engines {
		t.Run(string(engine), func(t *testing.T) {
			w := walkerIn(t, engine)
			for _, screen := range phones(engine) {
				w.keys = engine == webdriver.Chromium && screen.w > screen.h
				w.visit(t, screen, "")
				w.walkStart(t)
				if engine == webdriver.Chromium && screen == screens[0] {
					w.walkCue(t)
					w.walkCard(t)
				} else {
					w.walkExample(t)
				}
			}
		})
	}
}

// reload loads the page again.
func (w *walker) reload(t *testing.T) {
	t.Helper()
	require.NoError(t, w.Eval(`window.old = true; setTimeout(() => location.reload(), 0)`, nil))
	require.NoError(t, w.Wait(`window.old === undefined && document.documentElement.dataset.state === "board"`, startup))
}

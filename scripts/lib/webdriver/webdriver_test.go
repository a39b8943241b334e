//go:build browser

package webdriver_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"image/png"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/scripts/lib/webdriver"
)

// page records every pointer and key event in window.seen.
const page = `<!doctype html>
<meta name="viewport" content="width=device-width">
<title>Bench page</title>
<style>
	body { margin: 0; background: #00f }
	#pad { position: absolute; left: 100px; top: 50px; width: 200px; height: 100px; background: #f00; touch-action: none }
	#rest { position: absolute; left: 100px; top: 200px }
	iframe { position: absolute; left: 0; top: 300px; width: 300px; height: 100px; border: 0 }
</style>
<div id="pad"></div>
<div id="rest">
	<button aria-label="counter">0</button>
	<input value="old">
	<input type="file" style="width: 20px">
	<a href="/other">other</a>
</div>
<iframe srcdoc="<p id=inner>inside</p>"></iframe>
<script>
	window.seen = [];
	const button = document.querySelector("button");
	button.onclick = () => button.textContent++;
	for (const type of ["pointerdown", "pointermove", "pointerup"])
		document.querySelector("#pad").addEventListener(type, e =>
			seen.push({ What: type, X: e.clientX, Y: e.clientY, Kind: e.pointerType, Held: e.buttons }));
	document.addEventListener("keydown", e => seen.push({ What: e.key, Ctrl: e.ctrlKey }));
</script>`

// event is one entry of the page's window.seen.
type event struct {
	What string
	X, Y float64
	Kind string
	Held int
	Ctrl bool
}

// server serves the page and, at /other, one with a different title.
func server(t *testing.T) *httptest.Server {
	srv := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		if r.URL.Path == "/other" {
			fmt.Fprint(w, "<!doctype html><title>Other</title>")
			return
		}
		fmt.Fprint(w, page)
	}))
	t.Cleanup(srv.Close)
	return srv
}

func open(t *testing.T, engine webdriver.Engine) *webdriver.Session {
	s, err := webdriver.Open(t.Context(), engine, webdriver.Options{Width: 800, Height: 600})
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, s.Close()) })
	return s
}

// All engines satisfy the same tests. Features of a single engine have tests of their own
// below.
func TestEngines(t *testing.T) {
	srv := server(t)
	for _, engine := range webdriver.Engines {
		t.Run(string(engine), func(t *testing.T) {
			s := open(t, engine)
			for _, tc := range []struct {
				name string
				test func(*testing.T, *webdriver.Session, string)
			}{
				{"Scripts", testScripts},
				{"Wait", testWait},
				{"Elements", testElements},
				{"Drag", testDrag},
				{"Gesture", testGesture},
				{"Keys", testKeys},
				{"Screenshot", testScreenshot},
				{"History", testHistory},
				{"Frames", testFrames},
				{"Tabs", testTabs},
				{"Errors", testErrors},
				{"WebGL", testWebGL},
				{"Downloads", testDownloads},
				{"Renew", testRenew},
			} {
				t.Run(tc.name, func(t *testing.T) {
					require.NoError(t, s.Get(srv.URL))
					// Chromium drops what is typed before a page's first frame.
					require.NoError(t, s.EvalAsync("requestAnimationFrame(() => requestAnimationFrame(arguments[0]))", nil))
					tc.test(t, s, srv.URL)
				})
			}
		})
	}
}

func testScripts(t *testing.T, s *webdriver.Session, _ string) {
	var got struct{ Sum float64 }
	require.NoError(t, s.Eval("return {Sum: arguments[0] + arguments[1]}", &got, 1.25, 2))
	assert.Equal(t, 3.25, got.Sum)

	pad, err := s.Find("#pad")
	require.NoError(t, err)
	var nested string
	args := []any{nil, true, "two", []any{3, map[string]any{"four": 4}}, pad}
	require.NoError(t, s.Eval("const [none, yes, two, [three, {four}], pad] = arguments; return [none, yes, two, three, four, pad.id].join()", &nested, args...))
	assert.Equal(t, ",true,two,3,4,pad", nested)
	var deep struct{ A []struct{ B map[string]any } }
	require.NoError(t, s.Eval("return {A: [{B: {C: {D: {E: [null, 'f']}}}}]}", &deep))
	assert.Equal(t, map[string]any{"C": map[string]any{"D": map[string]any{"E": []any{nil, "f"}}}}, deep.A[0].B)

	var text string
	require.NoError(t, s.Eval("return new Promise(ok => setTimeout(() => ok('later'), 1))", &text))
	assert.Equal(t, "later", text)
	require.NoError(t, s.EvalAsync("const done = arguments[1]; setTimeout(() => done(arguments[0] + '!'), 1)", &text, "called"))
	assert.Equal(t, "called!", text)

	err = s.Eval("return nowhere.at.all", nil)
	require.True(t, webdriver.HasCode(err, "javascript error"), "%v", err)
	assert.ErrorContains(t, err, "POST /execute/sync")
	assert.ErrorContains(t, err, "nowhere")
}

func testWait(t *testing.T, s *webdriver.Session, _ string) {
	require.NoError(t, s.Eval("setTimeout(() => window.late = {ready: true}, 100)", nil))
	require.NoError(t, s.Wait("late.ready", 10*time.Second), "throws until late is there")

	err := s.Wait("document.title + ' at rest'.slice(9)", time.Second)
	require.NoError(t, err, "any true value will do")
	err = s.Wait("document.title === 'Else' ? 1 : ''", 0)
	assert.ErrorContains(t, err, `last gave ""`)
	err = s.Wait("missing.part", 0)
	assert.ErrorContains(t, err, "missing")
}

func testElements(t *testing.T, s *webdriver.Session, _ string) {
	pad, err := s.Find("#pad")
	require.NoError(t, err)
	rect, err := pad.Rect()
	require.NoError(t, err)
	assert.Equal(t, webdriver.Rect{X: 100, Y: 50, Width: 200, Height: 100}, rect)
	x, y := rect.Center()
	assert.Equal(t, [2]float64{200, 100}, [2]float64{x, y})

	button, err := s.Find("button")
	require.NoError(t, err)
	require.NoError(t, button.Click())
	require.NoError(t, button.Click())
	text, err := button.Text()
	require.NoError(t, err)
	assert.Equal(t, "2", text)
	label, err := button.Attr("aria-label")
	require.NoError(t, err)
	assert.Equal(t, "counter", label)
	none, err := button.Attr("title")
	require.NoError(t, err)
	assert.Empty(t, none)

	input, err := s.Find("input")
	require.NoError(t, err)
	require.NoError(t, input.Clear())
	require.NoError(t, input.SendKeys("9 1/2 in"))
	require.NoError(t, s.Wait("document.querySelector('input').value === '9 1/2 in'", time.Second))

	path := filepath.Join(t.TempDir(), "notes é.txt")
	require.NoError(t, os.WriteFile(path, []byte("six inches"), 0o600))
	file, err := s.Find("input[type=file]")
	require.NoError(t, err)
	require.NoError(t, file.SendKeys(path))
	var held []string
	require.NoError(t, s.Eval("const f = arguments[0].files[0]; return f.text().then((text) => [f.name, text])", &held, file))
	assert.Equal(t, []string{"notes é.txt", "six inches"}, held)
}

func testDrag(t *testing.T, s *webdriver.Session, _ string) {
	for _, pointer := range []webdriver.Pointer{webdriver.Mouse, webdriver.Touch} {
		require.NoError(t, s.Eval("seen.length = 0", nil))
		require.NoError(t, s.Drag(pointer, 120, 60, 280, 140, 4))
		kind := string(pointer)
		if s.Engine == webdriver.WebKit {
			kind = "mouse" // see the comment of the engine
		}
		held := pressed(t, s)
		require.GreaterOrEqual(t, len(held), 3, "down, some moves, up: %v", held)
		assert.Equal(t, event{What: "pointerdown", X: 120, Y: 60, Kind: kind, Held: 1}, held[0])
		assert.Contains(t, held, event{What: "pointermove", X: 200, Y: 100, Kind: kind, Held: 1}, "half way")
		assert.Equal(t, event{What: "pointerup", X: 280, Y: 140, Kind: kind}, held[len(held)-1])
	}
}

// pressed returns the pad's events from the first press on.
func pressed(t *testing.T, s *webdriver.Session) []event {
	var seen []event
	require.NoError(t, s.Wait("seen.some(e => e.What === 'pointerdown')", time.Second))
	require.NoError(t, s.Eval("return seen.slice(seen.findIndex(e => e.What === 'pointerdown'))", &seen))
	return seen
}

func testGesture(t *testing.T, s *webdriver.Session, _ string) {
	require.NoError(t, s.Gesture(webdriver.Mouse).Move(150, 80).Down().Pause(10*time.Millisecond).Do())
	assert.Equal(t, "pointerdown", pressed(t, s)[0].What)
	require.NoError(t, s.Gesture(webdriver.Mouse).Move(160, 80).Do())
	require.NoError(t, s.Wait("seen.some(e => e.What === 'pointermove' && e.X === 160 && e.Held === 1)", time.Second), "still held")
	require.NoError(t, s.Gesture(webdriver.Mouse).Up().Do())
	require.NoError(t, s.Wait("seen.at(-1).What === 'pointerup'", time.Second))
}

func testKeys(t *testing.T, s *webdriver.Session, _ string) {
	require.NoError(t, s.Keys("ab", webdriver.KeyArrowLeft))
	require.NoError(t, s.Chord(webdriver.KeyControl, "z"))
	require.NoError(t, s.Wait("seen.at(-1)?.What === 'z'", time.Second))
	var seen []event
	require.NoError(t, s.Eval("return seen", &seen))
	assert.Equal(t, []event{
		{What: "a"}, {What: "b"}, {What: "ArrowLeft"}, {What: "Control", Ctrl: true}, {What: "z", Ctrl: true},
	}, seen)

	require.NoError(t, s.Eval("document.querySelector('input').focus()", nil))
	require.NoError(t, s.Keys(webdriver.KeyTab))
	require.NoError(t, s.Wait("document.activeElement !== document.querySelector('input')", time.Second))
}

func testScreenshot(t *testing.T, s *webdriver.Session, _ string) {
	for _, size := range []image.Point{{800, 600}, {1920, 1080}, {480, 700}} {
		require.NoError(t, s.SetWindow(size.X, size.Y))
		img := shoot(t, s)
		require.Equal(t, size, img.Bounds().Size())
		r, g, b, _ := img.At(200, 100).RGBA()
		assert.Equal(t, [3]uint32{0xffff, 0, 0}, [3]uint32{r, g, b}, "the pad is red")
		r, g, b, _ = img.At(20, 20).RGBA()
		assert.Equal(t, [3]uint32{0, 0, 0xffff}, [3]uint32{r, g, b}, "the page is blue")
	}
	require.NoError(t, s.SetWindow(800, 600))
}

func shoot(t *testing.T, s *webdriver.Session) image.Image {
	text, err := s.Screenshot()
	require.NoError(t, err)
	img, err := png.Decode(bytes.NewReader(text))
	require.NoError(t, err)
	return img
}

func testHistory(t *testing.T, s *webdriver.Session, url string) {
	require.NoError(t, s.Eval("window.mark = 1", nil))
	require.NoError(t, s.Reload())
	require.NoError(t, s.Wait("window.mark === undefined", time.Second), "a new page")

	link, err := s.Find("a")
	require.NoError(t, err)
	require.NoError(t, link.Click())
	// A title is there before its page has loaded, and WebKit's driver may answer
	// before the page has changed.
	require.NoError(t, s.Wait("document.title === 'Other' && document.readyState === 'complete'", 10*time.Second))
	require.NoError(t, s.Back())
	require.NoError(t, s.Wait("document.title === 'Bench page' && document.readyState === 'complete'", 10*time.Second))
	title, err := s.Title()
	require.NoError(t, err)
	assert.Equal(t, "Bench page", title)
	require.NoError(t, s.Forward())
	require.NoError(t, s.Wait("document.title === 'Other'", 10*time.Second))
	at, err := s.URL()
	require.NoError(t, err)
	assert.Equal(t, url+"/other", at)
}

func testFrames(t *testing.T, s *webdriver.Session, _ string) {
	_, err := s.Find("#inner")
	require.True(t, webdriver.HasCode(err, "no such element"), "%v", err)
	frame, err := s.Find("iframe")
	require.NoError(t, err)
	require.NoError(t, s.SwitchToFrame(frame))
	inner, err := s.Find("#inner")
	require.NoError(t, err)
	text, err := inner.Text()
	require.NoError(t, err)
	assert.Equal(t, "inside", text)
	require.NoError(t, s.SwitchToTop())
	_, err = s.Find("#pad")
	require.NoError(t, err)
}

func testTabs(t *testing.T, s *webdriver.Session, url string) {
	first, err := s.Tab()
	require.NoError(t, err)
	second, err := s.NewTab()
	require.NoError(t, err)
	assert.NotEqual(t, first, second)
	require.NoError(t, s.Get(url+"/other"))
	require.NoError(t, s.CloseTab())
	require.NoError(t, s.SwitchToTab(first))
	title, err := s.Title()
	require.NoError(t, err)
	assert.Equal(t, "Bench page", title)
}

func testRenew(t *testing.T, s *webdriver.Session, url string) {
	require.NoError(t, s.Eval(`localStorage.setItem("note", "kept")`, nil))
	before, err := s.Tab()
	require.NoError(t, err)
	_, err = s.NewTab()
	require.NoError(t, err)
	require.NoError(t, s.SetWindow(900, 700))

	require.NoError(t, s.Renew())
	after, err := s.Tab()
	require.NoError(t, err)
	assert.NotEqual(t, before, after)
	require.NoError(t, s.Get(url))
	var got struct {
		Width, Past int
		Note        string
	}
	require.NoError(t, s.Eval(`return {Width: innerWidth, Past: history.length, Note: localStorage.getItem("note")}`, &got))
	assert.Equal(t, 800, got.Width)
	assert.LessOrEqual(t, got.Past, 2, "the empty tab and this page")
	assert.Equal(t, "kept", got.Note)
	assert.Error(t, s.SwitchToTab(before), "it is closed")
	require.NoError(t, s.SwitchToTab(after))
}

func testErrors(t *testing.T, s *webdriver.Session, _ string) {
	_, err := s.Find("#nobody")
	var refusal *webdriver.Error
	require.ErrorAs(t, err, &refusal)
	assert.Equal(t, "POST /element", refusal.Endpoint)
	assert.Equal(t, "no such element", refusal.Code)

	err = s.Drag(webdriver.Mouse, 10, 10, 90_000, 10, 2)
	assert.True(t, webdriver.HasCode(err, "move target out of bounds"), "%v", err)
}

func testWebGL(t *testing.T, s *webdriver.Session, _ string) {
	var pixel []int
	require.NoError(t, s.Eval(`const gl = document.createElement("canvas").getContext("webgl2");
		gl.clearColor(0, 1, 0, 1);
		gl.clear(gl.COLOR_BUFFER_BIT);
		const p = new Uint8Array(4);
		gl.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, p);
		return Array.from(p)`, &pixel))
	assert.Equal(t, []int{0, 255, 0, 255}, pixel)
}

func testDownloads(t *testing.T, s *webdriver.Session, _ string) {
	dir := t.TempDir()
	if s.Engine == webdriver.WebKit {
		assert.ErrorIs(t, s.Downloads(dir), errors.ErrUnsupported)
		return
	}
	require.NoError(t, s.Downloads(dir))
	require.NoError(t, s.Eval(`Object.assign(document.createElement("a"), {href: "data:text/plain,six%20inches", download: "notes.txt"}).click()`, nil))
	var text []byte
	require.Eventually(t, func() bool {
		text, _ = os.ReadFile(filepath.Join(dir, "notes.txt"))
		return len(text) > 0
	}, 5*time.Second, 20*time.Millisecond)
	assert.Equal(t, "six inches", string(text))
}

func TestChromiumAlone(t *testing.T) {
	s := open(t, webdriver.Chromium)
	srv := server(t)
	require.NoError(t, s.Get(srv.URL))

	require.NoError(t, s.Viewport(320, 568, 2, true))
	var inner []float64
	require.NoError(t, s.Eval("return [innerWidth, innerHeight, devicePixelRatio]", &inner))
	assert.Equal(t, []float64{320, 568, 2}, inner)
	assert.Equal(t, image.Pt(640, 1136), shoot(t, s).Bounds().Size())
	require.NoError(t, s.Wait("matchMedia('(pointer: coarse)').matches", time.Second))

	for _, scheme := range []webdriver.Scheme{webdriver.Dark, webdriver.Light} {
		require.NoError(t, s.ColorScheme(scheme))
		require.NoError(t, s.Wait(fmt.Sprintf("matchMedia('(prefers-color-scheme: %s)').matches", scheme), time.Second))
	}
	require.NoError(t, s.Slow(4))
	require.NoError(t, s.Slow(1))

	_, err := s.Log()
	require.NoError(t, err, "what came before")
	require.NoError(t, s.Eval("console.warn('something to say')", nil))
	log, err := s.Log()
	require.NoError(t, err)
	require.Len(t, log, 1)
	assert.Equal(t, "WARNING", log[0].Level)
	assert.Contains(t, log[0].Message, "something to say")

	require.NoError(t, s.Offline(true))
	require.NoError(t, s.Wait("!navigator.onLine", time.Second))
	err = s.Get(srv.URL + "/other")
	assert.ErrorContains(t, err, "ERR_INTERNET_DISCONNECTED")
	require.NoError(t, s.Offline(false))
	require.NoError(t, s.Get(srv.URL+"/other"))
}

func TestWebKitAlone(t *testing.T) {
	s := open(t, webdriver.WebKit)
	assert.ErrorIs(t, s.Slow(2), errors.ErrUnsupported)
	_, err := s.Log()
	assert.ErrorIs(t, err, errors.ErrUnsupported)
	assert.ErrorContains(t, s.SetWindow(320, 600), "asked for a page of 320 by 600, got 4", "its window has a least width")
}

func TestFirefoxAlone(t *testing.T) {
	s := open(t, webdriver.Firefox)
	srv := server(t)
	require.NoError(t, s.Get(srv.URL))

	require.NoError(t, s.Viewport(320, 568, 2, false))
	var inner []float64
	require.NoError(t, s.Eval("return [innerWidth, innerHeight, devicePixelRatio]", &inner))
	assert.Equal(t, []float64{320, 568, 2}, inner)
	assert.Equal(t, image.Pt(640, 1136), shoot(t, s).Bounds().Size())
	assert.ErrorIs(t, s.Viewport(320, 568, 2, true), errors.ErrUnsupported)

	_, err := s.Log()
	require.NoError(t, err, "what came before")
	require.NoError(t, s.Eval("console.warn('something to say'); setTimeout(() => nowhere.at.all)", nil))
	var log []webdriver.LogEntry
	require.Eventually(t, func() bool {
		more, err := s.Log()
		log = append(log, more...)
		return err != nil || len(log) >= 2
	}, 5*time.Second, 20*time.Millisecond)
	require.Len(t, log, 2)
	assert.Equal(t, "WARNING", log[0].Level)
	assert.Equal(t, "console-api", log[0].Source)
	assert.Contains(t, log[0].Message, "something to say")
	assert.Equal(t, "SEVERE", log[1].Level)
	assert.Equal(t, "javascript", log[1].Source)
	assert.Contains(t, log[1].Message, "nowhere is not defined")

	// An error names what covers a click. An element out of view is scrolled into view.
	require.NoError(t, s.Eval(`document.body.insertAdjacentHTML("beforeend", "<p id=over style='position: fixed; inset: 0; margin: 0'>over</p>")`, nil))
	button, err := s.Find("button")
	require.NoError(t, err)
	err = button.Click()
	assert.True(t, webdriver.HasCode(err, "element click intercepted"), "%v", err)
	assert.ErrorContains(t, err, `<p id="over"`)
	require.NoError(t, s.Eval(`document.querySelector("#over").remove(); document.querySelector("#rest").style.top = "3000px"`, nil))
	require.NoError(t, button.Click())
	text, err := button.Text()
	require.NoError(t, err)
	assert.Equal(t, "1", text)

	// A page opened from a file cannot read another one, as on a device.
	dir := t.TempDir()
	for name, text := range map[string]string{"a.html": "<iframe src=b.html></iframe>", "b.html": "<p>b"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte("<!doctype html>"+text), 0o600))
	}
	require.NoError(t, s.Get("file://"+dir+"/a.html"))
	var closed bool
	require.NoError(t, s.Eval("return document.querySelector('iframe').contentDocument === null", &closed))
	assert.True(t, closed)

	var made struct{ UserContext string }
	require.NoError(t, s.BiDi("browser.createUserContext", map[string]any{}, &made))
	assert.NotEmpty(t, made.UserContext)
}

// If a browser cannot start, the error has its own output.
func TestOpenFails(t *testing.T) {
	_, err := webdriver.Open(t.Context(), webdriver.Chromium, webdriver.Options{Args: []string{"--user-data-dir=/dev/null/none"}})
	require.Error(t, err)
	assert.ErrorContains(t, err, "POST /session")
	assert.ErrorContains(t, err, "chromedriver (still running) printed:")

	_, err = webdriver.Open(t.Context(), webdriver.Engine("Lynx"), webdriver.Options{})
	assert.ErrorContains(t, err, `unknown engine "Lynx"`)
}

// A session ends with its context, and can still be closed. Then nothing it started is
// left running.
func TestContextEnds(t *testing.T) {
	for _, engine := range webdriver.Engines {
		t.Run(string(engine), func(t *testing.T) {
			mark := t.TempDir()
			t.Setenv("TMPDIR", mark) // inherited by each of its programs
			ctx, cancel := context.WithCancel(t.Context())
			s, err := webdriver.Open(ctx, engine, webdriver.Options{})
			require.NoError(t, err)
			assert.NotEmpty(t, running(t, mark))
			cancel()
			_, err = s.Title()
			assert.ErrorIs(t, err, context.Canceled)
			assert.NoError(t, s.Close())
			assert.NoError(t, s.Close(), "again")
			assert.Empty(t, running(t, mark))
		})
	}
}

// running returns the command lines of the programs that have a text in their
// environment.
func running(t *testing.T, text string) (lines []string) {
	files, err := filepath.Glob("/proc/[0-9]*/environ")
	require.NoError(t, err)
	for _, file := range files {
		env, _ := os.ReadFile(file) // nil for a program that has just ended
		if bytes.Contains(env, []byte(text)) {
			line, _ := os.ReadFile(filepath.Join(filepath.Dir(file), "cmdline"))
			lines = append(lines, strings.ReplaceAll(string(line), "\x00", " "))
		}
	}
	return lines
}

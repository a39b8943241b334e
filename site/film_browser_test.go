//go:build browser

package site_test

import (
	"encoding/base64"
	"encoding/json"
	"fmt"
	"math"
	"net/http"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/scripts/lib/webdriver"
)

// clip is what testdata/film/make.go wrote about its films.
type clip struct {
	Link          string
	Rate          float64
	Frames        int
	Launch, Speed float64
	Roll          float64 // of roll.webm
	Marks         map[string][2]float64
}

func readClip(t *testing.T) (c clip) {
	t.Helper()
	text, err := os.ReadFile("../testdata/film/stroke.json")
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(text, &c))
	return c
}

// films gives the page a film through its file field.
func (b *bench) films(t *testing.T, name, kind string, content []byte) {
	t.Helper()
	require.NoError(t, b.Eval(`
		const bytes = Uint8Array.from(atob(arguments[2]), (c) => c.charCodeAt(0));
		const files = new DataTransfer();
		files.items.add(new File([bytes], arguments[0], {type: arguments[1]}));
		const input = document.querySelector('input[data-file="film"]:not([capture])');
		input.files = files.files;
		input.dispatchEvent(new Event("change", {bubbles: true}))`, nil, name, kind, base64.StdEncoding.EncodeToString(content)))
}

// waitFilm waits until the film's words begin with some.
func (b *bench) waitFilm(t *testing.T, words string) {
	t.Helper()
	err := b.Wait(`document.getElementById("film-words").textContent.startsWith(`+quoted(words)+`)`, 2*patience)
	require.NoError(t, err, "the page says: %s", b.text(t, "film-words"))
}

func TestFilm(t *testing.T) {
	site := releaseHandler(t)
	inOne(t, http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if script, ok := hinders[r.URL.Path]; ok {
			w.Header().Set("Content-Type", "text/javascript")
			fmt.Fprint(w, script, `importScripts(new URLSearchParams(location.search).get("of"));`)
			return
		}
		site.ServeHTTP(w, r)
	}), tests{"Film": testFilm})
}

// hinders are scripts before a worker's own: of a browser that can't decode, and of one
// that takes the decoder away in the middle of a film, when it has run ahead beyond the next
// picture that needs no other.
var hinders = map[string]string{
	"/undecoded.js": `delete self.VideoDecoder;`,
	"/reclaimed.js": `
		const Real = self.VideoDecoder;
		let taken = false;
		if (Real) self.VideoDecoder = class extends Real {
			constructor(init) {
				super({error: init.error, output: (frame) => {
					const at = frame.timestamp / 1e6;
					if (taken || at < 0.4) return init.output(frame);
					frame.close();
					if (at < 1.2) return;
					taken = true;
					this.close();
					init.error(new DOMException("reclaimed", "QuotaExceededError"));
				}});
			}
		};`,
}

// hinder has the next worker started with a script before its own.
func (b *bench) hinder(t *testing.T, script string) {
	t.Helper()
	require.NoError(t, b.Eval(`
		const Real = window.RealWorker ??= window.Worker, hinder = arguments[0];
		window.Worker = function (script) {
			window.Worker = Real;
			return window.worker = new Real(hinder + "?of=" + encodeURIComponent(script));
		}`, nil, script))
}

// spyOnFilm notes what is asked of the worker, the times of the frames that go to it, and
// whatever reads a file. It can hide the page.
const spyOnFilm = `
	window.sent = [];
	window.asked = 0;
	const post = Worker.prototype.postMessage;
	Worker.prototype.postMessage = function (data, ...more) {
		if ("next" in data) window.asked++;
		if (data.object && "frame" in data.object) {
			window.sent.push(data.object.frame);
			if (window.sent.length === window.hideAt) Object.defineProperty(document, "hidden", {configurable: true, get: () => true});
		}
		return post.call(this, data, ...more);
	};
	window.readFiles = 0;
	for (const name of ["arrayBuffer", "bytes", "stream", "text"]) {
		const read = Blob.prototype[name];
		if (read) Blob.prototype[name] = function () { window.readFiles++; return read.call(this); };
	}`

// A film is opened through the file field, its balls are marked by number fields, by
// pointer and by keys, the aim line appears over it, every frame reaches the reader once
// and in order, and the stroke is what the renderer made, within its interval. It is a
// player's, from whose suggested stroke the film was opened. The next film from the same
// stand needs no marks. What can't be read says why, and the file is never read as a whole.
func testFilm(t *testing.T, b *bench) {
	c := readClip(t)
	b.start(t, c.Link)
	b.open(t, "players")
	b.press(t, `[data-do="new-player"]`)
	b.fill(t, "player-name-field", "Ann")
	b.press(t, `#player-form [type="submit"]`)
	b.wait(t, `document.getElementById("player-next").textContent.startsWith("Next: ")`)
	b.press(t, `[data-do="film-turn"]`)
	b.wait(t, `document.getElementById("film").checkVisibility() && document.getElementById("film").open`)
	assert.Contains(t, b.text(t, "film-turn-words"), "For Ann: ")
	filmed, _ := scenario.Parse(c.Link)
	for _, key := range []string{"side", "elev", "dist", "gate", "gap"} { // as the film has it
		b.choose(t, "#f-"+key, scenario.Find(key).Value(&filmed))
	}
	require.NoError(t, b.Eval(spyOnFilm, nil))
	photo, err := os.ReadFile("picture.png")
	require.NoError(t, err)
	for _, bad := range []struct {
		name, kind string
		content    []byte
		words      string
	}{
		{"photo.png", "image/png", photo, "This is not a video"},
		{"photo.mp4", "video/mp4", photo, "This browser can't open this video"},
		{"notes.mp4", "video/mp4", []byte("House 4: 9.6 in"), "This browser can't open this video"},
		{"sound.wav", "audio/wav", knocks(0.3, 0.1), "There is no picture in this file, only sound."},
	} {
		b.films(t, bad.name, bad.kind, bad.content)
		b.waitFilm(t, bad.words)
	}

	film, err := os.ReadFile("../testdata/film/stroke.webm")
	require.NoError(t, err)
	require.NoError(t, b.Eval(`
		const real = window.Worker;
		window.Worker = function () { window.Worker = function () { window.Worker = real; return new real("missing.js"); }; throw new Error("no"); }`, nil))
	b.films(t, "stroke.webm", "video/webm", film)
	b.waitFilm(t, "This browser can't run the part that reads films")
	b.films(t, "stroke.webm", "video/webm", film)
	b.waitFilm(t, "The part that reads films did not arrive")
	b.hinder(t, "reclaimed.js")
	b.films(t, "stroke.webm", "video/webm", film)
	b.waitFilm(t, "The balls are found.")
	for ball, at := range c.Marks {
		for axis, v := range map[string]float64{"x": at[0], "y": at[1]} {
			b.fill(t, "film-"+ball+"-"+axis, strconv.FormatFloat(v, 'f', 1, 64))
		}
	}
	b.waitFilm(t, "Check that each ring fits its ball")
	assert.True(t, eval[bool](t, b.Session, `return document.querySelector("#film-lines .aim") !== null`))
	b.dragsMark(t, c)

	// The browser takes its decoder away in the middle, and gives it back.
	b.press(t, `[data-do="film-read"]`)
	b.waitStroke(t, c)

	b.usesCloth(t, "slide")

	// The stroke is noted for the player, once, and counts.
	assert.Equal(t, "Note for Ann", b.texts(t, `[data-do="film-note"]`)[0])
	b.press(t, `[data-do="film-note"]`)
	b.wait(t, `document.querySelector("#player-facts dd")?.checkVisibility() && document.querySelector("#player-facts dd").textContent === "1"`)
	strokes := b.kept(t).TurnsOf("Ann")
	require.Len(t, strokes, 1)
	launch, err := unit.Parse(strokes[0].Film.Launch, unit.AngleKind, "")
	require.NoError(t, err)
	assert.InDelta(t, c.Launch, launch, 0.005)
	b.open(t, "measure")
	b.waitFilm(t, "Noted")
	assert.True(t, eval[bool](t, b.Session, `return document.querySelector('[data-do="film-note"]').disabled`))

	b.filmsByKeys(t, c)
	name, kind := "stroke.mp4", "video/mp4" // of the other kind where the browser knows it
	if eval[string](t, b.Session, `return document.createElement("video").canPlayType("video/mp4; codecs=avc1.64001f")`) == "" {
		name, kind = "stroke.webm", "video/webm"
	}
	film, err = os.ReadFile("../testdata/film/" + name)
	require.NoError(t, err)

	// The worker ends. Another one, in a browser that can't decode, is handed every frame once
	// and in order, while the page is in sight.
	b.hinder(t, "undecoded.js")
	require.NoError(t, b.Eval(`window.worker.dispatchEvent(new ErrorEvent("error", {cancelable: true}))`, nil))
	b.films(t, name, kind, film)
	b.wait(t, `/^(The part that reads films|Check)/.test(document.getElementById("film-words").textContent)`)
	if strings.HasPrefix(b.text(t, "film-words"), "The part") {
		b.films(t, name, kind, film)
	}
	b.waitFilm(t, "Check that each ring fits its ball")
	require.NoError(t, b.Eval(`window.sent = []; window.hideAt = 12`, nil))
	b.press(t, `[data-do="film-read"]`)
	b.wait(t, `window.sent.length === 12`)
	require.NoError(t, b.Eval(`return new Promise((done) => setTimeout(done, 500))`, nil))
	assert.Equal(t, 12, eval[int](t, b.Session, `return window.sent.length`), "nothing is read while the page is hidden")
	require.NoError(t, b.Eval(`delete document.hidden; window.hideAt = 0`, nil))
	b.waitStroke(t, c)
	sent := eval[[]float64](t, b.Session, `return window.sent`)
	if assert.Len(t, sent, c.Frames) {
		for i, at := range sent {
			assert.InDelta(t, float64(i)/c.Rate, at, 1e-3)
		}
	}
	assert.Zero(t, eval[int](t, b.Session, `return window.readFiles`), "films stay with the browser, whatever their size")
	b.press(t, `[data-do="film-shut"]`)
	b.wait(t, `document.getElementById("film-screen").hidden`)
}

// usesCloth presses the button for a friction that the film shows. The shot has it then, to
// the digits that its field shows, until one undo takes it back. It returns the friction.
func (b *bench) usesCloth(t *testing.T, key string) float64 {
	t.Helper()
	before := b.field(t, key)
	b.press(t, `[data-do="film-`+key+`"]`)
	b.wait(t, `document.getElementById("f-`+key+`").value !== `+quoted(before))
	used := b.field(t, key)
	assert.Contains(t, b.text(t, "film-"+key), " "+used+" (90 %")
	b.wait(t, `!document.querySelector('[data-do="undo"]').disabled`)
	b.press(t, `[data-do="undo"]`)
	b.wait(t, `document.getElementById("f-`+key+`").value === `+quoted(before))
	v, err := strconv.ParseFloat(used, 64)
	require.NoError(t, err)
	return v
}

// filmsByKeys films a long roll from the same stand, by the keyboard alone. Its reading is
// stopped by Escape and begun again, a frame is struck out and put back, and the stroke is
// noted. The focus is always on what comes next.
func (b *bench) filmsByKeys(t *testing.T, c clip) {
	t.Helper()
	w := &walker{bench: b, keys: true}
	on := func(selector string) {
		t.Helper()
		b.wait(t, `document.activeElement.matches(`+quoted(selector)+`)`)
	}
	roll, err := os.ReadFile("../testdata/film/roll.webm")
	require.NoError(t, err)
	require.NoError(t, b.Eval(`document.querySelector("#film > summary").focus()`, nil))
	w.reach(t, `[data-file="film"]:not([capture])`)
	b.films(t, "roll.webm", "video/webm", roll)
	b.waitFilm(t, "The phone has not moved")
	on(`[data-file="film"]`)
	require.NoError(t, b.Eval(`window.asked = 0`, nil))
	w.press(t, `[data-do="film-read"]`)
	b.wait(t, `window.asked > 1`)
	on(`[data-do="film-stop"]`)
	require.NoError(t, b.Keys(webdriver.KeyEscape))
	b.waitFilm(t, "Stopped.")
	on(`[data-do="film-read"]`)
	require.NoError(t, b.Keys(webdriver.KeyEnter))
	on(`[data-do="film-note"]`)
	require.NoError(t, b.Chord(webdriver.KeyShift, webdriver.KeyTab))
	require.NoError(t, b.Keys(" "))
	b.wait(t, `document.getElementById("film-frame").getAttribute("aria-valuetext").endsWith("struck out")`)
	on(`[data-do="film-strike"][aria-pressed="true"]`)
	require.NoError(t, b.Keys(" "))
	on(`[data-do="film-strike"][aria-pressed="false"]`)
	require.NoError(t, b.Keys(webdriver.KeyTab, webdriver.KeyEnter))
	b.waitFilm(t, "Noted")
	on(`[data-file="film"]`)
	assert.Len(t, b.kept(t).Strokes, 1)
	assert.InEpsilon(t, c.Roll, b.usesCloth(t, "roll"), 0.15)
}

// dragsMark drags the target's mark 40 pixels down by a finger beside its centre, which does
// not scroll the page, and back onto the ball by keys.
func (b *bench) dragsMark(t *testing.T, c clip) {
	t.Helper()
	at := eval[[3]float64](t, b.Session, `
		const ring = document.querySelector('#film-marks [data-ball="target"] .ring');
		document.getElementById("film-screen").scrollIntoView({block: "center"});
		const r = ring.getBoundingClientRect(), over = document.getElementById("film-over");
		return [r.left + r.width / 2 + 5, r.top + r.height / 2 + 5, over.viewBox.baseVal.width / over.getBoundingClientRect().width]`)
	before, err := strconv.ParseFloat(b.fieldOf(t, "film-target-y"), 64)
	require.NoError(t, err)
	scrolled := eval[float64](t, b.Session, `return document.querySelector(".panel").scrollTop`)
	require.NoError(t, b.Drag(webdriver.Touch, at[0], at[1], at[0], at[1]+40, 6))
	b.wait(t, `!document.querySelector("#film-lines .aim") || document.getElementById("film-target-y").value !== `+quoted(strconv.FormatFloat(before, 'f', 1, 64)))
	assert.Equal(t, scrolled, eval[float64](t, b.Session, `return document.querySelector(".panel").scrollTop`))
	require.NoError(t, b.Eval(`document.getElementById("film-target-y").focus()`, nil))
	off := eval[float64](t, b.Session, `return document.getElementById("film-target-y").value - `+strconv.FormatFloat(before, 'f', 1, 64))
	assert.InDelta(t, 40*at[2], off, 15, "the mark moves by as much as the finger")
	for range int(math.Round(math.Abs(off))) {
		require.NoError(t, b.Keys(webdriver.KeyArrowDown))
	}
	b.waitFilm(t, "Check that each ring fits its ball")
	assert.InDelta(t, c.Marks["target"][1], eval[float64](t, b.Session, `document.activeElement.blur(); return +document.getElementById("film-target-y").value`), 2)
}

func (b *bench) fieldOf(t *testing.T, id string) string {
	t.Helper()
	return eval[string](t, b.Session, `return document.getElementById(`+quoted(id)+`).value`)
}

// waitStroke waits until the film is read, and compares it with what is true.
func (b *bench) waitStroke(t *testing.T, c clip) {
	t.Helper()
	err := b.Wait(`!document.querySelector('[data-do="film-note"]').hidden || document.getElementById("film-reading").hidden && !document.getElementById("film-words").textContent.startsWith("Working")`, 2*startup)
	require.NoError(t, err, "the page says: %s", b.text(t, "film-words"))
	read := func(name, part string) float64 {
		v, err := strconv.ParseFloat(eval[string](t, b.Session, `return document.querySelector('[data-reading="`+name+`"]').dataset.`+part), 64)
		require.NoError(t, err, "%s %s; the page says: %s", name, part, b.text(t, "film-words"))
		return v
	}
	launch := read("film-launch", "value")
	assert.InDelta(t, c.Launch, launch, 0.5*math.Pi/180)
	assert.Less(t, read("film-launch", "from"), launch)
	assert.Greater(t, read("film-launch", "to"), launch)
	assert.InEpsilon(t, c.Speed, read("film-speed", "value"), 0.05)
	assert.Contains(t, b.text(t, "film-result"), " of the aim line (")
	assert.True(t, strings.HasPrefix(b.text(t, "film-frame-words"), "1 of "))
}

// testWebcam films with the device's own camera, and opens what it filmed.
func testWebcam(t *testing.T, b *bench) {
	b.open(t, "measure")
	require.NoError(t, b.Eval(`document.getElementById("film").open = true`, nil))
	press := func(do string) {
		t.Helper()
		require.NoError(t, b.Eval(`document.querySelector('[data-do="`+do+`"]').click()`, nil)) // shown on devices with a mouse
	}
	press("film-take")
	b.waitFilm(t, "Play the stroke, then stop filming.")
	b.wait(t, `document.getElementById("film-video").videoWidth > 0 && document.getElementById("film-video").currentTime > 0.5`)
	press("film-cut")
	b.waitFilm(t, "Drag each mark onto its ball")
	assert.True(t, eval[bool](t, b.Session, `return document.getElementById("film-video").srcObject === null`))
	lasts := eval[float64](t, b.Session, `return document.getElementById("film-video").duration`)
	assert.Greater(t, lasts, 0.2)
	assert.Less(t, lasts, 60.0)
	press("film-take")
	b.waitFilm(t, "Play the stroke")
	press("film-shut")
	b.wait(t, `document.getElementById("film-screen").hidden && document.getElementById("film-video").srcObject === null`)
}

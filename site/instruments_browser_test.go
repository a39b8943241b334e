//go:build browser

package site_test

import (
	"encoding/binary"
	"math"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/instrument"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/scripts/lib/webdriver"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

func TestInstruments(t *testing.T) {
	inEngines(t, releaseHandler(t), tests{
		"Watch":   testWatch,
		"Cloth":   testClothAndTable,
		"ByRuler": testByRuler,
		"Refused": testSensorsRefused,
	})
}

// sent returns the link of the starting shot with an instrument's result.
func sent(t *testing.T, g view.Gauged) string {
	t.Helper()
	m := app.Update(app.Start(), app.SetAll{Sets: g.Sets})
	require.Empty(t, m.Notices)
	return m.Scene.Format()
}

// gauge opens an instrument.
func (b *bench) gauge(t *testing.T, name string) {
	t.Helper()
	if eval[string](t, b.Session, `return document.documentElement.dataset.section || ""`) != "instruments" {
		b.open(t, "instruments")
	}
	require.NoError(t, b.Eval(`const el = document.querySelector('.gauge[data-gauge="' + arguments[0] + '"]');
		for (const other of document.querySelectorAll(".gauge[open]")) other.open = other === el;
		el.open = true;`, nil, name))
}

// fill types into a field of an instrument with an id.
func (b *bench) fill(t *testing.T, id, text string) {
	t.Helper()
	require.NoError(t, b.Eval(`const el = document.getElementById(arguments[0]);
		el.value = arguments[1];
		el.dispatchEvent(new Event("input", {bubbles: true}));
		el.dispatchEvent(new Event("change", {bubbles: true}));`, nil, id, text))
}

func (b *bench) text(t *testing.T, id string) string {
	t.Helper()
	return eval[string](t, b.Session, `return document.getElementById(`+quoted(id)+`).textContent`)
}

func (b *bench) kept(t *testing.T) store.Records {
	t.Helper()
	records, err := store.Decode(eval[string](t, b.Session, `return localStorage.getItem("pivotbench-kept")`))
	require.NoError(t, err)
	return records
}

// The stopwatch responds when the finger goes down, and to the space bar. Its time is
// the time elapsed on the browser's clock.
func testWatch(t *testing.T, b *bench) {
	b.start(t, "v=1")
	b.gauge(t, "speed")
	b.fill(t, "speed-length", "2 m")
	require.NoError(t, b.Eval(`window.presses = [];
		document.addEventListener("pointerdown", (e) => presses.push(e.timeStamp), true);
		document.addEventListener("keydown", (e) => presses.push(e.timeStamp), true);`, nil))
	const watch = `[data-watch="speed"]`
	b.press(t, watch)
	b.wait(t, `document.querySelector('[data-watch="speed"]').textContent.startsWith("Tap at the mark · 0.")`)
	time.Sleep(500 * time.Millisecond)
	b.press(t, watch)
	b.wait(t, `document.querySelectorAll("#speed-list li").length === 1`)
	require.NoError(t, b.Eval(`document.activeElement.blur()`, nil))
	require.NoError(t, b.Keys(" "))
	time.Sleep(500 * time.Millisecond)
	require.NoError(t, b.Keys(" "))
	b.wait(t, `document.querySelectorAll("#speed-list li").length === 2`)

	presses := eval[[]float64](t, b.Session, `return presses`)
	require.Len(t, presses, 4)
	readings := slices.DeleteFunc(b.kept(t).Readings, func(r store.Reading) bool { return r.Of != "speed" })
	require.Len(t, readings, 2)
	for i, r := range readings {
		took, err := unit.Parse(r.Time, unit.SpanKind, "")
		require.NoError(t, err)
		assert.InDelta(t, (presses[2*i+1]-presses[2*i])/1000, took, 1e-4)
	}
	s := scenario.Default()
	want := view.Speed(&s, readings)
	assert.Equal(t, want.Head, b.text(t, "speed-head"))
	assert.Equal(t, want.Note, b.text(t, "speed-note"))

	b.press(t, `[data-do="send-gauge"][data-gauge="speed"]`)
	b.waitHash(t, sent(t, want))
	b.press(t, `#speed-list [data-do="drop-reading"]`)
	b.wait(t, `document.querySelectorAll("#speed-list li").length === 1`)
	b.press(t, `[data-do="undo"]`)
	b.wait(t, `document.querySelectorAll("#speed-list li").length === 2`)

	// An impossible reading is reported and not recorded.
	for typed, says := range map[string]string{
		"0.04": "too close together", "-1": "the stop came before the start",
		"50": "would have stopped before the mark", "soon": "“soon”", "1 2": "type one time",
	} {
		b.fill(t, "speed-typed", typed)
		b.press(t, `[data-do="note-time"][data-gauge="speed"]`)
		said := b.text(t, "speed-said")
		assert.Contains(t, said, "Not noted")
		assert.Contains(t, said, says)
	}
	assert.Equal(t, 2, eval[int](t, b.Session, `return document.querySelectorAll("#speed-list li").length`))
}

// A ball is rolled to rest and the distance measured. The result is saved with the
// table, and the table is used later.
func testClothAndTable(t *testing.T, b *bench) {
	b.start(t, "v=1&bridge=9in")
	b.gauge(t, "rest")
	b.fill(t, "rest-typed", "6")
	b.press(t, `[data-do="note-time"][data-gauge="rest"]`)
	assert.Equal(t, "6.00 s. Now type the distance.", b.text(t, "rest-said"))
	b.press(t, `[data-watch="rest"]`)
	assert.Contains(t, b.text(t, "rest-said"), "still needs its distance")
	b.fill(t, "rest-length", "2 m")
	b.wait(t, `document.getElementById("rest-head").textContent.startsWith("0.0113 ")`)

	save := `[data-do="save-gauge"][data-gauge="rest"]`
	b.press(t, save)
	assert.Contains(t, b.text(t, "said"), "Type a name for the table")
	b.fill(t, "table-name", "Harbour Hall 3")
	b.press(t, save)
	b.wait(t, `document.getElementById("tables").textContent.includes("rolling resistance 0.0113")`)
	tables := b.kept(t).Tables
	require.Len(t, tables, 1)
	assert.Equal(t, "v=1&roll=0.0113", tables[0].Link)

	b.press(t, `[data-do="use-table"][data-index="0"]`)
	b.waitHash(t, "v=1&roll=0.0113&bridge=9in")
	b.press(t, `[data-do="undo"]`)
	b.waitHash(t, "v=1&bridge=9in")
	b.press(t, `[data-do="drop-table"][data-index="0"]`)
	b.wait(t, `document.getElementById("tables").childElementCount === 0`)
}

func testByRuler(t *testing.T, b *bench) {
	b.start(t, "v=1")
	b.gauge(t, "elev")
	b.fill(t, "elev-tip", "1")
	b.fill(t, "elev-butt", "4")
	b.wait(t, `document.getElementById("elev-head").textContent.startsWith("5.5° ")`)
	b.press(t, `[data-do="send-gauge"][data-gauge="elev"]`)
	b.waitHash(t, "v=1&elev=5.5deg")

	b.gauge(t, "offset")
	b.fill(t, "offset-to", "left")
	b.fill(t, "offset-x", "10")
	b.wait(t, `document.getElementById("offset-head").textContent.startsWith("0.35 R")`)
	b.press(t, `[data-do="send-gauge"][data-gauge="offset"]`)
	b.waitHash(t, "v=1&side=-0.35&elev=5.5deg")

	b.choose(t, "#f-units", "cm")
	b.wait(t, `document.getElementById("elev-apart").value === "76.2" && document.getElementById("speed-length").value.length > 0`)
	b.choose(t, "#f-units", "in")
	b.wait(t, `document.getElementById("elev-apart").value === "30"`)

	b.gauge(t, "ball")
	b.fill(t, "ball-size", "57.15")
	b.wait(t, `document.getElementById("ball-fits").textContent.includes("within the limits of the World Pool-Billiard Association")`)
	b.fill(t, "ball-size", "7")
	b.wait(t, `document.getElementById("ball-note").textContent.startsWith("No ball is that size")`)
	assert.True(t, eval[bool](t, b.Session, `return document.querySelector('[data-do="send-gauge"][data-gauge="ball"]').disabled`))
}

// There is no permission and no sensor. Whatever the engine does, the page says what
// to do instead.
func testSensorsRefused(t *testing.T, b *bench) {
	b.start(t, "v=1")
	b.gauge(t, "elev")
	b.press(t, `[data-do="tilt-zero"]`)
	b.wait(t, `/[Uu]se a tape\.$/.test(document.getElementById("elev-said").textContent)`)

	b.gauge(t, "speed")
	b.choose(t, "#speed-by", "sound")
	b.press(t, `[data-watch="speed"]`)
	b.wait(t, `document.getElementById("speed-said").textContent.includes("Use your thumb")`)
	b.gauge(t, "elev")

	// Permission is refused, as by a user.
	require.NoError(t, b.Eval(`window.DeviceOrientationEvent = class { static requestPermission() { return Promise.resolve("denied"); } };
		Object.defineProperty(navigator, "mediaDevices", {configurable: true, value: {
			getUserMedia: () => Promise.reject(new DOMException("no", "NotAllowedError"))}});`, nil))
	b.press(t, `[data-do="tilt-zero"]`)
	b.wait(t, `document.getElementById("elev-said").textContent.includes("was refused")`)
	b.gauge(t, "speed")
	b.press(t, `[data-watch="speed"]`)
	b.wait(t, `document.getElementById("speed-said").textContent.includes("The microphone was refused. Use your thumb")`)
	require.NoError(t, b.Eval(`Object.defineProperty(navigator, "mediaDevices", {configurable: true, value: undefined})`, nil))
	b.press(t, `[data-watch="speed"]`)
	b.wait(t, `document.getElementById("speed-said").textContent.includes("can't use a microphone here")`)
	b.choose(t, "#speed-by", "thumb")
}

// tilt has the sensor read until the page says so. On a busy machine the browser's
// simulated sensor may wake too late, and the page asks for another try.
func (b *bench) tilt(t *testing.T, do, says string) {
	t.Helper()
	said := func() string { return b.text(t, "elev-said") }
	for range 3 {
		b.press(t, `[data-do="`+do+`"]`)
		b.wait(t, `[`+quoted(says)+`, `+quoted(view.TiltSilent)+`].includes(document.getElementById("elev-said").textContent)`)
		if said() == says {
			return
		}
	}
	require.Equal(t, says, said())
}

// Tests Chromium with a simulated sensor, microphone and camera: a phone laid on the cloth
// and then along a cue, a recording of a hit and, 0.6125 s later, a rail, and a film.
func TestInstrumentsWithSensors(t *testing.T) {
	const apart = 0.6125
	record := filepath.Join(t.TempDir(), "knocks.wav")
	require.NoError(t, os.WriteFile(record, knocks(8, 4, 4+apart), 0o644))
	b := sensing(t, releaseHandler(t), "--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream",
		"--use-file-for-fake-audio-capture="+record)

	lie := func(beta, gamma float64) {
		t.Helper()
		require.NoError(t, b.CDP("DeviceOrientation.setDeviceOrientationOverride",
			map[string]any{"alpha": 20, "beta": beta, "gamma": gamma}, nil))
	}
	b.start(t, "v=1")
	b.gauge(t, "elev")
	b.press(t, `[data-do="tilt-cue"]`)
	b.wait(t, `document.getElementById("elev-said").textContent.startsWith("Set zero first")`)
	lie(0.8, -0.5)
	b.tilt(t, "tilt-zero", view.TiltZeroed)
	lie(12.3, 6)
	b.tilt(t, "tilt-cue", view.TiltRead)
	tilt := func(beta, gamma float64) []instrument.Tilt {
		return []instrument.Tilt{{Beta: unit.Angle(beta) * unit.Degree, Gamma: unit.Angle(gamma) * unit.Degree}}
	}
	want := view.Level(tilt(0.8, -0.5), tilt(12.3, 6))
	assert.Equal(t, want.Head, b.text(t, "elev-head"))
	b.press(t, `[data-do="send-gauge"][data-gauge="elev"]`)
	b.waitHash(t, sent(t, want))

	b.gauge(t, "speed")
	b.fill(t, "speed-length", "2 m")
	b.choose(t, "#speed-by", "sound")
	b.press(t, `[data-watch="speed"]`)
	b.wait(t, `document.getElementById("speed-said").textContent.startsWith("Listening")`)
	require.NoError(t, b.Wait(`document.querySelectorAll("#speed-list li").length === 1`, 20*time.Second))
	r := b.kept(t).Readings[0]
	assert.Equal(t, "sound", r.By)
	took, err := strconv.ParseFloat(r.Time[:len(r.Time)-1], 64)
	require.NoError(t, err)
	assert.InDelta(t, apart, took, 0.006)
	assert.Equal(t, "Start listening", eval[string](t, b.Session, `return document.querySelector('[data-watch="speed"]').textContent`), "and it stopped by itself")

	t.Run("Webcam", func(t *testing.T) { testWebcam(t, b) })
}

// sensing opens the site in Chromium with extra arguments.
func sensing(t *testing.T, site http.Handler, args ...string) *bench {
	t.Helper()
	s, err := webdriver.Open(t.Context(), webdriver.Chromium, webdriver.Options{Args: args})
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, s.Close()) })
	return &bench{s, serve(t, site).URL + "/"}
}

// knocks returns a recording (RIFF WAVE, 16 bit, one channel, 48 kHz) of a number of
// seconds, with knocks in a faint hum.
func knocks(length float64, at ...float64) []byte {
	const rate = 48000
	out := []byte("RIFF....WAVEfmt ")
	n := int(length * rate)
	le := binary.LittleEndian
	out = le.AppendUint32(out, 16)
	out = le.AppendUint16(out, 1)
	out = le.AppendUint16(out, 1)
	out = le.AppendUint32(out, rate)
	out = le.AppendUint32(out, 2*rate)
	out = le.AppendUint16(out, 2)
	out = le.AppendUint16(out, 16)
	out = append(out, "data"...)
	out = le.AppendUint32(out, uint32(2*n))
	for i := range n {
		v := 0.001 * math.Sin(2*math.Pi*100.3*float64(i)/rate)
		for _, begin := range at {
			if t := float64(i)/rate - begin; t >= 0 {
				v += 0.4 * math.Exp(-t/0.012) * math.Sin(2*math.Pi*1800*t)
			}
		}
		out = le.AppendUint16(out, uint16(int16(32767*v)))
	}
	le.PutUint32(out[4:], uint32(len(out)-8))
	return out
}

// start opens a link on the current page, or loads the page if it is not open. It
// waits until the page responds; the canvas may still be loading.
func (b *bench) start(t *testing.T, link string) {
	t.Helper()
	if eval[bool](t, b.Session, `return location.href.startsWith(`+quoted(b.address)+`)`) {
		b.show(t, link)
		return
	}
	require.NoError(t, b.Get(b.address+"#"+link))
	require.NoError(t, b.Wait(`document.documentElement.dataset.state !== "still"`, startup))
}

//go:build browser

package site_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/scripts/lib/webdriver"
)

// Without WebGL the plain drawing stays and works like the canvas.
func TestWithoutWebGL(t *testing.T) {
	const none = `const get = HTMLCanvasElement.prototype.getContext;
		HTMLCanvasElement.prototype.getContext = function (kind, ...rest) {
			return /webgl/.test(kind) ? null : get.call(this, kind, ...rest);
		};`
	inOne(t, spied(releaseHandler(t), none), tests{
		"ThePlainDrawingServes": func(t *testing.T, b *bench) {
			b.load(t, start, "live")
			b.wait(t, `document.documentElement.dataset.canvas === "failed"`)
			assert.Equal(t, "live", eval[string](t, b.Session, "return document.documentElement.dataset.state"))
			assert.Contains(t, eval[string](t, b.Session, `return document.getElementById("progress").innerText`), "no WebGL")
			assertReadings(t, start, b.readings(t))
			testHandlesDrag(t, b, webdriver.Mouse)
			bridge := eval[string](t, b.Session, `return Array.from(document.querySelectorAll("#paper text"), (el) => el.textContent).find((words) => words.startsWith("bridge"))`)
			assert.NotEqual(t, "bridge 12.0 in", bridge, "it is drawn anew")

			// Everything else works, and does so in the same way in each engine.
			if !slices.Contains(one, b.Engine) {
				return
			}
			for _, section := range b.sections(t) {
				b.open(t, section)
				assert.Empty(t, b.notices(t), section)
			}
			b.open(t, "measure")
			b.note(t, "left")
			b.press(t, `[data-do="undo"]`)
			b.wait(t, `document.querySelectorAll("#strokes tr[data-stroke]").length === 0`)
			b.open(t, "shot")
			b.show(t, start)
			b.seek(t, "0.1")
			assert.NotEmpty(t, b.moment(t))
		},
	})
}

func TestWithoutNetwork(t *testing.T) {
	for _, engine := range webdriver.Engines {
		t.Run(string(engine), func(t *testing.T) {
			server := serve(t, unkept(releaseHandler(t)))
			b := &bench{open(t, engine), server.URL + "/"}
			b.load(t, start, "board")
			waitFor(t, b.Session, "ready")
			b.wait(t, `document.getElementById("offline").textContent.includes("works offline")`)
			server.Close()

			require.NoError(t, b.Reload())
			require.NoError(t, b.Wait(`document.documentElement.dataset.state === "board"`, startup))
			if engine == webdriver.Chromium { // Chromium has changed its name for this before
				assert.Equal(t, "cache", eval[string](t, b.Session, `const [page] = performance.getEntriesByType("navigation");
					return page.workerFinalSourceType || page.workerFinalRouterSource`), "the page did not wait for the worker")
			}
			assertReadings(t, start, b.readings(t))
			b.choose(t, "#f-bridge", "9")
			b.waitHash(t, "v=1&bridge=9in&dist=40in")
			assertReadings(t, b.hash(t), b.readings(t))

			assert.True(t, eval[bool](t, b.Session, `const worker = new Worker(document.getElementById("loader").dataset.film);
				return new Promise((done) => {
					worker.onmessage = (e) => { worker.terminate(); done(e.data.ready === true); };
					worker.onerror = () => done(false);
				})`), "the part that reads films is kept too")

			// The full-screen sheet.
			require.NoError(t, b.Get(b.address+"table.html#v=1&bridge=9in"))
			require.NoError(t, b.Wait(`window.framesDrawn > 0`, startup))
			assert.True(t, eval[bool](t, b.Session, `return document.getElementById("trouble").hidden`))
			assert.Equal(t, 6, eval[int](t, b.Session, `return document.querySelectorAll("[data-handle]").length`))
			var at [2]float64
			require.NoError(t, b.Eval(`const r = document.querySelector('[data-handle="bridge"]').getBoundingClientRect();
				return [r.left + r.width / 2, r.top + r.height / 2]`, &at))
			require.NoError(t, b.Drag(webdriver.Mouse, at[0], at[1], at[0], at[1]+40, 6))
			b.wait(t, `!location.hash.endsWith("bridge=9in")`)
			s, _ := native(t, b.hash(t))
			assert.Greater(t, number(&s, "bridge"), 9*0.0254)
		})
	}
}

//go:build browser

package site_test

import (
	"bytes"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/scripts/lib/webdriver"
)

// The page is really printed if the driver can print. WebKit's can't, so the test
// sends the events that a browser would send.
func TestPaper(t *testing.T) {
	for _, engine := range engines {
		t.Run(string(engine), func(t *testing.T) {
			b := &bench{open(t, engine), serve(t, releaseHandler(t)).URL + "/"}
			testPaper(t, b, engine)
		})
	}
}

// testPaper checks the printed page: it has the current shot, although the canvas
// draws it on the screen, the side view if the screen has one, and the moment of the
// playback.
func testPaper(t *testing.T, b *bench, engine webdriver.Engine) {
	b.load(t, "v=1", "board")
	require.NoError(t, b.Eval(`
		window.printed = [];
		const paper = document.getElementById("paper");
		addEventListener("beforeprint", () => printed.push({
			texts: Array.from(paper.querySelectorAll("text"), (el) => el.textContent),
			seen: paper.querySelector("svg").getAttribute("viewBox"),
		}))`, nil))
	const link = "v=1&bridge=9.5in&elev=35deg&speed=8mph&gap=0in&gate=12in"
	b.show(t, link)
	for _, section := range []string{"measure", "clearance"} {
		b.open(t, section)
		b.print(t, engine)
		type sight struct {
			Texts []string
			Seen  string
		}
		seen := eval[[]sight](t, b.Session, `return printed`)
		require.NotEmpty(t, seen, section)
		last := seen[len(seen)-1]
		assert.Contains(t, last.Texts, "bridge 9.5 in", section)
		assert.Contains(t, last.Texts, "side view, to scale", section)
		assert.Contains(t, last.Texts, "elev 35°")
	}

	// A flat shot has a side view only in the Clearance section.
	b.show(t, "v=1&bridge=9.1in")
	for section, aside := range map[string]bool{"shot": false, "clearance": true} {
		b.open(t, section)
		b.print(t, engine)
		texts := eval[[]string](t, b.Session, `return printed.at(-1).texts`)
		assert.Contains(t, texts, "bridge 9.1 in")
		assert.Equal(t, aside, slices.Contains(texts, "side view, to scale"), section)
	}

	// The moment of the playback is printed too, with the ball moving.
	const drawn = `document.querySelector("#paper svg").outerHTML`
	before := eval[string](t, b.Session, `return `+drawn)
	for range 3 { // the cue moves forward, it hits the ball, the ball is at the gate
		b.press(t, `[data-do="step-on"]`)
	}
	b.print(t, engine)
	assert.NotEqual(t, before, eval[string](t, b.Session, `return `+drawn))
}

// print prints the page, or simulates printing.
func (b *bench) print(t *testing.T, engine webdriver.Engine) {
	t.Helper()
	if engine == webdriver.WebKit {
		require.NoError(t, b.Eval(`dispatchEvent(new Event("beforeprint"))`, nil))
		return
	}
	pdf, err := b.Print()
	require.NoError(t, err)
	assert.True(t, bytes.HasPrefix(pdf, []byte("%PDF-")))
}

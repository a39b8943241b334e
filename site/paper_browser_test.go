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

// The page is printed in earnest where the driver can. WebKit's can't: there the
// events that a browser sends are sent by the test.
func TestPaper(t *testing.T) {
	for _, engine := range webdriver.Engines {
		t.Run(string(engine), func(t *testing.T) {
			b := &bench{open(t, engine), serve(t, releaseHandler(t)).URL + "/"}
			testPaper(t, b, engine)
		})
	}
}

// testPaper looks at what is on the paper as it is printed: the shot as it is
// now, though the canvas drew it, with the view from the side where the screen
// has one, and with the moment of the play-back.
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
		assert.Contains(t, last.Texts, "side, to scale", section)
		assert.Contains(t, last.Texts, "elev 35°")
	}

	// A flat shot has no view from the side but where hops are looked at.
	b.show(t, "v=1&bridge=9.1in")
	for section, aside := range map[string]bool{"shot": false, "clearance": true} {
		b.open(t, section)
		b.print(t, engine)
		texts := eval[[]string](t, b.Session, `return printed.at(-1).texts`)
		assert.Contains(t, texts, "bridge 9.1 in")
		assert.Equal(t, aside, slices.Contains(texts, "side, to scale"), section)
	}

	// The moment of the play-back is on it too: the ball on its way.
	const drawn = `document.querySelector("#paper svg").outerHTML`
	before := eval[string](t, b.Session, `return `+drawn)
	for range 3 { // the cue comes forward, meets the ball, and the ball is at the gate
		b.press(t, `[data-do="step-on"]`)
	}
	b.print(t, engine)
	assert.NotEqual(t, before, eval[string](t, b.Session, `return `+drawn))
}

// print prints the page, or has it think so.
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

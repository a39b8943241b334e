//go:build browser

package site_test

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/scripts/lib/webdriver"
	"pivotbench/wasm/phrase"
)

// shots are scenarios of every kind. For every reading, at least one scenario has an
// answer and at least one has none.
var shots = []string{
	"v=1",
	"v=1&bridge=9in&side=-0.45",
	"v=1&elev=10deg&speed=3.5mph",
	"v=1&side=0&elev=40deg&speed=14mph&gate=12in&gap=2in",
	"v=1&side=0.35&height=-0.3&elev=25deg&speed=9mph",
	"v=1&side=0.59",
	"v=1&side=0.75",
	"v=1&gate=0in",
	"v=1&gate=2in&gap=0in",
	"v=1&units=cm&bridge=24cm&dist=1.2m&gate=80cm&gap=7cm&speed=3m/s",
	"v=1&diam=61.5mm&mass=210g&slide=0.3&roll=0.014&spindown=6rad/s2&hop=0.2",
	"v=1&stroke=6.5mph&cuemass=19.5oz&tip=9mm&bounce=0.8&chalk=0.7",
	"v=1&speed=0.6mph",
	"v=1&back=0.4&front=0.6&grip=20in",
	"v=1&back=5&bridge=2in&side=0.5",
	"v=1&table=carom&ball=carom&cloth=new&pivot=20in&pivotspin=0.3",
}

// native computes a link's shot in the test, not in the browser.
func native(t *testing.T, link string) (scenario.Scenario, shot.Reading) {
	t.Helper()
	s, problems := scenario.Parse(link)
	require.Empty(t, problems, link)
	var res shot.Result
	sh := s.Shot()
	shot.Play(&sh, &res)
	return s, res.Reading
}

// assertReadings compares the readings on a page with those computed in the test.
// The two differ only in the last digits of a few functions.
func assertReadings(t *testing.T, link string, got map[string]reading) {
	t.Helper()
	_, want := native(t, link)
	for _, spec := range shot.Specs {
		r, there := got[spec.Name]
		require.True(t, there, spec.Name)
		v, err := spec.Get(&want)
		if err != nil {
			assert.Equal(t, reading{"", err.Error()}, r, "%s of %s", spec.Name, link)
			continue
		}
		on, err := strconv.ParseFloat(r.Value, 64)
		require.NoError(t, err, "%s of %s", spec.Name, link)
		assert.InDelta(t, v, on, 1e-12*math.Max(math.Abs(v), 1e-2), "%s of %s", spec.Name, link)
		assert.Empty(t, r.Why)
	}
	assert.Equal(t, string(want.Verdict.Value), got["verdict"].Value, link)
	if want.Verdict.Err() != nil {
		assert.Equal(t, want.Verdict.Err().Error(), got["verdict"].Why, link)
	}
}

func TestReadings(t *testing.T) {
	inEngines(t, releaseHandler(t), tests{
		"AreTheNativeOnes": func(t *testing.T, b *bench) {
			b.show(t, "v=1")
			for _, link := range shots {
				require.NoError(t, b.Eval(`location.hash = arguments[0]`, nil, link))
				b.waitHash(t, link)
				s, r := native(t, link)
				said := phrase.Verdict(&s, &r)
				b.wait(t, `document.getElementById("detail").textContent === `+quoted(said.Detail))
				assertReadings(t, link, b.readings(t))
			}
			assert.Empty(t, b.notices(t))
		},
		"AtOnceFromALink": func(t *testing.T, b *bench) {
			b.load(t, shots[1], "board")
			assertReadings(t, shots[1], b.readings(t))
		},
	})
}

// The page reports its state, and the states follow in order.
func TestStates(t *testing.T) {
	// The old values show every state even when two changes arrive at once.
	const watch = `window.states = [];
		new MutationObserver((list) => list.forEach((change) => states.push(change.oldValue)))
			.observe(document.documentElement, {attributeFilter: ["data-state"], attributeOldValue: true});`
	inOne(t, spied(releaseHandler(t), watch), tests{
		"InTurn": func(t *testing.T, b *bench) {
			b.show(t, "v=1")
			assert.Equal(t, []string{"still", "live"}, slices.Compact(eval[[]string](t, b.Session, "return states")))
		},
	})
}

// The page shows the default shot before its program runs, and when no program ever
// runs.
func TestStill(t *testing.T) {
	server := serve(t, releaseHandler(t))
	s := open(t, webdriver.Chromium)
	require.NoError(t, s.CDP("Emulation.setScriptExecutionDisabled", map[string]any{"value": true}, nil))
	require.NoError(t, s.Get(server.URL))
	// The driver's own scripts do not run either, so the test requests the DOM tree.
	var page struct{ OuterHTML string }
	var root struct{ Root struct{ NodeID int } }
	require.Eventually(t, func() bool { // node ids may change while the page is read
		return s.CDP("DOM.getDocument", nil, &root) == nil &&
			s.CDP("DOM.getOuterHTML", map[string]any{"nodeId": root.Root.NodeID}, &page) == nil &&
			strings.Contains(page.OuterHTML, `id="spoken"`)
	}, patience, 100*time.Millisecond)
	require.NoError(t, s.CDP("Emulation.setScriptExecutionDisabled", map[string]any{"value": false}, nil))
	assert.Contains(t, page.OuterHTML, `data-state="still"`)
	assert.Contains(t, page.OuterHTML, "Turn on JavaScript", "a notice says what is missing")

	// A document created by a parser runs no script.
	require.NoError(t, s.Get("about:blank"))
	var got struct {
		Readings map[string]reading
		Texts    []string
	}
	require.NoError(t, s.Eval(`const page = new DOMParser().parseFromString(arguments[0], "text/html");
		return {
			Readings: Object.fromEntries(Array.from(page.querySelectorAll("[data-reading]"),
				(el) => [el.dataset.reading, {Value: el.dataset.value, Why: el.dataset.why || ""}])),
			Texts: Array.from(page.querySelectorAll("#paper svg text"), (el) => el.textContent),
		}`, &got, page.OuterHTML))
	assertReadings(t, "v=1", got.Readings)
	for _, words := range []string{"bridge 12.0 in", "target 36.0 in", "gap 2.75 in"} {
		assert.Contains(t, got.Texts, words)
	}
}

//go:build browser

package site_test

import (
	"context"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/lesson"
	"pivotbench/scripts/lib/webdriver"
)

// gate is a proxy that all of a browser's requests go through. It notes whom it
// is asked for, and lets those to one host pass.
type gate struct {
	engine webdriver.Engine
	host   string
	mu     sync.Mutex
	asked  []string
}

func (g *gate) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	g.mu.Lock()
	if !slices.Contains(g.asked, r.Host) {
		g.asked = append(g.asked, r.Host)
	}
	g.mu.Unlock()
	if r.Host != g.host {
		http.Error(w, "not from here", http.StatusBadGateway)
		return
	}
	(&httputil.ReverseProxy{Rewrite: func(*httputil.ProxyRequest) {}}).ServeHTTP(w, r)
}

// hosts are those asked for a page's sake.
func (g *gate) hosts() []string {
	g.mu.Lock()
	defer g.mu.Unlock()
	return slices.DeleteFunc(slices.Clone(g.asked), func(host string) bool { return g.engine == webdriver.Chromium && of(browsersOwn, host) })
}

// browsersOwn are hosts that Chromium asks by itself, pages or no pages. Of those
// its console tells when a page would have asked: the policy refuses that.
var browsersOwn = []string{"google.com", "googleapis.com", "gstatic.com", "gvt1.com", "start.duckduckgo.com"}

// of tells whether a host, with its port or without, is one of these or under it.
func of(hosts []string, host string) bool {
	name, _, _ := strings.Cut(host, ":")
	return slices.ContainsFunc(hosts, func(h string) bool { return name == h || strings.HasSuffix(name, "."+h) })
}

// A session with all that the page does asks nobody but its own host for
// anything: not the page, nor its frame, nor its worker, nor a link that would
// have it so. And the console stays clean.
func TestAsksNobodyElse(t *testing.T) {
	for _, engine := range webdriver.Engines {
		t.Run(string(engine), func(t *testing.T) {
			server := serve(t, releaseHandler(t))
			through := &gate{engine: engine, host: strings.TrimPrefix(server.URL, "http://")}
			proxy := httptest.NewServer(through)
			t.Cleanup(proxy.Close)
			o := webdriver.Options{Proxy: strings.TrimPrefix(proxy.URL, "http://")}
			if engine == webdriver.Chromium {
				o.Args = thrifty
			}
			s, err := webdriver.Open(context.Background(), engine, o)
			require.NoError(t, err)
			t.Cleanup(func() { assert.NoError(t, s.Close()) })
			b := &bench{s, server.URL + "/"}

			b.load(t, "v=1", "board")
			waitFor(t, s, "ready")
			for _, section := range b.sections(t) {
				b.open(t, section)
			}
			b.open(t, "measure")
			b.note(t, "left")
			b.press(t, `[data-do="undo"]`)
			b.open(t, "shot")
			b.drag(t, webdriver.Mouse, "tip", -20, 5)
			b.press(t, `[data-do="code"]`)
			b.press(t, `[data-do="code-close"]`)
			if engine != webdriver.WebKit { // which does not tell
				entries, err := s.Log()
				require.NoError(t, err)
				for _, e := range entries {
					assert.NotEqual(t, "SEVERE", e.Level, e.Message)
					assert.NotContains(t, e.Message, "Security Policy")
				}
			}
			lure := `<img src="http://elsewhere.invalid/x"> http://elsewhere.invalid/ ![](//elsewhere.invalid/y)`
			taught := lesson.Link{Lesson: lesson.Lesson{Title: lure, Steps: []lesson.Step{{Link: "v=1", Caption: lure}}}}
			b.follow(t, taught.Format())
			b.wait(t, `document.getElementById("lesson-words").textContent.includes("elsewhere.invalid")`)
			require.NoError(t, b.Get(b.address+"table.html#"+taught.Format()))
			b.wait(t, `document.getElementById("talk-words").textContent.includes("elsewhere.invalid")`)
			assert.Equal(t, []string{through.host}, through.hosts())

			// Had anything been asked of another, it would be in the list.
			_ = s.Get("http://elsewhere.invalid/")
			assert.Equal(t, []string{through.host, "elsewhere.invalid"}, through.hosts())
		})
	}
}

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

// gate is a proxy for all requests of a browser. It records the hosts that are
// requested and lets only requests to one host through.
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

// hosts returns the hosts requested by pages.
func (g *gate) hosts() []string {
	g.mu.Lock()
	defer g.mu.Unlock()
	return slices.DeleteFunc(slices.Clone(g.asked), func(host string) bool { return g.engine == webdriver.Chromium && of(browsersOwn, host) })
}

// browsersOwn are hosts that Chromium contacts by itself, whatever the page. If a
// page requested one of them, the policy would refuse it and the console would show
// that.
var browsersOwn = []string{"google.com", "googleapis.com", "gstatic.com", "gvt1.com", "start.duckduckgo.com"}

// of reports whether a host, with or without a port, is one of these or a subdomain
// of one.
func of(hosts []string, host string) bool {
	name, _, _ := strings.Cut(host, ":")
	return slices.ContainsFunc(hosts, func(h string) bool { return name == h || strings.HasSuffix(name, "."+h) })
}

// A session that uses every feature contacts no host but the page's own. This holds
// for the page, its frame, its worker, and a link that tries to cause a request. The
// console shows no errors.
func TestAsksNobodyElse(t *testing.T) {
	for _, engine := range one {
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
			if engine != webdriver.WebKit { // WebKit has no log
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

			// A request to any other host would be in the list.
			_ = s.Get("http://elsewhere.invalid/")
			assert.Equal(t, []string{through.host, "elsewhere.invalid"}, through.hosts())
		})
	}
}

// Package webdriver drives real browsers for this project's own tests and measurements:
// Chromium, WebKit and Firefox, all over the W3C WebDriver protocol
// (https://www.w3.org/TR/webdriver2/). It starts and stops them itself.
//
// A [Session] is one browser with a fresh profile. Its methods act on the
// current tab and, after [Session.SwitchToFrame], on that frame of it.
// Lengths are CSS pixels.
package webdriver

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"os"
	"slices"
	"time"
)

// Options say how to open a browser.
type Options struct {
	Width, Height int      // size of the page; 1280 by 800 if zero
	Args          []string // further arguments of the browser itself
	Proxy         string   // host:port of a proxy for every request, including those to this machine; none if empty
}

// Session is one running browser. It is not safe for concurrent use.
type Session struct {
	Engine Engine
	opened Options
	wire   wire
	undo   []func() error // what Close does, last first
}

// Open starts a browser. The context limits its whole life: once it ends, every command
// fails, and [Session.Close] must still be called. An error at the start includes what
// the driver printed.
func Open(ctx context.Context, engine Engine, o Options) (*Session, error) {
	if o.Width == 0 {
		o.Width = 1280
	}
	if o.Height == 0 {
		o.Height = 800
	}
	s := &Session{Engine: engine, opened: o}
	if err := s.open(ctx, o); err != nil {
		return nil, errors.Join(err, s.Close())
	}
	return s, nil
}

func (s *Session) open(ctx context.Context, o Options) error {
	home, err := os.MkdirTemp("", "webdriver")
	if err != nil {
		return fmt.Errorf("webdriver: %w", err)
	}
	s.undo = append(s.undo, func() error { return removeHome(home) })

	driver, base, caps, err := s.Engine.start(o, home, &s.undo)
	if err != nil {
		return err
	}
	s.wire = wire{ctx, base}
	if o.Proxy != "" {
		caps["proxy"] = map[string]any{"proxyType": "manual", "httpProxy": o.Proxy, "sslProxy": o.Proxy}
	}
	var got struct{ SessionID string }
	ask := map[string]any{"capabilities": map[string]any{"alwaysMatch": caps}}
	if err := s.wire.call(http.MethodPost, "/session", ask, &got); err != nil {
		return driver.blame(err)
	}
	s.wire.base += "/session/" + got.SessionID
	s.undo = append(s.undo, func() error {
		// The browser must end even if the session's own context has ended.
		return wire{context.WithoutCancel(ctx), s.wire.base}.call(http.MethodDelete, "", nil, nil)
	})

	limits := map[string]int{"script": 60_000, "pageLoad": 60_000, "implicit": 0}
	if err := s.post("/timeouts", limits, nil); err != nil {
		return err
	}
	return s.SetWindow(o.Width, o.Height)
}

// removeHome removes a browser's profile, to which its last process may still be writing
// for a moment.
func removeHome(home string) error {
	var err error
	for range 20 {
		if err = os.RemoveAll(home); err == nil {
			return nil
		}
		time.Sleep(50 * time.Millisecond)
	}
	return fmt.Errorf("webdriver: profile left behind: %w", err)
}

// Close ends the browser, its driver and its display, and removes the profile. Calling it
// again does nothing.
func (s *Session) Close() error {
	var errs []error
	for _, undo := range slices.Backward(s.undo) {
		errs = append(errs, undo())
	}
	s.undo = nil
	return errors.Join(errs...)
}

func (s *Session) get(endpoint string, out any) error {
	return s.wire.call(http.MethodGet, endpoint, nil, out)
}

func (s *Session) post(endpoint string, in, out any) error {
	return s.wire.call(http.MethodPost, endpoint, in, out)
}

// Get opens an address in the current tab and waits until it has loaded.
func (s *Session) Get(url string) error {
	return s.post("/url", map[string]string{"url": url}, nil)
}

// URL returns the top page's address, including the fragment.
func (s *Session) URL() (url string, err error) {
	err = s.get("/url", &url)
	return url, err
}

// Title returns the top page's title.
func (s *Session) Title() (title string, err error) {
	err = s.get("/title", &title)
	return title, err
}

// Reload reloads the page and waits as [Session.Get] does.
func (s *Session) Reload() error { return s.post("/refresh", nil, nil) }

// Back goes one step back in the tab's history.
func (s *Session) Back() error { return s.post("/back", nil, nil) }

// Forward goes one step forward in the tab's history.
func (s *Session) Forward() error { return s.post("/forward", nil, nil) }

// LogEntry is one line of the browser's console.
type LogEntry struct {
	Level   string // SEVERE, WARNING, INFO or DEBUG
	Source  string // such as console-api, javascript or network
	Message string // address, line and text
}

// Log returns what the console has received since the last call, including uncaught
// errors and, in Chromium, failed requests. WebKit has no log: it returns
// [errors.ErrUnsupported].
func (s *Session) Log() (entries []LogEntry, err error) {
	if err := s.only("console log", Chromium, Firefox); err != nil {
		return nil, err
	}
	err = s.post("/se/log", map[string]string{"type": "browser"}, &entries)
	return entries, err
}

// only returns an error unless the session's engine is one of those given.
func (s *Session) only(what string, engines ...Engine) error {
	if slices.Contains(engines, s.Engine) {
		return nil
	}
	return fmt.Errorf("webdriver: %s in %s: %w", what, s.Engine, errors.ErrUnsupported)
}

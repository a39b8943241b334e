package webdriver

import (
	"encoding/base64"
	"fmt"
	"net/http"
	"time"
)

// SetWindow resizes the window so that the page in it is w by h. If the browser refuses,
// the error names the size it got: WebKit's goes no narrower than about 450, and none is
// larger than the screen. Firefox keeps its window and lets the page use only a part of
// it. Call it from the top page.
func (s *Session) SetWindow(w, h int) error {
	if s.Engine == Firefox {
		return s.Viewport(w, h, 1, false)
	}
	var size struct{ Inner, Outer [2]int }
	const script = "return {Inner: [innerWidth, innerHeight], Outer: [outerWidth, outerHeight]}"
	if err := s.Eval(script, &size); err != nil {
		return err
	}
	// The size that the window adds around the page, as far as the page knows.
	frame := [2]int{size.Outer[0] - size.Inner[0], size.Outer[1] - size.Inner[1]}
	for range 4 {
		before := size.Inner
		rect := map[string]int{"x": 0, "y": 0, "width": max(1, w+frame[0]), "height": max(1, h+frame[1])}
		if err := s.post("/window/rect", rect, nil); err != nil {
			return err
		}
		// The page learns its size after a while, and not all at once.
		const settle = 8 // checks without a change
		same := 0
		for deadline := time.Now().Add(time.Second); time.Now().Before(deadline) && same < settle; time.Sleep(pollPause) {
			last := size.Inner
			if err := s.Eval(script, &size); err != nil {
				return err
			}
			switch size.Inner {
			case [2]int{w, h}:
				return nil
			case before:
			case last:
				same++
			default:
				same = 0
			}
		}
		frame[0] += w - size.Inner[0]
		frame[1] += h - size.Inner[1]
	}
	return fmt.Errorf("webdriver: asked for a page of %d by %d, got %d by %d", w, h, size.Inner[0], size.Inner[1])
}

// Viewport lays out the tab's page as on a screen of w by h with dpr device pixels per
// CSS pixel, whatever the window. A mobile one has a finger as its pointer, scroll bars
// that take no room, and obeys the viewport meta tag; only Chromium has those. WebKit has
// no viewport at all.
func (s *Session) Viewport(w, h int, dpr float64, mobile bool) error {
	if s.Engine == Firefox && !mobile {
		tab, err := s.Tab()
		if err != nil {
			return err
		}
		return s.BiDi("browsingContext.setViewport", map[string]any{
			"context": tab, "devicePixelRatio": dpr, "viewport": map[string]int{"width": w, "height": h},
		}, nil)
	}
	err := s.CDP("Emulation.setDeviceMetricsOverride", map[string]any{
		"width": w, "height": h, "deviceScaleFactor": dpr, "mobile": mobile,
	}, nil)
	if err != nil {
		return err
	}
	return s.CDP("Emulation.setTouchEmulationEnabled", map[string]any{"enabled": mobile}, nil)
}

// Screenshot returns what the tab shows, as PNG, in device pixels.
func (s *Session) Screenshot() ([]byte, error) {
	var text string
	if err := s.get("/screenshot", &text); err != nil {
		return nil, err
	}
	return decoded("GET /screenshot", text)
}

// Print returns the tab as a PDF for paper. WebKit's driver cannot print and returns an
// error.
func (s *Session) Print() ([]byte, error) {
	var text string
	if err := s.post("/print", struct{}{}, &text); err != nil {
		return nil, err
	}
	return decoded("POST /print", text)
}

// decoded decodes a file that a driver returned in base64.
func decoded(command, text string) ([]byte, error) {
	file, err := base64.StdEncoding.DecodeString(text)
	if err != nil {
		return nil, fmt.Errorf("webdriver: %s: %w", command, err)
	}
	return file, nil
}

// Downloads makes the browser save downloads in a folder without asking. WebKit's driver
// cannot set that, so the error is [errors.ErrUnsupported].
func (s *Session) Downloads(dir string) error {
	if s.Engine == Firefox {
		return s.BiDi("browser.setDownloadBehavior", map[string]any{
			"downloadBehavior": map[string]string{"type": "allowed", "destinationFolder": dir},
		}, nil)
	}
	return s.CDP("Browser.setDownloadBehavior", map[string]string{"behavior": "allow", "downloadPath": dir}, nil)
}

// Tab identifies one of the browser's tabs.
type Tab string

// Tab returns the current tab.
func (s *Session) Tab() (tab Tab, err error) {
	err = s.get("/window", &tab)
	return tab, err
}

// NewTab opens an empty tab and makes it the current one.
func (s *Session) NewTab() (Tab, error) {
	var got struct{ Handle Tab }
	if err := s.post("/window/new", map[string]string{"type": "tab"}, &got); err != nil {
		return "", err
	}
	return got.Handle, s.SwitchToTab(got.Handle)
}

// SwitchToTab makes a tab the current one.
func (s *Session) SwitchToTab(tab Tab) error {
	return s.post("/window", map[string]Tab{"handle": tab}, nil)
}

// CloseTab closes the current tab. There is then no current one until
// [Session.SwitchToTab]. The browser ends with its last tab.
func (s *Session) CloseTab() error { return s.wire.call(http.MethodDelete, "/window", nil, nil) }

// Renew leaves the browser with a single empty tab of its original size, without history.
// What sites have stored stays.
func (s *Session) Renew() error {
	var old []Tab
	if err := s.get("/window/handles", &old); err != nil {
		return err
	}
	fresh, err := s.NewTab()
	if err != nil {
		return err
	}
	for _, tab := range old {
		if err := s.SwitchToTab(tab); err != nil {
			return err
		}
		if err := s.CloseTab(); err != nil {
			return err
		}
	}
	if err := s.SwitchToTab(fresh); err != nil {
		return err
	}
	return s.SetWindow(s.opened.Width, s.opened.Height)
}

// SwitchToFrame makes commands act on the page inside an iframe.
func (s *Session) SwitchToFrame(frame Element) error {
	return s.post("/frame", map[string]any{"id": frame}, nil)
}

// SwitchToTop returns from any frame to the tab's own page.
func (s *Session) SwitchToTop() error { return s.post("/frame", map[string]any{"id": nil}, nil) }

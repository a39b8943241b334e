package webdriver

import (
	"encoding/base64"
	"fmt"
	"net/http"
	"time"
)

// SetWindow sizes the window so that the page in it is w by h. It fails, naming
// the size it got, where the browser will not: WebKit's goes no narrower than
// about 450, and none fits more than the screen. Firefox keeps its window, and
// has the page take up so much of it. Call it from the top page.
func (s *Session) SetWindow(w, h int) error {
	if s.Engine == Firefox {
		return s.Viewport(w, h, 1, false)
	}
	var size struct{ Inner, Outer [2]int }
	const script = "return {Inner: [innerWidth, innerHeight], Outer: [outerWidth, outerHeight]}"
	if err := s.Eval(script, &size); err != nil {
		return err
	}
	// What the window adds around the page, as far as the page can tell.
	frame := [2]int{size.Outer[0] - size.Inner[0], size.Outer[1] - size.Inner[1]}
	for range 4 {
		before := size.Inner
		rect := map[string]int{"x": 0, "y": 0, "width": max(1, w+frame[0]), "height": max(1, h+frame[1])}
		if err := s.post("/window/rect", rect, nil); err != nil {
			return err
		}
		// The page learns of its size in its own time, and not all at once.
		const settle = 8 // looks without a change
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

// Viewport lays the tab's page out as on a screen of w by h with dpr device
// pixels to each of ours, whatever the window. A mobile one has a finger for
// its pointer, no scroll bars that take room, and minds the viewport meta tag:
// that is Chromium's alone. WebKit has none of it.
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

// Screenshot is what the tab shows, as PNG, in device pixels.
func (s *Session) Screenshot() ([]byte, error) {
	var text string
	if err := s.get("/screenshot", &text); err != nil {
		return nil, err
	}
	return decoded("GET /screenshot", text)
}

// Print is the tab on paper, as PDF. WebKit's driver can't print, and gives an
// error.
func (s *Session) Print() ([]byte, error) {
	var text string
	if err := s.post("/print", struct{}{}, &text); err != nil {
		return nil, err
	}
	return decoded("POST /print", text)
}

// decoded is a file that a driver gave in base64.
func decoded(command, text string) ([]byte, error) {
	file, err := base64.StdEncoding.DecodeString(text)
	if err != nil {
		return nil, fmt.Errorf("webdriver: %s: %w", command, err)
	}
	return file, nil
}

// Downloads has the browser put what pages have downloaded into a folder,
// without asking. WebKit's driver can't tell it that: there the error is
// [errors.ErrUnsupported].
func (s *Session) Downloads(dir string) error {
	if s.Engine == Firefox {
		return s.BiDi("browser.setDownloadBehavior", map[string]any{
			"downloadBehavior": map[string]string{"type": "allowed", "destinationFolder": dir},
		}, nil)
	}
	return s.CDP("Browser.setDownloadBehavior", map[string]string{"behavior": "allow", "downloadPath": dir}, nil)
}

// Tab names one of the browser's tabs.
type Tab string

// Tab is the current tab.
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
// [Session.SwitchToTab]; with the last tab the browser goes.
func (s *Session) CloseTab() error { return s.wire.call(http.MethodDelete, "/window", nil, nil) }

// Renew leaves the browser with a single empty tab, of the size it was opened
// with and with no history; what sites have stored stays.
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

// SwitchToFrame makes the page inside an iframe the one that commands act on.
func (s *Session) SwitchToFrame(frame Element) error {
	return s.post("/frame", map[string]any{"id": frame}, nil)
}

// SwitchToTop returns from any frame to the tab's own page.
func (s *Session) SwitchToTop() error { return s.post("/frame", map[string]any{"id": nil}, nil) }

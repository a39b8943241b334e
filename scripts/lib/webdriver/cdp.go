package webdriver

// The methods in this file use Chromium's own DevTools protocol
// (https://chromedevtools.github.io/devtools-protocol/). In any other engine they return
// [errors.ErrUnsupported].

// CDP sends one DevTools command for the current tab and decodes the result into out,
// unless out is nil. Params is an object, or nil for none.
func (s *Session) CDP(cmd string, params, out any) error {
	if err := s.only(cmd, Chromium); err != nil {
		return err
	}
	if params == nil {
		params = struct{}{}
	}
	return s.post("/goog/cdp/execute", map[string]any{"cmd": cmd, "params": params}, out)
}

// Slow makes the page's processor rate times slower; 1 is its normal speed.
func (s *Session) Slow(rate float64) error {
	return s.CDP("Emulation.setCPUThrottlingRate", map[string]any{"rate": rate}, nil)
}

// Scheme is a system-wide colour scheme.
type Scheme string

// The colour schemes.
const (
	Light Scheme = "light"
	Dark  Scheme = "dark"
)

// ColorScheme makes the tab's page see a colour scheme of the system.
func (s *Session) ColorScheme(scheme Scheme) error {
	return s.CDP("Emulation.setEmulatedMedia", map[string]any{
		"features": []map[string]string{{"name": "prefers-color-scheme", "value": string(scheme)}},
	}, nil)
}

// Offline disconnects the tab's page from the network, or reconnects it. A service worker
// has its own connection; to cut that too, stop the server.
func (s *Session) Offline(offline bool) error {
	if err := s.CDP("Network.enable", nil, nil); err != nil {
		return err
	}
	return s.CDP("Network.emulateNetworkConditions", map[string]any{
		"offline": offline, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1,
	}, nil)
}

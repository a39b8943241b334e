package webdriver

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"time"

	"pivotbench/scripts/lib/bidi"
)

// firefoxPrefs are the settings in which our browser differs from a new one on a user's
// device. Its remote agent sets many more, to keep the browser from contacting its maker
// during tests.
var firefoxPrefs = map[string]any{
	// Without this, WebGL is refused on a machine without a graphics card.
	"webgl.force-enabled": true,
	// Without this, no touch screen is found on the virtual display.
	"dom.w3c_touch_events.enabled": 1,
	// Nobody is there to answer when a site asks to keep its storage.
	"permissions.default.persistent-storage": 1,
	// The agent would let a page opened from a file read other files, which no device
	// does. It does not change what is set here, even to the default value.
	"security.fileuri.strict_origin_policy": true,

	// What the browser would do before the agent starts.
	"app.normandy.enabled":                       false,
	"browser.aboutwelcome.enabled":               false,
	"browser.startup.page":                       0,
	"datareporting.policy.dataSubmissionEnabled": false,
	"network.captive-portal-service.enabled":     false,
	"network.connectivity-service.enabled":       false,
	"services.settings.server":                   "data:,",
	"toolkit.telemetry.unified":                  false,
}

func startFirefox(o Options, home string, undo *[]func() error) (*process, string, map[string]any, error) {
	path, err := firefox.find()
	if err != nil {
		return nil, "", nil, err
	}
	display, err := startDisplay(undo)
	if err != nil {
		return nil, "", nil, err
	}
	prefs := map[string]any{}
	for name, value := range firefoxPrefs {
		prefs[name] = value
	}
	if o.Proxy != "" {
		prefs["network.proxy.allow_hijacking_localhost"] = true // localhost bypasses the proxy otherwise
	}
	if err := writePrefs(filepath.Join(home, "user.js"), prefs); err != nil {
		return nil, "", nil, err
	}
	env := []string{
		"DISPLAY=" + display,
		"GDK_BACKEND=x11", "MOZ_ENABLE_WAYLAND=0",
		"LIBGL_ALWAYS_SOFTWARE=1",
		"NO_AT_BRIDGE=1", // do not look for an accessibility bus
		"MOZ_CRASHREPORTER_DISABLE=1",
		"MOZ_REMOTE_SETTINGS_DEVTOOLS=1", // makes it respect services.settings.server
		"HOME=" + home, "TMPDIR=" + home,
		"XDG_CACHE_HOME=" + home, "XDG_CONFIG_HOME=" + home, "XDG_DATA_HOME=" + home,
	}
	args := []string{
		"--new-instance", "--profile", home, "--remote-debugging-port", "0",
		"--width", screenWidth, "--height", screenHeight, // room for any page
	}
	args = append(args, o.Args...)
	browser, err := launch(path, append(args, "about:blank"), env)
	if err != nil {
		return nil, "", nil, err
	}
	*undo = append(*undo, browser.stop)

	socket, err := firefoxSocket(browser, filepath.Join(home, "WebDriverBiDiServer.json"))
	if err != nil {
		return nil, "", nil, err
	}
	base, err := serveDriver(bidi.New(socket), undo)
	if err != nil {
		return nil, "", nil, err
	}
	return browser, base, map[string]any{
		// As by default in the older protocol, a page can be left without a prompt.
		"unhandledPromptBehavior": map[string]string{"default": "dismiss", "beforeUnload": "accept"},
	}, nil
}

// BiDi sends one command of Firefox's own protocol
// (https://www.w3.org/TR/webdriver-bidi/) and decodes its result into out, unless out is
// nil. Params is an object. In any other engine it returns [errors.ErrUnsupported].
func (s *Session) BiDi(method string, params, out any) error {
	if err := s.only(method, Firefox); err != nil {
		return err
	}
	return s.post("/moz/bidi/execute", map[string]any{"method": method, "params": params}, out)
}

// writePrefs writes settings in the form of a profile.
func writePrefs(file string, prefs map[string]any) error {
	var text strings.Builder
	for name, value := range prefs {
		v, err := json.Marshal(value)
		if err != nil {
			return fmt.Errorf("webdriver: %s: %w", name, err)
		}
		fmt.Fprintf(&text, "user_pref(%q, %s);\n", name, v)
	}
	if err := os.WriteFile(file, []byte(text.String()), 0o600); err != nil {
		return fmt.Errorf("webdriver: %w", err)
	}
	return nil
}

// firefoxSocket waits for the file in which Firefox writes the address at which it
// listens, and returns that address.
func firefoxSocket(browser *process, file string) (string, error) {
	for deadline := time.After(startLimit); ; {
		text, err := os.ReadFile(file)
		var at struct {
			Host string `json:"ws_host"`
			Port int    `json:"ws_port"`
		}
		if err == nil {
			if err = json.Unmarshal(text, &at); err == nil { // otherwise it is half written
				return fmt.Sprintf("ws://%s:%d/session", at.Host, at.Port), nil
			}
		} else if !errors.Is(err, fs.ErrNotExist) {
			return "", fmt.Errorf("webdriver: %w", err)
		}
		select {
		case <-browser.done:
			return "", browser.blame(errors.New("webdriver: Firefox ended"))
		case <-deadline:
			return "", browser.blame(fmt.Errorf("webdriver: Firefox did not say where it listens: %w", err))
		case <-time.After(20 * time.Millisecond):
		}
	}
}

// serveDriver serves our own driver on a free port, like one that is a program of its
// own.
func serveDriver(driver http.Handler, undo *[]func() error) (base string, err error) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return "", fmt.Errorf("webdriver: %w", err)
	}
	server := &http.Server{Handler: driver}
	go server.Serve(l) // until it is closed
	*undo = append(*undo, server.Close)
	return "http://" + l.Addr().String(), nil
}

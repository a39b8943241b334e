package webdriver

import (
	"bufio"
	"context"
	"fmt"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"
)

// Engine is a browser engine that can be driven.
type Engine string

// The engines, each a real browser from the system's packages.
const (
	// Chromium runs headless and paints WebGL in software.
	Chromium Engine = "Chromium"
	// WebKit is WebKitGTK's small browser, under an X server of its own. Its driver turns
	// touch into mouse, takes pointer positions from the top page even inside a frame,
	// and opens no page narrower than about 450 px.
	WebKit Engine = "WebKit"
	// Firefox runs in a window under an X server of its own, since headless it has no
	// WebGL. It comes without a driver; [pivotbench/scripts/lib/bidi] is one.
	Firefox Engine = "Firefox"
)

// Engines lists all engines.
var Engines = []Engine{Chromium, WebKit, Firefox}

// The X server's screen has room for the widest window that a test asks for.
const (
	screenWidth  = "2560"
	screenHeight = "1600"
)

// startLimit is how long a driver or an X server may take to answer.
const startLimit = 30 * time.Second

// program is something that an engine needs on the machine.
type program struct {
	name  string   // its name in the error when it is missing
	alike []string // names to look for on PATH, or patterns of full paths
}

var (
	chromium     = program{"chromium", []string{"chromium", "chromium-browser", "google-chrome"}}
	chromedriver = program{"chromedriver", []string{"chromedriver"}}
	webkitDriver = program{"WebKitWebDriver", []string{"WebKitWebDriver"}}
	miniBrowser  = program{"MiniBrowser", []string{ // never on PATH, since it is made for tests
		"/usr/lib/*/webkit*gtk-*/MiniBrowser",
		"/usr/lib/webkit*gtk-*/MiniBrowser",
		"/usr/libexec/webkit*gtk-*/MiniBrowser",
	}}
	firefox = program{"Firefox", []string{"firefox-esr", "firefox"}}
	xvfb    = program{"Xvfb", []string{"Xvfb"}}
)

// find returns the program's full path, or an error that names it.
func (p program) find() (string, error) {
	for _, like := range p.alike {
		if filepath.IsAbs(like) {
			if found, _ := filepath.Glob(like); len(found) > 0 {
				return found[0], nil
			}
		} else if path, err := exec.LookPath(like); err == nil {
			return path, nil
		}
	}
	return "", fmt.Errorf("webdriver: %s is not installed", p.name)
}

// Missing names the programs that the engine needs and that are not on this machine.
func (e Engine) Missing() []string {
	needs := map[Engine][]program{
		Chromium: {chromium, chromedriver},
		WebKit:   {miniBrowser, webkitDriver, xvfb},
		Firefox:  {firefox, xvfb},
	}
	var missing []string
	for _, p := range needs[e] {
		if _, err := p.find(); err != nil {
			missing = append(missing, p.name)
		}
	}
	return missing
}

// start starts the engine's driver, and returns the capabilities that request our
// browser. Whether it fails or not, undo stops everything it started.
func (e Engine) start(o Options, home string, undo *[]func() error) (driver *process, base string, caps map[string]any, err error) {
	switch e {
	case Chromium:
		return startChromium(o, home, undo)
	case WebKit:
		return startWebKit(o, home, undo)
	case Firefox:
		return startFirefox(o, home, undo)
	}
	return nil, "", nil, fmt.Errorf("webdriver: unknown engine %q", string(e))
}

func startChromium(o Options, home string, undo *[]func() error) (*process, string, map[string]any, error) {
	browser, err := chromium.find()
	if err != nil {
		return nil, "", nil, err
	}
	driver, base, err := startDriver(chromedriver, []string{"TMPDIR=" + home}, undo)
	if err != nil {
		return nil, "", nil, err
	}
	args := []string{
		"--headless=new",
		"--remote-debugging-pipe", // not a port: the browser ends when its driver does, even if that is killed
		"--no-sandbox",            // the sandbox refuses to run as root, as in a container
		"--enable-unsafe-swiftshader", "--use-gl=angle", "--use-angle=swiftshader",
		"--disable-quic", "--disable-background-networking", "--disable-component-update", "--disable-sync",
		"--user-data-dir=" + home,
	}
	if o.Proxy != "" {
		args = append(args, "--proxy-bypass-list=<-loopback>") // localhost bypasses the proxy unless this is set
	}
	return driver, base, map[string]any{
		"browserName":        "chrome",
		"goog:loggingPrefs":  map[string]string{"browser": "ALL"},
		"goog:chromeOptions": map[string]any{"binary": browser, "args": append(args, o.Args...)},
	}, nil
}

func startWebKit(o Options, home string, undo *[]func() error) (*process, string, map[string]any, error) {
	browser, err := miniBrowser.find()
	if err != nil {
		return nil, "", nil, err
	}
	display, err := startDisplay(undo)
	if err != nil {
		return nil, "", nil, err
	}
	env := []string{
		"DISPLAY=" + display,
		"GDK_BACKEND=x11",
		"WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS=1", // needs namespaces that a container lacks
		"NO_AT_BRIDGE=1",                             // do not look for an accessibility bus
		"JSC_useOMGJIT=false",                        // an optimising compiler only pays on a page that stays open
		"XDG_CACHE_HOME=" + home, "XDG_CONFIG_HOME=" + home, "XDG_DATA_HOME=" + home,
	}
	driver, base, err := startDriver(webkitDriver, env, undo)
	if err != nil {
		return nil, "", nil, err
	}
	return driver, base, map[string]any{
		"webkitgtk:browserOptions": map[string]any{
			"binary": browser,
			"args":   append([]string{"--automation"}, o.Args...),
		},
	}, nil
}

// startDisplay starts an X server that chooses a free display itself, and returns the
// display's name.
func startDisplay(undo *[]func() error) (string, error) {
	path, err := xvfb.find()
	if err != nil {
		return "", err
	}
	ours, its, err := os.Pipe()
	if err != nil {
		return "", fmt.Errorf("webdriver: %w", err)
	}
	defer ours.Close()
	server, err := launch(path, []string{"-displayfd", "3", "-screen", "0", screenWidth + "x" + screenHeight + "x24", "-nolisten", "tcp"}, nil, its)
	its.Close() // the server has its own copy, so the read below ends when the server does
	if err != nil {
		return "", err
	}
	*undo = append(*undo, server.stop)
	if err := ours.SetReadDeadline(time.Now().Add(startLimit)); err != nil {
		return "", fmt.Errorf("webdriver: %w", err)
	}
	number, err := bufio.NewReader(ours).ReadString('\n')
	if err != nil {
		return "", server.blame(fmt.Errorf("webdriver: Xvfb named no display: %w", err))
	}
	return ":" + strings.TrimSpace(number), nil
}

// startDriver starts a driver on a free port and waits until it answers there.
func startDriver(p program, env []string, undo *[]func() error) (*process, string, error) {
	path, err := p.find()
	if err != nil {
		return nil, "", err
	}
	port, err := freePort()
	if err != nil {
		return nil, "", err
	}
	driver, err := launch(path, []string{fmt.Sprintf("--port=%d", port)}, env)
	if err != nil {
		return nil, "", err
	}
	*undo = append(*undo, driver.stop)

	base := fmt.Sprintf("http://127.0.0.1:%d", port)
	ctx, cancel := context.WithTimeout(context.Background(), startLimit)
	defer cancel()
	for {
		err := wire{ctx, base}.call("GET", "/status", nil, nil)
		if err == nil {
			return driver, base, nil
		}
		select {
		case <-driver.done:
			return nil, "", driver.blame(err)
		case <-ctx.Done():
			return nil, "", driver.blame(err)
		case <-time.After(20 * time.Millisecond):
		}
	}
}

func freePort() (int, error) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return 0, fmt.Errorf("webdriver: no free port: %w", err)
	}
	defer l.Close()
	return l.Addr().(*net.TCPAddr).Port, nil
}

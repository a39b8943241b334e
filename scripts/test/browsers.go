package main

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"runtime"
	"strings"

	"pivotbench/scripts/lib/webdriver"
)

// packages are the names, in Debian and what derives from it, of all that the
// two engines need. The font is for machines that have none at all.
var packages = []string{"chromium", "chromium-driver", "webkit2gtk-driver", "xvfb", "fonts-dejavu-core"}

// missing names the programs still wanted for the browser tests.
func missing() []string {
	return append(webdriver.Chromium.Missing(), webdriver.WebKit.Missing()...)
}

// installBrowsers sees to it that both engines are here: where it can, by
// installing them, and else by an error that says what to install.
func installBrowsers(ctx context.Context) error {
	absent := missing()
	if len(absent) == 0 {
		fmt.Println("both engines are installed")
		return nil
	}
	fmt.Println("missing:", strings.Join(absent, ", "))
	root, can := rootPrefix(ctx)
	if _, err := exec.LookPath("apt-get"); err != nil || !can {
		return fmt.Errorf("missing %s: %s", strings.Join(absent, ", "), advice(runtime.GOOS, err == nil))
	}
	aptGet := append(root, "env", "DEBIAN_FRONTEND=noninteractive", "apt-get")
	for _, args := range [][]string{
		{"update"},
		append([]string{"install", "-y", "--no-install-recommends"}, packages...),
	} {
		words := append(aptGet[:len(aptGet):len(aptGet)], args...)
		if err := command(ctx, nil, words[0], words[1:]...); err != nil {
			return err
		}
	}
	if absent := missing(); len(absent) > 0 {
		return fmt.Errorf("installed %s, and still missing %s", strings.Join(packages, ", "), strings.Join(absent, ", "))
	}
	return nil
}

// rootPrefix is what makes a command run as root, if we may without being asked
// for a password.
func rootPrefix(ctx context.Context) (prefix []string, ok bool) {
	if os.Geteuid() == 0 {
		return nil, true
	}
	return []string{"sudo", "-n"}, exec.CommandContext(ctx, "sudo", "-n", "true").Run() == nil
}

// advice says how to get the engines where we cannot install them.
func advice(system string, apt bool) string {
	switch {
	case apt:
		return "as root, run: apt-get install " + strings.Join(packages, " ")
	case system == "linux":
		return "install Chromium with chromedriver, WebKitGTK with WebKitWebDriver and MiniBrowser, and Xvfb" +
			" (in Debian: " + strings.Join(packages, ", ") + ")"
	default:
		return "WebKitGTK is only made for Linux: run the browser tests in a Debian container, or leave them out with -short"
	}
}

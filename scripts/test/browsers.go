package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"runtime"
	"slices"
	"strings"

	"pivotbench/scripts/lib/axe"
	"pivotbench/scripts/lib/webdriver"
)

// packages are the packages, in Debian and its derivatives, that the engines need. The
// font is for machines without any.
var packages = []string{"chromium", "chromium-driver", "webkit2gtk-driver", "firefox-esr", "xvfb", "fonts-dejavu-core"}

// missing names the programs that the browser tests still need.
func missing() []string {
	var names []string
	for _, engine := range webdriver.Engines {
		names = append(names, engine.Missing()...)
	}
	slices.Sort(names) // two engines need the X server
	return slices.Compact(names)
}

// installBrowsers makes sure that all engines are installed. If it cannot install them,
// the error says what to install.
func installBrowsers(ctx context.Context) error {
	absent := missing()
	if len(absent) == 0 {
		fmt.Println("all engines are installed")
		return nil
	}
	fmt.Println("missing:", strings.Join(absent, ", "))
	apt, can := aptGet(ctx)
	if !can {
		return fmt.Errorf("missing %s: %s", strings.Join(absent, ", "), advice(runtime.GOOS, apt != nil))
	}
	if err := install(ctx, apt, packages...); err != nil {
		return err
	}
	if absent := missing(); len(absent) > 0 {
		return fmt.Errorf("installed %s, and still missing %s", strings.Join(packages, ", "), strings.Join(absent, ", "))
	}
	return nil
}

// fetchAxe makes sure that the checker of accessibility rules is present, and npm to
// fetch it.
func fetchAxe(ctx context.Context) error {
	_, err := axe.Script(ctx)
	if apt, can := aptGet(ctx); errors.Is(err, axe.ErrNoNPM) && can {
		if err := install(ctx, apt, "npm"); err != nil {
			return err
		}
		_, err = axe.Script(ctx)
	}
	if errors.Is(err, axe.ErrNoNPM) {
		return fmt.Errorf("%w: install npm (in Debian, as root: apt-get install npm), or leave the browser tests out with -short", err)
	}
	return err
}

// aptGet returns the command that installs packages, or nil if there is none. ok reports
// whether we may use it.
func aptGet(ctx context.Context) (words []string, ok bool) {
	if _, err := exec.LookPath("apt-get"); err != nil {
		return nil, false
	}
	root, ok := rootPrefix(ctx)
	return append(root, "env", "DEBIAN_FRONTEND=noninteractive", "apt-get"), ok
}

// install installs packages.
func install(ctx context.Context, apt []string, packages ...string) error {
	for _, args := range [][]string{
		{"update"},
		append([]string{"install", "-y", "--no-install-recommends"}, packages...),
	} {
		words := append(apt[:len(apt):len(apt)], args...)
		if err := command(ctx, nil, words[0], words[1:]...); err != nil {
			return err
		}
	}
	return nil
}

// rootPrefix returns what makes a command run as root, if we may do that without a
// password.
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
		return "install Chromium with chromedriver, WebKitGTK with WebKitWebDriver and MiniBrowser, Firefox, and Xvfb" +
			" (in Debian: " + strings.Join(packages, ", ") + ")"
	default:
		return "WebKitGTK is only made for Linux: run the browser tests in a Debian container, or leave them out with -short"
	}
}

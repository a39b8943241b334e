package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"strings"
)

// govulncheckModule is pinned; its list of vulnerabilities is not.
const govulncheckModule = "golang.org/x/vuln/cmd/govulncheck@v1.9.0"

// vulnerabilities looks for known vulnerabilities in what the two programs link and in
// what builds and serves them. If the list is unavailable, it says so and checks nothing.
func vulnerabilities(ctx context.Context) error {
	return withTool(ctx, govulncheckModule, func(tool string) error {
		for _, look := range []struct {
			env  []string
			pkgs string
		}{{nil, "./..."}, {inBrowser, "./wasm/..."}} {
			fmt.Println("$", strings.Join(append(look.env[:len(look.env):len(look.env)], tool, look.pkgs), " "))
			cmd := exec.CommandContext(ctx, tool, look.pkgs)
			cmd.Env = append(os.Environ(), look.env...)
			out, err := cmd.CombinedOutput()
			if err != nil && unlisted(out) {
				fmt.Println("not looked at: the list of known vulnerabilities can't be had from here")
				return nil
			}
			os.Stdout.Write(out)
			if err != nil {
				return errors.New("govulncheck: " + err.Error())
			}
		}
		return nil
	})
}

// unlisted reports whether govulncheck failed because it could not get its list.
func unlisted(out []byte) bool {
	return strings.Contains(string(out), "fetching vulnerabilities")
}

//go:build !linux

package webdriver

import "os/exec"

// endWithParent has no equivalent outside Linux: there, only [Session.Close] stops a
// program.
func endWithParent(*exec.Cmd) {}

// endGroup has no equivalent either.
func endGroup(*exec.Cmd) {}

//go:build !linux

package webdriver

import "os/exec"

// endWithParent has no equal outside Linux: there, a program is only stopped by
// [Session.Close].
func endWithParent(*exec.Cmd) {}

// endGroup has no equal either.
func endGroup(*exec.Cmd) {}

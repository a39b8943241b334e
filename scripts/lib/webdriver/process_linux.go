package webdriver

import (
	"os/exec"
	"syscall"
)

// endWithParent has the kernel end the program should we be killed, as a test
// that runs out of time is, so that no browser outlives its test.
func endWithParent(cmd *exec.Cmd) {
	cmd.SysProcAttr = &syscall.SysProcAttr{Pdeathsig: syscall.SIGTERM}
}

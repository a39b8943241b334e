package webdriver

import (
	"os/exec"
	"syscall"
)

// endWithParent makes the kernel end the program if we are killed, as a test that runs
// out of time is, so that no browser outlives its test. The program leads a process group
// of its own, for [endGroup].
func endWithParent(cmd *exec.Cmd) {
	cmd.SysProcAttr = &syscall.SysProcAttr{Pdeathsig: syscall.SIGTERM, Setpgid: true}
}

// endGroup kills whatever a program that has ended left running.
func endGroup(cmd *exec.Cmd) {
	_ = syscall.Kill(-cmd.Process.Pid, syscall.SIGKILL) // fails if nothing is left
}

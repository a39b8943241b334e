package webdriver

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"syscall"
	"time"
)

// process is a program started for a session, with the end of its output.
type process struct {
	cmd  *exec.Cmd
	said tail
	done chan struct{} // closed when the program has ended
}

// launch starts a program with env added to our own environment. The files in extra
// become its descriptors 3, 4 and so on.
func launch(path string, args, env []string, extra ...*os.File) (*process, error) {
	p := &process{cmd: exec.Command(path, args...), done: make(chan struct{})}
	p.cmd.Env = append(os.Environ(), env...)
	p.cmd.Stdout, p.cmd.Stderr = &p.said, &p.said
	p.cmd.ExtraFiles = extra
	// A browser that inherits our pipes would otherwise keep Wait from returning.
	p.cmd.WaitDelay = time.Second
	endWithParent(p.cmd)
	if err := p.cmd.Start(); err != nil {
		return nil, fmt.Errorf("webdriver: %w", err)
	}
	go func() {
		_ = p.cmd.Wait() // its result is read from ProcessState
		close(p.done)
	}()
	return p, nil
}

// stop asks the program to end, and kills it if it does not. Asking matters: an X server
// that is killed leaves its lock file behind.
func (p *process) stop() error {
	defer endGroup(p.cmd)
	if p.cmd.Process.Signal(syscall.SIGTERM) == nil {
		select {
		case <-p.done:
			return nil
		case <-time.After(5 * time.Second):
		}
	}
	if err := p.cmd.Process.Kill(); err != nil && !errors.Is(err, os.ErrProcessDone) {
		return fmt.Errorf("webdriver: stop %s: %w", p, err)
	}
	<-p.done
	return nil
}

// blame adds to err what the program printed, and how it ended if it has.
func (p *process) blame(err error) error {
	state := "still running"
	select {
	case <-p.done:
		state = p.cmd.ProcessState.String()
	default:
	}
	return fmt.Errorf("%w\n%s (%s) printed:\n%s", err, p, state, p.said.String())
}

func (p *process) String() string { return filepath.Base(p.cmd.Path) }

// tail keeps the end of what is written to it, enough to explain a failure.
type tail struct {
	mu   sync.Mutex
	kept []byte
}

const tailSize = 8 << 10

func (t *tail) Write(b []byte) (int, error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.kept = append(t.kept, b...)
	if extra := len(t.kept) - tailSize; extra > 0 {
		t.kept = t.kept[extra:]
	}
	return len(b), nil
}

func (t *tail) String() string {
	t.mu.Lock()
	defer t.mu.Unlock()
	return string(t.kept)
}

package webdriver

import (
	"fmt"
	"time"
)

// Eval runs a script in the page and decodes its result into out, unless out is nil. The
// script is the body of a function: it returns the result, and finds args, which may
// contain an [Element], in arguments. If the result is a promise, Eval waits for it.
func (s *Session) Eval(script string, out any, args ...any) error {
	return s.execute("/execute/sync", script, out, args)
}

// EvalAsync is [Session.Eval] for a script that ends by calling its last argument with
// the result.
func (s *Session) EvalAsync(script string, out any, args ...any) error {
	return s.execute("/execute/async", script, out, args)
}

func (s *Session) execute(endpoint, script string, out any, args []any) error {
	if args == nil {
		args = []any{} // null is refused
	}
	return s.post(endpoint, map[string]any{"script": script, "args": args}, out)
}

// pollPause is the pause between two checks of Wait.
const pollPause = 25 * time.Millisecond

// Wait evaluates an expression, not a function body, repeatedly until it is truthy. An
// expression that throws counts as not yet true: a page that is still loading lacks what
// it names. If the time runs out, the error shows the last value of the expression. Any
// other error ends the wait at once.
func (s *Session) Wait(expr string, timeout time.Duration) error {
	script := `const v = (` + expr + `);
		return [Boolean(v), typeof v === "string" ? JSON.stringify(v) : String(v)];`
	last := "nothing"
	for deadline := time.Now().Add(timeout); ; time.Sleep(pollPause) {
		var got [2]any
		err := s.Eval(script, &got)
		switch {
		case err == nil && got[0] == true:
			return nil
		case err == nil:
			last = fmt.Sprint(got[1])
		case HasCode(err, "javascript error"):
			last = err.Error()
		default:
			return fmt.Errorf("waiting for %s: %w", expr, err)
		}
		if time.Now().After(deadline) {
			return fmt.Errorf("webdriver: waited %v for %s: last gave %s", timeout, expr, last)
		}
	}
}

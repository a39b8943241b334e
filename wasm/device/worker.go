//go:build js && wasm

package device

import (
	"syscall/js"

	"pivotbench/wasm/message"
)

// A Worker is a program of ours in a thread of its own.
type Worker struct{ worker js.Value }

// StartWorker starts a worker from its script. heard receives what it posts; failed is
// called if the script did not arrive or ended in an error. The error is ErrMissing where
// the browser has no workers, or refuses one.
func StartWorker(script string, heard func(message.Object), failed func()) (*Worker, error) {
	var w Worker
	if !Attempt(func() { w.worker = window.Get("Worker").New(script) }) {
		return nil, ErrMissing
	}
	w.worker.Set("onmessage", js.FuncOf(func(_ js.Value, args []js.Value) any {
		if o, _ := message.Posted(args[0]); o != nil {
			heard(o)
		}
		return nil
	}))
	w.worker.Set("onerror", js.FuncOf(func(_ js.Value, args []js.Value) any {
		args[0].Call("preventDefault")
		failed()
		return nil
	}))
	return &w, nil
}

// Post sends the worker a message, with a file, the memory of a picture, which is no
// longer ours then, or null.
func (w *Worker) Post(o message.Object, with js.Value) { message.Post(w.worker, o, with) }

// End ends the worker.
func (w *Worker) End() { w.worker.Call("terminate") }

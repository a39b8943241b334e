//go:build js && wasm

// Command film reads films in a worker of the page: it hears the page's messages, and
// answers each.
package main

import (
	"syscall/js"

	"pivotbench/wasm/message"
)

// A post is a message with what came along.
type post struct {
	message.Object
	with js.Value
}

func main() {
	page := js.Global()
	posts := make(chan post, 8) // the page waits for each answer, so one would do
	page.Set("onmessage", js.FuncOf(func(_ js.Value, args []js.Value) any {
		o, with := message.Posted(args[0])
		select {
		case posts <- post{o, with}:
		default:
		}
		return nil
	}))
	message.Post(page, message.Ready{}.Object(), js.Null())
	var r reading
	for p := range posts {
		if answer := r.hear(p); answer != nil {
			message.Post(page, answer.Object(), js.Null())
		}
	}
}

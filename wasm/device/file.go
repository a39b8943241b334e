//go:build js && wasm

package device

import "syscall/js"

// Save hands a text to the browser as a file to keep.
func Save(name, kind, text string) {
	blob := js.Global().Get("Blob").New([]any{text}, map[string]any{"type": kind})
	address := js.Global().Get("URL").Call("createObjectURL", blob)
	a := js.Global().Get("document").Call("createElement", "a")
	a.Set("href", address)
	a.Set("download", name)
	a.Call("click")
	js.Global().Get("URL").Call("revokeObjectURL", address)
}

// Open reads a file that was chosen, as text. took hears it; ok is false when it
// can't be read.
func Open(file js.Value, took func(text string, ok bool)) {
	Await(file.Call("text"), func(text js.Value) { took(text.String(), true) }, func(js.Value) { took("", false) })
}

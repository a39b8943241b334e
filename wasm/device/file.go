//go:build js && wasm

package device

import "syscall/js"

// Save offers a text to the user as a file to download.
func Save(name, kind, text string) {
	blob := js.Global().Get("Blob").New([]any{text}, map[string]any{"type": kind})
	address := js.Global().Get("URL").Call("createObjectURL", blob)
	a := js.Global().Get("document").Call("createElement", "a")
	a.Set("href", address)
	a.Set("download", name)
	a.Call("click")
	js.Global().Get("URL").Call("revokeObjectURL", address)
}

// Open reads a chosen file as text. took receives it; ok is false if it cannot be read.
func Open(file js.Value, took func(text string, ok bool)) {
	Await(file.Call("text"), func(text js.Value) { took(text.String(), true) }, func(js.Value) { took("", false) })
}

//go:build js && wasm

// Package message reads what other windows post, which may be anything.
package message

import "syscall/js"

// Type is the value's own Type, which panics at a BigInt: here that is as good
// as undefined.
func Type(v js.Value) (t js.Type) {
	defer func() {
		if recover() != nil {
			t = js.TypeUndefined
		}
	}()
	return v.Type()
}

//go:build js && wasm

package main

import (
	"io"
	"syscall/js"

	"pivotbench/wasm/device"
)

// A blob is a file that is read piece by piece, never as a whole.
type blob struct{ file, reader js.Value }

// blobOf returns a file and its size.
func blobOf(file js.Value) (blob, int64) {
	return blob{file, js.Global().Get("FileReaderSync").New()}, int64(file.Get("size").Float())
}

// bytes returns a part of the file as an ArrayBuffer. ok is false if the device does not
// let it be read, as for a file that has been moved.
func (b blob) bytes(at int64, size int) (buffer js.Value, ok bool) {
	ok = device.Attempt(func() { buffer = b.reader.Call("readAsArrayBuffer", b.file.Call("slice", at, at+int64(size))) })
	return buffer, ok
}

// ReadAt reads as an io.ReaderAt does.
func (b blob) ReadAt(p []byte, at int64) (n int, err error) {
	buffer, ok := b.bytes(at, len(p))
	if !ok {
		return 0, io.ErrUnexpectedEOF
	}
	if n = js.CopyBytesToGo(p, js.Global().Get("Uint8Array").New(buffer)); n < len(p) {
		err = io.EOF
	}
	return n, err
}

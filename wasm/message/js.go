//go:build js && wasm

package message

import "syscall/js"

// Tell delivers a message to another window of ours before it returns: what a finger does
// then shows in the next frame, for which a posted message would be too late. A frame
// that failed to load belongs to the browser and receives nothing. Even naming a property
// of such a window throws in a way that Go cannot recover from, so a function of our own
// window dispatches the event.
func Tell(window js.Value, o Object) {
	defer func() { _ = recover() }()
	event := js.Global().Get("MessageEvent").New("message", map[string]any{
		"data": map[string]any(o), "origin": js.Global().Get("origin"), "source": js.Global().Get("window"),
	})
	js.Global().Get("EventTarget").Get("prototype").Get("dispatchEvent").Call("call", window, event)
}

// Heard returns the object that a message event carries, if it came from the given window
// and from a page of this site. Other windows and the browser's tools post messages too.
func Heard(event, window js.Value) (o Object, ok bool) {
	if !event.Get("source").Equal(window) || !event.Get("origin").Equal(js.Global().Get("origin")) {
		return nil, false
	}
	o, ok = plain(event.Get("data"), deepest, longest).(Object)
	return o, ok
}

// Post sends a message to a worker, or from one to its page. A file or the memory of a
// picture may go along; null if there is none. Memory is no longer the sender's then.
func Post(to js.Value, o Object, with js.Value) {
	if !with.Truthy() {
		to.Call("postMessage", map[string]any(o))
		return
	}
	moved := []any{}
	if with.InstanceOf(js.Global().Get("ArrayBuffer")) {
		moved = append(moved, with)
	}
	to.Call("postMessage", map[string]any{"object": map[string]any(o), "with": with}, moved)
}

// Posted returns what Post sent, from a message event of our own worker, or in it.
func Posted(event js.Value) (o Object, with js.Value) {
	data := event.Get("data")
	if kind(data) != js.TypeObject {
		return nil, js.Null()
	}
	if with = data.Get("with"); with.Truthy() {
		data = data.Get("object")
	}
	o, _ = plain(data, deepest, longestPosted).(Object)
	return o, with
}

// Limits of what is read: more than our own windows ever send, and so little that junk
// does no harm.
const (
	longest       = 16 << 10 // characters of a text
	longestPosted = 1 << 20  // characters of a text from our worker
	widest        = 16       // properties of an object
	deepest       = 2        // objects within the message's own
)

// plain returns a JavaScript value as a Go value: an Object, string, float64 or bool, or
// nil for anything else and for whatever exceeds the limits. longest limits texts.
func plain(v js.Value, deep, longest int) any {
	switch kind(v) {
	case js.TypeString:
		if js.Global().Get("Object").Invoke(v).Length() <= longest {
			return v.String()
		}
	case js.TypeNumber:
		return v.Float()
	case js.TypeBoolean:
		return v.Bool()
	case js.TypeObject:
		keys := js.Global().Get("Object").Call("keys", v)
		if deep < 0 || keys.Length() > widest {
			return nil
		}
		o := Object{}
		for i := range keys.Length() {
			if name, ok := plain(keys.Index(i), 0, longest).(string); ok {
				o[name] = plain(v.Get(name), deep-1, longest)
			}
		}
		return o
	}
	return nil
}

// kind returns the value's Type. Type panics for a BigInt, which is treated as undefined.
func kind(v js.Value) (t js.Type) {
	defer func() {
		if recover() != nil {
			t = js.TypeUndefined
		}
	}()
	return v.Type()
}

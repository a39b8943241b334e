//go:build js && wasm

package message

import "syscall/js"

// Tell has our own other window hear a message before Tell returns: what a
// finger does is then in the frame that follows, where a posted message would
// come too late for it. A frame that failed to load is the browser's own and
// hears nothing. Even naming a property of such a window throws, where nothing
// brings the error back, so our own window's function dispatches the event.
func Tell(window js.Value, o Object) {
	defer func() { _ = recover() }()
	event := js.Global().Get("MessageEvent").New("message", map[string]any{
		"data": map[string]any(o), "origin": js.Global().Get("origin"), "source": js.Global().Get("window"),
	})
	js.Global().Get("EventTarget").Get("prototype").Get("dispatchEvent").Call("call", window, event)
}

// Heard returns what a message event carries, if it is an object that came from
// the given window and from a page of this very site in it. Other windows and
// the browser's tools post messages too.
func Heard(event, window js.Value) (o Object, ok bool) {
	if !event.Get("source").Equal(window) || !event.Get("origin").Equal(js.Global().Get("origin")) {
		return nil, false
	}
	o, ok = plain(event.Get("data"), deepest).(Object)
	return o, ok
}

// The limits of what is read: more than our own windows ever say, and little
// enough that junk does no harm.
const (
	longest = 16 << 10 // characters of a text
	widest  = 16       // properties of an object
	deepest = 2        // objects within the message's own
)

// plain returns a JavaScript value as a Go value: an Object, string, float64 or
// bool, or nil for anything else and for whatever is over the limits.
func plain(v js.Value, deep int) any {
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
			if name, ok := plain(keys.Index(i), 0).(string); ok {
				o[name] = plain(v.Get(name), deep-1)
			}
		}
		return o
	}
	return nil
}

// kind returns the value's Type, which panics at a BigInt: that is as good as
// undefined here.
func kind(v js.Value) (t js.Type) {
	defer func() {
		if recover() != nil {
			t = js.TypeUndefined
		}
	}()
	return v.Type()
}

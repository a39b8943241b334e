//go:build js && wasm

package main

import (
	"strings"
	"syscall/js"
	"time"
)

// rest is how long what is said aloud has to hold. A drag changes it at every
// pixel, and is told of once, when it is over.
const rest = 500 * time.Millisecond

// A voice says aloud, politely, what [data-aloud] elements of the open section
// have come to.
type voice struct {
	*page
	section string            // whose words were said last
	said    map[string]string // by the element's id
	timer   *time.Timer
}

// listen waits for changes of those elements, whoever makes them.
func (v *voice) listen() {
	v.said = map[string]string{}
	v.timer = time.AfterFunc(rest, v.speak)
	watch := js.Global().Get("MutationObserver").New(js.FuncOf(func(js.Value, []js.Value) any {
		v.timer.Reset(rest)
		return nil
	}))
	watch.Call("observe", root, map[string]any{"attributes": true, "attributeFilter": []any{"data-section"}})
	each("[data-aloud]", func(el js.Value) {
		watch.Call("observe", el, map[string]any{"childList": true, "characterData": true, "subtree": true})
	})
}

// speak says what has changed, in the page's order. What a section says as it
// is opened is there to be read, and not news.
func (v *voice) speak() {
	if v.model.Scene != v.model.Settled { // in the middle of a gesture
		v.timer.Reset(rest)
		return
	}
	opened := v.section != v.page.section
	v.section = v.page.section
	var news []string
	each("[data-aloud]", func(el js.Value) {
		id, words := el.Get("id").String(), strings.Join(strings.Fields(el.Get("textContent").String()), " ")
		if v.said[id] == words {
			return
		}
		v.said[id] = words
		if words != "" && el.Get("offsetParent").Truthy() {
			news = append(news, words)
		}
	})
	if !opened && len(news) > 0 {
		set(byID("spoken"), "textContent", strings.Join(news, ". "))
	}
}

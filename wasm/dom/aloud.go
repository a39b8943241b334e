//go:build js && wasm

package dom

import (
	"strings"
	"syscall/js"
	"time"
)

// rest is how long what is said aloud has to hold. A drag changes it at every
// pixel, and is told of once, when it is over.
const rest = 500 * time.Millisecond

// A voice says aloud, politely, what the [data-aloud] elements in sight have
// changed to.
type voice struct {
	busy    func() bool
	section string            // whose words were said last
	said    map[string]string // by the element's id
	timer   *time.Timer
}

// SpeakChanges has changes of [data-aloud] elements said aloud, whoever makes
// them, but for those made while the page is busy.
func SpeakChanges(busy func() bool) {
	v := &voice{busy: busy, section: "none yet", said: map[string]string{}}
	v.timer = time.AfterFunc(rest, v.speak)
	watch := js.Global().Get("MutationObserver").New(js.FuncOf(func(js.Value, []js.Value) any {
		v.timer.Reset(rest)
		return nil
	}))
	watch.Call("observe", Root, map[string]any{"attributes": true, "attributeFilter": []any{"data-section"}})
	Each("[data-aloud]", func(el js.Value) {
		watch.Call("observe", el, map[string]any{"childList": true, "characterData": true, "subtree": true})
	})
}

// speak says what has changed, in the page's order. What a section says as it
// opens is there to be read, and not news.
func (v *voice) speak() {
	if v.busy() {
		v.timer.Reset(rest)
		return
	}
	section := Data(Root, "section")
	opened := v.section != section
	v.section = section
	var news []string
	Each("[data-aloud]", func(el js.Value) {
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
		Say("spoken", strings.Join(news, ". "))
	}
}

//go:build js && wasm

package dom

import (
	"strings"
	"syscall/js"
	"time"
)

// rest is how long a spoken text has to stay unchanged. A drag changes it at every pixel,
// and it is spoken once, when the drag ends.
const rest = 500 * time.Millisecond

// A voice speaks, politely, what the visible [data-aloud] elements have changed to.
type voice struct {
	busy    func() bool
	section string            // the section of the texts last spoken
	said    map[string]string // by id of the element
	timer   *time.Timer
}

// SpeakChanges speaks changes of [data-aloud] elements, whatever makes them, except while
// the page is busy.
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

// speak speaks what has changed, in the order of the page. The texts of a section that
// has just opened are not changes; they are there to be read.
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

//go:build js && wasm

package section

import (
	"strings"
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// Records is the foot of the sections that keep records: saving to files, opening files,
// and the records that an import replaced.
type Records struct {
	Unread func() string // what could not be read of the device's records
	shown  view.RecordsFoot
}

// Listen handles its buttons and its file fields.
func (r *Records) Listen(h Host) {
	dom.On("export", func(js.Value) {
		device.Save("pivotbench.json", "application/json", h.Model().Kept.Encode())
	})
	dom.On("export-unread", func(js.Value) {
		device.Save("pivotbench-unread.txt", "text/plain;charset=utf-8", r.Unread())
	})
	for action, e := range map[string]app.Event{
		"import-add": app.AddImport{}, "import-replace": app.ReplaceByImport{}, "import-drop": app.DropImport{},
		"aside-back": app.BringBack{}, "aside-drop": app.LetGo{},
	} {
		dom.On(action, func(js.Value) { imported(h, e) })
	}
	dom.Each(`input[data-file="records"]`, func(input js.Value) {
		dom.Listen(input, "change", func(js.Value) { takeFile(h, input) })
	})
}

// takeFile reads a file and asks what to do with it.
func takeFile(h Host, input js.Value) {
	file := input.Get("files").Index(0)
	if m := h.Model(); !file.Truthy() || m.InExample() { // its fields are hidden there
		return
	}
	if err := store.CheckSize(file.Get("size").Int()); err != nil {
		refuseFile(h, err)
		return
	}
	name := file.Get("name").String()
	device.Open(file, func(text string, ok bool) {
		if !ok {
			h.Say(view.FileUnreadable)
			return
		}
		if made, is, err := store.DecodeLesson(text); is {
			if err != nil {
				refuseFile(h, err)
				return
			}
			h.Do(app.OpenSection{Name: "lessons"})
			h.Do(app.KeepLesson{Lesson: made})
			toLesson()
			return
		}
		records, err := store.Decode(text)
		if err != nil {
			refuseFile(h, err)
			return
		}
		imported(h, app.OfferImport{Name: name, Log: records.V == 0, Kept: records})
	})
	input.Set("value", "")
}

func refuseFile(h Host, err error) {
	h.Do(app.Tell{Notices: strings.Split(view.NothingImported+"\n"+err.Error(), "\n")})
}

// imported performs the choice about a file, and says what the device has then.
func imported(h Host, e app.Event) {
	before := h.Model().Changes
	h.Do(e)
	if m := h.Model(); m.Changes > before {
		h.Say(view.ImportedWords(&m.Kept))
	}
}

// Show writes the foot in every section that has it.
func (r *Records) Show(m app.Model) {
	now := view.RecordsFootOf(&m)
	if now == r.shown {
		return
	}
	r.shown = now
	dom.Each(".kept", func(el js.Value) { dom.Set(el, "textContent", now.Kept) })
	dom.Each(`[data-do="export-unread"]`, func(el js.Value) { el.Set("hidden", !now.Unread) })
	for selector, words := range map[string]string{"[data-import]": now.Import, "[data-aside]": now.Aside} {
		dom.Each(selector, func(el js.Value) {
			el.Set("hidden", words == "")
			dom.Set(el.Call("querySelector", "p"), "textContent", words)
		})
	}
}

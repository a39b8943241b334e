//go:build js && wasm

package main

import (
	"strings"
	"syscall/js"
	"time"

	"pivotbench/core/lesson"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/kept"
	"pivotbench/wasm/show"
)

// keptKey is where records are kept on the device, asideKey where those are that
// an import replaced, and unreadKey where what could not be read is set aside,
// for whoever can mend it.
const (
	keptKey   = "pivotbench-kept"
	asideKey  = "pivotbench-kept-aside"
	unreadKey = "pivotbench-kept-unread"
)

// A keeper is how the page stands with the device's storage.
type keeper struct {
	changes int          // of the records, as far as the device has them
	held    string       // what the device has, as last read or written
	has     kept.Records // the same
	base    kept.Records // what other tabs are sure to have seen
	since   time.Time    // when records were last changed here
	unread  string       // what could not be read, and the device had no room for aside
	locked  bool         // it has what can't be read, and nothing may be written over that
	refused bool         // it did not take the last change
	aside   bool         // it has records that an import replaced
	asked   bool         // to keep them when space runs short
}

// loadKept brings records back from the device.
func (p *page) loadKept() {
	var restored app.Restore
	if text := stored(device, asideKey); text != "" {
		aside, lost, _ := kept.Restore(text)
		restored.Aside, restored.HasAside = aside, lost != text
		p.aside = restored.HasAside
	}
	p.held = stored(device, keptKey)
	var notices []string
	if p.held != "" {
		var lost string
		var err error
		restored.Kept, lost, err = kept.Restore(p.held)
		if err != nil {
			notices = p.setAside(lost, err)
		}
	}
	p.has, p.base = restored.Kept, restored.Kept
	p.model = app.Update(p.model, restored)
	p.model.Notices = append(p.model.Notices, notices...)
}

// setAside keeps what can't be read apart, so that it is not lost when the rest
// is written, and tells of it.
func (p *page) setAside(lost string, err error) []string {
	where := "It is set aside on this device"
	if aside := stored(device, unreadKey); !strings.Contains(aside, lost) && !store(device, unreadKey, aside+lost+"\n") {
		p.unread, p.locked = lost, true
		where = "There is no room to set it aside, so nothing is kept here over it"
	}
	return strings.Split("Some of what this device keeps can't be read. "+where+
		": “Export what can't be read” under Cues gives it to you as a file.\n"+err.Error(), "\n")
}

// settled is how long after a change every other tab is sure to have seen it.
const settled = 3 * time.Second

// catchUp takes what another tab has kept meanwhile, with what was changed here
// that it may not have seen. A newer version of the bench may keep more than this
// one can read: that stays as it is.
func (p *page) catchUp() {
	text := stored(device, keptKey)
	if text == "" || text == p.held {
		return
	}
	records, lost, err := kept.Restore(text)
	if lost == text {
		p.locked = true
		p.do(app.Tell{Notices: []string{"Another tab keeps what this one can't read, and this one keeps nothing over it: load the page again. (" + err.Error() + ".)"}})
		return
	}
	base := p.base
	p.held, p.has, p.base = text, records, records
	p.do(app.Elsewhere{Base: base, Kept: records})
}

// listenKept follows what another tab keeps, and files chosen to be imported.
func (p *page) listenKept() {
	p.actions["export"] = func(js.Value) { save("pivotbench.json", "application/json", p.model.Kept.Encode()) }
	p.actions["export-unread"] = func(js.Value) {
		save("pivotbench-unread.txt", "text/plain;charset=utf-8", stored(device, unreadKey)+p.unread)
	}
	each(`[data-do="export-unread"]`, func(el js.Value) { el.Set("hidden", stored(device, unreadKey)+p.unread == "") })
	for action, e := range map[string]app.Event{
		"import-add": app.AddImport{}, "import-replace": app.ReplaceByImport{}, "import-drop": app.DropImport{},
		"aside-back": app.BringBack{}, "aside-drop": app.LetGo{},
	} {
		p.actions[action] = func(js.Value) { p.imported(e) }
	}
	// A page that slept was told nothing.
	dom.Listen(window, "storage", func(js.Value) { p.catchUp() })
	dom.Listen(window, "pageshow", func(js.Value) { p.catchUp() })
	dom.Listen(document, "visibilitychange", func(js.Value) {
		if !document.Get("hidden").Bool() {
			p.catchUp()
		}
	})
	each(`input[data-file="records"]`, func(input js.Value) { dom.Listen(input, "change", p.takeFile) })
}

// takeFile reads a file, and asks what to do with it.
func (p *page) takeFile(e js.Value) {
	input := e.Get("target")
	file := input.Get("files").Index(0)
	if !file.Truthy() {
		return
	}
	if err := kept.CheckSize(file.Get("size").Int()); err != nil {
		p.refuseFile(err)
		return
	}
	name := file.Get("name").String()
	settle(file.Call("text"), func(text js.Value) {
		if made, ok, err := kept.DecodeLesson(text.String()); ok {
			p.takeLesson(made, err)
			return
		}
		records, err := kept.Decode(text.String())
		if err != nil {
			p.refuseFile(err)
			return
		}
		p.importing = importing{}
		p.imported(app.OfferImport{Name: name, Log: records.V == 0, Kept: records})
	}, func(js.Value) { say("the file can't be read") })
	input.Set("value", "")
}

// imported takes what is done with a file, and says what came of it.
func (p *page) imported(e app.Event) {
	before := p.model.Changes
	p.do(e)
	if p.model.Changes > before {
		say("this device has " + show.Count(&p.model.Kept) + " now; Undo takes it back")
	}
}

func (p *page) refuseFile(err error) {
	p.do(app.Tell{Notices: strings.Split("Nothing was imported.\n"+err.Error(), "\n")})
}

// takeLesson puts an imported lesson on the list.
func (p *page) takeLesson(made lesson.Lesson, err error) {
	if err != nil {
		p.refuseFile(err)
		return
	}
	p.open("lessons")
	p.teaching.teach(app.KeepLesson{Lesson: made})
}

// renderImport asks what to do with a file, and tells of records that an import
// replaced.
func (p *page) renderImport() {
	now := importing{p.model.Import.On, p.model.Import.Name, p.model.HasAside, p.model.Changes}
	if now == p.importing {
		return
	}
	p.importing = now
	offer, aside := show.ImportWords(&p.model.Import, &p.model.Kept), show.AsideWords(&p.model.Aside)
	each("[data-import]", func(el js.Value) {
		el.Set("hidden", !now.on)
		set(el.Call("querySelector", "p"), "textContent", offer)
	})
	each("[data-aside]", func(el js.Value) {
		el.Set("hidden", !now.aside)
		set(el.Call("querySelector", "p"), "textContent", aside)
	})
}

// importing is what renderImport writes.
type importing struct {
	on      bool
	name    string
	aside   bool
	changes int
}

// storeKept keeps records on the device whenever they have changed.
func (p *page) storeKept() {
	if p.aside != p.model.HasAside {
		text := ""
		if p.model.HasAside {
			text = p.model.Aside.Encode()
		}
		if store(device, asideKey, text) {
			p.aside = p.model.HasAside
		}
	}
	if p.changes == p.model.Changes {
		return
	}
	p.changes = p.model.Changes
	words, text, before := "Tries, cues, readings, tables and lessons are kept on this device as they are made.", p.model.Kept.Encode(), p.refused
	if time.Since(p.since) > settled {
		p.base = p.has
	}
	p.since = time.Now()
	p.refused = text != p.held && (p.locked || kept.CheckSize(len(text)) != nil || !store(device, keptKey, text))
	if p.refused {
		words = "This device refused to keep this: export it before you leave."
	} else {
		p.held, p.has = text, p.model.Kept
		p.askToKeep()
	}
	if p.refused && !before { // said aloud once, and written below for as long as it holds
		p.model.Notices = append(p.model.Notices, words)
		p.renderNotices()
	}
	each(".kept", func(el js.Value) { set(el, "textContent", words) })
}

// askAfter is how long after the first record the browser is asked: what was noted
// is said first.
const askAfter = 2 * time.Second

// askToKeep has the browser asked, once there are records, to keep them when
// space runs short. Some browsers ask their user in turn.
func (p *page) askToKeep() {
	if p.asked {
		return
	}
	p.asked = true
	time.AfterFunc(askAfter, func() {
		say("So that your records stay when space runs short, the browser is asked to keep them: if it asks you, allow it")
		document.Call("dispatchEvent", js.Global().Get("CustomEvent").New("keep-files"))
	})
}

//go:build js && wasm

package main

import (
	"strings"
	"syscall/js"
	"time"

	"pivotbench/core/lesson"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
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
	shared  store.Shared // what the device has, as last read or written
	unread  string       // what could not be read, and the device had no room for aside
	locked  bool         // it has what can't be read, and nothing may be written over that
	refused bool         // it did not take the last change
	aside   string       // the records set aside there, as last read or written
	asked   bool         // to keep them when space runs short
}

// loadKept brings records back from the device.
func (p *page) loadKept() {
	var restored app.Restore
	if p.aside = local.read(asideKey); p.aside != "" {
		aside, lost, _ := store.Restore(p.aside)
		restored.Aside, restored.HasAside = aside, lost != p.aside
	}
	p.shared = store.NewShared()
	var notices []string
	if text := local.read(keptKey); text != "" {
		_, now, lost, err := p.shared.Read(text)
		if err != nil {
			notices = p.setAside(lost, err)
		}
		restored.Kept = now
	}
	p.model = app.Update(p.model, restored)
	p.model.Notices = append(p.model.Notices, notices...)
}

// setAside keeps what can't be read apart, so that it is not lost when the rest
// is written, and tells of it.
func (p *page) setAside(lost string, err error) []string {
	where := "It is set aside on this device"
	if aside := local.read(unreadKey); !strings.Contains(aside, lost) && !local.write(unreadKey, aside+lost+"\n") {
		p.unread, p.locked = lost, true
		where = "There is no room to set it aside, so nothing is kept here over it"
	}
	return strings.Split("Some of what this device keeps can't be read. "+where+
		": “Export what can't be read” under Cues gives it to you as a file.\n"+err.Error(), "\n")
}

// showUnread offers what could not be read, if there is any.
func (p *page) showUnread() {
	each(`[data-do="export-unread"]`, func(el js.Value) { el.Set("hidden", local.read(unreadKey)+p.unread == "") })
}

// elsewhere is what to do about what another tab has kept meanwhile; nil:
// nothing. A newer version of the bench may keep more than this one can read: that
// stays as it is.
func (p *page) elsewhere() app.Event {
	text := local.read(keptKey)
	if text == "" || p.shared.Has(text) || p.locked {
		return nil
	}
	base, now, lost, err := p.shared.Read(text)
	if lost == text {
		p.locked = true
		return app.Tell{Notices: []string{"Another tab keeps what this one can't read, and this one keeps nothing over it: load the page again. (" + err.Error() + ".)"}}
	}
	e := app.Elsewhere{Base: base, Kept: now}
	if err != nil {
		e.Notices = p.setAside(lost, err)
		p.showUnread()
	}
	return e
}

// catchUp takes what another tab has kept meanwhile.
func (p *page) catchUp() {
	if e := p.elsewhere(); e != nil {
		p.do(e)
	}
}

// listenKept follows what another tab keeps, and files chosen to be imported.
func (p *page) listenKept() {
	p.actions["export"] = func(js.Value) { save("pivotbench.json", "application/json", p.model.Kept.Encode()) }
	p.actions["export-unread"] = func(js.Value) {
		save("pivotbench-unread.txt", "text/plain;charset=utf-8", local.read(unreadKey)+p.unread)
	}
	p.showUnread()
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
	if err := store.CheckSize(file.Get("size").Int()); err != nil {
		p.refuseFile(err)
		return
	}
	name := file.Get("name").String()
	settle(file.Call("text"), func(text js.Value) {
		if made, ok, err := store.DecodeLesson(text.String()); ok {
			p.takeLesson(made, err)
			return
		}
		records, err := store.Decode(text.String())
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
		say("this device has " + view.Count(&p.model.Kept) + " now; Undo takes it back")
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
	offer, aside := view.ImportWords(&p.model.Import, &p.model.Kept), view.AsideWords(&p.model.Aside)
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

// storeKept keeps records on the device whenever they have changed, on top of what
// another tab has kept meanwhile.
func (p *page) storeKept() {
	if p.changes == p.model.Changes {
		return
	}
	p.storeAside()
	if e := p.elsewhere(); e != nil {
		p.model = app.Update(p.model, e)
	}
	p.changes = p.model.Changes
	words, before := "Tries, cues, readings, tables and lessons are kept on this device as they are made.", p.refused
	if p.refused = !p.write(); p.refused {
		words = "This device refused to keep this: export it before you leave."
	}
	if p.refused && !before { // said aloud once, and written below for as long as it holds
		p.model.Notices = append(p.model.Notices, words)
	}
	each(".kept", func(el js.Value) { set(el, "textContent", words) })
}

// storeAside keeps what an import replaced, along with what another tab has set
// aside meanwhile.
func (p *page) storeAside() {
	if there := local.read(asideKey); there != "" && there != p.aside {
		if other, lost, _ := store.Restore(there); lost != there {
			p.model = app.Update(p.model, app.PutAside{Kept: other})
		}
	}
	text := ""
	if p.model.HasAside {
		text = p.model.Aside.Encode()
	}
	if text == p.aside {
		return
	}
	if local.write(asideKey, text) {
		p.aside = text
	} else {
		p.model.Notices = append(p.model.Notices, "This device has no room to keep what the import replaced. Bring it back, or export it, before you leave.")
	}
}

// write writes the records where they are not what the device has, and reports
// whether it has them now.
func (p *page) write() bool {
	if p.shared.Holds(p.model.Kept) {
		return true
	}
	text, ok := p.shared.Text(p.model.Kept)
	if p.locked || !ok || !local.write(keptKey, text) {
		return false
	}
	p.shared.Wrote(text, p.model.Kept)
	p.askToKeep()
	return true
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

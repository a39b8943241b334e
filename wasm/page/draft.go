//go:build js && wasm

package main

import (
	"strconv"
	"strings"
	"syscall/js"

	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
)

// A draft is what stands in a field and is not done: the model does not know it.
// The page keeps drafts with the visit and puts them back itself. The browser's
// own way of doing so is switched off in every template, since it knows no units
// and does not know that a text was put there before. Fields and menus that the
// model knows are marked data-known.
const draftFields = `.panel input:not([type="range"], [type="file"], [type="checkbox"], [data-known]), .panel textarea, .panel select:not([data-known])`

// caption begins the names of the caption fields of an open lesson.
const caption = "caption "

// drafts returns the fields that hold a draft. A field that the model takes when it is
// left (a mark on the rail, a caption) holds one while it has the focus, and the field of
// a control while its text is refused.
func (p *page) drafts() []app.Field {
	var out []app.Field
	focus := dom.Document.Get("activeElement")
	dom.Each(draftFields, func(el js.Value) {
		name := el.Get("id").String()
		menu := el.Get("localName").String() == "select"
		ofForm := !el.Call("closest", "#cue-form, #player-form").IsNull()
		if draft, is := p.controls.Draft(el); is {
			if !draft {
				return
			}
		} else if dom.Data(el, "edit") != "" || dom.Data(el, "mark") != "" {
			if !focus.Equal(el) || menu {
				return
			}
			if name == "" {
				name = caption + strconv.Itoa(dom.Index(el))
			}
		} else if !ofForm && (menu && el.Get("selectedIndex").Int() <= 0 || !menu && el.Get("value").Equal(el.Get("defaultValue"))) {
			return
		}
		if name != "" {
			out = append(out, app.Field{Name: name, Text: el.Get("value").String()})
		}
	})
	return out
}

// inUnits is a section whose fields hold lengths.
type inUnits interface {
	Units() string
	Relabel(units string)
}

// units returns the section whose fields hold lengths.
func (p *page) units() inUnits { return p.sections["instruments"].(inUnits) }

// restore puts the drafts of a visit back into their fields, in the units in which they
// were typed. It drops a draft whose field no longer exists.
func (p *page) restore(visit app.Visit) {
	p.sections["cues"].Show(p.model)
	p.sections["players"].Show(p.model)
	p.sections["lessons"].Show(p.model)
	if visit.Units != "" {
		p.units().Relabel(visit.Units)
	}
	for _, f := range visit.Fields {
		el := dom.ByID(f.Name)
		if i, found := strings.CutPrefix(f.Name, caption); found {
			el = dom.Find(`[data-edit="lesson-caption"][data-index="` + digits(i) + `"]`)
		}
		if !el.Truthy() || !el.Call("matches", draftFields).Bool() {
			continue
		}
		before := el.Get("value")
		el.Set("value", f.Text)
		if el.Get("value").String() == "" && f.Text != "" {
			el.Set("value", before) // the menu no longer has that choice
			continue
		}
		if _, is := p.controls.Draft(el); is {
			p.controls.Restored(el)
		} else if dom.Data(el, "edit") != "" || dom.Data(el, "mark") != "" || el.Get("localName").String() == "select" {
			el.Call("dispatchEvent", js.Global().Get("Event").New("change", map[string]any{"bubbles": true}))
		}
	}
}

// digits returns a text as a number that may stand in a selector.
func digits(text string) string {
	n, err := strconv.Atoi(text)
	if err != nil {
		return ""
	}
	return strconv.Itoa(n)
}

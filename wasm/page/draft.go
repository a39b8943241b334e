//go:build js && wasm

package main

import (
	"strconv"
	"strings"
	"syscall/js"

	"pivotbench/wasm/app"
)

// A draft is what stands in a field and is not done: the model does not know it.
// The page keeps drafts with the visit and puts them back itself. The browser's
// own way of doing so is switched off in every template, since it knows no units
// and does not know that a text was put there before.
const draftFields = `.panel input:not([type="range"], [type="file"], [type="checkbox"]), .panel textarea, .panel select`

// caption begins the names of the fields of an open lesson's captions.
const caption = "caption "

// drafts are the fields that hold one. A field that the model takes when it is
// left (a mark on the rail, a caption) holds a draft while it has the focus, and
// that of a control while its text can't be read.
func (p *page) drafts() []app.Field {
	var out []app.Field
	focus := document.Get("activeElement")
	each(draftFields, func(el js.Value) {
		data, name := el.Get("dataset"), el.Get("id").String()
		row := el.Get("row")
		switch {
		case !row.IsUndefined():
			if c := p.controls[row.Int()]; !c.typing && !c.wrong || p.typed(c) {
				return
			}
		case data.Get("edit").Truthy() || data.Get("mark").Truthy():
			if !focus.Equal(el) || el.Get("localName").String() == "select" {
				return
			}
			if name == "" {
				name = caption + strconv.Itoa(index(el))
			}
		case el.Get("localName").String() == "select":
			if el.Get("selectedIndex").Int() <= 0 && el.Call("closest", "#cue-form").IsNull() {
				return
			}
		case el.Get("value").Equal(el.Get("defaultValue")) && el.Call("closest", "#cue-form").IsNull():
			return
		}
		if name != "" && name != "theme" {
			out = append(out, app.Field{Name: name, Text: el.Get("value").String()})
		}
	})
	return out
}

// restore puts the drafts of a visit back into their fields, in the units they
// were typed in. One whose field is no longer there is let go of.
func (p *page) restore(visit app.Visit) {
	p.sections["cues"].render(nil)
	p.sections["lessons"].render(nil)
	if visit.Units != "" {
		p.gauges.relabel(visit.Units)
	}
	for _, f := range visit.Fields {
		el := byID(f.Name)
		if i, found := strings.CutPrefix(f.Name, caption); found {
			el = document.Call("querySelector", `[data-edit="lesson-caption"][data-index="`+digits(i)+`"]`)
		}
		if !el.Truthy() || !el.Call("matches", draftFields).Bool() {
			continue
		}
		before := el.Get("value")
		el.Set("value", f.Text)
		if el.Get("value").String() == "" && f.Text != "" {
			el.Set("value", before) // that choice is no longer on offer
			continue
		}
		switch data, row := el.Get("dataset"), el.Get("row"); {
		case !row.IsUndefined():
			c := p.controls[row.Int()]
			c.wrong, c.held = true, c.key.Value(&p.model.Scene)
		case data.Get("edit").Truthy() || data.Get("mark").Truthy() || el.Get("localName").String() == "select":
			el.Call("dispatchEvent", js.Global().Get("Event").New("change", map[string]any{"bubbles": true}))
		}
	}
}

// digits keeps of a text what may stand in a selector as a number.
func digits(text string) string {
	n, err := strconv.Atoi(text)
	if err != nil {
		return ""
	}
	return strconv.Itoa(n)
}

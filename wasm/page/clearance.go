//go:build js && wasm

package main

import (
	"slices"
	"syscall/js"

	"pivotbench/core/gear"
	"pivotbench/core/hop"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/pointer"
	"pivotbench/wasm/sheet"
	"pivotbench/wasm/view"
)

// clearing is the Clearance section: hops over part of a ball.
type clearing struct {
	*page
	layer   *pointer.Layer
	columns []hop.Column
	mapped  mapped // what the columns are for
	known   view.Contacts
	knownOf contactsOf
	seen    []view.SeenRow // on the list
	shown   *sheet.HopMap
	scale   float64     // how many times larger the map is shown than drawn
	held    sheet.Point // where the ring was when it was taken
	pulling bool        // the ring is, or was until the finger was lifted
}

// A mapped is what a map is the same for: the shot but for its stroke.
type mapped struct {
	scene   scenario.Scenario
	fastest unit.Speed
	ratios  stat.Interval[float64]
}

// A contactsOf is what contact times are the same for.
type contactsOf struct {
	ball    gear.Ball
	cue     gear.Cue
	cloth   gear.Cloth
	changes int // of what is kept
}

func (c *clearing) listen() {
	c.actions["caution-read"] = func(js.Value) {
		tab.write(cautionKey, "read")
		c.renderCaution()
	}
	c.actions["hop-speed"] = func(js.Value) { c.least(view.SlowestHop) }
	c.actions["hop-elev"] = func(js.Value) { c.least(view.FlattestHop) }
	c.actions["note-hop"] = func(el js.Value) { c.note(el.Get("dataset").Get("saw").String()) }
	c.actions["drop-hop"] = func(el js.Value) { c.do(app.DropHop{Hop: entry(c.model.Kept.Hops, el)}) }
	box := byID("hop-map")
	c.layer = pointer.New(box, c.pulled)
	dom.Listen(box, "pointerdown", func(js.Value) { c.pulling = false })
	dom.Listen(box, "click", func(e js.Value) {
		if c.shown == nil || c.pulling || !e.Get("target").Get("dataset").Get("handle").IsUndefined() {
			return
		}
		r := box.Call("getBoundingClientRect")
		at := sheet.Point{X: (e.Get("clientX").Float() - r.Get("left").Float()) / c.scale, Y: (e.Get("clientY").Float() - r.Get("top").Float()) / c.scale}
		c.strike(at, app.DragStart)
		c.strike(at, app.DragEnd)
	})
}

// least takes the lowest stroke that clears, or says why there is none.
func (c *clearing) least(find func(*scenario.Scenario, *view.Contacts) (app.Setting, error)) {
	set, err := find(&c.model.Scene, c.contacts())
	if err != nil {
		c.do(app.Tell{Notices: []string{"No stroke to set: " + err.Error()}})
		return
	}
	c.do(app.Set{Key: set.Key, Text: set.Text})
	c.settle()
}

// pulled moves the stroke with the ring on the map.
func (c *clearing) pulled(r pointer.Report) {
	c.pulling = true // the click that ends it is no tap
	if r.Phase == app.DragStart {
		c.held = c.shown.At(c.model.Scene.Elev, c.model.Scene.Speed)
	}
	c.strike(sheet.Point{X: c.held.X + r.DX/c.scale, Y: c.held.Y + r.DY/c.scale}, r.Phase)
}

func (c *clearing) strike(at sheet.Point, phase app.Phase) {
	c.drag(app.Drag{Sets: c.shown.Strike(at), Phase: phase})
	c.renderMap()
}

// contacts are how long tip and bed may be in touch in this shot.
func (c *clearing) contacts() *view.Contacts {
	sh := c.model.Scene.Shot()
	if of := (contactsOf{sh.Ball, sh.Cue, sh.Cloth, c.model.Changes}); of != c.knownOf {
		c.knownOf, c.known = of, view.ContactsOf(&c.model.Scene, &c.model.Kept)
	}
	return &c.known
}

func (c *clearing) render(*shot.Result) {
	c.renderCaution()
	head, detail := view.HopHead(&c.model.Scene, c.contacts())
	set(byID("hop-head"), "textContent", head)
	set(byID("hop-detail"), "textContent", detail)
}

func (c *clearing) follow() {
	c.renderMap()
	contacts := c.contacts()
	facts := view.Clear(&c.model.Scene, contacts).Facts
	fill(byID("hop-facts"), len(facts), func(i int) (string, string) { return facts[i].Name, facts[i].Value })
	cues := view.CompareHops(&c.model.Scene, contacts)
	set(byID("hop-cues-head"), "textContent", cues.Head+cues.Why)
	set(byID("hop-cues-note"), "textContent", cues.Note)
	putTable(byID("hop-cues"), cues.Table(), nil)
	c.renderSeen()
}

// renderSeen writes what is known of the contact times, and the hops that say so.
func (c *clearing) renderSeen() {
	set(byID("hop-contacts"), "textContent", c.contacts().Said())
	rows, others := view.SeenHops(&c.model.Scene, &c.model.Kept)
	if !slices.Equal(rows, c.seen) {
		c.seen = rows
		box := byID("hop-seen")
		box.Call("replaceChildren")
		for _, r := range rows {
			item := put("li", "", box)
			put("strong", r.Did, item)
			put("span", r.Shot, item)
			button := put("button", "Remove", item)
			button.Set("type", "button")
			button.Call("setAttribute", "aria-label", "Remove: "+r.Did+", "+r.Shot)
			button.Get("dataset").Set("do", "drop-hop")
			button.Get("dataset").Set("index", r.Index)
		}
	}
	set(byID("hop-seen-others"), "textContent", view.OtherHops(others))
}

// note keeps what was seen of a hop.
func (c *clearing) note(saw string) {
	field := byID("hop-high")
	high, err := view.HopHigh(field.Get("value").String(), c.model.Scene.Units)
	if err != nil {
		c.do(app.Tell{Notices: []string{"Not noted: " + err.Error()}})
		return
	}
	before := len(c.model.Kept.Hops)
	c.do(app.AddHop{Saw: saw, High: high, When: moment()})
	if len(c.model.Kept.Hops) > before {
		field.Set("value", "") // the next hop's is another
	}
}

// renderMap draws the map; its columns only when they are not this shot's.
func (c *clearing) renderMap() {
	s := &c.model.Scene
	now := mapped{*s, view.Fastest(s), c.contacts().Range}
	now.scene.Elev, now.scene.Speed, now.scene.Name = 0, 0, ""
	if now != c.mapped {
		c.mapped, c.columns = now, view.HopColumns(s, c.contacts())
	}
	box := byID("hop-map")
	width := chartWidth(box)
	c.scale = box.Get("clientWidth").Float() / width // as the style sheet has it fill the box
	c.shown = sheet.NewHopMap(s, c.columns, now.fastest, view.Hardest(s), width, 260)
	svg := sheet.SVG(&c.shown.Sheet, "Speeds and elevations that clear the blockers, and this stroke among them")
	if old := box.Call("querySelector", "svg"); old.Truthy() {
		old.Set("outerHTML", svg)
	} else {
		box.Call("insertAdjacentHTML", "afterbegin", svg)
	}
	handles := slices.Clone(c.shown.Handles)
	for i := range handles {
		handles[i].At.X *= c.scale
		handles[i].At.Y *= c.scale
	}
	c.layer.Show(handles)
}

// cautionKey is where this session notes that the cautions were read.
const cautionKey = "pivotbench-caution"

func (c *clearing) renderCaution() {
	byID("caution").Get("classList").Call("toggle", "read", tab.read(cautionKey) == "read")
}

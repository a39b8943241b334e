//go:build js && wasm

package section

import (
	"slices"
	"syscall/js"

	"pivotbench/core/gear"
	"pivotbench/core/hop"
	"pivotbench/core/scenario"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/pointer"
	"pivotbench/wasm/sheet"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// clearance is the Clearance section: hops over part of a ball.
type clearance struct {
	Host
	layer   *pointer.Layer
	columns []hop.Column
	mapped  mapped // what the columns belong to
	known   view.Contacts
	knownOf contactsOf
	seen    []view.SeenRow // hops in the list
	shown   *sheet.HopMap
	scale   float64     // size of the map as shown divided by its size as drawn
	held    sheet.Point // position of the ring when it was taken
	pulling bool        // the ring is held, or was until the finger was lifted
}

// A mapped is everything that a map depends on: the shot without its stroke.
type mapped struct {
	scene   scenario.Scenario
	fastest unit.Speed
	ratios  stat.Interval[float64]
}

// A contactsOf is everything that the contact times depend on.
type contactsOf struct {
	ball    gear.Ball
	cue     gear.Cue
	cloth   gear.Cloth
	changes int // number of changes of the records
}

func (c *clearance) Listen(h Host) {
	c.Host = h
	dom.On("caution-read", func(js.Value) { h.Do(app.ReadCautions{}) })
	dom.On("hop-speed", func(js.Value) { c.least(view.SlowestHop) })
	dom.On("hop-elev", func(js.Value) { c.least(view.FlattestHop) })
	dom.On("note-hop", func(el js.Value) { c.note(dom.Data(el, "saw")) })
	dom.On("drop-hop", func(el js.Value) {
		h.Do(app.Drop[store.Hop]{Record: dom.Entry(h.Model().Kept.Hops, el)})
	})
	box := dom.ByID("hop-map")
	c.layer = pointer.New(box, c.pulled)
	dom.Listen(box, "pointerdown", func(js.Value) { c.pulling = false })
	dom.Listen(box, "click", func(e js.Value) {
		if c.shown == nil || c.pulling || dom.Data(e.Get("target"), "handle") != "" {
			return
		}
		r := box.Call("getBoundingClientRect")
		at := sheet.Point{X: (e.Get("clientX").Float() - r.Get("left").Float()) / c.scale, Y: (e.Get("clientY").Float() - r.Get("top").Float()) / c.scale}
		c.strike(at, app.DragStart)
		c.strike(at, app.DragEnd)
	})
}

// least applies the lowest stroke that clears, or says why there is none.
func (c *clearance) least(find func(*scenario.Scenario, *view.Contacts) (app.Setting, error)) {
	m := c.Model()
	set, err := find(&m.Scene, c.contacts(&m))
	if err != nil {
		c.Do(app.Tell{Notices: []string{view.NoHop(err)}})
		return
	}
	c.Do(app.SetAll{Sets: []app.Setting{set}})
}

// pulled moves the stroke with the ring on the map.
func (c *clearance) pulled(r pointer.Report) {
	c.pulling = true // the click at the end of a drag is not a tap
	if r.Phase == app.DragStart {
		m := c.Model()
		c.held = c.shown.At(m.Scene.Elev, m.Scene.Speed)
	}
	c.strike(sheet.Point{X: c.held.X + r.DX/c.scale, Y: c.held.Y + r.DY/c.scale}, r.Phase)
}

func (c *clearance) strike(at sheet.Point, phase app.Phase) {
	c.Do(app.Drag{Sets: c.shown.Strike(at), Phase: phase})
	m := c.Model()
	c.showMap(&m)
}

// contacts returns the possible contact times of tip and bed in this shot.
func (c *clearance) contacts(m *app.Model) *view.Contacts {
	sh := m.Scene.Shot()
	if of := (contactsOf{sh.Ball, sh.Cue, sh.Cloth, m.Changes}); of != c.knownOf {
		c.knownOf, c.known = of, view.ContactsOf(&m.Scene, &m.Kept)
	}
	return &c.known
}

func (c *clearance) Show(m app.Model) {
	dom.ByID("caution").Get("classList").Call("toggle", "read", m.Cautioned)
	head, detail := view.HopHead(&m.Scene, c.contacts(&m))
	dom.Say("hop-head", head)
	dom.Say("hop-detail", detail)
}

func (c *clearance) Follow(m app.Model) {
	c.showMap(&m)
	contacts := c.contacts(&m)
	fill("hop-facts", view.Clear(&m.Scene, contacts).Facts)
	cues := view.CompareHops(&m.Scene, contacts)
	dom.Say("hop-cues-head", cues.Head+cues.Why)
	dom.Say("hop-cues-note", cues.Note)
	putTable("hop-cues", cues.Table(), nil)
	dom.Say("hop-contacts", contacts.Said())
	c.showSeen(&m)
}

// showSeen writes the list of hops seen.
func (c *clearance) showSeen(m *app.Model) {
	rows, others := view.SeenHops(&m.Scene, &m.Kept)
	if !slices.Equal(rows, c.seen) {
		c.seen = rows
		box := dom.ByID("hop-seen")
		box.Call("replaceChildren")
		for _, r := range rows {
			item := dom.Put("li", "", box)
			dom.Put("strong", r.Did, item)
			dom.Put("span", r.Shot, item)
			dom.PutButton(view.DeleteButton, r.DeleteName(), "drop-hop", r.Index, item)
		}
	}
	dom.Say("hop-seen-others", view.OtherHops(others))
}

// note records what a hop was seen to do.
func (c *clearance) note(saw string) {
	m, field := c.Model(), dom.ByID("hop-high")
	high, err := view.HopHigh(dom.Text("hop-high"), m.Scene.Units)
	if err != nil {
		c.Do(app.Tell{Notices: []string{view.NotNoted(err)}})
		return
	}
	c.Do(app.AddHop{Saw: saw, High: high, When: device.Moment()})
	if now := c.Model(); len(now.Kept.Hops) > len(m.Kept.Hops) {
		field.Set("value", "") // the next hop has another height
	}
}

// showMap draws the map. It recomputes the columns only if they are not this shot's.
func (c *clearance) showMap(m *app.Model) {
	s := &m.Scene
	now := mapped{*s, view.Fastest(s), c.contacts(m).Range}
	now.scene.Elev, now.scene.Speed, now.scene.Name = 0, 0, ""
	if now != c.mapped {
		c.mapped, c.columns = now, view.HopColumns(s, c.contacts(m))
	}
	box := dom.ByID("hop-map")
	width := chartWidth(box)
	c.scale = box.Get("clientWidth").Float() / width // the style sheet makes it fill the box
	c.shown = sheet.NewHopMap(s, c.columns, now.fastest, view.Hardest(s), width, 260)
	svg := sheet.SVG(&c.shown.Sheet, view.HopMapName)
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

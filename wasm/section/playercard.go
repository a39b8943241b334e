//go:build js && wasm

package section

import (
	"slices"
	"syscall/js"
	"time"

	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// otherCue shows the card with another cue, or with the player's own if key is empty.
func (s *players) otherCue(key string) {
	if !s.ready {
		return
	}
	s.card = s.finding.Card
	m := s.Model()
	listed := view.ListCues(m.Kept.Cues)
	if i := slices.IndexFunc(listed, func(c view.ListedCue) bool { return c.Err == nil && c.Key == key }); key != "" && i >= 0 {
		s.card = s.fit.With(&listed[i], device.Today())
	}
	s.showCard()
}

// showCues fills the menu of cues: the player's own, then the others that are measured.
func (s *players) showCues() {
	menu := dom.ByID("player-card-cue")
	menu.Call("replaceChildren")
	dom.Put("option", view.OwnCueOption, menu).Set("value", "")
	m := s.Model()
	for _, c := range view.ListCues(m.Kept.Cues) {
		if c.Err == nil && c.Key != "" && c.Key != store.CueKey(s.fit.Record.Cue) {
			dom.Put("option", c.Title(), menu).Set("value", c.Key)
		}
	}
	menu.Set("disabled", menu.Get("options").Get("length").Int() == 1)
}

// showCard writes the card.
func (s *players) showCard() {
	c := s.card
	dom.Hide("player-card", len(c.Shares.Rows) == 0)
	part := cardPart{c.Shares, c.Read}
	switch dom.Text("player-card-show") {
	case "parallel":
		part = cardPart{c.Parallel, view.ParallelRead}
	case "need":
		part = cardPart{c.Need, view.NeedRead}
	}
	sheet := dom.ByID("player-card-sheet")
	sheet.Call("replaceChildren")
	putPlayerCard(&c, sheet, part)
}

// A cardPart is a table of a card and how to read it.
type cardPart struct {
	table view.Table
	read  string
}

// putPlayerCard writes a card with some of its tables.
func putPlayerCard(c *view.PlayerCard, parent js.Value, parts ...cardPart) {
	dom.Put("h2", c.Title, parent)
	facts := dom.Put("p", "", parent)
	facts.Set("className", "facts")
	for _, f := range c.Facts {
		dom.Put("span", f, facts)
	}
	for _, part := range parts {
		putFigures(part.table, c.Title, parent)
		dom.Put("p", part.read, parent).Set("className", "hint")
	}
	if c.Change.Head != "" {
		dom.Put("h3", view.ChangesTitle, parent)
		dom.Put("p", c.Change.Head, parent)
		putFigures(c.Change.Table, view.ChangesTitle, parent)
		dom.Put("p", c.Change.Note, parent).Set("className", "hint")
	}
	if len(c.Notes) > 0 {
		notes := dom.Put("ul", "", parent)
		notes.Set("className", "flaws")
		for _, n := range c.Notes {
			dom.Put("li", n, notes)
		}
	}
}

// putFigures writes a table that scrolls sideways where it is wider than the page.
func putFigures(t view.Table, name string, parent js.Value) {
	scroll := dom.Put("div", "", parent)
	scroll.Set("className", "scroll")
	scroll.Set("tabIndex", 0)
	scroll.Call("setAttribute", "role", "region")
	scroll.Call("setAttribute", "aria-label", name)
	table := dom.Put("table", "", scroll)
	table.Set("className", "figures")
	writeTable(table, t, nil)
}

// showSuits writes which cue suits the player.
func (s *players) showSuits() {
	dom.Hide("player-suits", !s.ready)
	if !s.ready {
		return
	}
	m := s.Model()
	found := s.fit.Suits(view.ListCues(m.Kept.Cues))
	dom.Say("suits-title", view.SuitsTitle(s.fit.Record.Name))
	dom.Say("suits-head", found.Head)
	putTable("suits-table", found.Table, nil)
	dom.Say("suits-note", found.Note)
}

// printClass prints the cards of all players who have strokes, each on a page of its own.
// They are worked out one after the other, since each takes a while.
func (s *players) printClass() {
	if s.printing {
		return
	}
	s.printing = true
	go func() {
		defer func() { s.printing = false }()
		pages := dom.ByID("class-cards")
		pages.Call("replaceChildren")
		m := s.Model()
		names := view.Carded(&m)
		for i, name := range names {
			s.Say(view.PrintingWords(i, len(names), name))
			c, err := view.CardOfPlayer(&m, name, device.Today(), func() bool { time.Sleep(time.Millisecond); return true })
			if err != nil {
				c.Title = name + ": " + view.NoCard(err)
			}
			page := dom.Put("article", "", pages)
			page.Set("className", "sheet-of-card")
			putPlayerCard(&c, page, cardPart{c.Shares, c.Read}, cardPart{c.Parallel, view.ParallelRead})
		}
		if len(names) == 0 {
			s.Say(view.NobodyCarded)
			return
		}
		dom.Window.Call("print")
	}()
}

//go:build js && wasm

package section

import (
	"strconv"
	"syscall/js"
	"time"

	"pivotbench/core/player"
	"pivotbench/core/sitting"
	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// players is the Players section: the list, the form, and the strokes and the card of the
// chosen player.
type players struct {
	Host
	form     app.PlayerForm
	shown    string // the name of the player who is shown
	listed   string // the state that the list shows
	noted    string // the state that the strokes show
	fit      *view.PlayerFit
	of       string // what the finding is for
	turn     int    // of the computation under way: an older one gives up
	finding  view.PlayerFinding
	card     view.PlayerCard // with the chosen cue
	offered  int             // which of the proposals is shown
	printing bool            // whether the class's cards are being worked out
	ready    bool            // whether the finding is of the chosen player and his strokes
}

func (s *players) Listen(h Host) {
	s.Host = h
	s.listenForm()
	dom.On("keep-player", func(js.Value) { h.Do(app.KeepPlayer{}) })
	dom.On("leave-player", func(js.Value) { h.Do(app.LeavePlayer{}) })
	linked := func(fits func(fragment string) bool, hand func(link)) func(js.Value) {
		return func(el js.Value) {
			m := h.Model()
			p := dom.Entry(m.Kept.Players, el)
			fragment, note := view.PlayerLink(&m, &p, fits)
			hand(link{h, p.Name, fragment, view.ExportPlayers, note})
		}
	}
	dom.On("copy-player", linked(view.Linkable, link.copy))
	dom.On("code-player", linked(func(fragment string) bool {
		address, _ := link{fragment: fragment}.address()
		_, err := view.Code(address)
		return err == nil
	}, link.code))
	dom.On("choose-player", func(el js.Value) {
		h.Do(app.ChoosePlayer{Name: dom.Entry(h.Model().Kept.Players, el).Name})
		dom.InSight(dom.ByID("player"))
	})
	dom.On("drop-player", func(el js.Value) {
		h.Do(app.Drop[store.Player]{Record: dom.Entry(h.Model().Kept.Players, el)})
		if len(h.Model().Notices) == 0 {
			h.Say(view.PlayerDeleted)
		}
	})
	dom.Listen(dom.ByID("player-find"), "input", func(js.Value) { s.Show(h.Model()) })
	dom.On("add-turn", func(js.Value) { s.note() })
	dom.On("gate-turn", func(el js.Value) {
		if s.waits() {
			h.Do(app.NoteTurn{Stroke: s.fit.AtGate(s.proposal(), dom.Data(el, "outcome"), device.Moment())})
		}
	})
	dom.Listen(dom.ByID("turn-read"), "change", func(js.Value) {
		s.of = "" // the suggestion is of another kind
		s.Show(h.Model())
	})
	dom.Listen(dom.ByID("turn-mark"), "keydown", func(e js.Value) {
		if e.Get("key").String() == "Enter" {
			e.Call("preventDefault")
			s.note()
		}
	})
	dom.On("other-turn", func(js.Value) {
		if n := len(s.finding.Proposals); n > 0 {
			s.offered = (s.offered + 1) % n
			s.showProposal()
		}
	})
	dom.On("sheet-turn", func(js.Value) {
		if s.ready && len(s.finding.Proposals) > 0 {
			h.Do(app.Open{Link: s.fit.Link(s.proposal())})
		}
	})
	dom.On("drop-turn", func(el js.Value) {
		m := h.Model()
		p, _ := m.Chosen()
		h.Do(app.Drop[store.Turn]{Record: dom.Entry(m.Kept.TurnsOf(p.Name), el)})
	})
	dom.On("use-player", func(js.Value) {
		if s.fit != nil && s.shown == s.fit.Record.Name {
			h.Do(app.SetAll{Sets: s.fit.Sets()})
			h.Do(app.OpenSection{Name: "shot"})
		}
	})
	dom.On("clear-turns", func(js.Value) {
		m := h.Model()
		p, _ := m.Chosen()
		h.Do(app.ClearTurns{Player: p.Name})
		h.Say(view.TurnsCleared)
	})
	dom.On("keep-fit", func(js.Value) {
		m := h.Model()
		if p, ok := m.Chosen(); ok && s.ready {
			h.Do(app.KeepFit{Was: p, Fit: s.fit.Learned(), When: device.Moment()})
			if len(h.Model().Notices) == 0 {
				h.Say(view.FitSaved(p.Name))
			}
		}
	})
	dom.On("code-card", func(js.Value) { showCode(h, s.card.Title, s.card.Text(), "", true) })
	dom.On("print-class", func(js.Value) { s.printClass() })
	dom.Listen(dom.Window, "afterprint", func(js.Value) { dom.ByID("class-cards").Call("replaceChildren") })
	dom.Listen(dom.ByID("player-card-show"), "change", func(js.Value) { s.showCard() })
	dom.Listen(dom.ByID("player-card-cue"), "change", func(js.Value) { s.otherCue(dom.Text("player-card-cue")) })
}

// note notes the proposed stroke with the mark that is typed.
func (s *players) note() {
	m := s.Model()
	if !s.waits() {
		return
	}
	marks, err := store.ReadLengths(dom.Text("turn-mark"), m.Scene.Units)
	if err != nil {
		s.Do(app.Tell{Notices: []string{view.NotNoted(err)}})
		return
	}
	changes := m.Changes
	for _, mark := range marks {
		s.Do(app.NoteTurn{Stroke: s.fit.Marked(s.proposal(), store.Length(float64(mark)), dom.Text("turn-read"), device.Moment())})
		if now := s.Model(); now.Changes == changes {
			return
		}
	}
	dom.ByID("turn-mark").Set("value", "")
}

// waits reports whether a stroke is waited for, and says so if it is not shown yet.
func (s *players) waits() bool {
	if s.ready && len(s.finding.Proposals) > 0 {
		return true
	}
	s.Say(view.TurnTooSoon)
	return false
}

func (s *players) proposal() player.Proposal { return s.finding.Proposals[s.offered] }

func (s *players) Show(m app.Model) {
	s.showForm(&m)
	offer := view.OfferedWords(&m)
	dom.Say("player-offer-words", offer)
	dom.Hide("player-offer", offer == "")
	if now := strconv.Itoa(m.Changes) + m.Player + dom.Text("player-find"); now != s.listed {
		s.listed = now
		s.showList(&m)
	}
	p, ok := m.Chosen()
	dom.Hide("player", !ok)
	if !ok {
		s.turn++ // whatever is under way is of nobody now
		s.of, s.noted, s.shown = "", "", ""
		return
	}
	if p.Name != s.shown { // what is shown is of somebody else
		s.shown, s.finding = p.Name, view.PlayerFinding{}
		s.showFinding()
	}
	dom.Say("player-title", p.Name)
	turns := m.Kept.TurnsOf(p.Name)
	if now := strconv.Itoa(m.Changes) + p.Name + m.Scene.Units; now != s.noted {
		s.noted = now
		s.showTurns(turns, m.Scene.Units)
	}
	dom.Set(dom.ByID("turn-unit"), "textContent", m.Scene.Units)
	if now := view.PlayerConditions(&m) + s.noted; now != s.of {
		s.of = now
		s.work()
	}
}

func (s *players) Follow(app.Model) {} // nothing: the computation runs by itself

// work fits the chosen player in the background, a stroke at a time.
func (s *players) work() {
	s.turn++
	turn := s.turn
	s.ready = false
	on := func() bool { // gives the page time for other work
		time.Sleep(time.Millisecond)
		return s.turn == turn
	}
	go func() {
		if !on() {
			return
		}
		m := s.Model()
		p, _ := m.Chosen()
		turns := m.Kept.TurnsOf(p.Name)
		if s.fit == nil || !s.fit.Begins(&m, turns) {
			fit, err := view.NewPlayerFit(&m)
			if err != nil {
				s.fit, s.finding = nil, view.PlayerFinding{Head: view.NoCard(err)}
				s.showFinding()
				return
			}
			s.fit = fit
		}
		for _, t := range turns[len(s.fit.Noted):] {
			next, ok := s.fit.AddWhile(t, on)
			if !ok {
				return
			}
			s.fit = next
		}
		if !on() {
			return
		}
		s.finding, s.offered, s.ready = s.fit.Finding(seenBy(), device.Today()), 0, true
		s.showCues()
		s.showFinding()
		words := s.fit.Misfit(on)
		if s.turn == turn {
			dom.Say("player-misfit", words)
		}
	}()
}

// atGate is the choice of strokes that are seen at the gate.
const atGate = "gate"

// seenBy returns how the next stroke is to be seen.
func seenBy() sitting.Kind {
	if dom.Text("turn-read") == atGate {
		return sitting.ByGate
	}
	return sitting.ByMark
}

// showList writes the list of players.
func (s *players) showList(m *app.Model) {
	list := dom.ByID("players")
	list.Call("replaceChildren")
	for _, r := range view.PlayerRows(m, dom.Text("player-find"), device.Day) {
		item := dom.Put("li", "", list)
		dom.Put("strong", r.Name, item)
		dom.Put("span", r.Line, item)
		choose := dom.PutButton(view.ShowButton, view.ShowButton+" "+r.Name, "choose-player", r.Index, item)
		choose.Call("setAttribute", "aria-pressed", strconv.FormatBool(r.Chosen))
		if r.Chosen {
			bar := dom.PutBar(item)
			dom.PutButton(view.EditButton, view.EditButton+" "+r.Name, "edit-player", r.Index, bar)
			dom.PutButton(view.CopyLinkButton, view.CopyLinkButton+" to "+r.Name, "copy-player", r.Index, bar)
			dom.PutButton("QR", view.CodeName(r.Name), "code-player", r.Index, bar)
			dom.PutButton(view.DeleteButton, view.DeleteButton+" "+r.Name, "drop-player", r.Index, bar)
		}
	}
	dom.Hide("no-players", len(m.Kept.Players) > 0)
	dom.Doer("print-class").Set("disabled", len(view.Carded(m)) == 0)
	dom.Hide("player-finder", len(m.Kept.Players) <= view.FewPlayers)
}

// showTurns writes the strokes of the chosen player.
func (s *players) showTurns(turns []store.Turn, units string) {
	body := dom.Find("#turns tbody")
	body.Call("replaceChildren")
	for i, r := range view.TurnRows(turns, units) {
		row := dom.Put("tr", "", body)
		for _, cell := range r.Cells() {
			dom.Put("td", dom.Unbroken(cell[1]), row).Get("dataset").Set("head", cell[0])
		}
		dom.PutButton("×", view.DeleteStrokeName(r.Number), "drop-turn", i, dom.Put("td", "", row))
	}
	dom.Hide("turns", len(turns) == 0)
	dom.Doer("clear-turns").Set("disabled", len(turns) == 0)
}

// showFinding writes what the strokes tell.
func (s *players) showFinding() {
	dom.Say("player-head", s.finding.Head)
	dom.Say("player-misfit", "") // it follows
	fill("player-facts", s.finding.Facts)
	dom.Doer("keep-fit").Set("disabled", len(s.finding.Facts) == 0)
	s.showProposal()
	s.card = s.finding.Card
	s.showCard()
}

func (s *players) showProposal() {
	words := ""
	if len(s.finding.Proposals) > 0 {
		words = s.fit.ProposalWords(s.proposal())
	}
	dom.Say("player-next", words)
	dom.Hide("turn-entry", words == "" && seenBy() == sitting.ByMark)
	dom.Hide("turn-marks", seenBy() == sitting.ByGate)
	dom.Hide("turn-gate", seenBy() == sitting.ByMark)
}

// listenForm handles adding and editing of players.
func (s *players) listenForm() {
	dom.On("edit-player", func(el js.Value) {
		s.openForm(app.OpenPlayerForm{Player: dom.Entry(s.Model().Kept.Players, el)})
	})
	dom.On("new-player", func(js.Value) {
		s.openForm(app.OpenPlayerForm{Player: store.Player{Hand: store.HandWords[player.RightHanded]}, New: true})
	})
	dom.On("close-player", func(js.Value) { s.Do(app.ClosePlayerForm{}) })
	dom.Listen(dom.ByID("player-form"), "submit", func(e js.Value) {
		e.Call("preventDefault")
		s.saveForm()
		dom.HoldFocus()
	})
}

// openForm opens the form and moves the focus there.
func (s *players) openForm(e app.OpenPlayerForm) {
	s.form = app.PlayerForm{} // discards what was typed before
	s.Do(e)
	if s.Model().PlayerForm.On {
		dom.InSight(dom.ByID("player-form"))
		dom.ByID("player-name-field").Call("focus")
	}
}

// showForm writes the form when another player is edited. It leaves alone what is being
// typed.
func (s *players) showForm(m *app.Model) {
	now := m.PlayerForm
	if s.form == now {
		return
	}
	s.form = now
	dom.Hide("player-form", !now.On)
	dom.List("player-faults", nil)
	fields := dom.ByID("player-fields")
	fields.Call("replaceChildren")
	if !now.On {
		return
	}
	title := view.PlayerFormTitle(now.Player.Name, now.New)
	dom.Say("player-form-title", title)
	for _, f := range view.PlayerForm(&now.Player, now.Units) {
		putField("player", f, fields)
	}
}

// saveForm saves the form, or says what is wrong with it.
func (s *players) saveForm() {
	typed := map[string]string{}
	dom.Each("#player-fields [data-field]", func(el js.Value) {
		typed[dom.Data(el, "field")] = el.Get("value").String()
	})
	form := s.Model().PlayerForm
	p, faults := view.ReadPlayerForm(form.Player, typed, form.Units, device.Moment())
	dom.List("player-faults", faults)
	if faults == nil {
		s.Do(app.SavePlayerForm{Player: p})
	}
}

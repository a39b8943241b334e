//go:build js && wasm

package section

import (
	"strconv"
	"syscall/js"
	"time"

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
	form     form
	shown    string // the name of the player who is shown
	listed   string // the state that the list and the round show
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
	s.Host, s.form.name = h, "player"
	s.listenForm()
	s.listenTurns()
	s.listenRound()
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
		if m := h.Model(); !m.Round.On {
			dom.InSight(dom.ByID("player"))
		}
	})
	dom.On("drop-player", func(el js.Value) {
		h.Do(app.Drop[store.Player]{Record: dom.Entry(h.Model().Kept.Players, el)})
		if len(h.Model().Notices) == 0 {
			h.Say(view.PlayerDeleted)
		}
	})
	dom.Listen(dom.ByID("player-find"), "input", func(js.Value) { s.Show(h.Model()) })
	dom.On("use-player", func(js.Value) {
		if s.fit != nil && s.shown == s.fit.Record.Name {
			h.Do(app.SetAll{Sets: s.fit.Sets()})
			h.Do(app.OpenSection{Name: "shot"})
		}
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

func (s *players) Show(m app.Model) {
	s.showForm(&m)
	offer := view.OfferedWords(&m)
	dom.Say("player-offer-words", offer)
	dom.Hide("player-offer", offer == "")
	if now := view.ListState(&m, dom.Text("player-find")); now != s.listed {
		s.listed = now
		s.showList(&m)
		s.showRound(&m)
	}
	p, ok := m.Chosen()
	dom.Hide("player", !ok)
	if !ok {
		s.turn++ // whatever is under way is of nobody now
		s.of, s.noted, s.shown = "", "", ""
		return
	}
	if p.Name != s.shown { // what is shown is of somebody else
		s.shown, s.finding, s.ready = p.Name, view.PlayerFinding{}, false
		s.showFinding()
	}
	dom.Say("player-title", p.Name)
	turns := m.Kept.TurnsOf(p.Name)
	if now := strconv.Itoa(m.Changes) + p.Name + m.Scene.Units; now != s.noted {
		s.noted = now
		s.showTurns(turns, m.Scene.Units)
	}
	dom.Set(dom.ByID("turn-unit"), "textContent", m.Scene.Units)
	dom.Set(dom.ByID("turn-mark"), "placeholder", view.MarkExample(m.Scene.Units))
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
	dom.Doer("take-turns").Set("disabled", !view.CanTakeTurns(m))
	dom.Hide("player-finder", len(m.Kept.Players) <= view.FewPlayers)
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
	s.showSuits()
}

//go:build js && wasm

package section

import (
	"syscall/js"

	"pivotbench/core/player"
	"pivotbench/wasm/app"
	"pivotbench/wasm/device"
	"pivotbench/wasm/dom"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// listenForm handles adding and editing of players.
func (s *players) listenForm() {
	dom.On("edit-player", func(el js.Value) {
		s.openForm(app.OpenPlayerForm{Player: dom.Entry(s.Model().Kept.Players, el)})
	})
	dom.On("new-player", func(js.Value) {
		s.openForm(app.OpenPlayerForm{Player: store.Player{Hand: store.HandWords[player.RightHanded]}, New: true})
	})
	dom.On("close-player", func(js.Value) { s.Do(app.ClosePlayerForm{}) })
	s.form.listen(s.saveForm)
}

// openForm opens the form and moves the focus there.
func (s *players) openForm(e app.OpenPlayerForm) {
	s.form.discard()
	s.Do(e)
	if s.Model().PlayerForm.On {
		s.form.open()
	}
}

func (s *players) showForm(m *app.Model) {
	now := m.PlayerForm
	s.form.show(now, now.On, view.PlayerFormTitle(now.Player.Name, now.New), view.PlayerForm(&now.Player, now.Units))
}

// saveForm saves the form, or says what is wrong with it.
func (s *players) saveForm() {
	form := s.Model().PlayerForm
	p, faults := view.ReadPlayerForm(form.Player, s.form.typed(), form.Units, device.Moment())
	if !s.form.refuse(faults) {
		s.form.save(s.Host, app.SavePlayerForm{Player: p}, func(m app.Model) bool { return m.PlayerForm.On })
	}
}

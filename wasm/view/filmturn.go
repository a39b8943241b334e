package view

import (
	"pivotbench/core/player"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
)

// rulers is the gap between the blockers when a player is filmed. They are only rulers for
// the film then: far enough apart for the ball to pass, and near enough to be in the picture.
const rulers = 12 * unit.Inch

// FilmLink returns a proposed stroke as a link, with blockers on the way to the target for
// the film to measure by.
func (f *PlayerFit) FilmLink(p player.Proposal) string {
	s := f.shot(p)
	put := func(key string, v unit.Length) {
		k := scenario.Find(key)
		k.Put(&s, k.Snapped(float64(v), s.Units, 1))
	}
	put("gate", s.Dist*3/4)
	put("gap", rulers)
	return s.Format()
}

// FilmTurnWords says whose stroke is filmed, how it is played and where the balls go. It is
// empty if no player is filmed.
func FilmTurnWords(m *app.Model) string {
	p, ok := m.Filmed()
	if !ok {
		return ""
	}
	s := &m.Scene
	length := func(v unit.Length) string { return phrase.Brief(phrase.Length(s, v)) }
	return "For " + p.Name + ": " + phrase.Brief(scenario.Find("speed").Shown(s)) + ", " + phrase.EnglishInFull(s) + ", " + feltWords(s.Back) +
		". Aim straight at the target, " + length(s.Dist) + " away. Stand the blockers " + length(s.Gate) + " away with a gap of " + length(s.Gap) + "."
}

// FilmNoteWords names the button that notes the stroke of a film.
func FilmNoteWords(m *app.Model) string {
	if p, ok := m.Filmed(); ok {
		return "Note for " + p.Name
	}
	return "Note this stroke"
}

// BackToPlayer names the button that goes back to the player who is filmed.
func BackToPlayer(m *app.Model) string {
	p, _ := m.Filmed()
	return "Back to " + p.Name
}

package view

import (
	"cmp"
	"slices"

	"pivotbench/core/cues"
	"pivotbench/core/player"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/phrase"
)

// A changed is a cell of a card with two cues.
type changed struct {
	was, now *player.Cell
	pace     string
}

// miss returns how far beside the target the ball comes with the new cue when the player
// aims as with the old one, positive to the right. Both cells have an aim.
func (c *changed) miss() unit.Length { return c.was.Shift.Median - c.now.Shift.Median }

// changes returns what another cue changes on the player's card, cell by cell, the largest
// miss first. now are the card's cells with that cue.
func (f *PlayerFit) changes(now [][]player.Cell, cue string) Findings {
	was := f.Fit.Card(&f.sheet)
	var list []changed
	left := 0
	for i := range was {
		for j := range was[i] {
			if was[i][j].Err != nil || now[i][j].Err != nil {
				left++
				continue
			}
			list = append(list, changed{&was[i][j], &now[i][j], f.who.Paces[j].Name})
		}
	}
	out := Findings{Note: "The miss is at the target, with right english, if you aim as with the player's own cue."}
	if left > 0 {
		out.Note += " " + phrase.Count(left, "shot", "shots") + " of the card can't be played with both cues."
	}
	if len(list) == 0 {
		out.Head = "No shot of the card can be played with both cues"
		return out
	}
	slices.SortStableFunc(list, func(a, b changed) int { return cmp.Compare(unit.Abs(b.miss()), unit.Abs(a.miss())) })
	at := func(c *changed) string { return phrase.Brief(phrase.Length(&f.scene, c.was.Dist)) + ", " + c.pace }
	worst := &list[0]
	out.Head = "With " + cue + " the aim changes most at " + at(worst) + ": " + cellWords(worst.now) + " instead of " + cellWords(worst.was)
	out.Table.Columns = []string{"own cue", cue, "miss"}
	for i := range list {
		c := &list[i]
		out.Table.Rows = append(out.Table.Rows, Row{at(c), []string{cellWords(c.was), cellWords(c.now), phrase.Sideways(&f.scene, c.miss())}})
	}
	return out
}

// Suits says which of the measured cues suits the player: with his bridge, at his speeds
// and with his errors, as far as his strokes have told them. With fewer than two it says
// what to do.
func (f *PlayerFit) Suits(listed []ListedCue) Findings {
	s := f.scene
	for _, set := range f.Sets() {
		scenario.Find(set.Key).Set(&s, set.Text, "")
	}
	var list []Entry
	for i := range listed {
		c := &listed[i]
		if c.Err != nil {
			continue
		}
		e := Entry{Name: c.Title(), Scene: s.With(c.On(&s))}
		e.Scene.TipWidth, e.Scene.Chalk = c.Gear.TipWidth, c.Gear.Chalk
		e.Cue = cues.Candidate{Gear: e.Scene.Shot().Cue, Known: c.Known.EndMass}
		list = append(list, e)
	}
	if len(list) < 2 {
		return Findings{Note: "Measure two cues or more, and this shows which of them suits the player."}
	}
	return choosing(&s, list, f.sheet.Speeds, " and the bridge, speeds and errors of "+f.Record.Name)
}

// SuitsTitle is the heading above Suits.
func SuitsTitle(name string) string { return "Which cue suits " + name + "?" }

// ChangesTitle is the heading above what another cue changes.
const ChangesTitle = "What changes with this cue"

package view

import (
	"math"
	"strconv"
	"strings"

	"pivotbench/core/player"
	"pivotbench/core/scenario"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
)

// A PlayerCard is a player's card as text.
type PlayerCard struct {
	Title    string
	Facts    []string
	Shares   Table // back-hand shares as he feels them
	Parallel Table // the same as parallel aim
	Need     Table // how much of it is squirt, and how much swerve takes back
	Read     string
	Notes    []string // why cells are empty
	Change   Findings // with another cue than the player's own: what it changes
}

// ascii replaces what some readers of QR codes show wrongly.
var ascii = strings.NewReplacer("−", "-", "±", "+/-", "–", "none", "\u00a0", " ")

// Text returns the shares of the card as plain text. As a QR code it needs no signal and no
// program on the phone that reads it.
func (c *PlayerCard) Text() string {
	lines := []string{c.Title, strings.Join(c.Facts, ", "), "Back hand at " + strings.Join(c.Shares.Columns, "; ")}
	for _, r := range c.Shares.Rows {
		lines = append(lines, r.Head+": "+strings.Join(r.Cells, "; "))
	}
	return ascii.Replace(strings.Join(append(lines, c.Read), "\n"))
}

// Own returns the player's card with his own cue, made on a day.
func (f *PlayerFit) Own(day string) PlayerCard {
	cue := f.Record.Cue
	if cue == "" {
		cue = "cue with no name"
	}
	c := f.card(f.Fit.Card(&f.sheet), f.scene.TipWidth, cue, day)
	if f.Record.Cue == "" {
		c.Notes = append(c.Notes, "No cue is named: this card is for the cue that played these strokes.")
	}
	return c
}

// Carded returns the names of the players who have strokes, and so a card.
func Carded(m *app.Model) []string {
	var out []string
	for _, p := range m.Kept.Players {
		if len(m.Kept.TurnsOf(p.Name)) > 0 {
			out = append(out, p.Name)
		}
	}
	return out
}

// CardOfPlayer returns the card of any player, made on a day. on is called between the
// steps; when it returns false, the card is of the strokes so far. The error says why there
// is none.
func CardOfPlayer(m *app.Model, name, day string, on func() bool) (PlayerCard, error) {
	of := app.Update(*m, app.ChoosePlayer{Name: name})
	f, err := NewPlayerFit(&of)
	if err != nil {
		return PlayerCard{}, err
	}
	for _, t := range m.Kept.TurnsOf(name) {
		next, ok := f.AddWhile(t, on)
		if !ok {
			break
		}
		f = next
	}
	return f.Own(day), nil
}

// With returns the card that the player would have with another measured cue, made on a
// day, and what that cue changes.
func (f *PlayerFit) With(cue *ListedCue, day string) PlayerCard {
	scene := f.scene.With(cue.On(&f.scene))
	scene.TipWidth, scene.Chalk = cue.Gear.TipWidth, cue.Gear.Chalk
	on := scene.Shot()
	pivot := cue.Known.Pivot(on.Ball, on.Cue.Tip, on.Cue.PivotSpin)
	now := f.Fit.WithCue(&on, pivot).Card(&f.sheet)
	c := f.card(now, scene.TipWidth, cue.Title(), day)
	c.Change = f.changes(now, cue.Title())
	return c
}

// card returns a card with a cue as text.
func (f *PlayerFit) card(cells [][]player.Cell, tip unit.Length, cue, day string) PlayerCard {
	c := PlayerCard{Title: "Aim card of " + f.Record.Name}
	bridge := scenario.DisplayOf(unit.LengthKind, f.scene.Units).Format(float64(f.who.Bridge.Best()))
	c.Facts = []string{cue, bridge + " bridge", "english " + unit.Round(f.sheet.Side, unit.Ratio, "", 2) + " R to either side", CardMade(day)}
	var columns []string
	for i, pace := range f.who.Paces {
		columns = append(columns, pace.Name+", "+phrase.Brief(scenario.DisplayOf(unit.SpeedKind, f.scene.Units).Format(float64(f.sheet.Speeds[i]))))
	}
	for _, t := range []*Table{&c.Shares, &c.Parallel, &c.Need} {
		t.Columns = columns
	}
	example, open, wide := "", false, false // some cell is open, or has ±
	reasons := map[string]bool{}
	for i, row := range cells {
		head := phrase.Brief(phrase.Length(&f.scene, f.sheet.Dists[i]))
		share, parallel, need := Row{Head: head}, Row{Head: head}, Row{Head: head}
		for _, cell := range row {
			why := cell.Err
			if why == nil {
				parallel.Cells = append(parallel.Cells, f.parallel(&cell, tip))
				need.Cells = append(need.Cells, needWords(&cell))
				why = cell.Hands
			} else {
				parallel.Cells, need.Cells = append(parallel.Cells, "–"), append(need.Cells, "–")
			}
			words := cellWords(&cell)
			share.Cells = append(share.Cells, words)
			open, wide = open || words == openShare, wide || strings.Contains(words, "±")
			if why == nil {
				if to := toStep(cell.Share.Median); example == "" && words != openShare && to > 0 && to < 1 {
					example = phrase.Percent(to)
				}
				continue
			}
			if !reasons[why.Error()] {
				reasons[why.Error()] = true
				c.Notes = append(c.Notes, "–: "+why.Error()+".")
			}
		}
		c.Shares.Rows, c.Parallel.Rows, c.Need.Rows = append(c.Shares.Rows, share), append(c.Parallel.Rows, parallel), append(c.Need.Rows, need)
	}
	c.Read = "The share of the english that the back hand puts on, as you feel it; the front hand puts on the rest."
	if example != "" {
		c.Read = example + ": put " + example + " of the english on with the back hand as you feel it, the rest with the front hand."
	}
	if wide {
		c.Read += " ±10 after it: it may be 10 more or less."
	}
	if open {
		c.Notes = append(c.Notes, openShare+": the share may be 100 % more or less. It needs more strokes.")
	}
	if f.sheet.Pocket {
		c.Notes = append(c.Notes, AllowsForThrow)
	}
	return c
}

// toStep returns a share to the nearest 5 %.
func toStep(share float64) float64 { return math.Round(share*20)/20 + 0 } // + 0: not −0

// shareWords returns a share to the nearest 5 %, with half the width of its interval,
// in steps of 5 %, when that is more than one.
func shareWords(e stat.Estimate[float64]) string {
	text := phrase.Percent(toStep(e.Median))
	if half := math.Ceil((e.To-e.From)*10) * 5; half > 5 {
		text += " ±" + strconv.Itoa(int(half))
	}
	return text
}

// openShare stands for a share that is not known to 100 %, which is no help to anybody.
const openShare = "open"

// cellWords returns a cell's share, or a dash when it has none.
func cellWords(c *player.Cell) string {
	switch {
	case c.Err != nil || c.Hands != nil:
		return "–"
	case c.Share.To-c.Share.From > 2:
		return openShare
	}
	return shareWords(c.Share)
}

// parallel returns the parallel aim of a cell in tips and in balls.
func (f *PlayerFit) parallel(c *player.Cell, tip unit.Length) string {
	side := "right"
	if c.Shift.Median < 0 {
		side = "left"
	}
	shift := math.Abs(float64(c.Shift.Median))
	tips, balls := shift/float64(tip), shift/float64(2*f.scene.GearBall().Radius)
	return unit.Round(tips, unit.Ratio, "", 1) + " tips, " + unit.Round(balls, unit.Ratio, "", 2) + " ball " + side
}

// needWords returns a cell's squirt and swerve.
func needWords(c *player.Cell) string {
	angle := scenario.DisplayOf(unit.AngleKind, "")
	return angle.Number(float64(c.Squirt.Median)) + " − " + angle.Format(float64(c.Swerve.Median))
}

package view_test

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/sitting"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
	"pivotbench/wasm/view"
)

// class is the model of a class with Ann, who has a measured cue, and Bert, of whom only
// the name is known. Ann is chosen.
func class(t *testing.T) app.Model {
	t.Helper()
	m := app.Start()
	m = app.Update(m, app.SaveCue{Cue: store.CueRecord{Name: "House 4", Pivot: "11in", From: "10.4in", To: "11.6in", At: "0.5", How: "marks", Link: "v=1", When: "2026-11-24T19:00:00Z"}})
	for _, p := range []store.Player{
		{Name: "Ann", Hand: "right", Bridge: "10in; 9.8in; 10.2in", Grip: "30in", Elev: "3deg", Slow: "4mph", Medium: "7mph", Firm: "12mph", SlowName: "soft", Cue: "house 4", When: "2026-11-24T19:00:00Z"},
		{Name: "Bert", Hand: "left", When: "2026-11-24T19:00:00Z"},
	} {
		m = app.Update(m, app.OpenPlayerForm{New: true})
		m = app.Update(m, app.SavePlayerForm{Player: p})
		require.Empty(t, m.Notices)
	}
	return app.Update(m, app.ChoosePlayer{Name: "Ann"})
}

func always() bool { return true }

func day(when string) string { return store.Day(when) }

// plays has the chosen player note some strokes as they are proposed, each on its line
// where an exact tester's ball crosses it.
func plays(t *testing.T, m app.Model, strokes int) (app.Model, *view.PlayerFit) {
	t.Helper()
	f, err := view.NewPlayerFit(&m)
	require.NoError(t, err)
	chosen, _ := m.Chosen()
	who := sitting.Tester{Pivot: 11 * unit.Inch}
	for range strokes {
		next := f.Finding(sitting.ByMark, "today").Proposals[0]
		x, err := who.Play(next.Of(f.Fit), sitting.SetUp{}, next.Line)
		require.NoError(t, err)
		m = app.Update(m, app.NoteTurn{Strokes: []store.Stroke{f.Marked(next, store.Length(float64(x)), "3mm", "2026-11-25T19:00:00Z")}})
		require.Empty(t, m.Notices)
		var ok bool
		turns := m.Kept.TurnsOf(chosen.Name)
		f, ok = f.AddWhile(turns[len(turns)-1], always)
		require.True(t, ok)
	}
	return m, f
}

func TestPlayersInAList(t *testing.T) {
	m := class(t)
	rows := view.PlayerRows(&m, "", day)
	require.Len(t, rows, 2)
	assert.Equal(t, view.PlayerRow{Index: 0, Name: "Ann", Line: "House 4 · missing: strokes", Chosen: true}, rows[0])
	assert.Equal(t, "Missing: cue, bridge and grip, elevation, speeds, strokes", rows[1].Line)
	found := view.PlayerRows(&m, " BER", day)
	require.Len(t, found, 1)
	assert.Equal(t, 1, found[0].Index)
	m, f := plays(t, m, 1)
	chosen, _ := m.Chosen()
	m = app.Update(m, app.KeepFit{Was: chosen, Fit: f.Learned(), When: "2026-11-25T19:01:00Z"})
	assert.Equal(t, "House 4 · last played 2026-11-25", view.PlayerRows(&m, "", day)[0].Line)
	kept, _ := m.Chosen()
	assert.NotEmpty(t, kept.Spread)
	assert.True(t, f.Begins(&m, m.Kept.TurnsOf("Ann")), "what was learned does not start the fit anew")
}

func TestAPlayersForm(t *testing.T) {
	p := store.Player{Name: "Ann", Hand: "left", Bridge: "10in; 9.8in; 10.2in", Elev: "2.5deg", Slow: "4mph", Notes: "a\nb"}
	typed := map[string]string{}
	for _, units := range []string{"in", "cm"} {
		for _, f := range view.PlayerForm(&p, units) {
			typed[f.Key] = f.Text
		}
		read, faults := view.ReadPlayerForm(p, typed, units, "")
		assert.Nil(t, faults)
		assert.Equal(t, p, read, "what was not changed keeps its interval")
	}
	assert.Equal(t, "25.4", typed["bridge"])
	typed["bridge"], typed["firm"], typed["medium"], typed["elev"] = "24", "5,4", "3 m/s", ""
	read, faults := view.ReadPlayerForm(p, typed, "cm", "2026-11-25T19:01:00Z")
	require.Nil(t, faults)
	assert.Equal(t, "24cm", read.Bridge)
	assert.Equal(t, "5.4m/s", read.Firm)
	assert.Equal(t, "3m/s", read.Medium)
	assert.Empty(t, read.Elev)
	assert.Equal(t, "2026-11-25T19:01:00Z", read.When)
	typed["tip"], typed["aim"] = "1.2", "0,3"
	read, faults = view.ReadPlayerForm(p, typed, "cm", "")
	require.Nil(t, faults)
	assert.Equal(t, "0.3deg", read.Aim)
	assert.Equal(t, "1.2mm", read.Tip)
	typed["aim"], typed["slow"] = "", "90"
	_, faults = view.ReadPlayerForm(p, typed, "cm", "")
	require.Len(t, faults, 1)
	assert.Contains(t, faults[0], "Slow: “90”")
	assert.Contains(t, faults[0], "allowed: ")
	typed["slow"], typed["grip"], typed["name"] = "", "long", ""
	_, faults = view.ReadPlayerForm(p, typed, "cm", "")
	require.Len(t, faults, 1)
	assert.Contains(t, faults[0], "“long”")
	typed["grip"] = ""
	_, faults = view.ReadPlayerForm(p, typed, "cm", "")
	assert.Equal(t, []string{"a player needs a name"}, faults)
}

func TestAPlayersFinding(t *testing.T) {
	m := class(t)
	f, err := view.NewPlayerFit(&m)
	require.NoError(t, err)
	none := f.Finding(sitting.ByMark, "24 Nov")
	assert.Equal(t, "No strokes yet: six to ten make a card", none.Head)
	assert.Empty(t, none.Facts)
	words := f.ProposalWords(none.Proposals[0])
	assert.Contains(t, words, "english, 0.40 R")
	assert.Contains(t, words, "line at ")
	assert.Contains(t, words, "mph")

	m, f = plays(t, m, 8)
	found := f.Finding(sitting.ByMark, "24 Nov")
	assert.Equal(t, "Enough: more strokes would not change the card", found.Head)
	assert.Equal(t, "8", found.Facts[0].Value)
	assert.Equal(t, "pivot length", found.Facts[1].Name)
	card := found.Card
	assert.Equal(t, "Aim card of Ann", card.Title)
	assert.Equal(t, []string{"house 4", "10.0 in bridge", "english 0.40 R to either side", "made on 24 Nov"}, card.Facts)
	assert.Equal(t, []string{"soft, 4 mph", "medium, 7 mph", "firm, 12 mph"}, card.Shares.Columns)
	require.Len(t, card.Shares.Rows, 4)
	for _, row := range card.Shares.Rows {
		for _, cell := range row.Cells {
			assert.Regexp(t, `^-?\d*[05] %( ±\d*[05])?$`, cell)
		}
	}
	assert.Regexp(t, `^\d*[05] %: put`, card.Read)
	assert.Empty(t, card.Notes)
	assert.Regexp(t, `^\d\.\d tips, 0\.\d\d ball right$`, card.Parallel.Rows[0].Cells[1])
	assert.Regexp(t, `^\d\.\d − \d\.\d°$`, card.Need.Rows[0].Cells[0])
	lines := strings.Split(card.Text(), "\n")
	require.Len(t, lines, 8)
	assert.Equal(t, "Back hand at soft, 4 mph; medium, 7 mph; firm, 12 mph", lines[2])
	assert.Regexp(t, `^24 in: (\d+ %( \+/-\d+)?(; )?){3}$`, lines[3])
	_, err = view.Code(card.Text())
	assert.NoError(t, err, "a phone can read it")
	rows := view.TurnRows(m.Kept.TurnsOf("Ann"), "in")
	require.Len(t, rows, 8)
	assert.Equal(t, "1", rows[0].Number)
	assert.Regexp(t, `^-?\d+\.\d in$`, rows[0].Mark)

	// Another player, another table or another measurement of the cue starts anew; an edited
	// note does not.
	turns := m.Kept.TurnsOf("Ann")
	assert.True(t, f.Begins(&m, turns))
	assert.False(t, f.Begins(&m, turns[:5]))
	other := app.Update(m, app.ChoosePlayer{Name: "Bert"})
	assert.False(t, f.Begins(&other, nil))
	cloth := app.Update(m, app.Set{Key: "cloth", Text: "damp"})
	assert.False(t, f.Begins(&cloth, turns))
	bridge := app.Update(m, app.Set{Key: "bridge", Text: "8in"})
	assert.True(t, f.Begins(&bridge, turns), "the current shot's own hands don't count")
	shown := app.Update(m, app.Open{Link: f.Link(found.Proposals[0])})
	assert.True(t, f.Begins(&shown, turns), "nor does his stroke shown on the sheet")
	assert.Equal(t, found.Proposals[0].Side, shown.Scene.Side)
	nobody := app.Update(m, app.ChoosePlayer{})
	assert.Empty(t, view.PlayerConditions(&nobody))
	_, err = view.NewPlayerFit(&nobody)
	assert.Error(t, err)
}

// A player without a cue gets a card too, told from his strokes; and what nobody can make
// says why.
func TestCardsThatSayWhyNot(t *testing.T) {
	m := class(t)
	bert := m.Kept.Players[1]
	m = app.Update(m, app.OpenPlayerForm{Player: bert})
	bert.Slow, bert.Elev = "0.5mph", "4deg"
	m = app.Update(m, app.SavePlayerForm{Player: bert})
	require.Empty(t, m.Notices)
	m, f := plays(t, m, 1)
	found := f.Finding(sitting.ByMark, "today")
	assert.Equal(t, "pivot length, from these strokes", found.Facts[1].Name)
	assert.Equal(t, "cue with no name", found.Card.Facts[0])
	assert.Contains(t, found.Card.Notes, "No cue is named: this card is for the cue that played these strokes.")
	assert.Equal(t, "–", found.Card.Shares.Rows[3].Cells[0])
	assert.Contains(t, strings.Join(found.Card.Notes, " "), "–: ")

	m = app.Update(m, app.Set{Key: "side", Text: "0.7"})
	_, err := view.NewPlayerFit(&m)
	assert.Error(t, err, "the tip can't touch that far out")
}

// Strokes can be seen at the gate too, and strokes with left and right the wrong way round
// are pointed out.
func TestAPlayerAtTheGate(t *testing.T) {
	m := class(t)
	f, err := view.NewPlayerFit(&m)
	require.NoError(t, err)
	next := f.Finding(sitting.ByGate, "today").Proposals[0]
	assert.Contains(t, f.ProposalWords(next), "tap what it hits first at the gate, 30 in away.")
	m = app.Update(m, app.NoteTurn{Strokes: []store.Stroke{f.AtGate(next, "left", "")}})
	require.Empty(t, m.Notices)
	turns := m.Kept.TurnsOf("Ann")
	f, ok := f.AddWhile(turns[0], always)
	require.True(t, ok)
	assert.Equal(t, 1, f.Fit.N())
	assert.Equal(t, "30 in", view.TurnRows(turns, "in")[0].Line)
	gate := app.Update(m, app.Set{Key: "gap", Text: "2.5in"})
	assert.False(t, f.Begins(&gate, turns))

	stopped, ok := f.AddWhile(turns[0], func() bool { return false })
	assert.False(t, ok)
	assert.Equal(t, f, stopped)
}

func TestAPlayersStrokesTheWrongWayRound(t *testing.T) {
	m := class(t)
	m, f := plays(t, m, 6)
	assert.Empty(t, f.Misfit(always))
	swapped, err := view.NewPlayerFit(&m)
	require.NoError(t, err)
	for _, turn := range m.Kept.TurnsOf("Ann") {
		if text, minus := strings.CutPrefix(turn.Mark, "-"); minus {
			turn.Mark = text
		} else {
			turn.Mark = "-" + turn.Mark
		}
		swapped, _ = swapped.AddWhile(turn, always)
	}
	assert.Contains(t, swapped.Misfit(always), "Left and right look swapped")
}

// A class prints the cards of those who have strokes, each as it is when that player is
// chosen.
func TestCardsOfAClass(t *testing.T) {
	m := class(t)
	assert.Empty(t, view.Carded(&m))
	m, f := plays(t, m, 2)
	assert.Equal(t, []string{"Ann"}, view.Carded(&m))
	other := app.Update(m, app.ChoosePlayer{Name: "Bert"})
	card, err := view.CardOfPlayer(&other, "Ann", "today", always)
	require.NoError(t, err)
	assert.Equal(t, f.Own("today"), card)
	assert.Equal(t, "bert", other.Player)
	assert.Equal(t, "Card 2 of 3: Ann", view.PrintingWords(1, 3, "Ann"))
	far := app.Update(m, app.Set{Key: "side", Text: "0.7"})
	_, err = view.CardOfPlayer(&far, "Ann", "today", always)
	assert.Error(t, err)
}

// Strokes of several days are sittings of their own, whatever their order in the records.
// From the fourth on they count as one.
func TestAPlayersDaysAreSittings(t *testing.T) {
	m, f := plays(t, class(t), 2)
	assert.Equal(t, "2", f.Finding(sitting.ByMark, "today").Facts[0].Value)
	turn := m.Kept.Turns[0]
	on := func(when string) store.Turn {
		turn.When = when
		return turn
	}
	next, ok := f.AddWhile(on("2026-11-25T21:59:00Z"), always)
	require.True(t, ok)
	assert.Equal(t, "3", next.Finding(sitting.ByMark, "today").Facts[0].Value, "not three hours later")
	for i, day := range []string{"26", "27", "28", "29"} {
		next, ok = next.AddWhile(on("2026-11-"+day+"T19:00:00Z"), always)
		require.True(t, ok)
		assert.Equal(t, strconv.Itoa(4+i)+" in "+strconv.Itoa(min(2+i, sitting.MostSittings))+" sittings", next.Finding(sitting.ByMark, "today").Facts[0].Value)
	}
	assert.Equal(t, 7, next.Fit.N())

	// What comes from another phone may be older than what is here: the fit starts anew.
	m.Kept.Turns = next.Noted[:4]
	assert.True(t, next.Begins(&m, next.Noted))
	assert.True(t, f.Begins(&m, m.Kept.Turns))
	older := append(slices.Clone(m.Kept.Turns), on("2026-11-24T19:00:00Z"))
	assert.False(t, f.Begins(&m, older))
	m.Kept.Turns = older
	again, err := view.NewPlayerFit(&m)
	require.NoError(t, err)
	for _, one := range older {
		again, ok = again.AddWhile(one, always)
		require.True(t, ok)
	}
	assert.True(t, again.Begins(&m, older))
	assert.Equal(t, "5 in 3 sittings", again.Finding(sitting.ByMark, "today").Facts[0].Value)
}

// What a share's interval does not tell is not printed: a share that nobody knows to 100 % is
// open, and ± is explained where there is one to be read.
func TestACardSaysWhatItDoesNotKnow(t *testing.T) {
	m := app.Update(class(t), app.ChoosePlayer{Name: "Bert"})
	f, err := view.NewPlayerFit(&m)
	require.NoError(t, err)
	card := f.Own("today") // of any cue, and no strokes
	for _, row := range card.Shares.Rows {
		assert.Equal(t, []string{"open", "open", "open"}, row.Cells)
	}
	assert.Contains(t, card.Notes, "open: the share may be 100 % more or less. It needs more strokes.")
	assert.NotContains(t, card.Read, "±")
	assert.NotContains(t, card.Read, "%", "no share is told")

	m = app.Update(m, app.ChoosePlayer{Name: "Ann"}) // of a known cue
	f, err = view.NewPlayerFit(&m)
	require.NoError(t, err)
	card = f.Own("today")
	assert.Contains(t, card.Shares.Rows[0].Cells[0], " % ±")
	assert.Contains(t, card.Read, "±10 after it")
	assert.Empty(t, card.Notes)
}

package view

import (
	"strings"

	"pivotbench/core/player"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/store"
)

// A PlayerRow is a player of the list.
type PlayerRow struct {
	Index  int // among all players
	Name   string
	Line   string // his cue, when he last played, and what is missing
	Chosen bool
}

// FewPlayers is the most players that are listed without a search by name.
const FewPlayers = 10

// PlayerRows returns the players whose name contains find, ignoring case. day formats the
// day of a time in the device's date format.
func PlayerRows(m *app.Model, find string, day func(when string) string) []PlayerRow {
	var out []PlayerRow
	chosen, _ := m.Chosen()
	for i, p := range m.Kept.Players {
		if !strings.Contains(player.Key(p.Name), player.Key(find)) {
			continue
		}
		var parts []string
		if p.Cue != "" {
			parts = append(parts, p.Cue)
		}
		last := ""
		for _, t := range m.Kept.TurnsOf(p.Name) {
			if last == "" || store.Earlier(last, t.When) < 0 {
				last = t.When
			}
		}
		if last != "" {
			parts = append(parts, "last played "+day(last))
		}
		if missing := missingWords(&p, last != ""); missing != "" {
			parts = append(parts, "missing: "+missing)
		}
		out = append(out, PlayerRow{i, p.Name, phrase.Upper(strings.Join(parts, " · ")), p == chosen})
	}
	return out
}

// OfferedWords describes the player that a link contains. It is empty without one.
func OfferedWords(m *app.Model) string {
	if m.Offered.Players == nil {
		return ""
	}
	p, n := m.Offered.Players[0], len(m.Offered.Turns)
	words := "The link brings the player " + p.Name
	if n > 0 {
		words += " with " + phrase.Count(n, "stroke", "strokes")
	}
	if missing := missingWords(&p, n > 0); missing != "" {
		words += ", missing: " + missing
	}
	return words + "."
}

// lackWords are the words for what can be missing of a player.
var lackWords = []string{
	player.TheCue: "cue", player.TheBridge: "bridge and grip", player.TheElevation: "elevation", player.ThePaces: "speeds", player.TheFit: "strokes",
}

// missingWords lists what is missing of a player. It is empty when nothing is. played
// means that there are strokes of his.
func missingWords(p *store.Player, played bool) string {
	read, _ := p.Player() // what is kept can be read
	var out []string
	for _, part := range read.Missing() {
		if part == player.TheFit && played {
			continue
		}
		out = append(out, lackWords[part])
	}
	return strings.Join(out, ", ")
}

// A playerNumber is a field of a player's form that is a figure.
type playerNumber struct {
	key, label string
	like       string // the scenario key whose units and limits it has
	at         *string
}

// playerNumbers lists the fields of a player's form that are figures.
func playerNumbers(p *store.Player) []playerNumber {
	return []playerNumber{
		{"bridge", "Bridge", "bridge", &p.Bridge}, {"grip", "Bridge hand to grip hand", "grip", &p.Grip}, {"elev", "Cue elevation", "elev", &p.Elev},
		{"slow", "Slow", "speed", &p.Slow}, {"medium", "Medium", "speed", &p.Medium}, {"firm", "Firm", "speed", &p.Firm},
		{"tip", "Tip wander", "scatter.tip", &p.Tip}, {"speed", "Speed error, as a share", "scatter.speed", &p.Speed},
		{"wander", "Bridge error", "scatter.bridge", &p.Wander}, {"aim", "Aim spread", "scatter.aim", &p.Aim},
	}
}

// playerTexts lists the other fields that are typed.
func playerTexts(p *store.Player) []struct {
	key, label string
	long       bool
	at         *string
} {
	return []struct {
		key, label string
		long       bool
		at         *string
	}{
		{"slowname", "Own word for slow", false, &p.SlowName}, {"mediumname", "Own word for medium", false, &p.MediumName},
		{"firmname", "Own word for firm", false, &p.FirmName}, {"cue", "Cue, as in Cues", false, &p.Cue}, {"notes", "Notes", true, &p.Notes},
	}
}

// PlayerForm returns the fields of the form that edits a player, in the reader's units.
func PlayerForm(p *store.Player, units string) []CueField {
	out := []CueField{
		{Key: "name", Label: "Name", Text: p.Name},
		{Key: "hand", Label: "Plays", Text: p.Hand, Choices: [][2]string{{"right", "right-handed"}, {"left", "left-handed"}}},
	}
	for _, n := range playerNumbers(p) {
		out = append(out, CueField{Key: n.key, Label: n.label, Unit: scenario.Find(n.like).Display(units).Unit, Number: true, Text: n.shown(units)})
	}
	for _, t := range playerTexts(p) {
		out = append(out, CueField{Key: t.key, Label: t.label, Long: t.long, Text: *t.at})
	}
	return out
}

// shown returns the figure's value as the form shows it, without its interval.
func (n *playerNumber) shown(units string) string {
	k := scenario.Find(n.like)
	value, _, _ := strings.Cut(*n.at, ";")
	v, err := unit.Parse(value, k.Quantity, "")
	if err != nil {
		return ""
	}
	return k.Display(units).Number(v)
}

// read puts what was typed into the record, as a value without an interval, unless it is
// what was shown. The error says what was read and what is allowed.
func (n *playerNumber) read(text, units string) error {
	text = strings.TrimSpace(text)
	if text == n.shown(units) {
		return nil
	}
	*n.at = ""
	if text == "" {
		return nil
	}
	k, scene := scenario.Find(n.like), scenario.Default()
	if p := k.Set(&scene, text, k.Display(units).Unit); p != nil {
		p.Key, p.Kept = n.label, ""
		return p
	}
	*n.at = k.Value(&scene)
	return nil
}

// ReadPlayerForm returns a player with the values typed into the form. A figure that was
// not changed keeps its precision and its interval. faults describes the fields that
// can't be read or are not allowed.
func ReadPlayerForm(p store.Player, typed map[string]string, units, when string) (read store.Player, faults []string) {
	read = p
	read.Name, read.Hand, read.When = strings.TrimSpace(typed["name"]), typed["hand"], when
	for _, n := range playerNumbers(&read) {
		if err := n.read(typed[n.key], units); err != nil {
			faults = append(faults, err.Error())
		}
	}
	for _, t := range playerTexts(&read) {
		*t.at = typed[t.key]
	}
	if faults == nil {
		clean := read.Clean()
		faults = clean.Faults()
	}
	return read, faults
}

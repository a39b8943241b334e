package view

import (
	"math"
	"slices"
	"strings"

	"pivotbench/core/card"
	"pivotbench/core/gear"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/codec"
	"pivotbench/wasm/phrase"
)

// CardChartName describes the chart below the card, for those who can't see it.
const CardChartName = "Squirt minus swerve by distance, for a slow, a medium and a fast ball"

// AllowsForThrow says that a card's aims do.
const AllowsForThrow = "Every aim allows for throw."

// CardMade says when a card was made.
func CardMade(day string) string { return "made on " + day }

// A CardCell is one cell of the aim card.
type CardCell struct {
	Text   string
	Why    string // why there is no aim (Text is then a dash); empty when there is one
	Misses bool   // the nearest multiple of 25 % misses the pocket
	Link   string // the cell's shot with its aim applied
}

// A CardView is the aim card as text.
type CardView struct {
	Title   string
	Facts   []string // cue, player, table
	Columns []string // the speeds
	Rows    []CardRow
	Note    string
}

// A CardRow is one distance and its cells, one for each speed.
type CardRow struct {
	Head  string
	Cells []CardCell
}

// The quantities that an aim card can show.
const (
	ShowShare   = "share"
	ShowHeading = "heading"
	ShowShift   = "shift"
)

// cardGrid returns the distances and speeds of a card, as round numbers in the
// reader's units.
func cardGrid(s *scenario.Scenario) (dists []unit.Length, speeds []unit.Speed) {
	step, pace, speedsIn := 12*unit.Inch, unit.MilePerHour, []float64{3, 5, 7, 10, 15}
	if s.Units == "cm" {
		step, pace, speedsIn = 30*unit.Centimetre, unit.MetrePerSecond, []float64{1.5, 2, 3, 4.5, 6.5}
	}
	most := s.GearTable().Length - 2*s.GearBall().Radius
	for i := 1; i <= 6 && unit.Length(i)*step <= most; i++ {
		dists = append(dists, unit.Length(i)*step)
	}
	for _, v := range speedsIn {
		speeds = append(speeds, unit.Speed(v)*pace)
	}
	return dists, speeds
}

// ChartGrid returns the distances of the chart and its three speeds: slow, medium
// and fast.
func ChartGrid(s *scenario.Scenario) (dists []unit.Length, speeds []unit.Speed) {
	rows, all := cardGrid(s)
	const between = 4 // points per row of the card
	for i := 1; i <= between*len(rows); i++ {
		dists = append(dists, rows[0]*unit.Length(i)/between)
	}
	return dists, []unit.Speed{all[0], all[2], all[4]}
}

// CardOf returns the aim card of a scenario. show is ShowShare, ShowHeading or
// ShowShift.
func CardOf(s *scenario.Scenario, show string) CardView {
	sh := s.Shot()
	dists, speeds := cardGrid(s)
	v := CardView{Title: cardTitle(s, show), Facts: cardFacts(s)}
	for _, speed := range speeds {
		v.Columns = append(v.Columns, phrase.Brief(scenario.DisplayOf(unit.SpeedKind, s.Units).Format(float64(speed))))
	}
	for i, row := range card.Make(&sh, dists, speeds) {
		out := CardRow{Head: phrase.Brief(phrase.Length(s, dists[i]))}
		for _, c := range row {
			out.Cells = append(out.Cells, cardCell(s, c, show))
		}
		v.Rows = append(v.Rows, out)
	}
	v.Note = AllowsForThrow
	if v.marked() {
		v.Note = "“!” means that a round 0, 25, 50, 75 or 100 % would miss a " +
			scenario.Find("pocket").Shown(s) + " pocket " + scenario.Find("object").Shown(s) + " from the object ball. " + v.Note
	}
	return v
}

// marked reports whether any cell misses the pocket.
func (v *CardView) marked() bool {
	return slices.ContainsFunc(v.Rows, func(r CardRow) bool {
		return slices.ContainsFunc(r.Cells, func(c CardCell) bool { return c.Misses })
	})
}

func cardCell(s *scenario.Scenario, c card.Cell, show string) CardCell {
	err := c.Err
	if err == nil && show == ShowShare {
		err = c.Share.Err()
	}
	if err != nil {
		return CardCell{Text: "–", Why: err.Error(), Link: cellLink(s, c)}
	}
	out := CardCell{Misses: c.Misses && show == ShowShare, Link: cellLink(s, c)}
	switch show {
	case ShowHeading:
		out.Text = scenario.Display{Quantity: unit.AngleKind, Unit: "°", Decimals: 1}.Format(float64(c.Heading))
	case ShowShift:
		d := shiftDisplay(s)
		out.Text = d.Number(float64(c.Shift))
	default:
		out.Text = phrase.Percent(c.Share.Value)
	}
	return out
}

// cellLink returns the link of a cell's shot. The hands have the cell's share when
// there is one that they can be set to.
func cellLink(s *scenario.Scenario, c card.Cell) string {
	at := *s
	at.Dist, at.Speed, at.ByStroke = unit.Length(scenario.Find("dist").Stepped(float64(c.Dist), s.Units, math.Round)), c.Speed, false
	if at.Gate > 0 {
		at.Gate = min(at.Gate, at.Dist)
	}
	back := scenario.Find("back")
	share := back.Stepped(c.Share.Value, s.Units, math.Round)
	if c.Err == nil && c.Share.Err() == nil && math.Abs(share) <= back.Max && math.Abs(1-share) <= back.Max {
		at.Back, at.Front = share, back.Stepped(1-share, s.Units, math.Round)
	}
	return at.Format()
}

// shiftDisplay returns the display of a parallel shift on a card, with the
// precision to which a player can set it.
func shiftDisplay(s *scenario.Scenario) scenario.Display {
	if s.Units == "cm" {
		return scenario.Display{Quantity: unit.LengthKind, Unit: "mm"}
	}
	return scenario.Display{Quantity: unit.LengthKind, Unit: "in", Decimals: 1}
}

func cardTitle(s *scenario.Scenario, show string) string {
	what := map[string]string{ShowShare: phrase.Upper(phrase.ReadingName("share-back")) + ", %", ShowHeading: phrase.Upper(phrase.ReadingName("heading")) + ", degrees", ShowShift: "Parallel shift, " + map[string]string{"in": "inches", "mm": "millimetres"}[shiftDisplay(s).Unit]}[show]
	if s.Name != "" {
		what = s.Name + ": " + what
	}
	return what
}

// cardFacts returns the conditions that the card is valid for.
func cardFacts(s *scenario.Scenario) []string {
	cloth, _ := gear.Find(gear.Cloths, s.Cloth)
	shown := func(key string) string { return phrase.Brief(scenario.Find(key).Shown(s)) }
	english := phrase.English(s)
	if s.Side != 0 {
		english += " (" + phrase.Tips(s) + ")"
	}
	return []string{
		"cue: " + phrase.KeyName("pivot") + " " + shown("pivot") + " at " + shown("pivotspin") + " R",
		"player: bridge " + shown("bridge") + ", grip " + shown("grip") + ", elevation " + shown("elev"),
		"tip: " + english + ", height " + phrase.High(s),
		"ball: " + s.Ball + ", " + scenario.Find("diam").Shown(s) + "; cloth: " + strings.ToLower(cloth.Label),
	}
}

// CSV returns the card as comma-separated values (RFC 4180).
func (v CardView) CSV(date string) string {
	rows := [][]string{{v.Title, date}}
	for _, f := range v.Facts {
		rows = append(rows, []string{f})
	}
	rows = append(rows, append([]string{"distance"}, v.Columns...))
	for _, r := range v.Rows {
		line := []string{r.Head}
		for _, c := range r.Cells {
			text := c.Text
			if c.Misses {
				text += " !"
			}
			if c.Why != "" {
				text = c.Why
			}
			line = append(line, text)
		}
		rows = append(rows, line)
	}
	return codec.WriteCSV(rows)
}

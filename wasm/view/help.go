package view

import (
	"strconv"

	"pivotbench/core/instrument"
	"pivotbench/core/scenario"
	"pivotbench/core/sitting"
	"pivotbench/core/unit"
	"pivotbench/wasm/app"
	"pivotbench/wasm/phrase"
)

// A remedy is a reading of an instrument that narrows an error of the set-up.
type remedy struct {
	key   string // of one of app.Sures
	which int    // the error in core/sitting
	to    float64
	words string
}

// remedies are the readings that can be suggested, with the errors that they leave: that
// of the phone, and those that the instruments give after three timings by sound.
var remedies = []remedy{
	{"elevation", sitting.ElevationError, float64(instrument.Phone), "Measure your elevation with the phone"},
	{"speed", sitting.SpeedError, 0.02, "Time your strokes by the sounds of hit and rail"},
	{"slide", sitting.SlideError, 0.09, "Measure how far a ball slides on this cloth"},
}

// ahead is the number of further strokes after which two ways to go on are compared.
// worthwhile is the share of the interval that must remain at most for a piece of advice.
// firm is a speed at which swerve is small.
const (
	ahead      = 12
	worthwhile = 0.85
	firm       = 12 * unit.MilePerHour
)

// Help says what would narrow a cue's interval most: a reading by an instrument, or
// playing firmer. It is empty when nothing would help much. A quantity that has been
// measured already is not asked for again.
func Help(m *app.Model, t *Sitting) string {
	s, cue := &m.Scene, t.Cue(m.Measuring)
	sh, c := s.Shot(), choices(m)
	p := t.next(m, cue)
	look := p.Outlook(cue, &sh, &c)
	now := look.After(ahead)
	best, said := worthwhile*now, ""
	better := func(share float64, words string) {
		if share < best {
			best = share
			said = words + ": after " + strconv.Itoa(ahead) + " more strokes ±" + phrase.Percent(now) + " becomes ±" + phrase.Percent(share) + "."
		}
	}
	for _, r := range remedies {
		for i := range app.Sures {
			if has := app.Sures[i].Value(t.setUp); app.Sures[i].Key == r.key && r.to < has {
				better(look.Narrowed(r.which, r.to/has).After(ahead), r.words+", under Instruments")
			}
		}
	}
	if sh.Speed < firm {
		c.Speeds, sh.Speed = []unit.Speed{firm}, firm
		better(p.Outlook(cue, &sh, &c).After(ahead), "Play firmer, at "+scenario.Find("speed").Display(s.Units).Format(float64(firm)))
	}
	return said
}

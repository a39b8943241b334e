package view

import (
	"strconv"
	"strings"
	"unicode"

	"pivotbench/core/hop"
	"pivotbench/core/scenario"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/store"
)

// Contacts is what is known about the contact times of tip and bed in a shot.
type Contacts struct {
	Usual hop.Touch
	Range stat.Interval[float64] // contact time of the tip divided by that of the bed
	Hops  int                    // number of hops recorded with this ball, cue and cloth
	Err   error                  // why the hops do not narrow the range; nil when they do
}

// ContactsOf returns the usual contact times of the shot's tip, narrowed by the hops
// recorded with the same ball, cue and cloth.
func ContactsOf(s *scenario.Scenario, k *store.Records) Contacts {
	c := Contacts{Usual: hop.Usual(s.Shot().Cue.Tip)}
	seen := k.HopsLike(s)
	c.Range, c.Err = hop.Narrow(c.Usual.Ratios(), seen)
	c.Hops = len(seen)
	return c
}

// ratios returns enough ratios of the range for the figures. forMap returns fewer,
// for computations that simulate thousands of strokes.
func (c *Contacts) ratios() []float64 { return hop.Spaced(c.Range, hop.Enough) }
func (c *Contacts) forMap() []float64 { return hop.Spaced(c.Range, 5) }

// Said returns in words what the range is and where it comes from.
func (c *Contacts) Said() string {
	ms := func(r stat.Interval[unit.Span]) string {
		in := func(t unit.Span) string { return unit.Round(float64(t/unit.Millisecond), unit.Ratio, "", 1) }
		return in(r.From) + "–" + in(r.To) + " ms"
	}
	ratio := "the tip stays on the ball " + unit.Round(c.Range.From, unit.Ratio, "", 1) + " to " + unit.Round(c.Range.To, unit.Ratio, "", 1) + " times as long as the table"
	switch {
	case c.Err != nil:
		return "Your hops do not help: " + c.Err.Error() + "."
	case c.Hops > 0:
		return "Going by " + phrase.Count(c.Hops, "hop", "hops") + " you saw with this cue and cloth, " + ratio + "."
	}
	return "Not measured yet. A tip like this one usually stays on the ball for " + ms(c.Usual.Tip) + " and the table for " + ms(c.Usual.Bed) + ", so " + ratio + ". Note what your own hops do to narrow this."
}

// A SeenRow is a recorded hop: its index among the records, what the ball did, and
// how the shot was played.
type SeenRow struct {
	Index     int
	Did, Shot string
}

// DeleteName returns the full name of the button that deletes the hop.
func (r *SeenRow) DeleteName() string { return DeleteButton + " hop " + strconv.Itoa(r.Index+1) }

// SeenHops returns the hops recorded with this shot's ball, cue and cloth, and the
// number of other hops.
func SeenHops(s *scenario.Scenario, k *store.Records) (rows []SeenRow, others int) {
	for i := range k.Hops {
		one := store.Records{Hops: k.Hops[i : i+1]}
		if len(one.HopsLike(s)) == 0 {
			others++
			continue
		}
		did, shot := seenSaid(&k.Hops[i], s.Units)
		rows = append(rows, SeenRow{i, did, shot})
	}
	return rows, others
}

// OtherHops says how many hops were recorded with other equipment. It is empty for
// none.
func OtherHops(n int) string {
	if n == 0 {
		return ""
	}
	return phrase.Count(n, "hop", "hops") + " with another ball, cue or cloth: saved, but not used here."
}

func seenSaid(h *store.Hop, units string) (did, shot string) {
	then, _ := scenario.Parse(h.Link)
	then.Units = units
	speed := "speed"
	if then.ByStroke {
		speed = "stroke"
	}
	did = map[string]string{"cleared": "Cleared ", "touched": "Touched ", "rose": "Rose "}[h.Saw]
	switch {
	case h.Saw == "rose":
		did += spaced(h.High)
	case h.High != "":
		did += "a stack " + spaced(h.High) + " high at " + scenario.Find("gate").Shown(&then)
	default:
		did += "the blockers at " + scenario.Find("gate").Shown(&then)
	}
	return did, scenario.Find("elev").Shown(&then) + ", " + scenario.Find(speed).Shown(&then)
}

// spaced returns a length as it was typed, with a space before its unit.
func spaced(length string) string {
	if i := strings.IndexFunc(length, unicode.IsLetter); i > 0 {
		return strings.TrimSpace(length[:i]) + " " + length[i:]
	}
	return length
}

// HopHigh returns a typed height as text to be saved with a hop. Empty text stays
// empty. It returns an error when the text is not a length.
func HopHigh(text, units string) (string, error) {
	if text == "" {
		return "", nil
	}
	v, err := unit.Parse(text, unit.LengthKind, units)
	if err != nil {
		return "", err
	}
	return unit.Exact(v, unit.LengthKind, units), nil
}

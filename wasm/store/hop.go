package store

import (
	"errors"
	"slices"
	"strings"

	"pivotbench/core/hop"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/wasm/codec"
)

// A Hop is a hop shot and what was seen of it. It is evidence for every shot with the
// same ball, cue and cloth.
type Hop struct {
	Link string // the shot, as a scenario
	Saw  string // one of Sights
	// High is how far the ball's centre rose if Saw is rose. Otherwise it is the height
	// of a stack of coins at the gate's distance, and empty means that the obstacle was
	// the gate's own balls. It carries its unit.
	High string
	When string // date and time
}

func (h *Hop) fields(f codec.Fields) {
	f.Text("link", &h.Link)
	f.Text("saw", &h.Saw)
	f.TextIfAny("high", &h.High)
	f.Text("when", &h.When)
}

// Sights maps each hop.Sight to its word in a record.
var Sights = []string{hop.Cleared: "cleared", hop.Touched: "touched", hop.Rose: "rose"}

// Seen converts the hop for computation. The error says what is wrong with the hop.
func (h Hop) Seen() (hop.Seen, error) {
	s, _ := scenario.Parse(h.Link)
	what := hop.Sight(slices.Index(Sights, h.Saw))
	if what < 0 {
		return hop.Seen{}, errors.New("what it did (saw): “" + clip(h.Saw) + "”, allowed: " + strings.Join(Sights, ", "))
	}
	seen := hop.Seen{Shot: s.Shot(), What: what}
	switch {
	case h.High == "" && what == hop.Rose:
		return hop.Seen{}, errors.New("type how far the ball rose, such as 2 in or 50 mm")
	case h.High == "":
		return seen, nil
	}
	high, err := unit.Parse(h.High, unit.LengthKind, "")
	if err != nil {
		return hop.Seen{}, err
	}
	const highest = 1 // m
	if high <= 0 && what != hop.Rose || high < 0 || high > highest {
		return hop.Seen{}, errors.New("the height “" + clip(h.High) + "” must be more than 0 and at most 1 m")
	}
	seen.High = unit.Length(high)
	return seen, nil
}

// HopsLike returns the hops that were seen with the same ball, cue and cloth as the
// scenario's. It skips invalid ones.
func (k Records) HopsLike(s *scenario.Scenario) []hop.Seen {
	var out []hop.Seen
	now := s.Shot()
	for _, h := range k.Hops {
		seen, err := h.Seen()
		then := &seen.Shot
		if err == nil && then.Ball == now.Ball && then.Cue == now.Cue && then.Cloth == now.Cloth {
			out = append(out, seen)
		}
	}
	return out
}

// Clean returns the hop with its texts normalized for storage.
func (h Hop) Clean() Hop {
	h.When = clean(h.When)
	return h
}

// Faults describes everything that is wrong with a hop. It returns nil for a valid hop.
func (h *Hop) Faults() []string {
	out := linkFaults(h.Link)
	if _, err := h.Seen(); err != nil {
		out = append(out, err.Error())
	}
	return out
}

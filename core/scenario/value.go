package scenario

import (
	"errors"
	"strings"

	"pivotbench/core/typed"
	"pivotbench/core/unit"
)

// longestName is the number of characters that a label may have.
const longestName = 60

// Value returns the key's value as a link writes it, before percent-encoding. It is empty
// for an override that is not set.
func (k *Key) Value(s *Scenario) string {
	switch {
	case k.form != nil:
		return k.form.format(s)
	case k.text != nil:
		return *k.text(s)
	}
	if v, set := k.Number(s); set {
		return unit.Exact(v, k.Quantity, k.Unit)
	}
	return ""
}

// Set reads a value into the scenario. bare is the unit assumed if none is written, empty
// for a link. An empty text unsets an override. If it returns a Problem, the scenario is
// unchanged.
func (k *Key) Set(s *Scenario, text, bare string) *Problem {
	if k.unset != nil && strings.TrimSpace(text) == "" {
		k.unset(s)
		return nil
	}
	if err := k.read(s, text, bare); err != nil {
		return &Problem{Key: k.Name, Read: unit.Clip(text), Allowed: k.Allowed(s.Units), Kept: k.Shown(s)}
	}
	return nil
}

// Takes reports whether the key allows a number in SI.
func (k *Key) Takes(v float64) bool { return within(v, k.Min, k.Max) }

// Put sets a number in SI, limited to what the key allows. A speed or an override counts
// as given from then on.
func (k *Key) Put(s *Scenario, v float64) { k.set(s, max(k.Min, min(k.Max, v))) }

func (k *Key) read(s *Scenario, text, bare string) error {
	switch {
	case len(text) > LongestLink:
		return errRange
	case k.form != nil:
		return k.form.parse(s, text)
	case k.Choices != nil:
		for _, c := range k.Choices {
			if c.Name == text {
				*k.text(s) = text
				return nil
			}
		}
		return errRange
	case k.text != nil:
		name, cut := typed.Line(text, longestName)
		if cut {
			return errRange
		}
		*k.text(s) = name
		return nil
	}
	v, err := unit.Parse(text, k.Quantity, bare)
	if err != nil {
		return err
	}
	if !k.Takes(v) {
		return errRange
	}
	k.set(s, v)
	return nil
}

var errRange = errors.New("outside what is allowed")

// within reports whether v lies between two limits, up to rounding: 85deg and its radians
// are equal here.
func within(v, lo, hi float64) bool {
	slack := 1e-12 * (hi - lo)
	return v >= lo-slack && v <= hi+slack
}

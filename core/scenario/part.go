package scenario

import "slices"

// A Part is a part of a user's gear: values that belong together and change together.
type Part int

// The parts of a user's gear.
const (
	UnitsPart Part = iota
	TablePart      // table, ball and cloth, with their overrides
	CuePart        // all values of the current cue, and its name
)

// Parts is the number of parts.
const Parts = len(partKeys)

// partKeys holds the keys of each part.
var partKeys = [...][]string{
	UnitsPart: {"units"},
	TablePart: {"table", "ball", "cloth", "diam", "mass", "slide", "roll", "spindown", "hop"},
	CuePart:   {"name", "pivot", "pivotspin", "cuemass", "tip", "bounce", "tipwidth", "chalk"},
}

// PartOf returns the part that a key belongs to. ok is false for the keys of a stroke,
// which are not gear.
func PartOf(key string) (p Part, ok bool) {
	i := slices.IndexFunc(partKeys[:], func(keys []string) bool { return slices.Contains(keys, key) })
	return Part(i), i >= 0
}

// Take copies a part from another scenario.
func (s *Scenario) Take(p Part, from *Scenario) {
	for _, name := range partKeys[p] {
		k := Find(name)
		_ = k.Set(s, k.Value(from), "") // what a scenario has can be set
	}
}

// Shares reports whether a part has the same values as in another scenario. The name does
// not count.
func (s *Scenario) Shares(p Part, other *Scenario) bool {
	return !slices.ContainsFunc(partKeys[p], func(name string) bool {
		k := Find(name)
		return name != "name" && k.Value(s) != k.Value(other)
	})
}

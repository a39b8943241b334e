package scenario

import (
	"strconv"
	"strings"

	"pivotbench/core/unit"
)

// A Problem reports something in a link or a field that was refused.
type Problem struct {
	Key     string // empty if it concerns the link as a whole
	Read    string // what was read, shortened
	Allowed string // what is allowed, in words
	Kept    string // the value kept instead; empty if there is none
}

func (p *Problem) Error() string {
	text := "“" + p.Read + "” can't be used; " + p.Allowed
	if p.Key != "" {
		text = p.Key + ": " + text
	}
	if p.Kept != "" {
		text += "; " + p.Kept + " kept"
	}
	return text
}

// Allowed returns what the key allows, in words and in the reader's units.
func (k *Key) Allowed(units string) string {
	switch {
	case k.form != nil:
		return "allowed: " + k.form.allowed
	case k.Choices != nil:
		names := make([]string, len(k.Choices))
		for i, c := range k.Choices {
			names[i] = c.Name
		}
		return "allowed: " + strings.Join(names, ", ")
	case k.text != nil:
		return "allowed: up to " + strconv.Itoa(longestName) + " printable characters"
	}
	d := k.Display(units)
	text := "allowed: " + d.Format(k.Min) + " to " + d.Format(k.Max)
	if k.Quantity != unit.Ratio {
		text += ", with its unit"
	}
	return text
}

// Shown returns the key's value in words.
func (k *Key) Shown(s *Scenario) string {
	if !k.IsNumber() {
		return k.Value(s)
	}
	v, _ := k.Number(s)
	return k.Display(s.Units).Format(v)
}

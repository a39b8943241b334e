package store

import (
	"errors"
	"slices"

	"pivotbench/core/link"
	"pivotbench/core/scenario"
)

const (
	// CueKind is the kind of a link that carries a cue. See link.Kind.
	CueKind    = "cue"
	cueVersion = "1"
)

// texts returns the values of a record that are written to a link unchanged, with
// their keys.
func (c *CueRecord) texts() []struct {
	key string
	at  *string
} {
	return []struct {
		key string
		at  *string
	}{
		{"name", &c.Name}, {"pivot", &c.Pivot}, {"from", &c.From}, {"to", &c.To}, {"at", &c.At}, {"how", &c.How},
		{"shaft", &c.Shaft}, {"taper", &c.Taper}, {"ferrule", &c.Ferrule}, {"hardness", &c.Hardness},
		{"notes", &c.Notes}, {"when", &c.When},
	}
}

// Fragment returns the record as the fragment of a link, without the #:
//
//	cue&v=1&name=House%204&pivot=9.6in&from=9in&to=10.3in&at=0.5&how=gate&cuemass=540g&end
//
// The record's own keys come first. The scenario keys of the cue and the ball follow,
// except those with default values.
func (c *CueRecord) Fragment() string {
	text := CueKind + "&v=" + cueVersion
	put := func(key, value string) {
		if value != "" {
			text += "&" + key + "=" + link.Escape(value)
		}
	}
	for _, t := range c.texts() {
		put(t.key, *t.at)
	}
	scene, _ := scenario.Parse(c.Link)
	def := scenario.Default()
	for _, name := range gear {
		if k := scenario.Find(name); k.Value(&scene) != k.Value(&def) {
			put(name, k.Value(&scene))
		}
	}
	return text + "&" + carriedEnd
}

// ReadCue reads a cue's link from a fragment or a whole address. On an error, which
// names everything that is wrong, it returns an empty record.
func ReadCue(address string) (CueRecord, error) {
	pairs, err := carried(address, CueKind, cueVersion)
	if err != nil {
		return CueRecord{}, err
	}
	var c CueRecord
	var f faults
	scene := scenario.Default()
	const where = "the link to the cue"
	for i, pair := range pairs {
		key, value := pair[0], pair[1]
		if slices.ContainsFunc(pairs[:i], func(before [2]string) bool { return before[0] == key }) {
			f.add(where, key+" is given twice")
		}
		switch {
		case slices.Contains(gear, key):
			if p := scenario.Find(key).Set(&scene, value, ""); p != nil {
				f.add(where, p.Error())
			}
		case !c.take(key, value):
			f.add(where, "it has a part named “"+key+"”, which no cue has")
		}
	}
	c.Link = scene.Format()
	c = c.Clean()
	for _, what := range c.Faults() {
		f.add(where, what)
	}
	if f != nil {
		return CueRecord{}, errors.Join(f...)
	}
	return c, nil
}

// take sets one of the record's own values. It reports whether the key exists.
func (c *CueRecord) take(key, value string) bool {
	for _, t := range c.texts() {
		if t.key == key {
			*t.at = value
			return true
		}
	}
	return false
}

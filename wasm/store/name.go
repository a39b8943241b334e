package store

import (
	"strings"

	"pivotbench/core/scenario"
)

// CueKey returns a cue's name in a form for comparison. Names that differ only in case
// or in surrounding spaces have the same key.
func CueKey(name string) string { return strings.ToLower(strings.TrimSpace(name)) }

// NameFaults describes everything that is wrong with a name. Its messages begin with
// key, which says whose name it is. An empty name is valid.
func NameFaults(key, name string) []string {
	if name == "" {
		return nil
	}
	scene := scenario.Default()
	if p := scenario.Find("name").Set(&scene, name, ""); p != nil {
		p.Key, p.Kept = key, ""
		return []string{p.Error()}
	}
	return nil
}

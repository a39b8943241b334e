package store

import (
	"strings"

	"pivotbench/core/scenario"
)

// CueKey returns what tells cues apart by their names: case and outer spaces do
// not.
func CueKey(name string) string { return strings.ToLower(strings.TrimSpace(name)) }

// NameFaults returns what is wrong with a name, in words. Key says whose it is.
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

package store

import (
	"errors"
	"slices"
	"strings"

	"pivotbench/core/link"
)

const (
	// carriedEnd ends the link of a record. A link without it is truncated.
	carriedEnd = "end"
	// LongestLink is the maximum length of such a link in bytes, more than any record needs.
	LongestLink = 16 << 10
)

// carried reads the fragment, or whole address, of a link that carries a record:
//
//	kind&v=1&key=value&...&end
//
// It returns the keys and values in order, without the version. The error says that the
// link is of another kind, or of none of the versions, or was cut short.
func carried(address, kind string, versions ...string) ([][2]string, error) {
	text := link.Fragment(address)
	if link.Kind(text) != kind {
		return nil, errors.New("this is not a link to a " + kind)
	}
	pairs := strings.Split(strings.TrimRight(text, link.Trailing), "&")
	if len(text) > LongestLink || pairs[len(pairs)-1] != carriedEnd {
		return nil, errors.New("the link to the " + kind + " was cut short: copy the whole link")
	}
	var out [][2]string
	for _, pair := range pairs[1 : len(pairs)-1] {
		key, raw, _ := strings.Cut(pair, "=")
		value := link.Unescape(raw)
		switch {
		case key != "v":
			out = append(out, [2]string{key, value})
		case !slices.Contains(versions, value):
			return nil, errors.New("the link to the " + kind + " is of version “" + value + "”, but this copy of Pivotbench reads version " + strings.Join(versions, " and "))
		}
	}
	return out, nil
}

package store

import (
	"slices"
	"time"
)

// pause is the shortest time without a stroke that ends a sitting. The set-up of the next
// one is new: another stance, another tape, another cloth. Common practice, no source.
const pause = 3 * time.Hour

// moment returns the time of a record. ok is false for a text that is not a time. A date
// without a time of day is midnight local time.
func moment(when string) (t time.Time, ok bool) {
	if t, err := time.Parse(time.RFC3339, when); err == nil {
		return t, true
	}
	t, err := time.ParseInLocation(time.DateOnly, when, time.Local)
	return t, err == nil
}

// Sittings returns the number of the sitting that each of the moments belongs to. They
// count from 0 in order of time. The time zones in which the moments are written make no
// difference. Moments without a readable time, as in old records, are one sitting, the
// first.
func Sittings(moments []string) []int {
	out := make([]int, len(moments))
	at := make([]time.Time, len(moments))
	var dated []int
	for i, when := range moments {
		var ok bool
		if at[i], ok = moment(when); ok {
			dated = append(dated, i)
		}
	}
	slices.SortStableFunc(dated, func(a, b int) int { return at[a].Compare(at[b]) })
	n := -1
	if len(dated) < len(moments) {
		n = 0 // that of the others
	}
	for i, one := range dated {
		if i == 0 || at[one].Sub(at[dated[i-1]]) >= pause {
			n++
		}
		out[one] = n
	}
	return out
}

package kept

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"pivotbench/core/unit"
)

// A Reading is one timing of a ball, as it was taken. Values carry their units,
// as in a link.
type Reading struct {
	Of        string `json:"of"`              // speed, rest or marks: what it is a reading for
	Length    string `json:"length"`          // to the mark, to where the ball rested, or to the second mark
	Time      string `json:"time"`            // that it took to there
	Third     string `json:"third,omitempty"` // from the first mark to the third, and its time
	ThirdTime string `json:"thirdtime,omitempty"`
	Topspin   string `json:"topspin,omitempty"` // of a speed: Rω/v as the tip let go
	By        string `json:"by"`                // thumb, sound or typed
	When      string `json:"when"`
}

// What readings are for, and how they are taken.
var (
	Timings = []string{"speed", "rest", "marks"}
	Bys     = []string{"thumb", "sound", "typed"}
)

// checkReadings names every reading that can't be taken.
func checkReadings(list []Reading) error {
	if len(list) > most {
		return errors.New(strconv.Itoa(len(list)) + " readings; a file has at most " + strconv.Itoa(most))
	}
	var f faults
	for i, r := range list {
		where := "reading " + strconv.Itoa(i+1)
		word := func(what, read string, allowed []string) {
			if !slices.Contains(allowed, read) {
				f.add(where, what+" “"+read+"”, allowed: "+strings.Join(allowed, ", "))
			}
		}
		quantity := func(text string, kind unit.Kind, needed bool) {
			if _, err := unit.Parse(text, kind, ""); err != nil && (needed || text != "") {
				f.add(where, err.Error())
			}
		}
		word("of", r.Of, Timings)
		word("by", r.By, Bys)
		quantity(r.Length, unit.LengthKind, true)
		quantity(r.Time, unit.SpanKind, true)
		quantity(r.Third, unit.LengthKind, r.Of == "marks")
		quantity(r.ThirdTime, unit.SpanKind, r.Of == "marks")
		quantity(r.Topspin, unit.Ratio, false)
	}
	return errors.Join(f...)
}

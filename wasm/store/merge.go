package store

import (
	"errors"
	"slices"
	"strconv"

	"pivotbench/core/lesson"
	"pivotbench/core/player"
)

// same reports whether two records are the same. Records have no identifier: two with
// equal contents are the same record, whichever tab or file they come from.
func same[T comparable](a, b T) bool { return a == b }

// sameTurn is same for players' strokes: the case of a name does not count.
func sameTurn(a, b Turn) bool {
	return a.Stroke == b.Stroke && player.Key(a.Player) == player.Key(b.Player)
}

func sameLesson(a, b lesson.Lesson) bool { return a.Equal(&b) }

// Swap returns the list with one entry replaced by others, or removed if there are no
// others. ok is false if the list does not have the entry.
func Swap[T comparable](list []T, was T, now ...T) (out []T, ok bool) {
	return swap(list, same, was, now...)
}

// SwapLesson is Swap for lessons.
func SwapLesson(list []lesson.Lesson, was lesson.Lesson, now ...lesson.Lesson) (out []lesson.Lesson, ok bool) {
	return swap(list, sameLesson, was, now...)
}

func swap[T any](list []T, same func(a, b T) bool, was T, now ...T) (out []T, ok bool) {
	i := find(list, same, was)
	if i < 0 {
		return list, false
	}
	return slices.Concat(list[:i], now, list[i+1:]), true
}

func find[T any](list []T, same func(a, b T) bool, one T) int {
	return slices.IndexFunc(list, func(other T) bool { return same(other, one) })
}

// Merge combines the records of two tabs, or of this device and a file, that both
// started from the same base. The result is theirs with the entries that mine added,
// changed or removed since base. A change that both made is applied once.
func Merge(base, mine, theirs Records) Records {
	out := theirs
	out.Strokes = merge(base.Strokes, mine.Strokes, theirs.Strokes, same)
	out.Cues = merge(base.Cues, mine.Cues, theirs.Cues, same)
	out.Readings = merge(base.Readings, mine.Readings, theirs.Readings, same)
	out.Tables = merge(base.Tables, mine.Tables, theirs.Tables, same)
	out.Hops = merge(base.Hops, mine.Hops, theirs.Hops, same)
	out.Checks = merge(base.Checks, mine.Checks, theirs.Checks, same)
	out.Lessons = merge(base.Lessons, mine.Lessons, theirs.Lessons, sameLesson)
	out.Players = onePerName(merge(base.Players, mine.Players, theirs.Players, same))
	out.Turns = merge(base.Turns, mine.Turns, theirs.Turns, sameTurn)
	if mine.Marks != base.Marks {
		out.Marks = mine.Marks
	}
	return out
}

// merge applies to theirs the changes that turned base into mine. If mine removed as
// many entries as it added, each added entry replaces the removed one. An entry that
// mine changed and theirs removed is added again.
func merge[T any](base, mine, theirs []T, same func(a, b T) bool) []T {
	gone := less(base, mine, same)
	added := less(less(mine, base, same), less(theirs, base, same), same)
	inPlace := len(gone) == len(added)
	out := theirs
	for i, was := range gone {
		var now []T
		if inPlace {
			now = added[i : i+1]
		}
		next, found := swap(out, same, was, now...)
		if !found {
			next = slices.Concat(out, now)
		}
		out = next
	}
	if inPlace {
		return out
	}
	return slices.Concat(out, added)
}

// less returns the entries of a list that another list does not have. An entry that
// occurs more often in the first list is returned once for each extra occurrence.
func less[T any](list, other []T, same func(a, b T) bool) (out []T) {
	rest := slices.Clone(other)
	for _, one := range list {
		if i := find(rest, same, one); i >= 0 {
			rest = slices.Delete(rest, i, i+1)
		} else {
			out = append(out, one)
		}
	}
	return out
}

// A size is the length of a list and the maximum length for adding to it.
type size struct {
	name    string
	n, most int
}

func (k Records) sizes() []size {
	return []size{
		{"strokes", len(k.Strokes), most}, {"cue records", len(k.Cues), most}, {"readings", len(k.Readings), most},
		{"tables", len(k.Tables), most}, {"hops", len(k.Hops), most}, {"lessons", len(k.Lessons), mostLessons},
		{"checks of the set-up", len(k.Checks), most},
		{"players", len(k.Players), most}, {"players' strokes", len(k.Turns), most},
	}
}

// Fits returns an error if a list is too long. A list that was already too long before
// is accepted as long as it does not grow.
func (k Records) Fits(before Records) error {
	was := before.sizes()
	for i, l := range k.sizes() {
		if l.n > l.most && l.n > was[i].n {
			return errors.New(strconv.Itoa(l.n) + " " + l.name + " is more than Pivotbench can save: up to " + strconv.Itoa(l.most) + ". Export your records, then delete some you no longer need")
		}
	}
	return nil
}

// readsBack reports whether the records, encoded as text, are within the limits for
// reading.
func (k Records) readsBack(text string) bool {
	tooLong := func(l size) bool { return l.n > mostRead }
	return len(text) <= MostBytes && !slices.ContainsFunc(k.sizes(), tooLong)
}

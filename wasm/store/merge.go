package store

import (
	"errors"
	"slices"
	"strconv"

	"pivotbench/core/lesson"
)

// A record has no number of its own: it is what it says. Two that say the same
// are the same record, whichever tab or file they come from.
func same[T comparable](a, b T) bool { return a == b }

func sameLesson(a, b lesson.Lesson) bool { return a.Equal(&b) }

// Swap returns a list with one entry replaced by others, or taken out when there
// are none. ok is false when the list has no such entry.
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

// Merge returns what two tabs, or this device and a file, come to when both went
// on from the same base: theirs, with what was added, changed and taken out
// here. What both did is done once.
func Merge(base, mine, theirs Records) Records {
	out := theirs
	out.Strokes = merge(base.Strokes, mine.Strokes, theirs.Strokes, same)
	out.Cues = merge(base.Cues, mine.Cues, theirs.Cues, same)
	out.Readings = merge(base.Readings, mine.Readings, theirs.Readings, same)
	out.Tables = merge(base.Tables, mine.Tables, theirs.Tables, same)
	out.Hops = merge(base.Hops, mine.Hops, theirs.Hops, same)
	out.Lessons = merge(base.Lessons, mine.Lessons, theirs.Lessons, sameLesson)
	if mine.Marks != base.Marks {
		out.Marks = mine.Marks
	}
	return out
}

// merge does to theirs what was done to base to make mine. An entry changed in
// place is changed there too, and comes back where it is gone.
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

// less returns the entries of a list that another has not, each as often as it
// has more of them.
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

// A size is how long a list is, and the most of it that is kept.
type size struct {
	name    string
	n, most int
}

func (k Records) sizes() []size {
	return []size{
		{"strokes", len(k.Strokes), most}, {"cue records", len(k.Cues), most}, {"readings", len(k.Readings), most},
		{"tables", len(k.Tables), most}, {"hops", len(k.Hops), most}, {"lessons", len(k.Lessons), mostLessons},
	}
}

// Fits returns an error when a list is longer than is kept. One that was longer
// before may stay so, as long as it does not grow.
func (k Records) Fits(before Records) error {
	was := before.sizes()
	for i, l := range k.sizes() {
		if l.n > l.most && l.n > was[i].n {
			return errors.New(strconv.Itoa(l.n) + " " + l.name + ": this bench keeps up to " + strconv.Itoa(l.most) + ". Export them, then delete some you no longer need")
		}
	}
	return nil
}

// readsBack reports whether what is written of the records can be read again.
func (k Records) readsBack(text string) bool {
	tooLong := func(l size) bool { return l.n > mostRead }
	return len(text) <= MostBytes && !slices.ContainsFunc(k.sizes(), tooLong)
}

package store

import (
	"slices"
	"strconv"
	"strings"
	"time"

	"pivotbench/core/link"
	"pivotbench/core/scenario"
)

// Strokes follow the player in his link, each as what differs from the one before:
//
//	turn&when=2026-11-24T19%3A05%3A00Z&cue=House%204&back=0.5&front=0.5&mark=-1.9in&at=30in&read=3mm
//	turn=65000&side=-0.4&mark=1.2in
//
// turnKey begins a stroke; its value is the time since the one before, in milliseconds.
// Then come the keys of the shot that have changed, and the stroke's own texts that have.
// A key without a value is left out of the shot, or empty.
const (
	turnKey = "turn"
	shotKey = "link" // a whole shot that can't be told as a change
)

// texts lists the record's texts except the shot, with their keys in a player's link. None
// is a key of a scenario.
func (k *Stroke) texts() []namedText {
	return []namedText{{"cue", &k.Cue}, {"see", &k.See}, {"mark", &k.Mark}, {"at", &k.At}, {"read", &k.Read}, {"when", &k.When},
		{"filmlaunch", &k.Film.Launch}, {"filmspeed", &k.Film.Speed}, {"filmcov", &k.Film.Cov}}
}

// turnPairs writes a stroke as what differs from the one before.
func turnPairs(was, now *Stroke) []string {
	begin := turnKey
	since, timed := sinceWhen(was.When, now.When)
	if timed {
		begin += "=" + since
	}
	pairs := []string{begin}
	put := func(key, value string) {
		if value != "" {
			value = "=" + link.Escape(value)
		}
		pairs = append(pairs, key+value)
	}
	if changes := linkChanges(was.Link, now.Link); changedLink(was.Link, changes) == now.Link {
		for _, c := range changes {
			put(c[0], c[1])
		}
	} else {
		put(shotKey, now.Link)
	}
	before := was.texts()
	for i, t := range now.texts() {
		if *t.at != *before[i].at && !(timed && t.at == &now.When) {
			put(t.key, *t.at)
		}
	}
	return pairs
}

// readTurns reads the strokes of a player's link. pairs begin with the first stroke.
func readTurns(pairs [][2]string) []Stroke {
	var out []Stroke
	var now Stroke
	for len(pairs) > 0 {
		now.When = afterWhen(now.When, pairs[0][1])
		pairs = pairs[1:]
		n := slices.IndexFunc(pairs, func(pair [2]string) bool { return pair[0] == turnKey })
		if n < 0 {
			n = len(pairs)
		}
		now = now.changed(pairs[:n])
		out, pairs = append(out, now), pairs[n:]
	}
	return out
}

// changed returns a stroke with some of its texts and of its shot's keys changed.
func (k Stroke) changed(pairs [][2]string) Stroke {
	var changes [][2]string
	whole := false
	texts := append(k.texts(), namedText{shotKey, &k.Link})
	for _, pair := range pairs {
		if i := slices.IndexFunc(texts, func(t namedText) bool { return t.key == pair[0] }); i >= 0 {
			*texts[i].at = pair[1]
			whole = whole || pair[0] == shotKey
		} else {
			changes = append(changes, pair)
		}
	}
	if !whole {
		k.Link = changedLink(k.Link, changes)
	}
	return k
}

// linkPairs returns the keys and values of a shot's link, without its version.
func linkPairs(text string) (pairs [][2]string) {
	for _, part := range strings.Split(text, "&") {
		if key, raw, _ := strings.Cut(part, "="); key != "" && key != "v" {
			pairs = append(pairs, [2]string{key, link.Unescape(raw)})
		}
	}
	return pairs
}

// linkChanges returns the pairs of a shot's link that another link does not have. Of a key
// that only the other one has the value is empty.
func linkChanges(was, now string) (changes [][2]string) {
	before, after := linkPairs(was), linkPairs(now)
	for _, pair := range after {
		if !slices.Contains(before, pair) {
			changes = append(changes, pair)
		}
	}
	for _, pair := range before {
		if !hasKey(after, pair[0]) {
			changes = append(changes, [2]string{pair[0], ""})
		}
	}
	return changes
}

// changedLink returns a shot's link with some of its keys changed, as a scenario writes
// it. With a key or value that no scenario has it is as it was read, for its error.
func changedLink(was string, changes [][2]string) string {
	text := "v=1"
	for _, pair := range changes {
		if pair[1] != "" {
			text += "&" + pair[0] + "=" + link.Escape(pair[1])
		}
	}
	for _, pair := range linkPairs(was) {
		if !hasKey(changes, pair[0]) {
			text += "&" + pair[0] + "=" + link.Escape(pair[1])
		}
	}
	s, problems := scenario.Parse(text)
	if problems != nil {
		return text
	}
	return s.Format()
}

func hasKey(pairs [][2]string, key string) bool {
	return slices.ContainsFunc(pairs, func(pair [2]string) bool { return pair[0] == key })
}

// sinceWhen returns the milliseconds between two times of records as text. ok is false if
// afterWhen does not give the second again.
func sinceWhen(was, now string) (since string, ok bool) {
	from, err := time.Parse(time.RFC3339, was)
	to, errTo := time.Parse(time.RFC3339, now)
	if err != nil || errTo != nil {
		return "", false
	}
	since = strconv.FormatInt(to.Sub(from).Milliseconds(), 10)
	return since, afterWhen(was, since) == now
}

// afterWhen returns a time of a record some milliseconds later, in the same format. It is
// the same time if it or the text can't be read.
func afterWhen(was, since string) string {
	from, err := time.Parse(time.RFC3339, was)
	later, errSince := strconv.ParseInt(since, 10, 64)
	if err != nil || errSince != nil {
		return was
	}
	layout := time.RFC3339
	if strings.Contains(was, ".") {
		layout = "2006-01-02T15:04:05.000Z07:00"
	}
	return from.Add(time.Duration(later) * time.Millisecond).Format(layout)
}

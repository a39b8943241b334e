package view

import (
	"maps"
	"math"
	"slices"

	"pivotbench/core/sitting"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
)

// A Log follows the recorded strokes, sitting by sitting. It works in steps, and keeps
// what is still right when strokes change. The zero value has no strokes.
type Log struct {
	Mistaken []store.Stroke // those recorded last whose marks fit far better on the other side

	swapped []store.Stroke // those that fit far better with left and right exchanged, all told
	left    []store.Stroke // those that the user has left as they are
	shown   *Sitting
	past    []*Past
	begun   *Sitting                             // a sitting of the past that is being worked out
	fresh   map[sitting.SetUp]*sitting.Posterior // before the first stroke
	done    int                                  // strokes worked out by Follow so far
	of      int                                  // and how many there are
}

// Progress returns how many strokes Follow has worked out so far, and of how many.
func (l *Log) Progress() (done, of int) { return l.done, l.of }

// Follow brings the log up to date as far as the measured cue and those that it is
// compared with are concerned, and returns the sitting that is shown. It calls on before
// every step, and gives up when on returns false: ok is then false.
func (l *Log) Follow(m *app.Model, on func() bool) (t *Sitting, ok bool) {
	return l.follow(m, on, false)
}

// FollowAll is Follow for all cues.
func (l *Log) FollowAll(m *app.Model, on func() bool) (t *Sitting, ok bool) {
	return l.follow(m, on, true)
}

func (l *Log) follow(m *app.Model, on func() bool, everything bool) (t *Sitting, ok bool) {
	all := m.Sittings()
	shown, reference := app.Shown(all), m.Scene.PivotSpin
	l.forget(all)
	strokes := pick(m.Kept.Strokes, all[shown].Strokes)
	wanted := map[string]bool{store.CueKey(m.Measuring): true}
	for i := range strokes {
		wanted[store.CueKey(strokes[i].Cue)] = true
	}
	others := make([][]store.Stroke, len(all)) // of the sittings that count beside the one shown
	l.done, l.of = 0, len(strokes)
	for i, s := range all {
		noted := pick(m.Kept.Strokes, s.Strokes)
		if i != shown && (everything || slices.ContainsFunc(noted, func(k store.Stroke) bool { return wanted[store.CueKey(k.Cue)] })) {
			others[i] = noted
			l.of += len(noted)
		}
	}
	var past []*Past
	for i, noted := range others {
		if noted == nil {
			continue
		}
		p := l.pastOf(noted, all[i].SetUp, reference, on)
		if p == nil {
			return nil, false
		}
		with := *p
		with.places = all[i].Strokes
		past = append(past, &with)
	}
	if !l.followShown(strokes, all[shown].SetUp, reference, on) {
		return nil, false
	}
	if everything {
		l.past = past
	}
	out := *l.shown
	out.Past, out.Places = past, all[shown].Strokes
	if !all[shown].On {
		out.setUp = all[slices.IndexFunc(all, func(t app.Sitting) bool { return t.On })].SetUp
		out.fresh = l.prior(out.setUp)
	}
	return &out, true
}

// mostTogether is how many of the strokes recorded last, together, are looked at for marks
// on the wrong side.
const mostTogether = 12

// followShown brings the sitting that is shown up to date. It returns false when on does.
func (l *Log) followShown(strokes []store.Stroke, u sitting.SetUp, reference float64, on func() bool) (ok bool) {
	if l.shown == nil || !l.shown.Begins(strokes, u, reference) {
		l.shown = l.start(u, reference)
	}
	if len(l.shown.Noted) == 0 {
		l.Mistaken = nil
	}
	latest := len(strokes) // the first of those recorded together with the last one
	for latest > 0 && len(strokes)-latest < mostTogether && (latest == len(strokes) || strokes[latest-1].When == strokes[len(strokes)-1].When) {
		latest--
	}
	l.Mistaken = slices.DeleteFunc(l.Mistaken, func(other store.Stroke) bool { return !slices.Contains(strokes[latest:], other) })
	before := l.done
	for {
		n := len(l.shown.Noted)
		l.done = before + n
		if n == len(strokes) {
			return true
		}
		next := strokes[n:min(n+l.shown.Post.Round(), max(latest, n+1))]
		mistaken := n >= latest && l.shown.Mistaken(next[0])
		if l.shown, ok = l.shown.AddWhile(next, on); !ok {
			return false
		}
		if mistaken {
			l.Mistaken = append(l.Mistaken, next[0])
		}
	}
}

// start returns a sitting without strokes.
func (l *Log) start(u sitting.SetUp, reference float64) *Sitting {
	return &Sitting{Post: l.prior(u), setUp: u, reference: reference}
}

// prior returns the posterior of a sitting without strokes. Those of one set-up share what
// they work out of a shot.
func (l *Log) prior(u sitting.SetUp) *sitting.Posterior {
	if l.fresh[u] == nil {
		l.fresh[u] = sitting.Prior(u)
	}
	return l.fresh[u]
}

// forget drops what is kept for set-ups that no sitting has.
func (l *Log) forget(all []app.Sitting) {
	if l.fresh == nil {
		l.fresh = map[sitting.SetUp]*sitting.Posterior{}
	}
	maps.DeleteFunc(l.fresh, func(u sitting.SetUp, _ *sitting.Posterior) bool {
		return !slices.ContainsFunc(all, func(t app.Sitting) bool { return t.SetUp == u })
	})
}

// Suspect takes over which strokes fit far better with left and right exchanged, as Fit
// finds.
func (l *Log) Suspect(swapped []store.Stroke) { l.swapped = swapped }

// Asked returns the strokes of a model that the user is to be asked about: whether they
// were on the other side.
func (l *Log) Asked(m *app.Model) (out []store.Stroke) {
	out = slices.Clone(l.swapped)
	for _, k := range l.Mistaken {
		if !slices.Contains(l.swapped, k) {
			out = append(out, k)
		}
	}
	return slices.DeleteFunc(out, func(k store.Stroke) bool {
		return !slices.Contains(m.Kept.Strokes, k) || slices.Contains(l.left, k)
	})
}

// Leave takes over that the user leaves those strokes as they are. They are not asked about
// again.
func (l *Log) Leave(m *app.Model) { l.left = append(l.left, l.Asked(m)...) }

// pastOf returns what is kept of a sitting, from before if it is known. It returns nil when
// on returns false.
func (l *Log) pastOf(strokes []store.Stroke, u sitting.SetUp, reference float64, on func() bool) *Past {
	if i := slices.IndexFunc(l.past, func(p *Past) bool { return p.is(strokes, u, reference) }); i >= 0 {
		l.done += len(strokes)
		return l.past[i]
	}
	t := l.start(u, reference)
	for _, known := range []*Sitting{l.shown, l.begun} {
		if known != nil && known.Begins(strokes, u, reference) {
			t = known
		}
	}
	before := l.done
	for len(t.Noted) < len(strokes) {
		n := len(t.Noted)
		next, ok := t.with(strokes[n:min(n+t.Post.Round(), len(strokes))], on)
		if !ok {
			return nil
		}
		t, l.begun, l.done = next, next, before+n
	}
	p := t.past(on)
	if p != nil {
		l.begun, l.past = nil, append(l.past, p) // kept even if Follow gives up later
		l.done = before + len(strokes)
	}
	return p
}

// pick returns the strokes with the given indices.
func pick(strokes []store.Stroke, at []int) []store.Stroke {
	out := make([]store.Stroke, len(at))
	for i, n := range at {
		out[i] = strokes[n]
	}
	return out
}

// PastDoubts says which strokes of other sittings count for little or nothing, and calls
// each with the index of every stroke of theirs and what it says.
func (t *Sitting) PastDoubts(each func(stroke int, words string)) {
	for _, p := range t.Past {
		for i, d := range p.doubts {
			each(p.places[i], Doubt(p.places[i], !math.IsNaN(d), d))
		}
	}
}

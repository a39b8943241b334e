package sitting

// swap is the probability that a stroke's english or what was seen of it is taken to be
// recorded on the wrong side, when swapped strokes are looked for.
const swap = 0.1

// sureOfSides is the Bayes factor above which some strokes count as swapped. Of sittings
// without swapped strokes at most one in fifty exceeds it (Markov's inequality).
const sureOfSides = 50

// someSwapped returns the strokes that fit far better with left and right exchanged, or
// nil. It compares the strokes as recorded with a model in which each of them may be
// swapped, whatever the others are, so it finds any number of them. A film does not
// confuse the sides.
func (p *Posterior) someSwapped(on func() bool, among []int, asRecorded []float64) (strokes []int) {
	q, either := p.evidence(on, among, asRecorded, func(_ int, k Stroke) Stroke {
		if _, film := k.Seen.(Film); !film {
			k.swap = swap
		}
		return k
	})
	if bayes(either, asRecorded) < sureOfSides {
		return nil
	}
	for i := range p.strokes {
		if !on() {
			return nil
		}
		if q.swapped(&p.strokes[i]) > 0.5 {
			strokes = append(strokes, i)
		}
	}
	return strokes
}

// swapped returns the probability that a stroke was recorded on the wrong side, in a
// posterior that allows for it.
func (p *Posterior) swapped(w *weighed) float64 {
	t := p.table(w.Cue)
	if _, film := w.Seen.(Film); film || t == nil || w.Sitting >= len(p.cloud.of) {
		return 0 // of a cue or a sitting that is not among the strokes looked at, nothing is said
	}
	either := *w
	either.swap = swap
	odds, other := wrong*w.seen[0].odds, 0.0
	var here, both chances
	for i, m := range p.mix {
		if m < 1e-7 {
			continue
		}
		from, to := t.span[i][0], t.span[i][1]
		is, all := here.of(batch{w}, p.cloud, i, from, to), both.of(batch{&either}, p.cloud, i, from, to)
		for k, l := range t.like[i][from:to] {
			other += m * l / t.sum[i] * (1 - ((1-swap)*(is[k]-odds)+odds)/all[k])
		}
	}
	return other
}

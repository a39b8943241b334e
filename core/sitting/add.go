package sitting

import "slices"

// Of returns the posterior after a sitting's strokes. Impossible strokes are left
// out, and errs has the reason at each one's index. errs is nil when every stroke
// is possible.
func Of(u SetUp, strokes []Stroke) (p *Posterior, errs []error) {
	p, errs, _ = Prior(u).AddAllWhile(strokes, func() bool { return true })
	return p, errs
}

// Add returns the posterior after one more stroke. It returns an error when the
// stroke is impossible or its ball can't reach the line with any cue. Any stroke
// may have been recorded wrongly, so strokes that contradict each other never make
// the likelihood zero: they widen the scatter and the interval.
func (p *Posterior) Add(k Stroke) (*Posterior, error) {
	return p.AddWhile(k, func() bool { return true })
}

// AddWhile is Add for a program that must not be busy for long at a time, or may need
// to stop. It calls on before every step, which takes a few milliseconds at most. Most
// strokes take half a dozen steps, and now and then one takes a few for each stroke
// before it. When on returns false, AddWhile returns ErrStopped.
func (p *Posterior) AddWhile(k Stroke, on func() bool) (*Posterior, error) {
	next, errs, ok := p.AddAllWhile([]Stroke{k}, on)
	switch {
	case !ok:
		return nil, ErrStopped
	case errs != nil:
		return nil, errs[0]
	}
	return next, nil
}

// AddAllWhile is AddWhile for several strokes. It gives the same answer as adding them
// one by one, in less time, since no answer is worked out in between. Impossible strokes
// are left out: see Of. ok is false when on returned false.
func (p *Posterior) AddAllWhile(strokes []Stroke, on func() bool) (next *Posterior, errs []error, ok bool) {
	next = new(*p)
	next.strokes, next.cues = slices.Clip(p.strokes), slices.Clone(p.cues)
	fresh := 0 // strokes at the end whose likelihood is not taken yet
	take := func() bool {
		for _, b := range batches(next.strokes[len(next.strokes)-fresh:]) {
			if !next.own(p, b[0].Cue).take(next.cloud, &next.mix, b, on) {
				return false
			}
		}
		next.normalize()
		settled := next.settle(fresh, on)
		fresh = 0
		return settled
	}
	for i, k := range strokes {
		if !on() {
			return nil, nil, false
		}
		w, err := next.weigh(k)
		if err != nil {
			if errs == nil {
				errs = make([]error, len(strokes))
			}
			errs[i] = err
			continue
		}
		next.strokes = append(next.strokes, w)
		next.makeRoom(&w)
		if fresh++; fresh == next.Round() && !take() {
			return nil, nil, false
		}
	}
	if fresh > 0 && !take() {
		return nil, nil, false
	}
	return next, errs, true
}

// makeRoom makes a table for a stroke's cue and an aspect for its sitting, if they are its
// first.
func (p *Posterior) makeRoom(w *weighed) {
	for len(p.cues) <= w.Cue {
		p.cues = append(p.cues, nil)
	}
	if p.cues[w.Cue] == nil {
		p.cues[w.Cue] = &table{}
		p.cues[w.Cue].start(&w.Shot, &flat, [2]int{0, pivots})
	}
	if w.Sitting >= len(p.cloud.of) {
		p.cloud = p.cloud.extended(w.Sitting + 1)
	}
}

// own returns the table of a cue for writing: a copy of it if before has the same.
func (p *Posterior) own(before *Posterior, cue int) *table {
	if before.table(cue) == p.cues[cue] {
		p.cues[cue] = new(*p.cues[cue])
	}
	return p.cues[cue]
}

// leastEffective is the effective sample size below which a new cloud is drawn. Where
// that does not help, as with strokes that contradict each other, the next attempt waits
// for an eighth more strokes, and otherwise for a sixteenth: the time for a stroke must
// not grow with their number.
const leastEffective = points / 4

// Round returns how many more strokes are added before a new cloud may be drawn, that one
// included.
func (p *Posterior) Round() int { return p.rest + 1 }

// settle draws new clouds until one suits the posterior, but no more than a few, if the
// strokes just added end a round. It returns false, and leaves p unfinished, when on
// returns false.
func (p *Posterior) settle(added int, on func() bool) bool {
	if p.rest >= added {
		p.rest -= added
	} else {
		p.rest = len(p.strokes) / 16
		for n := 0; effective(&p.mix) < leastEffective; n++ {
			if n == 4 {
				p.rest = len(p.strokes) / 8
				break
			}
			if !p.redraw(on) {
				return false
			}
		}
	}
	p.mix = tempered(&p.mix)
	return true
}

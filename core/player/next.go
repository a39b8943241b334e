package player

import (
	"cmp"
	"math"
	"slices"

	"pivotbench/core/shot"
	"pivotbench/core/sitting"
	"pivotbench/core/unit"
)

// A Choice lists what the next stroke may be.
type Choice struct {
	Kind   sitting.Kind
	Lines  []unit.Length // distances of the line that is marked; a gate keeps the distance in the shot
	Speeds []unit.Speed
	Shares []float64   // felt shares
	Side   float64     // in ball radii; it is considered to both sides
	Read   unit.Length // standard deviation of reading a mark
	Across unit.Length // playing width of the table: a mark must be on it
}

// Shares are the felt shares that are proposed: those that a player can tell apart.
var Shares = []float64{1, 0.75, 0.5, 0.25, 0}

// A Proposal is a possible next stroke.
type Proposal struct {
	Kind  sitting.Kind
	Line  unit.Length // distance of the line, or of the gate
	Speed unit.Speed
	Side  float64 // in ball radii, positive to the right
	Share float64 // felt
	Tells float64 // the part of the card's variance that it is expected to take away, 0 to 1
}

// An Outlook says which strokes would tell most about a player's card, and how many more
// would change it. Everything in it is linear in the draws, as in a Kalman filter: how
// much an outcome tells about a cell follows from their covariance.
//
// Source: Chaloner and Verdinelli, Statist. Sci. 10 (1995) 273, for designs that make the
// sum of the variances least; Raiffa and Schlaifer, Applied Statistical Decision Theory
// (1961), for how far an answer is expected to move: the variance of its mean after
// further strokes is the variance that they take away.
type Outlook struct {
	cells     []aims
	proposals []Proposal
	noise     []float64   // variance of each proposal's outcome about what is expected
	cov       [][]float64 // of the cells' shares, the gain, and the proposals' outcomes
	spread    float64     // the median spread of the player's direction, in radians
	n         int         // strokes so far
}

// Outlook returns the outlook for a player's card when the next strokes are chosen from c.
func (f *Fit) Outlook(sheet *Sheet, c *Choice) *Outlook {
	o := &Outlook{spread: f.Spread().Median, n: f.N()}
	var values [][]float64
	for _, v := range sheet.Speeds {
		for _, a := range f.aims(sheet, v) {
			if a.Err == nil {
				o.cells, values = append(o.cells, a), append(values, a.off)
			}
		}
	}
	// A card is told for other cues too, so the gain counts as one more cell: the real
	// share where the player feels a half.
	half := make([]float64, len(f.testers))
	for i, t := range f.testers {
		half[i] = math.Exp(t.Front) / 2
	}
	values = append(values, half)
	lines := c.Lines
	if c.Kind == sitting.ByGate {
		lines = []unit.Length{f.on.Gate.Dist}
	}
	for _, line := range lines {
		for _, speed := range c.Speeds {
			way := f.family(line, speed, c.Side)
			for _, share := range c.Shares {
				for _, side := range []float64{c.Side, -c.Side} {
					p := Proposal{Kind: c.Kind, Line: line, Speed: speed, Side: side, Share: share}
					at := way.crosses(f.testers, line, side, share)
					if noise, ok := o.noiseOf(f, c, p, at); ok {
						o.proposals, o.noise, values = append(o.proposals, p), append(o.noise, noise), append(values, at)
					}
				}
			}
		}
	}
	o.cov = covariance(values)
	return o
}

// targets is the number of cells, and the gain.
func (o *Outlook) targets() int { return len(o.cells) + 1 }

// gain returns how much of the targets' variance a proposal is expected to take away.
func (o *Outlook) gain(cov [][]float64, proposal int) float64 {
	at := o.targets() + proposal
	less := 0.0
	for c := range o.targets() {
		less += cov[c][at] * cov[c][at]
	}
	return less / (cov[at][at] + o.noise[proposal])
}

// Next returns the possible next strokes, the one that tells most about the card first.
func (o *Outlook) Next() []Proposal {
	all := 0.0
	for c := range o.targets() {
		all += o.cov[c][c]
	}
	out := slices.Clone(o.proposals)
	for i := range out {
		out[i].Tells = o.gain(o.cov, i) / all
	}
	slices.SortStableFunc(out, func(a, b Proposal) int { return cmp.Compare(b.Tells, a.Tells) })
	return out
}

// ahead is how many further strokes an answer must withstand, and leastStrokes how many
// strokes are played in any case: a player's spread is told by nothing else.
const ahead, leastStrokes = 6, 6

// step is a step of a card: nobody tells shares apart that are closer. Common practice,
// no source.
const step = 0.05

// Enough returns about how many more strokes are needed until further ones would not
// change what the player does; 0 means that he is done. A change counts when it moves a
// share by a step of the card, 5 %, and his cue by a third of his own spread: less
// than that adds less than 6 % to how far his balls stray. ok is false when more than most
// are needed.
func (o *Outlook) Enough(most int) (n int, ok bool) {
	cov := make([][]float64, len(o.cov))
	for i := range cov {
		cov[i] = slices.Clone(o.cov[i])
	}
	var sums [][]float64 // of every number of further strokes, the cells' variances
	for range most + ahead + 1 {
		row := make([]float64, len(o.cells))
		for c := range row {
			row[c] = cov[c][c]
		}
		sums = append(sums, row)
		o.take(cov)
	}
	for n = max(0, leastStrokes-o.n); n <= most; n++ {
		if o.settled(sums[n], sums[n+ahead]) {
			return n, true
		}
	}
	return most, false
}

// settled reports whether no cell is expected to change when its variance goes from one
// value to another.
func (o *Outlook) settled(now, then []float64) bool {
	for c := range o.cells {
		moves := math.Sqrt(max(0, now[c]-then[c]))
		if moves > step && moves*o.cells[c].slope > o.spread/3 {
			return false
		}
	}
	return true
}

// take updates a covariance with the stroke that tells most.
func (o *Outlook) take(cov [][]float64) {
	best, most := -1, 0.0
	for i := range o.proposals {
		if g := o.gain(cov, i); g > most {
			best, most = i, g
		}
	}
	if best < 0 {
		return
	}
	at := o.targets() + best
	column := make([]float64, len(cov))
	for i := range cov {
		column[i] = cov[i][at] / math.Sqrt(cov[at][at]+o.noise[best])
	}
	for i := range cov {
		for j := range cov {
			cov[i][j] -= column[i] * column[j]
		}
	}
}

// Of returns the proposal as a stroke of the player.
func (p Proposal) Of(f *Fit) shot.Shot { return f.Shot(p.Line, p.Speed, p.Side, p.Share) }

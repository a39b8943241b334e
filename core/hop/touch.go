package hop

import (
	"errors"
	"math"

	"pivotbench/core/gear"
	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// A Touch is how long tip and bed are each in contact: the tip with a free ball of
// 170 g in front of a cue of 540 g, the bed with a ball that is dropped on it.
// Neither is known well, so each is an interval.
type Touch struct{ Tip, Bed stat.Interval[unit.Span] }

// Errors of contact times.
var (
	ErrNoTime   = errors.New("a contact time must be more than 0: try 1 to 2 ms for leather, 0.5 to 0.9 ms for a hard tip, 0.5 to 1 ms for the table")
	ErrLongTime = errors.New("a contact time must be less than 20 ms: try 0.5 to 2 ms")
	ErrBackward = errors.New("the range of contact times is upside down: put the shorter time first")
	ErrNoTip    = errors.New("tip bounce must be more than 0 and at most 1: try 0.75 for leather, 0.85 for a hard tip")
)

// longest is longer than any contact; a hop takes ten times as long.
const longest = 20 * unit.Millisecond

// Contact times from memory: 1 to 2 ms for leather, 0.5 to 0.9 ms for a hard
// tip, 0.5 to 1 ms for a ball on cloth over slate. No published measurement of
// the bed was found.
const (
	softBounce, hardBounce = 0.75, 0.85 // restitution of the two kinds of tip
)

var (
	leather = stat.Interval[unit.Span]{From: 1 * unit.Millisecond, To: 2 * unit.Millisecond}
	hard    = stat.Interval[unit.Span]{From: 0.5 * unit.Millisecond, To: 0.9 * unit.Millisecond}
	slate   = stat.Interval[unit.Span]{From: 0.5 * unit.Millisecond, To: 1 * unit.Millisecond}
)

// Usual returns the usual contact times for a tip. Its restitution shows what it
// is made of: up to 0.75 leather, from 0.85 a hard tip, and something between in
// between.
func Usual(tip gear.Tip) Touch {
	part := unit.Span(min(1, max(0, (tip.Restitution-softBounce)/(hardBounce-softBounce))))
	return Touch{Tip: stat.Interval[unit.Span]{
		From: leather.From + part*(hard.From-leather.From),
		To:   leather.To + part*(hard.To-leather.To),
	}, Bed: slate}
}

// Check returns why contact times are impossible, or nil.
func (t Touch) Check() error {
	for _, r := range []stat.Interval[unit.Span]{t.Tip, t.Bed} {
		switch {
		case !(r.From > 0 && r.To > 0):
			return ErrNoTime
		case r.From > longest || r.To > longest:
			return ErrLongTime
		case r.From > r.To:
			return ErrBackward
		}
	}
	return nil
}

// Ratios returns the interval of the tip's contact time over the bed's, which is
// all that matters to a hop.
func (t Touch) Ratios() stat.Interval[float64] {
	return stat.Interval[float64]{From: float64(t.Tip.From / t.Bed.To), To: float64(t.Tip.To / t.Bed.From)}
}

// InTurn is the ratio of a tip that lets go before the bed answers: the closed
// forms of packages strike and motion, without integration.
const InTurn = 0

// Enough is how many ratios suffice to find the least and the most of a hop.
const Enough = 7

// Spaced returns n ratios across an interval, evenly spaced on a logarithmic
// scale, both ends included. A hop need not rise or fall steadily with the ratio
// (a steep hit can press the ball down again as the bed throws it up), so its
// least and its most are taken over all of them.
func Spaced(r stat.Interval[float64], n int) []float64 {
	if n < 2 || r.From == r.To {
		return []float64{math.Sqrt(r.From * r.To)}
	}
	out := make([]float64, n)
	for i := range out {
		out[i] = r.From * math.Pow(r.To/r.From, float64(i)/float64(n-1))
	}
	return out
}

// Send makes p the path of a shot for a ratio of contact times. The path starts
// where the ball lay: the few millimetres that it moves during contact are left
// out. The errors are those of shot.Send, and ErrNoTip.
func Send(s *shot.Shot, ratio float64, p *motion.Path) error {
	if ratio == InTurn {
		return s.Send(p)
	}
	press, cue, err := Pressed(s, ratio)
	if err != nil {
		return err
	}
	press.Follow(s, cue, p)
	return nil
}

// Follow makes w the path of the ball after the last contact, for a speed of the
// cue.
func (p *Press) Follow(s *shot.Shot, cue unit.Speed, w *motion.Path) {
	w.Follow(motion.State{Vel: p.Vel.Mul(float64(cue)), Spin: p.Spin.Mul(float64(cue))}, s.Ball.Radius, s.Cloth)
}

// Pressed is Struck for a shot; cue is the cue's speed before impact. The ratio is
// more than 0. The errors are those of shot.Send, and ErrNoTip.
func Pressed(s *shot.Shot, ratio float64) (p Press, cue unit.Speed, err error) {
	if e := s.Cue.Tip.Restitution; !(e > 0 && e <= 1) {
		return p, 0, ErrNoTip
	}
	hit, line, cue, err := s.Stroke()
	if err != nil {
		return p, 0, err
	}
	return Struck(s.Ball, s.Cue, s.Cloth, &hit, line, ratio), cue, nil
}

package player

import (
	"errors"
	"math"

	"pivotbench/core/shot"
	"pivotbench/core/sitting"
	"pivotbench/core/stance"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

// ErrOther is the error of a stroke with another cue: a fit is of one player with one
// cue.
var ErrOther = errors.New("a player is fitted with one cue: strokes of another belong to another fit")

// A Fit is what a player's strokes tell about him. It is immutable; Add returns a new one.
type Fit struct {
	setUp   sitting.SetUp
	on      shot.Shot // as he stands: his hands, elevation and cue, on one table
	post    *sitting.Posterior
	testers []sitting.Tester // draws from the posterior: who he may be
}

// draws is how many draws a card is made of.
const draws = 256

// Start returns the fit of a player who has not played a stroke yet. on has the ball,
// the cloth, the side he plays with and his cue, whose pivot length is not used; known is
// that pivot length when it was measured, or nil. setUp has the errors that are not the
// player's own (see Player.SetUp). Errors: those of Player.Check, and what keeps the tip
// from gripping the ball.
func Start(p *Player, on *shot.Shot, known *stat.Estimate[unit.Length], setUp sitting.SetUp) (*Fit, error) {
	if err := p.Check(); err != nil {
		return nil, err
	}
	f := &Fit{setUp: p.SetUp(setUp), on: *on}
	f.on.Hands = stance.Hands{Bridge: p.Bridge.Best(), Grip: p.Grip.Best(), Back: 1}
	f.on.Elevation, f.on.ByStroke, f.on.AimOff = p.Elevation.Best(), false, 0
	if err := f.on.Contact.Check(f.on.Cue.Tip); err != nil {
		return nil, err
	}
	f.post = sitting.Prior(f.setUp)
	if known != nil {
		f.post = f.post.WithCue(0, &f.on, *known)
	}
	f.draw()
	return f, nil
}

// draw takes the draws from the posterior.
func (f *Fit) draw() { f.testers = f.post.Testers(0, draws) }

// Shot returns the stroke with a felt share of the english at a speed, straight at a
// target at a distance. side is the offset in ball radii, positive to the right.
func (f *Fit) Shot(dist unit.Length, speed unit.Speed, side, felt float64) shot.Shot {
	s := f.on
	s.Dist, s.Speed, s.Contact.Side = dist, speed, side
	s.Hands.Back, s.Hands.Front = felt, 1-felt
	return s
}

// Add returns the fit after one more stroke, whose shares are the felt ones. Errors:
// ErrOther, and those of sitting.Posterior.Add.
func (f *Fit) Add(k sitting.Stroke) (*Fit, error) {
	return f.AddWhile(k, func() bool { return true })
}

// AddWhile is Add for a program that may need to stop it early: see
// sitting.Posterior.AddWhile.
func (f *Fit) AddWhile(k sitting.Stroke, on func() bool) (*Fit, error) {
	if k.Cue != 0 {
		return nil, ErrOther
	}
	post, err := f.post.AddWhile(k, on)
	if err != nil {
		return nil, err
	}
	next := *f
	next.post = post
	next.draw()
	return &next, nil
}

// N returns the number of strokes.
func (f *Fit) N() int { return f.post.N() }

// Pivot returns the natural pivot length of his cue at its reference offset, in metres.
func (f *Fit) Pivot() stat.Summary[float64] { return f.post.Pivot(0) }

// Spread returns the standard deviation of his direction from stroke to stroke, in
// radians.
func (f *Fit) Spread() stat.Summary[float64] { return f.post.Scatter() }

// Bias returns the constant error of his aim, in radians, positive to the right.
func (f *Fit) Bias() stat.Summary[float64] { return f.post.AimBias() }

// Gain returns how far his front hand really moves, divided by how far he feels it move.
func (f *Fit) Gain() stat.Summary[float64] { return f.post.Gain() }

// Misfit returns the pattern in his strokes that the model does not explain, such as
// strokes of somebody else or sides noted the wrong way round, and the strokes that it is
// about: see sitting.Posterior.Fit.
func (f *Fit) Misfit() (sitting.Misfit, []int) { return f.post.Fit() }

// MisfitWhile is Misfit for a program that may need to stop it early: see
// sitting.Posterior.FitWhile.
func (f *Fit) MisfitWhile(on func() bool) (sitting.Misfit, []int) { return f.post.FitWhile(on) }

// Learned returns a player with what his strokes tell about him: his spread, his bias
// and his gain.
func (f *Fit) Learned(p Player) Player {
	if f.N() == 0 {
		return p
	}
	angle := func(s stat.Summary[float64]) Figure[unit.Angle] {
		return Measured[unit.Angle]{stat.Transform(s.Estimate, func(v float64) unit.Angle { return unit.Angle(v) })}
	}
	p.Spread, p.Bias = angle(f.Spread()), angle(f.Bias())
	p.Gain = Measured[float64]{f.Gain().Estimate}
	return p
}

// WithCue returns the fit as it would be with another cue, of which cue has the gear and
// pivot the natural pivot length at its reference offset. His hands, his elevation and
// the cloth stay what his strokes have told. It takes no strokes: it is for cards.
func (f *Fit) WithCue(cue *shot.Shot, pivot stat.Estimate[unit.Length]) *Fit {
	next := *f
	next.on.Cue, next.testers = cue.Cue, append([]sitting.Tester(nil), f.testers...)
	spread := math.Log(float64(pivot.To/pivot.From)) / 2 / stat.Reach90
	for i, u := range stat.Halton(len(next.testers), []int{2}, 1) {
		next.testers[i].Pivot = pivot.Median * unit.Length(math.Exp(spread*stat.NormalQuantile(u[0])))
	}
	return &next
}

package cues

import (
	"math"

	"pivotbench/core/margin"
	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// A Fit is how a cue suits a player: the bridge, the speeds and the table of the
// shot.
type Fit struct {
	// Off is the arrival at the target, positive to the right, when the back hand
	// alone pivots at the player's own bridge, at the speed where that is worst.
	// The player would not notice less than Notice.
	Off, Notice unit.Length
	Worst       unit.Speed

	// Alone are the speeds at which the player would not notice Off. All reports
	// whether they are all the speeds that reach the target.
	Alone []unit.Speed
	All   bool

	// Stray is the standard deviation of the arrival when the back hand lets the
	// tip stray about the bridge on a stroke that is aimed right, at the speed
	// where that is worst.
	Stray unit.Length

	Spin     float64 // surface speed over ball speed at the shot's contact
	MostSpin float64 // the most of it before the tip slips
	Offset   float64 // contact offset that gives MostSpin, in ball radii
	Edge     bool    // Offset is beyond the edge of the tip, so the tip can't give MostSpin

	Err error // why the shot can't be played with this cue
}

// Choose returns how each cue suits a player who plays a shot at several speeds.
// Speeds at which the ball stops short are left out.
func Choose(s *shot.Shot, cues []Candidate, sc margin.Scatter, speeds []unit.Speed) []Fit {
	out := make([]Fit, len(cues))
	for i := range cues {
		out[i] = cues[i].fit(s, sc, speeds)
	}
	return out
}

func (c *Candidate) fit(s *shot.Shot, sc margin.Scatter, speeds []unit.Speed) Fit {
	f := Fit{All: true}
	alone := c.With(s)
	alone.Hands.Back, alone.Hands.Front, alone.AimOff, alone.ByStroke = 1, 0, 0, false
	hit, err := strike.Prepare(alone.Ball, alone.Cue, alone.Contact)
	if err != nil {
		return Fit{Err: err}
	}
	f.Spin = hit.SpinRatio()
	tip := alone.Cue.Tip
	f.MostSpin = 2.5 * math.Sin(math.Atan(tip.Friction))
	f.Offset = strike.MostOffset(float64(alone.Ball.Mass/hit.EndMass()), tip)
	f.Edge = strike.Contact{Side: f.Offset}.Check(tip) != nil
	for _, v := range speeds {
		alone.Speed = v
		if err := f.at(&alone, sc); err != nil && err != motion.ErrStops {
			return Fit{Err: err}
		}
	}
	if f.Worst == 0 {
		return Fit{Err: motion.ErrStops}
	}
	return f
}

// at takes one speed into account.
func (f *Fit) at(alone *shot.Shot, sc margin.Scatter) error {
	var res shot.Result
	shot.Play(alone, &res)
	if err := res.Reading.Aim.Err(); err != nil {
		return err
	}
	spread, err := margin.Spread(alone, sc)
	if err != nil {
		return err
	}
	off, least := res.Reading.Arrival.Value, Noticeable(spread, spread)
	size := unit.Abs(off)
	if f.Worst == 0 || size > unit.Abs(f.Off) {
		f.Off, f.Worst, f.Notice = off, alone.Speed, least
	}
	if size <= least {
		f.Alone = append(f.Alone, alone.Speed)
	} else {
		f.All = false
	}
	// The shot is aimed right; from there the back hand lets the tip stray.
	aimed := *alone
	aimed.AimOff = res.Reading.Aim.Value - res.Reading.Heading.Value
	slope, err := margin.Slope(&aimed, margin.TipStray)
	f.Stray = max(f.Stray, unit.Length(math.Abs(slope)*float64(sc.Tip)))
	return err
}

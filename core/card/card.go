// Package card computes an aim card for one cue and one player: how to play each distance
// and speed so that the ball goes to the target.
package card

import (
	"math"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/unit"
)

// A Cell is the aim for one distance and one speed.
type Cell struct {
	Dist  unit.Length
	Speed unit.Speed
	Err   error // why there is no aim; the fields below are then not set

	Heading unit.Angle  // of the cue
	Shift   unit.Length // parallel aim shift at the target
	Share   shot.Answer[float64]
	Round   float64     // the nearest round share
	Miss    unit.Length // where the object ball passes the pocket with that share
	Misses  bool        // Miss is more than the pocket allows
}

// Rounds are the back-hand shares that a player can judge by eye.
var Rounds = []float64{0, 0.25, 0.5, 0.75, 1}

// Make returns the cells of a card for a shot (its cue, ball, cloth, hands, contact,
// elevation and object ball) at every distance and speed, one row for each distance.
func Make(s *shot.Shot, dists []unit.Length, speeds []unit.Speed) [][]Cell {
	rows := make([][]Cell, len(dists))
	for i, d := range dists {
		for _, v := range speeds {
			rows[i] = append(rows[i], fill(s, d, v))
		}
	}
	return rows
}

// fill computes one cell. The aim is the one that pockets the object ball, throw
// included. If the cue ball were merely aimed at the target, throw would look like an
// error of the share.
func fill(s *shot.Shot, dist unit.Length, speed unit.Speed) Cell {
	at := *s
	at.Dist, at.Speed, at.ByStroke = dist, speed, false
	c := Cell{Dist: dist, Speed: speed}
	var res shot.Result
	shot.Play(&at, &res)
	aim, err := at.ToPocket(&res)
	if err != nil {
		c.Err = err
		return c
	}
	c.Heading, c.Shift = aim.Heading, at.ParallelShift(aim.Heading)
	c.Share, _ = at.StanceFor(aim.Heading)
	if c.Share.Err() != nil {
		return c
	}
	c.Round = nearest(c.Share.Value)
	c.Miss, c.Misses = try(&at, c.Round)
	return c
}

// try plays a shot with a share. It returns where the object ball passes the pocket, and
// whether that is a miss; a ball that never gets there is one.
func try(s *shot.Shot, share float64) (unit.Length, bool) {
	tried := *s
	tried.Hands.Back, tried.Hands.Front = share, 1-share
	var path motion.Path
	var pot shot.Pot
	if tried.Send(&path) != nil || tried.Sink(&path, &pot) != nil {
		return 0, true
	}
	return pot.Miss, !pot.In(&tried)
}

// nearest returns the round share closest to a share.
func nearest(share float64) float64 {
	best := Rounds[0]
	for _, r := range Rounds {
		if math.Abs(r-share) < math.Abs(best-share) {
			best = r
		}
	}
	return best
}

// Package card turns one cue and one player into an aim card: what to do at
// each distance and speed so that the ball goes to the target.
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
	Err   error // why there is none; the rest is then not set

	Heading unit.Angle  // of the cue
	Shift   unit.Length // parallel aim shift at the target
	Share   shot.Answer[float64]
	Round   float64     // the nearest round share
	Miss    unit.Length // where the object ball passes the pocket with that share
	Misses  bool        // that is more than the pocket forgives
}

// Rounds are the shares a player can do by eye.
var Rounds = []float64{0, 0.25, 0.5, 0.75, 1}

// Make fills a card for a shot: its cue, ball, cloth, hands, contact,
// elevation and object ball, at every distance and speed. A row a distance.
func Make(s *shot.Shot, dists []unit.Length, speeds []unit.Speed) [][]Cell {
	rows := make([][]Cell, len(dists))
	for i, d := range dists {
		for _, v := range speeds {
			rows[i] = append(rows[i], fill(s, d, v))
		}
	}
	return rows
}

// fill works one cell out. The aim is the one that pockets the object ball,
// throw included: aimed at the target alone, throw would look like the share's
// fault.
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

// try plays a shot with a share and reports where the object ball passes the
// pocket, and whether that is too far off; a ball that never gets there is.
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

// nearest is the round share closest to one.
func nearest(share float64) float64 {
	best := Rounds[0]
	for _, r := range Rounds {
		if math.Abs(r-share) < math.Abs(best-share) {
			best = r
		}
	}
	return best
}

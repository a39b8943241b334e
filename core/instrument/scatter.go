package instrument

import "pivotbench/core/unit"

// Standard deviations of a hand, an eye and a tape, from memory; no source.
// Repeats that scatter more widen the interval (see pool), so these need only be
// fair.
const (
	// Thumb is one press for an event that is seen coming. Start and stop are two
	// independent presses, so the time between has √2 times as much; a habit of
	// pressing early or late drops out.
	Thumb = 50 * unit.Millisecond
	// Sound is one hit heard by a microphone: a block of samples, and the few
	// milliseconds that sound takes from the far end.
	Sound = 4 * unit.Millisecond

	restSeen = 250 * unit.Millisecond // when a slow ball has come to rest
	tape     = 3 * unit.Millimetre    // a length along the cloth, to a mark or to where a rail stops the ball
	height   = 1 * unit.Millimetre    // a height above the cloth, by the same tape
	ruler    = 0.5 * unit.Millimetre
	aimed    = 1 * unit.Millimetre    // a tip lined up by eye
	caliper  = 0.03 * unit.Millimetre // across a ball
	around   = 0.5 * unit.Millimetre  // a tape round a ball
	kitchen  = 1 * unit.Gram          // a pair of kitchen scales
	profile  = 0.1 * unit.Millimetre  // a tip's width or its dome's height
	rollSeen = 20 * unit.Millimetre   // where a ball's slide turns to rolling
	diesSeen = 20 * unit.Millimetre   // the distance at which a draw shot stops dead
	tipSeen  = 0.7 * unit.Millimetre  // height of the tip on the ball: a habit, the same on every stroke of one kind
	clothSet = 0.15                   // the bench's sliding and rolling friction, each as a share of its value
)

// Phone is the standard deviation of a phone's motion sensor, its zero taken off, from
// memory; no source.
const Phone = 0.3 * unit.Degree

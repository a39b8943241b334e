package trial

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

// Errors of marks.
var (
	ErrNoMarks    = errors.New("there are no marks yet")
	ErrFewMarks   = errors.New("it takes two marks or more with english to each side")
	ErrNoSide     = errors.New("marks need english: a centre hit does not squirt")
	ErrBeyond     = errors.New("a mark is further to the side than the table is wide")
	ErrNoRail     = errors.New("the ball does not get to the rail: it needs a distance, and speed enough")
	ErrNoPivot    = errors.New("no cue makes such marks: check their sides, their unit and the elevation")
	ErrConfidence = errors.New("a confidence is more than 0 and less than 1")
)

// A Mark is where the centre of a ball crossed the line of the rail, sideways from
// the line it was sent along.
type Mark struct {
	Right bool        // english to the right
	At    unit.Length // positive to the right
}

// A Rail is the result of marks on a rail.
type Rail struct {
	Right, Left Mean // of the marks with english to either side

	// Half of left less right: the offset by squirt less swerve, positive if
	// squirt is larger. An aim error that all shots share drops out.
	Offset Mean
	// Half the sum of left and right: that aim error, at the rail.
	Aim Mean

	Pivot                      unit.Length // natural pivot length at the reference offset of the shot's cue
	stat.Interval[unit.Length]             // of Pivot; To is +Inf if it includes no squirt at all
	Squirt                     unit.Angle  // at the reference offset
	Outliers                   []int       // marks that stand apart from the others of their side, counted all the same
}

// straightest is a longer pivot length than any cue has: with so little squirt it
// can't be told from none.
const straightest = 100 * unit.Metre

// Marks returns what marks on a rail say about a cue. The shots are parallel, with
// english dialled in without turning the cue. s is one of them, and its Gate.Dist
// is the distance from the ball's centre at rest to its centre at the cushion; its
// pivot length and hands do not matter. width is the table's.
//
// The marks expected of a pivot length come from the path, so they include swerve.
// The interval is that of chance in the marks; an error of the elevation or the
// speed in s comes on top of it. With ErrNoPivot the means are still valid.
func Marks(s *shot.Shot, width unit.Length, marks []Mark, confidence float64) (Rail, error) {
	var at [2][]float64 // left, right
	var from [2][]int
	for i, m := range marks {
		if !(unit.Abs(m.At) <= width) {
			return Rail{}, ErrBeyond
		}
		side := 0
		if m.Right {
			side = 1
		}
		at[side] = append(at[side], float64(m.At))
		from[side] = append(from[side], i)
	}
	switch {
	case !(confidence > 0 && confidence < 1):
		return Rail{}, ErrConfidence
	case s.Contact.Side == 0:
		return Rail{}, ErrNoSide
	case !(s.Gate.Dist > 0):
		return Rail{}, ErrNoRail
	case len(marks) == 0:
		return Rail{}, ErrNoMarks
	case len(at[0]) < 2 || len(at[1]) < 2:
		return Rail{}, ErrFewMarks
	}
	var r Rail
	r.Left, r.Right = MeanOf(at[0], confidence), MeanOf(at[1], confidence)
	r.Offset = combine(0.5, r.Left, -0.5, r.Right, confidence)
	r.Aim = combine(0.5, r.Left, 0.5, r.Right, confidence)
	for side := range at {
		for _, i := range apart(at[side]) {
			r.Outliers = append(r.Outliers, from[side][i])
		}
	}
	slices.Sort(r.Outliers)
	return r, r.convert(s)
}

// convert turns the offset into a pivot length: more squirt means a shorter one.
func (r *Rail) convert(s *shot.Shot) error {
	at := *s
	at.Contact.Side = math.Abs(s.Contact.Side)
	at.Hands.Back, at.Hands.Front, at.AimOff = 0, 0, 0
	var path motion.Path
	offset := func(pivot unit.Length) (float64, error) {
		at.Cue.Pivot = pivot
		x, err := crossing(&at, &path)
		return -x, err
	}
	most, errMost := offset(PivotLeast)
	least, errLeast := offset(straightest)
	if err := cmp.Or(errMost, errLeast); err == ErrNoCrossing {
		return ErrNoRail
	} else if err != nil {
		return err
	}
	// solve returns the pivot length that makes an offset, or the nearer end for
	// an offset beyond the ends.
	solve := func(want float64) unit.Length {
		switch {
		case want >= most:
			return PivotLeast
		case want <= least:
			return unit.Length(math.Inf(1))
		}
		// Bisection in 1/pivot, to which the offset is nearly proportional.
		lo, hi := 1/straightest, 1/PivotLeast
		for range 60 {
			mid := (lo + hi) / 2
			if x, err := offset(1 / mid); err == nil && x < want {
				lo = mid
			} else {
				hi = mid
			}
		}
		return 1 / ((lo + hi) / 2)
	}
	if r.Offset.Mean > most || r.Offset.Mean < least {
		return ErrNoPivot
	}
	r.Pivot, r.From, r.To = solve(r.Offset.Mean), solve(r.Offset.To), solve(r.Offset.From)
	at.Cue.Pivot = min(r.Pivot, straightest)
	k, err := strike.MassRatio(at.Ball, at.Cue)
	r.Squirt = strike.Deflection(at.Cue.PivotSpin, k)
	return err
}

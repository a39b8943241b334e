package shot_test

import (
	"errors"
	"reflect"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/motion"
	"pivotbench/core/shot"
	"pivotbench/core/stance"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

func TestAnswer(t *testing.T) {
	var none shot.Answer[unit.Angle]
	assert.ErrorIs(t, none.Err(), shot.ErrUnanswered)
	assert.NoError(t, shot.Answered(0*unit.Degree).Err())
	why := errors.New("the cue is in its case")
	assert.Equal(t, why, shot.Refused[unit.Angle](why).Err())
}

// errs returns the error of each answer of a reading, by field name.
func errs(r *shot.Reading) map[string]error {
	out := map[string]error{}
	v := reflect.ValueOf(r).Elem()
	for i := range v.NumField() {
		err, _ := v.Field(i).MethodByName("Err").Call(nil)[0].Interface().(error)
		out[v.Type().Field(i).Name] = err
	}
	return out
}

// A shot that gets as far as one stage gives the readings up to there, and the reason for
// every other. No reading is left unanswered.
func TestStages(t *testing.T) {
	before := []string{"PivotNatural", "EndMass", "MiscueMargin"}
	hit := append([]string{"Squirt", "CueSpeed", "BallSpeed", "SpinRatio"}, before...)
	gate := append([]string{"Heading", "Launch", "SlideEnd", "ClearLeft", "ClearRight", "Verdict"}, hit...)
	for _, tc := range []struct {
		name   string
		change func(*shot.Shot)
		reason error
		known  []string
	}{
		{"the tip slips", func(s *shot.Shot) { s.Contact.Side, s.Cue.Tip.Friction = 0.4, 0.2 }, strike.ErrMiscue, append([]string{"Heading", "Verdict"}, before...)},
		{"the cue can't turn so far", func(s *shot.Shot) { s.Hands.Back = 400 }, stance.ErrTurn, hit},
		{"the ball stops before the target", func(s *shot.Shot) { s.Dist = 4000 }, motion.ErrStops, gate},
		{"all of it", func(*shot.Shot) {}, nil, append([]string{"Swerve", "Arrival", "Aim", "PivotEffective", "ShareBack", "Throw"}, gate...)},
	} {
		s := medium()
		tc.change(&s)
		for field, err := range errs(&play(s).Reading) {
			if slices.Contains(tc.known, field) {
				assert.NoError(t, err, "%s: %s", tc.name, field)
			} else {
				assert.ErrorIs(t, err, tc.reason, "%s: %s", tc.name, field)
			}
		}
	}
}

// A reading that nobody has filled in has no values.
func TestUnfilledReading(t *testing.T) {
	var r shot.Reading
	for field, err := range errs(&r) {
		assert.ErrorIs(t, err, shot.ErrUnanswered, field)
	}
	for _, spec := range shot.Specs {
		_, err := spec.Get(&r)
		assert.ErrorIs(t, err, shot.ErrUnanswered, spec.Name)
	}
}

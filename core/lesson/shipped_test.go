package lesson_test

import (
	"math"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/lesson"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/stat"
	"pivotbench/core/unit"
)

func play(s *scenario.Scenario) (shot.Shot, *shot.Result) {
	sh, res := s.Shot(), new(shot.Result)
	shot.Play(&sh, res)
	return sh, res
}

// read returns the readings of a step of a shipped lesson.
func read(t *testing.T, name string, step int) *shot.Reading {
	t.Helper()
	scene := shipped(t, name).Steps[step-1].Scene("")
	_, res := play(&scene)
	require.NoError(t, res.Launched)
	return &res.Reading
}

func shipped(t *testing.T, name string) lesson.Lesson {
	t.Helper()
	for _, l := range lesson.Shipped {
		if l.Name == name {
			return l.Lesson
		}
	}
	require.Fail(t, "no lesson named "+name)
	return lesson.Lesson{}
}

var inBraces = regexp.MustCompile(`\{([^}]*)\}`)

func TestShippedLessons(t *testing.T) {
	require.Len(t, lesson.Shipped, 6)
	names := map[string]bool{}
	for _, l := range lesson.Shipped {
		assert.Empty(t, l.Check(), l.Name)
		assert.NotEmpty(t, l.Question, "%s ends on a question", l.Name)
		assert.False(t, names[l.Name], "names are not used twice")
		names[l.Name] = true
		for i, s := range l.Steps {
			assert.NotRegexp(t, `[0-9]`, inBraces.ReplaceAllString(s.Caption, ""), "%s, step %d: figures are worked out, not typed in", l.Name, i+1)
			for _, m := range inBraces.FindAllStringSubmatch(s.Caption, -1) {
				known := scenario.Find(m[1]) != nil
				for _, spec := range shot.Specs {
					if spec.Name == m[1] {
						known = true
						v, err := spec.Get(read(t, l.Name, i+1))
						assert.NoError(t, err, "%s, step %d: {%s}", l.Name, i+1, m[1])
						assert.False(t, math.IsNaN(v))
					}
				}
				assert.True(t, known, "%s, step %d: {%s}", l.Name, i+1, m[1])
			}
		}
	}
}

// What the captions claim beside their figures, step by step.
func TestWhatTheLessonsSay(t *testing.T) {
	squirt := func(step int) float64 { return float64(read(t, "squirt", step).Squirt.Value) }
	assert.Zero(t, squirt(1))
	assert.Negative(t, float64(read(t, "squirt", 2).Launch.Value), "away from right english")
	assert.Positive(t, float64(read(t, "squirt", 3).Launch.Value), "away from left english")
	assert.Less(t, squirt(4), squirt(2), "smaller nearer the centre")
	assert.Equal(t, squirt(2), squirt(5), "speed makes no difference")
	assert.Less(t, squirt(6), squirt(2), "a lighter end squirts less")
	assert.Less(t, float64(read(t, "squirt", 6).EndMass.Value), float64(read(t, "squirt", 2).EndMass.Value))

	r := read(t, "pivot", 3)
	assert.InDelta(t, float64(r.Squirt.Value), float64(r.Heading.Value), float64(0.005*unit.Degree), "turn and squirt are the same")
	assert.Greater(t, read(t, "pivot", 4).Squirt.Value, r.Squirt.Value)
	assert.Less(t, read(t, "pivot", 4).PivotNatural.Value, r.PivotNatural.Value)
	assert.Less(t, read(t, "pivot", 5).Squirt.Value, r.Squirt.Value)
	assert.Greater(t, read(t, "pivot", 5).PivotNatural.Value, r.PivotNatural.Value)

	arrives := func(name string, step int) float64 { return float64(read(t, name, step).Arrival.Value) }
	assert.Equal(t, shot.Clean, read(t, "length", 1).Verdict.Value)
	assert.Positive(t, arrives("length", 2), "too short: the side of the english")
	assert.Negative(t, arrives("length", 3), "too long: the other side")
	assert.InDelta(t, -arrives("length", 3), arrives("length", 4), 1e-12, "left english mirrors it")
	assert.InDelta(t, -arrives("length", 2), arrives("length", 5), 1e-12)

	swerve := func(step int) float64 { return float64(read(t, "swerve", step).Swerve.Value) }
	assert.InDelta(t, 0, swerve(1), 1e-12, "a level cue does not swerve")
	assert.Greater(t, swerve(2), swerve(1))
	assert.Greater(t, swerve(3), swerve(2), "more elevation")
	assert.Greater(t, swerve(4), swerve(2), "softer")
	assert.Less(t, swerve(5), swerve(2), "harder")

	assert.Positive(t, arrives("hands", 1), "too much")
	assert.Negative(t, arrives("hands", 2), "too little")
	assert.Negative(t, arrives("hands", 4), "too little even so")
	assert.Less(t, math.Abs(arrives("hands", 5)), math.Abs(arrives("hands", 4)))

	throw := func(step int) float64 { return float64(read(t, "aim", step).Throw.Value) }
	assert.Zero(t, throw(1))
	assert.Negative(t, throw(2), "right english throws to the left")
	assert.Less(t, throw(3), throw(2), "slow balls have more friction")
	assert.Negative(t, throw(4), "a cut to the right is thrown back to the left")
	assert.Positive(t, throw(5), "outside english throws the other way")
	for _, step := range []int{2, 3} {
		assert.InDelta(t, 0, arrives("aim", step), float64(unit.Millimetre)/4, "on the line, as far as it is shown")
	}
}

// The answers agree with another way to find them.
func TestAnswers(t *testing.T) {
	ask := func(name string) (lesson.Question, scenario.Scenario, lesson.Answer) {
		l := shipped(t, name)
		scene := l.Steps[len(l.Steps)-1].Scene("")
		_, met, err := l.Question.Try(&scene)
		assert.NoError(t, err)
		assert.False(t, met, "%s: the question is not answered as it is asked", name)
		a, err := l.Question.Answer(&scene)
		require.NoError(t, err, name)
		assert.Less(t, a.From, a.Best)
		assert.Less(t, a.Best, a.To)
		return l.Question, scene, a
	}
	// meets samples a range and returns the part of it that meets the goal.
	meets := func(q *lesson.Question, scene scenario.Scenario, low, high, step float64) (from, to float64) {
		from, to = math.Inf(1), math.Inf(-1)
		for v := low; v <= high; v += step {
			at := scene
			q.Put(&at, v)
			if _, met, err := q.Try(&at); err == nil && met {
				from, to = min(from, v), max(to, v)
			}
		}
		return from, to
	}

	q, scene, a := ask("squirt")
	from, to := meets(&q, scene, -0.3, 0.3, 0.001)
	assert.InDelta(t, from, a.From, 0.001)
	assert.InDelta(t, to, a.To, 0.001)
	assert.InDelta(t, 0, a.Best, 1e-9, "centre ball goes through the middle")

	q, scene, a = ask("pivot")
	_, res := play(&scene)
	assert.InDelta(t, float64(res.Reading.PivotNatural.Value), a.Best, 1e-9, "the closed form")
	from, to = meets(&q, scene, 5*0.0254, 20*0.0254, 0.0005)
	assert.InDelta(t, from, a.From, 0.0005)
	assert.InDelta(t, to, a.To, 0.0005)

	q, scene, a = ask("length")
	from, to = meets(&q, scene, 2*0.0254, 40*0.0254, 0.0005)
	assert.InDelta(t, from, a.From, 0.0005)
	assert.InDelta(t, to, a.To, 0.0005)
	at := scene
	q.Put(&at, a.Best)
	_, res = play(&at)
	assert.InDelta(t, float64(res.Reading.ClearLeft.Value), float64(res.Reading.ClearRight.Value), 1e-9, "through the middle of the gate")

	q, scene, a = ask("swerve")
	at = scene
	q.Put(&at, a.Best)
	_, res = play(&at)
	assert.InDelta(t, float64(res.Reading.Squirt.Value), float64(res.Reading.Swerve.Value), 1e-9, "swerve takes all of squirt back")

	_, scene, a = ask("hands")
	_, res = play(&scene)
	assert.InDelta(t, res.Reading.ShareBack.Value, a.Best, 1e-9, "the closed form")

	_, scene, a = ask("aim")
	sh, res := play(&scene)
	aim, err := sh.ToPocket(res)
	require.NoError(t, err)
	share, _ := sh.StanceFor(aim.Heading)
	assert.InDelta(t, share.Value, a.Best, 1e-6, "the pocket's own inverse")
}

func TestNoAnswer(t *testing.T) {
	q := lesson.Question{Key: "side", Goal: lesson.Passes}
	scene, _ := scenario.Parse("gate=0in")
	_, err := q.Answer(&scene)
	assert.Equal(t, lesson.ErrNoAnswer, err, "without a gate nothing passes")

	q = lesson.Question{Key: "cut", Goal: lesson.Pots}
	scene, _ = scenario.Parse("side=0.7&chalk=0.1")
	_, met, err := q.Try(&scene)
	assert.Error(t, err, "a miscue pots nothing")
	assert.False(t, met)
	_, err = q.Answer(&scene)
	assert.Equal(t, lesson.ErrNoAnswer, err)

	q = lesson.Question{Key: "object", Goal: lesson.Pots}
	scene, _ = scenario.Parse("side=0&speed=1mph&elev=0deg&dist=90in")
	_, err = q.Answer(&scene)
	assert.Equal(t, lesson.ErrNoAnswer, err, "the cue ball never gets there")
}

// An interval of answers may reach the end of the control's range, and need not contain
// an exact answer.
func TestAnswerAtTheEnds(t *testing.T) {
	q := lesson.Question{Key: "gap", Goal: lesson.Passes}
	scene, _ := scenario.Parse("gap=2.3in&bridge=7in")
	a, err := q.Answer(&scene)
	require.NoError(t, err)
	at := scene
	q.Put(&at, a.From)
	_, res := play(&at)
	assert.InDelta(t, 0, float64(res.Reading.ClearRight.Value), 1e-9, "just through")
	gap := scenario.Find("gap")
	assert.Equal(t, gap.Max, a.To)
	assert.Equal(t, (a.From+a.To)/2, a.Best)

	q = lesson.Question{Key: "speed", Goal: lesson.Launches}
	scene, _ = scenario.Parse("side=0&elev=0deg")
	a, err = q.Answer(&scene)
	require.NoError(t, err)
	speed := scenario.Find("speed")
	assert.Equal(t, lesson.Answer{Best: a.Best, Interval: stat.Interval[float64]{From: speed.Min, To: speed.Max}}, a, "centre ball goes straight at any speed")
}

func TestStops(t *testing.T) {
	l := shipped(t, "pivot")
	n := len(l.Steps)
	require.Equal(t, n+2, l.Stops())
	for at := range l.Stops() {
		assert.Equal(t, at == n, l.Asks(at))
		assert.Equal(t, at == n+1, l.Answers(at))
	}
	last := l.Steps[n-1].Scene("cm")
	assert.Equal(t, last, l.Scene(n, "cm"))
	answered := l.Scene(n+1, "cm")
	_, met, err := l.Question.Try(&answered)
	assert.NoError(t, err)
	assert.True(t, met)
	answered.Bridge = last.Bridge
	assert.Equal(t, last, answered, "only what is asked for has moved")

	l.Question.Goal = lesson.Passes // there is no gate in it
	assert.Equal(t, last, l.Scene(n+1, "cm"))

	l.Question = lesson.Question{}
	assert.Equal(t, n, l.Stops())
	assert.False(t, l.Asks(n))
	assert.False(t, l.Answers(n+1))
	assert.Zero(t, new(lesson.Lesson).Stops())
}

// An interval of answers ends where the goal does: half a tip's width to either side of
// the target, a tenth of a degree from the aim line, a touch of a blocker, the edge of
// the pocket. Or it ends where the shot fails, or where the control's range ends.
func TestAnswersEndWhereTheGoalDoes(t *testing.T) {
	off := func(q *lesson.Question, scene scenario.Scenario, v float64) float64 {
		q.Put(&scene, v)
		sh, res := play(&scene)
		r := &res.Reading
		switch q.Goal {
		case lesson.Arrives:
			return math.Abs(float64(r.Arrival.Value)) - float64(sh.Cue.Tip.Width)/2
		case lesson.Launches:
			return math.Abs(float64(r.Launch.Value)) - 0.1*math.Pi/180
		case lesson.Passes:
			return float64(min(r.ClearLeft.Value, r.ClearRight.Value))
		}
		var pot shot.Pot
		require.NoError(t, sh.Sink(&res.Path, &pot))
		return math.Abs(float64(pot.Miss)) - float64(sh.Object.Opening/2-sh.Ball.Radius)
	}
	scene, problems := scenario.Parse("v=1&bridge=12in&elev=0deg")
	require.Empty(t, problems)
	ends := 0
	for _, goal := range lesson.Goals {
		for _, key := range []string{"bridge", "side"} {
			q := lesson.Question{Key: key, Goal: goal}
			a, err := q.Answer(&scene)
			require.NoError(t, err, "%s by %s", goal, key)
			control := scenario.Find(key)
			for hair, end := range map[float64]float64{-1e-6: a.From, 1e-6: a.To} {
				beyond := scene
				q.Put(&beyond, end+hair)
				if _, _, err := q.Try(&beyond); err == nil && end > control.Min && end < control.Max {
					assert.InDelta(t, 0, off(&q, scene, end), 1e-9, "%s by %s", goal, key)
					ends++
				}
			}
		}
	}
	assert.Greater(t, ends, 8)
}

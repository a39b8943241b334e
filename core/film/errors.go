package film

import "errors"

// The reasons why a film or a stroke can't be read.
var (
	ErrPicture    = errors.New("this frame is not a picture, or has another size than the first one")
	ErrNoCue      = errors.New("the cue ball is not marked: mark it in the first picture")
	ErrNoTarget   = errors.New("the target ball is not marked: it defines the aim line")
	ErrFewMarks   = errors.New("too few marks: mark the cue ball, the target and at least one more ball or point beside the aim line")
	ErrNoBall     = errors.New("no ball is found at this mark: drag the mark onto the ball")
	ErrNotFound   = errors.New("the balls are not found in this picture: drag each mark onto its ball")
	ErrMarks      = errors.New("the balls in the picture do not lie where the shot has them: check which ball is which, that nothing hides it, and the distances")
	ErrOutside    = errors.New("the camera is too low over the table, or looks away from it: place it higher")
	ErrDark       = errors.New("the cue ball hardly stands out from the cloth: add light, or remove what throws the shadow")
	ErrMoved      = errors.New("the camera moved: mark the balls again")
	ErrTimes      = errors.New("the frames have no times, or times that run backwards")
	ErrNoStroke   = errors.New("no stroke is seen: the cue ball stays where it is")
	ErrCutStart   = errors.New("the film begins after the stroke: the cue ball does not rest on its spot in the first picture")
	ErrCutEnd     = errors.New("the film ends too soon: the ball is seen moving in fewer than four frames")
	ErrLost       = errors.New("the ball left its spot but was not seen on its way: check the light, that nothing covers the aim line, that the ball goes 5 in (12 cm) at least, and that this is not slow motion")
	ErrFew        = errors.New("fewer than four frames show the ball on its way: use more frames a second, or play more softly")
	ErrResidual   = errors.New("the positions do not lie on the path of any stroke: strike out bad frames, or mark the balls again")
	ErrVague      = errors.New("the film leaves the launch angle open by more than a degree: film from nearer, from higher up, or with more frames a second")
	ErrSlowMotion = errors.New("the ball slows down too little for the film's times: it seems to be slow motion, so there is no speed; film at normal speed")
	ErrNoFriction = errors.New("the film tells too little of this friction: film a ball that slides, then rolls on until it nearly stops")
	ErrNoLine     = errors.New("the ball does not come to this line in the film")
)

// A BallError is an error about one of the marked balls.
type BallError struct {
	Ball int // index in the list that was given
	Role Role
	Err  error
}

func (e *BallError) Error() string { return e.Role.String() + ": " + e.Err.Error() }

// Unwrap returns the reason.
func (e *BallError) Unwrap() error { return e.Err }

// String returns the ball's name.
func (r Role) String() string {
	switch r {
	case Cue:
		return "cue ball"
	case Target:
		return "target ball"
	case Left:
		return "left blocker"
	case Right:
		return "right blocker"
	}
	return "ball"
}

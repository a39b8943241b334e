package view

import "strconv"

// The words of the Instruments section that its table does not have.
const (
	ReadingUsed   = "Used in the shot"
	TableSaved    = "Saved to your tables"
	TableUsed     = "Table in use. Undo takes it back"
	TableNameless = "Type a name for the table first"

	TiltNoZero  = "Set zero first, with the phone flat on the cloth, face up."
	TiltAsking  = "Asking for the tilt sensor…"
	TiltReading = "Reading. Keep the phone still…"
	TiltRefused = "The tilt sensor was refused. Use a tape, or allow motion for this page in the browser's settings."
	TiltSilent  = "The tilt sensor gives no reading. Try once more, or use a tape."
	TiltZeroed  = "Zero is set. Now lay the phone along the cue."
	TiltRead    = "Read along the cue."

	StartListening    = "Start listening"
	StopListening     = "Stop listening"
	ListeningStopped  = "Stopped listening."
	Listening         = "Listening: play the shot. Nothing is recorded or sent."
	HeardHit          = "Heard the hit. Waiting for the rail."
	HeardNothing      = "Heard nothing for half a minute. Use your thumb."
	MicrophoneAsking  = "Asking for the microphone…"
	MicrophoneRefused = "The microphone was refused. Use your thumb, or allow it for this page in the browser's settings."
	MicrophoneNone    = "No microphone was found. Use your thumb."

	TimeNoDistance  = "The last time still needs its distance: type it, or clear and start over."
	TimeDropped     = "That time was dropped."
	ReadingsCleared = "All readings deleted. Undo brings them back"
)

// SavedWithTable says that a result was saved with a table.
func SavedWithTable(name string) string { return "Saved with " + name }

// TiltMissing and MicrophoneMissing say that pages have no such sensor here.
func TiltMissing(secure bool) string {
	return "Pages can't use a tilt sensor here" + Insecure(secure) + ". Use a tape."
}

// MicrophoneMissing is like TiltMissing, for the microphone.
func MicrophoneMissing(secure bool) string {
	return "Pages can't use a microphone here" + Insecure(secure) + ". Use your thumb."
}

// MicrophoneFailed says why the microphone did not start.
func MicrophoneFailed(err error) string {
	return "The microphone did not start (" + err.Error() + "). Use your thumb."
}

// TimeNeedsDistance asks for the distance of a time that was just taken.
func TimeNeedsDistance(took string) string { return took + ". Now type the distance." }

// TimeRefused says why a time was not noted.
func TimeRefused(took string, err error) string {
	return "Not noted (" + took + "): " + err.Error() + "."
}

// TimeNoted says that a time was noted.
func TimeNoted(took string) string { return took + " noted." }

// TimesNeeded says how many times have to be typed.
func TimesNeeded(n int) string {
	if n == 1 {
		return "Not noted: type one time, such as 0.61."
	}
	return "Not noted: type two times, both from the first mark, such as 1.1 2.4."
}

// UseName returns the full name of the button that uses the record.
func (r *RecordLine) UseName() string { return UseButton + " " + r.Name }

// DeleteName returns the full name of the button that deletes the record.
func (r *RecordLine) DeleteName() string { return DeleteButton + " " + r.Name }

// readingName names a reading of an instrument in its list, counted from 1.
func readingName(n int, instrument string) string {
	return "reading " + strconv.Itoa(n) + ": " + instrument
}

// sideNames names the sides of the ball that an offset may be to.
var sideNames = map[string]string{"right": "to the right", "left": "to the left", "above": "above centre", "below": "below centre"}

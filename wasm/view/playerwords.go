package view

import "strconv"

// The words of the Players section that its lists and cards do not have.
const (
	PlayerDeleted = "Player and strokes deleted. Undo brings them back"
	TurnsCleared  = "All strokes of this player deleted. Undo brings them back"
	TurnTooSoon   = "Wait until the next stroke is shown"
	OwnCueOption  = "the player's own"
	NobodyCarded  = "No player has strokes yet"
	ParallelRead  = "Keep the cue parallel to the line through the ball's centre. With right english, aim this far beside the target. With left english, aim the same distance to the other side."
	NeedRead      = "How far squirt sends the ball off, minus what swerve brings back."
)

// PrintingWords says whose card is being worked out, out of how many.
func PrintingWords(i, of int, name string) string {
	return "Card " + strconv.Itoa(i+1) + " of " + strconv.Itoa(of) + ": " + name
}

// FitSaved says that a fit was saved with a player.
func FitSaved(name string) string { return "Saved with " + name }

// NoCard says why a player has no card.
func NoCard(err error) string { return "No card: " + err.Error() }

// PlayerFormTitle returns the heading of the form of a player.
func PlayerFormTitle(name string, isNew bool) string {
	if isNew {
		return "Add a player"
	}
	return EditButton + " " + name
}

// CodeName returns the full name of the button that shows a player's link as a QR code.
func CodeName(name string) string { return "QR code for " + name }

// DeleteStrokeName returns the full name of the button that deletes a stroke.
func DeleteStrokeName(number string) string { return DeleteButton + " stroke " + number }

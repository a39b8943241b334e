package view

// The words of the Measure section that its other views do not have.
const (
	CardsNeeded     = "Type how many cards there are, and how thick one is, such as 1.5 mm"
	StrokesNeeded   = "Add some strokes first"
	AlreadySaved    = "Saved already: nothing new to save"
	StrokesCleared  = "All strokes deleted. Undo brings them back"
	WaitForTheNext  = "Wait for the next stroke"
	DensityPictured = "How likely each pivot length is. "
)

// ResultName returns the name of the menu of what the stroke's ball hit first.
func (r *StrokeRow) ResultName() string { return "Result of stroke " + r.Number }

// EditName returns the full name of the button that corrects the stroke.
func (r *StrokeRow) EditName() string { return EditButton + " stroke " + r.Number }

// DeleteName returns the full name of the button that deletes the stroke.
func (r *StrokeRow) DeleteName() string { return DeleteStrokeName(r.Number) }

// MeasureName returns the full name of the button that measures a cue at the table.
func MeasureName(cue string) string { return "Measure " + cue }

// MarkExample returns a mark as people type it in the given units, "in" or "cm".
func MarkExample(units string) string {
	if units == "cm" {
		return "-4.8"
	}
	return "-1 7/8"
}

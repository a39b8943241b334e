package view

import "strconv"

// The words of the Cues section that its lists do not have.
const (
	CurrentCue      = "current cue"
	UseButton       = "Use"
	EditButton      = "Edit"
	CopyLinkButton  = "Copy link"
	DeleteButton    = "Delete"
	Deleted         = "Deleted. Undo brings it back"
	CuesFull        = "You can compare six cues. Untick one first"
	SquirtChartName = "Squirt by tip offset for each cue, with its 90 % band"
)

// CurrentCueWords says that a cue is now the current one.
func CurrentCueWords(title string) string { return title + " is now the current cue" }

// CueFormTitle returns the heading of the form that edits a record.
func CueFormTitle(isNew bool) string {
	if isNew {
		return "New record"
	}
	return "Edit record"
}

// UseName returns the full name of the button that uses a cue or a table.
func UseName(title string) string { return UseButton + " " + title }

// CompareName returns the name of the checkbox that compares a cue.
func (r *CueRow) CompareName() string { return "Compare " + r.Title }

// RecordsName returns the name of the button that shows the records of a cue.
func (r *CueRow) RecordsName() string { return "Records of " + r.Title }

// EditName, LinkName and DeleteName are the full names of the buttons of a record.
func (r *RecordRow) EditName() string   { return EditButton + " " + r.name() }
func (r *RecordRow) LinkName() string   { return CopyLinkButton + " to " + r.name() }
func (r *RecordRow) DeleteName() string { return DeleteButton + " " + r.name() }

func (r *RecordRow) name() string { return "record " + strconv.Itoa(r.Number) + " of " + r.Cue }

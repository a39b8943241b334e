package app

// A Switch is a change from one of the compared cues to another. Place 0 is the current
// cue, and place 1 the first of the others.
type Switch struct {
	On       bool // whether one is chosen
	From, To int
}

// ChooseSwitch chooses the cues to switch between. It changes nothing if a place is out
// of range.
type ChooseSwitch struct{ From, To int }

func (e ChooseSwitch) update(m Model) Model {
	if last := len(m.Scene.More); min(e.From, e.To) >= 0 && max(e.From, e.To) <= last {
		m.Switch = Switch{On: true, From: e.From, To: e.To}
	}
	return m
}

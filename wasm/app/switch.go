package app

// A Switch is a change from one of the compared cues to another. Their places count
// from the cue on the bench, which has place 0.
type Switch struct {
	On       bool // one was chosen
	From, To int
}

// ChooseSwitch chooses the cues to switch between. A place that no cue can have
// changes nothing.
type ChooseSwitch struct{ From, To int }

func (e ChooseSwitch) update(m Model) Model {
	if last := len(m.Scene.More); min(e.From, e.To) >= 0 && max(e.From, e.To) <= last {
		m.Switch = Switch{On: true, From: e.From, To: e.To}
	}
	return m
}

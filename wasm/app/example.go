package app

import "pivotbench/wasm/store"

// A Home is the user's own page while the example is shown in its place. The keeper saves
// nothing meanwhile, and leaving the example brings the home back as it was.
type Home struct {
	Model   Model
	Visit   Visit // restores its drafts, and all of it after a reload
	Waiting bool  // whether the example's records have not arrived yet
}

// InExample reports whether the example is shown in place of the user's own records.
func (m *Model) InExample() bool { return m.Home != nil }

// OpenExample shows the example, empty until its records arrive with ShowExample. Units
// and Fields are those of the visit to the user's own page. It changes nothing if the
// example is already open.
type OpenExample struct {
	Units  string
	Fields []Field
}

func (e OpenExample) update(m Model) Model {
	if m.Home != nil {
		return m
	}
	return Drag{Phase: DragCancel}.update(m).settled().away(e.Units, e.Fields)
}

// away returns the empty example with the model as its home.
func (m Model) away(units string, fields []Field) Model {
	out := Start()
	out.Scene, out.Settled, out.Section = m.Settled, m.Settled, m.Section
	out.Look, out.Cautioned, out.Known = m.Look, m.Cautioned, m.Known
	out.Changes = m.Changes + 1
	out.Home = &Home{Model: m, Visit: m.Visit(units, fields), Waiting: true}
	return out
}

// ShowExample shows the example's records, which are the text of a file. The shot is that
// of its first lesson, in the user's units. A visit to the example before a reload is
// taken up again instead. If the text cannot be read, the example is closed, and the
// notices say so. ShowExample changes nothing unless the example waits for its records.
type ShowExample struct {
	Text  string
	Visit Visit // the visit before a reload; empty for none
}

func (e ShowExample) update(m Model) Model {
	if m.Home == nil || !m.Home.Waiting {
		return m
	}
	kept, err := store.Decode(e.Text)
	if err != nil || len(kept.Lessons) == 0 {
		m = LeaveExample{}.update(m)
		m.Notices = []string{"The example did not arrive. Check the connection and try again."}
		return m
	}
	home := *m.Home
	home.Waiting = false
	m.Home, m.Kept = &home, kept
	m.Changes++
	m = m.measuringNewest()
	if e.Visit.Example {
		e.Visit.Example = false
		return Return{e.Visit}.update(m)
	}
	m.Settled = kept.Lessons[0].Scene(0, m.Scene.Units)
	m.Scene = m.Settled
	return OpenSection{"cues"}.update(m)
}

// LeaveExample closes the example and everything done in it, and brings back the user's
// own page.
type LeaveExample struct{}

func (LeaveExample) update(m Model) Model {
	if m.Home == nil {
		return m
	}
	home := m.Home.Model
	home.Changes = m.Changes + 1 // of the records shown
	return home
}

// returned opens the example again after a reload, with the user's own page behind it.
func (m Model) returned(v Visit) Model {
	inside, home := m.Settled, ParseVisit(v.Home)
	home.Example = false
	m = Open{v.HomeLink}.update(m)
	m.Past, m.Notices = nil, nil
	m = Return{home}.update(m).away(home.Units, home.Fields)
	m.Scene, m.Settled = inside, inside
	return m
}

// Package app is the page's state and how events change it: plain values,
// plain Go, no browser.
package app

import (
	"slices"

	"pivotbench/core/lesson"
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/core/sitting"
	"pivotbench/core/stat"
	"pivotbench/wasm/store"
)

// A Model is all the page knows. Update makes a new one; nothing else changes
// it.
type Model struct {
	Scene    scenario.Scenario // what is shown
	Settled  scenario.Scenario // what the address bar has: Scene, once a gesture ends
	Before   scenario.Scenario // as the drag under way began
	Dragging bool
	Kept     store.Records          // strokes, cues and the rest, on the device
	Changes  int                    // of Kept so far: whoever has seen the last need not look again
	Past     []Snapshot             // for undo, oldest first
	Future   []Snapshot             // for redo, next last
	Ratios   stat.Interval[float64] // of contact times that hops seen leave for this shot; empty: none were seen
	Notices  []string               // for the user to read
	Refused  bool                   // the last control could not be set: its text is the user's to mend
	Look     Look
	Clock    Clock       // of the play-back
	Lesson   lesson.Link // the one that is open, and where it has come to; no stops: none is

	Measuring string // the name of the cue whose strokes are noted now; empty: it has none

	Own        bool  // the lesson is one of Kept.Lessons
	Back       Bench // what was on the bench before the lesson
	Correction Correction
	CueForm    CueForm
	Import     Import
	Aside      store.Records // what an import replaced, until the user lets go of it
	HasAside   bool

	Earlier    scenario.Scenario // as it was before it was aimed, to be seen beside
	HasEarlier bool

	Section   string // of the page, the one that is open
	OpenedCue string // of the list of cues, the one whose records are in sight
	Switch    Switch
	Offer     Offer
	Cautioned bool          // the cautions for hops were read
	SetUp     sitting.SetUp // how well what all strokes take as given is known
	Unkept    bool          // the device refused to keep the records as they are
	Unread    bool          // the device has some that can't be read
	Marked    string        // of a canvas: the marks it was told to show
}

// A Snapshot is what undo brings back.
type Snapshot struct {
	Scene     scenario.Scenario
	Kept      store.Records
	Measuring string
}

// mostUndo is how many steps back are kept.
const mostUndo = 200

// Start is the model of an empty link.
func Start() Model {
	def := scenario.Default()
	return Model{Scene: def, Settled: def, Look: Look{Stretch: 4, Theme: "system"}, Section: Sections[0], SetUp: sitting.Habit}
}

// Play works the scene out.
func (m *Model) Play() *shot.Result {
	s, res := m.Scene.Shot(), new(shot.Result)
	shot.Play(&s, res)
	return res
}

// An Event is something that happened: one of the types of this package that
// say so.
type Event interface{ update(Model) Model }

// Update is the model after an event. Another shot is seen from its beginning,
// unless the event itself says from where.
func Update(m Model, e Event) Model {
	_, undo := e.(Undo)
	_, redo := e.(Redo)
	next := e.update(m).keepUp(&m, undo || redo).narrowed(&m)
	if (next.Scene != m.Scene || next.Look.Object != m.Look.Object) && next.Clock == m.Clock {
		next.Clock = Clock{Slow: m.Clock.Slow}
	}
	return next
}

// Open is a link opened: at the start, from the history, pasted or chosen.
// What was there before can be undone.
type Open struct{ Link string }

func (e Open) update(m Model) Model {
	m = m.settled()
	scene, problems := scenario.Parse(e.Link)
	m.HasEarlier = false
	m.Notices = nil
	for _, p := range problems {
		m.Notices = append(m.Notices, p.Error())
	}
	return m.place(scene)
}

// UsePreset puts an example shot on the bench: see scenario.Preset.On for what
// stays as it is.
type UsePreset struct{ Preset scenario.Preset }

func (e UsePreset) update(m Model) Model {
	m = m.settled()
	scene, problems := e.Preset.On(&m.Scene)
	m.HasEarlier, m.Notices = false, nil
	for _, p := range problems {
		m.Notices = append(m.Notices, p.Error())
	}
	return m.place(scene)
}

// First is the link the page was opened with: there is nothing to undo.
type First struct{ Link string }

func (e First) update(m Model) Model {
	m = Open(e).update(m)
	m.Past = nil
	return m
}

// IsAt reports whether a link brings the settled shot, with nothing in it that is
// refused.
func (m *Model) IsAt(link string) bool {
	there := First{link}.update(Start())
	return there.Scene == m.Settled && len(there.Notices) == 0
}

// Set is a control that was changed; Bare is the unit beside its field. The
// gesture goes on until Settle. A Draft is text still being typed: if it can't
// be read yet, nothing is said.
type Set struct {
	Key, Text, Bare string
	Draft           bool
}

func (e Set) update(m Model) Model {
	m.Notices, m.Refused = nil, false
	k := scenario.Find(e.Key)
	if k == nil {
		m.Notices = []string{"there is no control named “" + e.Key + "”"}
		return m
	}
	p := k.Set(&m.Scene, e.Text, e.Bare)
	if p != nil && e.Draft {
		return m
	}
	if p != nil {
		p.Key = k.Label
		m.Notices, m.Refused = []string{p.Error()}, true
		return m
	}
	for _, p := range m.Scene.Fit() {
		m.Notices = append(m.Notices, p.Error())
	}
	return m
}

// A Setting is a key and the text of its new value, with its unit.
type Setting struct{ Key, Text string }

// A Phase is where in a drag a message stands.
type Phase string

// The phases of a drag.
const (
	DragStart  Phase = "start"
	DragMove   Phase = "move"
	DragEnd    Phase = "end"
	DragCancel Phase = "cancel"
)

// Drag is a handle on the sheet being moved.
type Drag struct {
	Sets  []Setting
	Phase Phase
}

func (e Drag) update(m Model) Model {
	if e.Phase == DragStart && !m.Dragging {
		m = m.settled()
		m.Before, m.Dragging = m.Scene, true
	}
	if e.Phase == DragCancel {
		if m.Dragging {
			m.Scene, m.Dragging = m.Before, false
		}
		return m
	}
	for _, s := range e.Sets {
		m = Set{Key: s.Key, Text: s.Text}.update(m)
	}
	if e.Phase == DragEnd {
		m.Dragging = false
		m = m.settled()
	}
	return m
}

// Settle ends a gesture: the scene becomes what the address bar has, and the
// one before can be undone.
type Settle struct{}

func (Settle) update(m Model) Model { return m.settled() }

// settled is the model with the gesture over, unless a drag is under way.
func (m Model) settled() Model {
	if m.Dragging || m.Scene == m.Settled {
		return m
	}
	m = m.remember(m.Settled)
	m.Settled = m.Scene
	return m
}

// remember is the model with a scene, and what is kept now, to come back to.
func (m Model) remember(scene scenario.Scenario) Model {
	m.Past = append(slices.Clip(m.Past), Snapshot{scene, m.Kept, m.Measuring})
	if len(m.Past) > mostUndo {
		m.Past = m.Past[len(m.Past)-mostUndo:]
	}
	m.Future = nil
	return m
}

// Undo goes one gesture back.
type Undo struct{}

func (Undo) update(m Model) Model {
	m = m.settled()
	m.Past, m.Future = m.shift(m.Past, m.Future)
	m.Settled, m.Notices, m.HasEarlier = m.Scene, nil, false
	return m
}

// Redo takes an undo back.
type Redo struct{}

func (Redo) update(m Model) Model {
	m = m.settled()
	m.Future, m.Past = m.shift(m.Future, m.Past)
	m.Settled, m.Notices = m.Scene, nil
	return m
}

// shift puts what is now at the end of one list and brings back the last of
// the other. An empty list changes nothing.
func (m *Model) shift(from, to []Snapshot) (rest, grown []Snapshot) {
	if len(from) == 0 {
		return from, to
	}
	last := len(from) - 1
	grown = append(slices.Clip(to), Snapshot{m.Scene, m.Kept, m.Measuring})
	m.Scene, m.Kept, m.Measuring = from[last].Scene, from[last].Kept, from[last].Measuring
	m.Changes++
	return from[:last], grown
}

// InGesture reports whether a gesture is under way: the shot is not yet what the
// address has.
func (m *Model) InGesture() bool { return m.Scene != m.Settled }

// CanUndo and CanRedo report whether there is anything to take back, or to do
// again.
func (m *Model) CanUndo() bool { return len(m.Past) > 0 || m.InGesture() }

// CanRedo is described with CanUndo.
func (m *Model) CanRedo() bool { return len(m.Future) > 0 }

// Tell gives the user something to read.
type Tell struct{ Notices []string }

func (e Tell) update(m Model) Model {
	m.Notices = e.Notices
	return m
}

// AlsoTell adds to what there is to read.
type AlsoTell struct{ Notices []string }

func (e AlsoTell) update(m Model) Model {
	m.Notices = append(slices.Clip(m.Notices), e.Notices...)
	return m
}

// Dismiss is the user having read the notices.
type Dismiss struct{}

func (Dismiss) update(m Model) Model {
	m.Notices = nil
	return m
}

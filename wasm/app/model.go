// Package app defines the state of the page and how events change it. It is plain Go
// with plain values and does not need a browser.
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

// A Model is the complete state of the page. Only Update changes it, by returning a new
// one.
type Model struct {
	Scene    scenario.Scenario      // the current shot, which is shown
	Settled  scenario.Scenario      // the shot in the address bar: Scene, as soon as no gesture is under way
	Before   scenario.Scenario      // the shot at the start of the current drag
	Dragging bool                   // whether a drag is under way
	Placed   Marking                // the mark at the start of the current drag
	Kept     store.Records          // strokes, cues and all other records, to be saved on the device
	Changes  int                    // number of changes to Kept and Aside, for detecting a change
	Past     []Snapshot             // steps for undo, oldest first
	Future   []Snapshot             // steps for redo, next one last
	Ratios   stat.Interval[float64] // contact-time ratios that agree with the recorded hops; zero if no hop applies
	Notices  []string               // messages for the user
	Refused  bool                   // whether the last Set failed, so that its text is left for the user to correct
	Look     Look
	Clock    Clock       // state of the playback
	Lesson   lesson.Link // the open lesson and its current stop; no stops means that none is open

	Measuring string  // name of the cue whose strokes are recorded now; empty means a cue without a name
	Marking   Marking // the mark of the next stroke
	Bands     []Band  // where strokes of the sitting are expected to cross their lines
	Marked    string  // for a canvas: what its Mirror shows of a sitting, as text
	Table     Table   // measuring at the table

	Own        bool  // whether the open lesson is one of Kept.Lessons
	Back       Bench // the shot from before the lesson
	Correction Correction
	Film       Film
	FilmTurn   FilmTurn
	filmLaid   layout // where the balls lie for which the film is marked
	CueForm    CueForm
	PlayerForm PlayerForm
	Offered    store.Records // a player from a link and his strokes, to be saved or not; without players there is none
	Player     string        // key of the chosen player (see player.Key); empty means nobody
	Round      Round
	Import     Import
	Aside      store.Records // records that an import replaced, until the user discards them
	HasAside   bool

	Earlier    scenario.Scenario // the shot kept for comparison
	HasEarlier bool

	Section   string // name of the open section: one of Sections
	Starting  bool   // whether the start is shown, which leads to the sections
	Known     bool   // whether the device has seen a visit before, so that the start is not shown by itself
	Door      string // the door through which the section was opened, while its next step is shown; empty for none
	Gear      Gear   // the user's own gear
	Home      *Home  // the user's own page while the example is shown; nil otherwise
	OpenedCue string // key of the cue whose records are expanded in the list; empty means none
	Switch    Switch
	Offer     Offer
	Cautioned bool          // whether the user has read the cautions for hops
	SetUp     sitting.SetUp // uncertainties of the set-up, before the checks of a sitting narrow them
	Now       string        // the newest moment that an event told of; empty before the first
	Unkept    bool          // whether the device could not save the current records
	Unread    bool          // whether the device has records that cannot be read
}

// A Snapshot is the part of the model that undo and redo bring back.
type Snapshot struct {
	Scene     scenario.Scenario
	Kept      store.Records
	Measuring string
	Player    string // who was chosen: he is again if the step has other strokes of players
	SetUp     sitting.SetUp
}

// mostUndo is the maximum number of steps for undo.
const mostUndo = 200

// Start returns the model for an empty link, without records.
func Start() Model {
	def := scenario.Default()
	return Model{Scene: def, Settled: def, Look: Look{Stretch: 4, Theme: "system"}, Section: Sections[0], SetUp: sitting.Habit}
}

// Play computes the shot.
func (m *Model) Play() *shot.Result {
	s, res := m.Scene.Shot(), new(shot.Result)
	shot.Play(&s, res)
	return res
}

// An Event is something that changes the model, such as a user's action. The types of
// this package with an update method are the events.
type Event interface{ update(Model) Model }

// Update returns the model after an event. If the event changes the shot and does not set
// the playback itself, the shot is shown at rest.
func Update(m Model, e Event) Model {
	_, undo := e.(Undo)
	_, redo := e.(Redo)
	next := e.update(m).keepUp(&m, undo || redo).narrowed(&m).inNewUnits(&m).relaid()
	if (next.Scene != m.Scene || next.Look.Object != m.Look.Object) && next.Clock == m.Clock {
		next.Clock = Clock{Slow: m.Clock.Slow}
	}
	return next
}

// Open replaces the current shot with the shot of a link, whether from the address, from
// the history, pasted or chosen. An empty link is the starting shot with the user's own
// gear. Undo brings back the shot from before. The notices name the values in the link
// that are refused.
type Open struct{ Link string }

func (e Open) update(m Model) Model {
	m = m.settled()
	scene, problems := scenario.Parse(e.Link)
	if isEmpty(e.Link) {
		scene = m.Gear.on(scene)
	}
	m.HasEarlier, m.FilmTurn = false, FilmTurn{}
	m.Notices = nil
	for _, p := range problems {
		m.Notices = append(m.Notices, p.Error())
	}
	return m.place(scene)
}

// UsePreset replaces the current shot with an example shot. It keeps the values that
// scenario.Preset.On keeps.
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

// First opens the link with which the page starts, and clears the steps for undo. A first
// visit without a link shows the start.
type First struct{ Link string }

func (e First) update(m Model) Model {
	m = Open(e).update(m)
	m.Past = nil
	m.Starting = isEmpty(e.Link) && !m.Known
	return m
}

// IsAt reports whether a link gives exactly the settled shot, without any problems.
func (m *Model) IsAt(link string) bool {
	there := First{link}.update(Start())
	return there.Scene == m.Settled && len(there.Notices) == 0
}

// Set sets a control to the value of a text. Bare is the unit of a number without one.
// The gesture continues until Settle. Text that cannot be read changes only the notices
// and Refused. Draft means that the user is still typing: then there is no notice.
type Set struct {
	Key, Text, Bare string
	Draft           bool
}

func (e Set) update(m Model) Model {
	m.Notices, m.Refused = nil, false
	k := scenario.Find(e.Key)
	if k == nil {
		m.Notices = []string{"there is no control called “" + e.Key + "”"}
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

// A Setting is the key of a control and the text of its new value, with its unit.
type Setting struct{ Key, Text string }

// A Phase is the part of a drag that an event belongs to.
type Phase string

// The phases of a drag.
const (
	DragStart  Phase = "start"
	DragMove   Phase = "move"
	DragEnd    Phase = "end"
	DragCancel Phase = "cancel"
)

// Drag sets the controls for a handle that the user drags on the sheet, or the mark of
// the next stroke: its key is MarkKey. DragStart begins
// the gesture, DragEnd ends it, and DragCancel restores the shot from its start.
type Drag struct {
	Sets  []Setting
	Phase Phase
}

func (e Drag) update(m Model) Model {
	if e.Phase == DragStart && !m.Dragging {
		m = m.settled()
		m.Before, m.Placed, m.Dragging = m.Scene, m.Marking, true
	}
	if e.Phase == DragCancel {
		if m.Dragging {
			m.Scene, m.Marking, m.Dragging = m.Before, m.Placed, false
		}
		return m
	}
	for _, s := range e.Sets {
		if s.Key == MarkKey {
			m.Marking.Text = s.Text
			continue
		}
		m = Set{Key: s.Key, Text: s.Text}.update(m)
	}
	if e.Phase == DragEnd {
		m.Dragging = false
		m = m.settled()
	}
	return m
}

// Settle ends a gesture: the current shot becomes the settled one, and undo brings back
// the one before. It changes nothing during a drag.
type Settle struct{}

func (Settle) update(m Model) Model { return m.settled() }

// settled returns the model with the gesture ended, unless a drag is under way.
func (m Model) settled() Model {
	if m.Dragging || m.Scene == m.Settled {
		return m
	}
	m = m.remember(m.Settled)
	m.Settled = m.Scene
	return m
}

// remember returns the model with a step for undo: the scene with the current records.
// It clears the steps for redo.
func (m Model) remember(scene scenario.Scenario) Model {
	m.Past = append(slices.Clip(m.Past), Snapshot{scene, m.Kept, m.Measuring, m.Player, m.SetUp})
	if len(m.Past) > mostUndo {
		m.Past = m.Past[len(m.Past)-mostUndo:]
	}
	m.Future = nil
	return m
}

// Undo goes back one step. It also ends the comparison with an earlier shot.
type Undo struct{}

func (Undo) update(m Model) Model {
	m = m.settled()
	m.Past, m.Future = m.shift(m.Past, m.Future)
	m.Settled, m.Notices, m.HasEarlier = m.Scene, nil, false
	return m
}

// Redo goes forward one step that was undone.
type Redo struct{}

func (Redo) update(m Model) Model {
	m = m.settled()
	m.Future, m.Past = m.shift(m.Future, m.Past)
	m.Settled, m.Notices = m.Scene, nil
	return m
}

// shift appends the current state to one list, and takes the last state of the other
// list as the new current state. It changes nothing if that list is empty.
func (m *Model) shift(from, to []Snapshot) (rest, grown []Snapshot) {
	if len(from) == 0 {
		return from, to
	}
	last := len(from) - 1
	grown = append(slices.Clip(to), Snapshot{m.Scene, m.Kept, m.Measuring, m.Player, m.SetUp})
	if !slices.Equal(from[last].Kept.Turns, m.Kept.Turns) {
		m.Player = from[last].Player
	}
	m.Scene, m.Kept, m.Measuring, m.SetUp = from[last].Scene, from[last].Kept, from[last].Measuring, from[last].SetUp
	m.Changes++
	return from[:last], grown
}

// InGesture reports whether a gesture is under way, so that the current shot differs
// from the settled one.
func (m *Model) InGesture() bool { return m.Scene != m.Settled }

// CanUndo reports whether there is a step to undo.
func (m *Model) CanUndo() bool { return len(m.Past) > 0 || m.InGesture() }

// CanRedo reports whether there is a step to redo.
func (m *Model) CanRedo() bool { return len(m.Future) > 0 }

// Tell replaces the notices.
type Tell struct{ Notices []string }

func (e Tell) update(m Model) Model {
	m.Notices = e.Notices
	return m
}

// AlsoTell adds to the notices.
type AlsoTell struct{ Notices []string }

func (e AlsoTell) update(m Model) Model {
	m.Notices = append(slices.Clip(m.Notices), e.Notices...)
	return m
}

// Dismiss clears the notices.
type Dismiss struct{}

func (Dismiss) update(m Model) Model {
	m.Notices = nil
	return m
}

package app_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/lesson"
	"pivotbench/wasm/app"
	"pivotbench/wasm/store"
)

// A link that brings a cue offers it: nothing that is kept changes until the user
// says so, and the shot on the bench stays.
func TestACueThatALinkBringsIsOffered(t *testing.T) {
	cue := store.CueRecord{Name: "House 4", Pivot: "9.6in", From: "9in", To: "10.3in", At: "0.5", How: "gate", Link: "v=1", When: "2026-11-24T19:00:00Z"}
	link := "#" + cue.Fragment()
	assert.True(t, app.Brings(link))
	m := app.Update(app.Update(app.Start(), app.Open{Link: "v=1&bridge=9in"}), app.Bring{Link: link})
	assert.Equal(t, app.Offer{On: true, Cue: cue}, m.Offer)
	assert.Equal(t, "cues", m.Section)
	assert.Empty(t, m.Kept.Cues)
	assert.Equal(t, "v=1&bridge=9in", m.Settled.Format())

	kept := app.Update(m, app.KeepOffer{})
	assert.Equal(t, []store.CueRecord{cue}, kept.Kept.Cues)
	assert.Zero(t, kept.Offer)
	assert.Equal(t, kept, app.Update(kept, app.KeepOffer{}), "once")
	left := app.Update(m, app.DropOffer{})
	assert.Zero(t, left.Offer)
	assert.Empty(t, left.Kept.Cues)

	torn := app.Update(app.Start(), app.Bring{Link: "#cue&v=1&name=House"})
	assert.False(t, torn.Offer.On)
	assert.Contains(t, torn.Notices[0], "cut short")
	assert.Equal(t, "shot", torn.Section)
}

// A lesson opens, and what is wrong with it is said.
func TestALessonThatALinkBringsOpens(t *testing.T) {
	whole := lesson.Link{Lesson: lesson.Shipped[0].Lesson, Shipped: lesson.Shipped[0].Name}
	m := app.Update(app.Start(), app.Bring{Link: "#" + whole.Format()})
	assert.Equal(t, "lessons", m.Section)
	assert.Equal(t, whole, m.Lesson)
	assert.Empty(t, m.Notices)
	torn := app.Update(app.Start(), app.Bring{Link: "#lesson&v=1&shipped=nowhere"})
	assert.NotEmpty(t, torn.Notices)
	for _, shot := range []string{"", "#v=1&bridge=9in", "#speed=3mph"} {
		assert.False(t, app.Brings(shot), shot)
	}
}

package app_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/wasm/app"
)

// The start is shown on a first visit without a link.
func TestTheStartIsForFirstVisits(t *testing.T) {
	assert.True(t, app.Update(app.Start(), app.First{}).Starting)
	assert.True(t, app.Update(app.Start(), app.First{Link: "#"}).Starting)
	assert.False(t, app.Update(app.Start(), app.First{Link: "#v=1"}).Starting)
	known := app.Update(app.Start(), app.Recall{Known: true})
	assert.False(t, app.Update(known, app.First{}).Starting)
	assert.True(t, app.Update(known, app.ShowStart{On: true}).Starting, "it can be called back")
}

// Each door leads to its section; that and every other way there closes the start.
func TestDoorsLeadToSections(t *testing.T) {
	begin := app.Update(app.Start(), app.First{})
	for _, door := range app.Doors {
		m := app.Update(begin, app.TakeDoor{Name: door.Name})
		assert.Equal(t, door.Section, m.Section)
		assert.Equal(t, door.Name, m.Door)
		assert.False(t, m.Starting)
		assert.Empty(t, app.Update(m, app.EndStep{}).Door)
		assert.Empty(t, app.Update(m, app.OpenSection{Name: "reference"}).Door)
	}
	assert.Equal(t, begin, app.Update(begin, app.TakeDoor{Name: "cellar"}))
	assert.False(t, app.Update(begin, app.OpenSection{Name: "shot"}).Starting)
	assert.False(t, app.Update(begin, app.ShowStart{}).Starting)
	assert.False(t, app.Update(begin, app.Bring{Link: "lesson&v=1&shipped=squirt"}).Starting)
}

// A page that is loaded again halfway is where it was.
func TestTheStartComesBack(t *testing.T) {
	again := func(m app.Model) app.Model {
		next := app.Update(app.Start(), app.Recall{Gear: m.Gear.Format(), Known: true})
		next = app.Update(next, app.First{Link: m.Settled.Format()})
		return app.Update(next, app.Return{Visit: app.ParseVisit(m.Visit("in", nil).Format())})
	}
	m := app.Update(app.Update(app.Start(), app.First{}), app.SetGear{Key: "table", Text: "7ft"})
	assert.True(t, again(m).Starting)
	assert.Equal(t, "7ft", again(m).Scene.Table)
	m = app.Update(m, app.TakeDoor{Name: "measure"})
	assert.False(t, again(m).Starting)
	assert.Equal(t, "measure", again(m).Door)
}

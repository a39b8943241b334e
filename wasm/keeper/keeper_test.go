package keeper_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/wasm/app"
	"pivotbench/wasm/keeper"
	"pivotbench/wasm/store"
)

// A device is a storage with room for so many bytes. It refuses everything if room is
// negative.
type device struct {
	texts map[string]string
	room  int
}

func newDevice() *device { return &device{map[string]string{}, 1 << 20} }

func (d *device) Read(key string) string {
	if d.room < 0 {
		return ""
	}
	return d.texts[key]
}

func (d *device) Write(key, text string) bool {
	used := len(text)
	for k, t := range d.texts {
		if k != key {
			used += len(t)
		}
	}
	if used > d.room {
		return false
	}
	d.texts[key] = text
	return true
}

// A tab is a page that is open on a device.
type tab struct {
	keeper keeper.Keeper
	model  app.Model
	wrote  int
}

func open(d *device) *tab {
	t := &tab{model: app.Start()}
	t.keeper = keeper.Keeper{Storage: d, Wrote: func() { t.wrote++ }}
	t.do(t.keeper.Load())
	return t
}

func (t *tab) do(e app.Event) { t.model = t.keeper.Update(t.model, e) }

// look lets a tab see what others have saved, as a tab does when it is shown again.
func (t *tab) look() {
	if e := t.keeper.Elsewhere(); e != nil {
		t.do(e)
	}
}

func (t *tab) note(outcome string) { t.do(app.Note{Outcome: outcome, When: "2026-11-24T19:00:00Z"}) }

func (t *tab) tries() (out []string) {
	for _, try := range t.model.Kept.Tries {
		out = append(out, try.Outcome)
	}
	return out
}

func TestRecordsAreRestored(t *testing.T) {
	d := newDevice()
	a := open(d)
	assert.Zero(t, a.wrote)
	a.note("left")
	a.do(app.Set{Key: "bridge", Text: "9in"})
	assert.Equal(t, 1, a.wrote, "a change of the shot is not a change of the records")
	assert.Equal(t, []string{"left"}, open(d).tries())
	assert.False(t, open(d).model.Unread)
}

// Neither of two tabs loses what the other saves, and they do not overwrite each other
// for ever.
func TestTabsKeepEachOthersRecords(t *testing.T) {
	d := newDevice()
	a, b := open(d), open(d)
	a.note("left")
	b.note("right") // before it knows of a's
	assert.ElementsMatch(t, []string{"left", "right"}, b.tries())
	a.look()
	assert.ElementsMatch(t, []string{"left", "right"}, a.tries())
	a.do(app.Drop[store.Try]{Record: a.model.Kept.Tries[0]})
	wrote := a.wrote + b.wrote
	for range 5 {
		b.look()
		a.look()
	}
	assert.Equal(t, a.tries(), b.tries())
	assert.Len(t, b.tries(), 1, "a deleted record stays deleted")
	assert.LessOrEqual(t, a.wrote+b.wrote, wrote+1)
	assert.Equal(t, a.tries(), open(d).tries())
}

// A full device reports that once, keeps what it had, and saves everything as soon as
// there is room.
func TestAFullDevice(t *testing.T) {
	d := newDevice()
	a := open(d)
	d.room = 10
	a.note("left")
	assert.True(t, a.model.Unkept)
	assert.Equal(t, []string{app.Unkept}, a.model.Notices)
	a.do(app.Dismiss{})
	a.note("right")
	assert.Empty(t, a.model.Notices)
	assert.Empty(t, d.texts[keeper.Kept])
	d.room = 1 << 20
	a.note("clean")
	assert.False(t, a.model.Unkept)
	assert.Equal(t, []string{"left", "right", "clean"}, open(d).tries())

	refused := open(&device{map[string]string{}, -1})
	refused.note("left")
	assert.True(t, refused.model.Unkept)
	assert.Len(t, refused.tries(), 1)
}

// What cannot be read is set aside once and whole, reported, and never overwritten.
func TestUnreadableRecords(t *testing.T) {
	const torn = `{"v": 2, "tries": [{"link": "v=1", "outc`
	d := newDevice()
	d.texts[keeper.Kept] = torn
	for range 2 {
		a := open(d)
		assert.True(t, a.model.Unread)
		assert.Contains(t, strings.Join(a.model.Notices, "\n"), "set aside")
		assert.Equal(t, torn+"\n", a.keeper.Lost())
	}
	a := open(d)
	a.note("left")
	assert.Equal(t, []string{"left"}, open(d).tries())
	assert.Empty(t, open(d).model.Notices)
	assert.True(t, open(d).model.Unread, "it is still on offer")

	full := newDevice()
	full.texts[keeper.Kept] = torn
	full.room = len(torn)
	b := open(full)
	assert.Contains(t, b.model.Notices[0], "no room to set it aside")
	assert.Equal(t, torn, b.keeper.Lost(), "it is still available")
	full.room = 1 << 20
	b.note("left")
	assert.Equal(t, torn, full.texts[keeper.Kept])
	assert.True(t, b.model.Unkept)
}

// One bad entry hides none of the good ones.
func TestOneBadEntry(t *testing.T) {
	d := newDevice()
	a := open(d)
	a.note("left")
	a.note("right")
	d.texts[keeper.Kept] = strings.Replace(d.texts[keeper.Kept], `"outcome": "left"`, `"outcome": "up"`, 1)
	b := open(d)
	assert.Equal(t, []string{"right"}, b.tries())
	assert.Contains(t, b.keeper.Lost(), "up")

	other := open(newDevice())
	other.keeper.Storage.(*device).texts = d.texts
	other.look()
	assert.Equal(t, []string{"right"}, other.tries())
}

// A newer version of the bench in another tab may save more than this one can read. It is
// never overwritten.
func TestANewerVersionElsewhere(t *testing.T) {
	d := newDevice()
	a := open(d)
	a.note("left")
	newer := strings.Replace(d.texts[keeper.Kept], `"v": 2`, `"v": 99`, 1)
	require.NotEqual(t, newer, d.texts[keeper.Kept])
	d.texts[keeper.Kept] = newer
	a.look()
	assert.Contains(t, a.model.Notices[0], "version 99")
	a.note("right")
	assert.True(t, a.model.Unkept)
	assert.Equal(t, newer, d.texts[keeper.Kept])
}

// What an import replaced stays set aside after a reload and in other tabs, until it is
// discarded or brought back.
func TestWhatAnImportReplaced(t *testing.T) {
	d := newDevice()
	a := open(d)
	a.note("left")
	file := store.Records{Tries: []store.Try{{Link: "v=1", Outcome: "clean"}, {Link: "v=1", Outcome: "right"}}}
	a.do(app.OfferImport{Name: "tuesday.json", Kept: file})
	a.do(app.ReplaceByImport{})
	again := open(d)
	assert.Equal(t, []string{"clean", "right"}, again.tries())
	require.True(t, again.model.HasAside)
	again.do(app.BringBack{})
	assert.Equal(t, []string{"left"}, again.tries())
	assert.Len(t, again.model.Aside.Tries, 2, "the file's are aside now")
	again.do(app.LetGo{})
	assert.False(t, open(d).model.HasAside)

	one, two := open(d), open(d)
	for _, tab := range []*tab{one, two} {
		tab.do(app.OfferImport{Kept: file})
		tab.do(app.ReplaceByImport{})
	}
	assert.Contains(t, open(d).model.Aside.Tries, store.Try{Link: "v=1", Outcome: "left", When: "2026-11-24T19:00:00Z"})

	d.room = 0
	one.do(app.BringBack{})
	assert.Contains(t, strings.Join(one.model.Notices, " "), "no room to keep what the import replaced")
}

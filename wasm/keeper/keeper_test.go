package keeper_test

import (
	"os"
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

func (t *tab) note(outcome string) { t.do(app.NoteStroke{See: outcome, When: "2026-11-24T19:00:00Z"}) }

func (t *tab) strokes() (out []string) {
	for _, k := range t.model.Kept.Strokes {
		out = append(out, k.See)
	}
	return out
}

func TestRecordsAreThereAgain(t *testing.T) {
	d := newDevice()
	a := open(d)
	assert.Zero(t, a.wrote)
	a.note("left")
	a.do(app.Set{Key: "bridge", Text: "9in"})
	assert.Equal(t, 1, a.wrote, "a change of the shot is none of the records")
	assert.Equal(t, []string{"left"}, open(d).strokes())
	assert.False(t, open(d).model.Unread)
}

// Neither of two tabs loses what the other saves, and they do not overwrite each other
// for ever.
func TestTabsKeepEachOthersRecords(t *testing.T) {
	d := newDevice()
	a, b := open(d), open(d)
	a.note("left")
	b.note("right") // before it has heard of a's
	assert.ElementsMatch(t, []string{"left", "right"}, b.strokes())
	a.look()
	assert.ElementsMatch(t, []string{"left", "right"}, a.strokes())
	a.do(app.Drop[store.Stroke]{Record: a.model.Kept.Strokes[0]})
	wrote := a.wrote + b.wrote
	for range 5 {
		b.look()
		a.look()
	}
	assert.Equal(t, a.strokes(), b.strokes())
	assert.Len(t, b.strokes(), 1, "what was taken out stays out")
	assert.LessOrEqual(t, a.wrote+b.wrote, wrote+1)
	assert.Equal(t, a.strokes(), open(d).strokes())
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
	assert.Equal(t, []string{"left", "right", "clean"}, open(d).strokes())

	refused := open(&device{map[string]string{}, -1})
	refused.note("left")
	assert.True(t, refused.model.Unkept)
	assert.Len(t, refused.strokes(), 1)
}

// What cannot be read is set aside once and whole, reported, and never overwritten.
func TestRecordsThatCantBeRead(t *testing.T) {
	const torn = `{"v": 2, "tries": [{"link": "v=1", "outc`
	d := newDevice()
	d.texts[keeper.Kept] = torn
	for range 2 {
		a := open(d)
		assert.True(t, a.model.Unread)
		assert.Contains(t, strings.Join(a.model.Notices, "\n"), "safe on this device")
		assert.Equal(t, torn+"\n", a.keeper.Lost())
	}
	a := open(d)
	a.note("left")
	assert.Equal(t, []string{"left"}, open(d).strokes())
	assert.Empty(t, open(d).model.Notices)
	assert.True(t, open(d).model.Unread, "it is still on offer")

	full := newDevice()
	full.texts[keeper.Kept] = torn
	full.room = len(torn)
	b := open(full)
	assert.Contains(t, b.model.Notices[0], "no room for a copy")
	assert.Equal(t, torn, b.keeper.Lost(), "it can be had all the same")
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
	d.texts[keeper.Kept] = strings.Replace(d.texts[keeper.Kept], `"see": "left"`, `"see": "up"`, 1)
	b := open(d)
	assert.Equal(t, []string{"right"}, b.strokes())
	assert.Contains(t, b.keeper.Lost(), "up")

	other := open(newDevice())
	other.keeper.Storage.(*device).texts = d.texts
	other.look()
	assert.Equal(t, []string{"right"}, other.strokes())
}

// A newer version of the bench in another tab may save more than this one can read. It is
// never overwritten.
func TestANewerVersionElsewhere(t *testing.T) {
	d := newDevice()
	a := open(d)
	a.note("left")
	newer := strings.Replace(d.texts[keeper.Kept], `"v": 3`, `"v": 99`, 1)
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
	file := store.Records{Strokes: []store.Stroke{{Link: "v=1", See: "clean"}, {Link: "v=1", See: "right"}}}
	a.do(app.OfferImport{Name: "tuesday.json", Kept: file})
	a.do(app.ReplaceByImport{})
	again := open(d)
	assert.Equal(t, []string{"clean", "right"}, again.strokes())
	require.True(t, again.model.HasAside)
	again.do(app.BringBack{})
	assert.Equal(t, []string{"left"}, again.strokes())
	assert.Len(t, again.model.Aside.Strokes, 2, "the file's are aside now")
	again.do(app.LetGo{})
	assert.False(t, open(d).model.HasAside)

	one, two := open(d), open(d)
	for _, tab := range []*tab{one, two} {
		tab.do(app.OfferImport{Kept: file})
		tab.do(app.ReplaceByImport{})
	}
	assert.Contains(t, open(d).model.Aside.Strokes, store.Stroke{Link: "v=1", See: "left", When: "2026-11-24T19:00:00Z"})

	d.room = 0
	one.do(app.BringBack{})
	assert.Contains(t, strings.Join(one.model.Notices, " "), "no room for the records that the import replaced")
}

// What an earlier version kept is there, and is written in this version's form as
// soon as there is something to add.
func TestRecordsOfAnEarlierVersion(t *testing.T) {
	for _, name := range []string{"records-v1.json", "records-v2.json"} {
		text, err := os.ReadFile("../../testdata/kept/" + name)
		require.NoError(t, err)
		d := newDevice()
		d.texts[keeper.Kept] = string(text)
		a := open(d)
		assert.Empty(t, a.model.Notices, name)
		assert.False(t, a.model.Unread, name)
		before := a.model.Kept.Strokes
		assert.NotEmpty(t, before, name)
		assert.Equal(t, string(text), d.texts[keeper.Kept], "opening changes nothing")
		b := open(d)
		a.note("left")
		b.note("right")
		a.look()
		assert.Equal(t, before, a.model.Kept.Strokes[:len(before)], name)
		assert.Equal(t, append(before[:len(before):len(before)], a.model.Kept.Strokes[len(before):]...), open(d).model.Kept.Strokes)
		assert.Len(t, open(d).model.Kept.Strokes, len(before)+2, "both tabs' are there")
		assert.Equal(t, a.model.Kept.Cues, open(d).model.Kept.Cues)
		assert.Contains(t, d.texts[keeper.Kept], `"v": 3`)
	}
}

// Nothing of the example reaches the device, also when another tab saves meanwhile; what
// that tab saves is there afterwards, and so is what the device had no room for.
func TestTheExampleIsNotKept(t *testing.T) {
	d := newDevice()
	a, b := open(d), open(d)
	a.note("left")
	text, err := os.ReadFile("../../site/example.json")
	require.NoError(t, err)
	a.do(app.OpenExample{})
	a.do(app.ShowExample{Text: string(text)})
	kept := d.texts[keeper.Kept]
	a.note("clean")
	a.do(app.ClearStrokes{All: true})
	a.do(app.ReplaceByImport{})
	assert.Equal(t, kept, d.texts[keeper.Kept])
	assert.Len(t, d.texts, 1)
	b.look()
	b.note("right")
	a.look()
	assert.Empty(t, a.strokes(), "the example's own")
	b.note("clean")
	a.do(app.LeaveExample{})
	assert.Equal(t, []string{"left", "right", "clean"}, a.strokes())
	a.note("left")
	b.look()
	assert.Equal(t, []string{"left", "right", "clean", "left"}, b.strokes())
	assert.Equal(t, b.model.Kept, open(d).model.Kept)

	d.room = 0
	full := open(d)
	full.note("right")
	require.True(t, full.model.Unkept)
	full.do(app.OpenExample{})
	full.do(app.ShowExample{Text: string(text)})
	full.note("left")
	full.do(app.LeaveExample{})
	assert.Equal(t, "right", full.strokes()[4], "what only this tab has")
	assert.True(t, full.model.Unkept)
}

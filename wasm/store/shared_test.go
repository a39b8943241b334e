package store_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/wasm/store"
)

// A device's tabs write to one text, and hear late of what the others wrote. As in
// browsers that run each tab in a process of its own, a tab that has written hears
// only of what was written after that.
type deviceTabs struct {
	texts []string // all that were written, in order
	tabs  []*tab
}

type tab struct {
	shared  store.Shared
	records store.Records
	heard   int // how many of the texts it has heard of
	refused bool
}

func newTabs(n int) *deviceTabs {
	d := new(deviceTabs)
	for range n {
		d.tabs = append(d.tabs, &tab{shared: store.NewShared()})
	}
	return d
}

// keep is a tab having other records, which the device may refuse.
func (d *deviceTabs) keep(t *tab, k store.Records) {
	t.records = k
	if t.refused || t.shared.Holds(k) {
		return
	}
	text, _ := t.shared.Text(k)
	t.shared.Wrote(text, k)
	d.texts = append(d.texts, text)
	t.heard = len(d.texts)
}

// hear is a tab hearing of some of what it has not heard of.
func (d *deviceTabs) hear(test *testing.T, t *tab, upTo int) {
	text := d.texts[upTo-1]
	t.heard = upTo
	base, now, lost, err := t.shared.Read(text)
	require.NoError(test, err)
	require.Empty(test, lost)
	d.keep(t, store.Merge(base, t.records, now))
}

// rest has all tabs hear of everything, and reports how many texts they wrote
// until there was no more to hear.
func (d *deviceTabs) rest(test *testing.T) (written int) {
	before := len(d.texts)
	for again := true; again; {
		again = false
		for _, t := range d.tabs {
			if t.heard < len(d.texts) {
				again = true
				d.hear(test, t, len(d.texts))
			}
		}
		require.Less(test, len(d.texts)-before, 100, "tabs write against each other")
	}
	return len(d.texts) - before
}

// What one tab takes out stays out, however long ago another put it in, and the
// tabs come to rest.
func TestTakenOutElsewhere(t *testing.T) {
	d := newTabs(2)
	a, b := d.tabs[0], d.tabs[1]
	d.keep(a, store.Records{Strokes: strokes(1)})
	d.keep(a, store.Records{Strokes: strokes(1, 2)})
	assert.Zero(t, d.rest(t))
	assert.Equal(t, strokes(1, 2), b.records.Strokes)
	d.keep(b, store.Records{Strokes: strokes(1)})
	assert.Zero(t, d.rest(t), "nobody has anything to add")
	assert.Equal(t, strokes(1), a.records.Strokes)
	assert.Equal(t, strokes(1), b.records.Strokes)
}

// Two tabs that write at the same moment both keep what they wrote.
func TestWrittenAtOnce(t *testing.T) {
	d := newTabs(2)
	a, b := d.tabs[0], d.tabs[1]
	d.keep(a, store.Records{Strokes: strokes(1)})
	d.rest(t)
	d.keep(a, store.Records{Strokes: strokes(1, 2)})
	d.keep(b, store.Records{Strokes: strokes(1, 3)}) // has not heard of 2
	assert.Equal(t, 1, d.rest(t))
	assert.Equal(t, strokes(1, 3, 2), a.records.Strokes)
	assert.Equal(t, strokes(1, 3, 2), b.records.Strokes)
}

// What the device refused to take from a tab is not lost when another one writes.
func TestRefusedHereWrittenElsewhere(t *testing.T) {
	d := newTabs(2)
	a, b := d.tabs[0], d.tabs[1]
	a.refused = true
	d.keep(a, store.Records{Strokes: strokes(1, 2)})
	d.keep(b, store.Records{Strokes: strokes(3)})
	d.rest(t)
	assert.Equal(t, strokes(3, 1, 2), a.records.Strokes)
	a.refused = false
	d.keep(a, store.Records{Strokes: strokes(3, 1, 2, 4)})
	d.rest(t)
	assert.Equal(t, strokes(3, 1, 2, 4), b.records.Strokes)
}

// An earlier copy of the bench does not say what its text was written after.
func TestEarlierCopyWrites(t *testing.T) {
	d := newTabs(1)
	a := d.tabs[0]
	d.keep(a, store.Records{Strokes: strokes(1, 2)})
	d.texts = append(d.texts, store.Records{Strokes: strokes(2, 3)}.Encode())
	d.rest(t)
	assert.Equal(t, strokes(2, 3), a.records.Strokes)
}

// A text that can't be read is noted as being there, and says nothing about
// records.
func TestSharedUnread(t *testing.T) {
	s := store.NewShared()
	k := store.Records{Strokes: strokes(1)}
	text, ok := s.Text(k)
	assert.True(t, ok)
	s.Wrote(text, k)
	_, _, lost, err := s.Read(`{"v": 99}`)
	assert.ErrorContains(t, err, "version 99")
	assert.Equal(t, `{"v": 99}`, lost)
	assert.True(t, s.Has(`{"v": 99}`))
	assert.False(t, s.Holds(k))
	base, _, _, err := s.Read(text)
	require.NoError(t, err)
	assert.Equal(t, k, base)
}

// No more is written than can be read again.
func TestSharedReadsBack(t *testing.T) {
	many := make([]int, 10001)
	s := store.NewShared()
	for _, n := range []int{10000, 10001} {
		k := store.Records{Strokes: strokes(many[:n]...)}
		text, ok := s.Text(k)
		_, _, err := store.Restore(text)
		assert.Equal(t, err == nil, ok, n)
		assert.Equal(t, n == 10000, ok, n)
	}
}

// What is shared is a file like any other.
func TestSharedTextIsAFile(t *testing.T) {
	k, err := store.Decode(written(t, "records-v3.json"))
	require.NoError(t, err)
	s := store.NewShared()
	text, ok := s.Text(k)
	assert.True(t, ok)
	assert.NotEqual(t, k.Encode(), text)
	again, err := store.Decode(text)
	require.NoError(t, err)
	assert.Equal(t, k, again)
}

// Tabs that add and take out in any order, and hear of each other whenever, come
// to rest with the same records. Nothing is lost that nobody took out. Of two tabs,
// nothing comes back that one took out; of more, it may, where they had not heard
// of each other in the same order.
func TestTabsAgree(t *testing.T) {
	for seed := range uint64(300) {
		random := rand.New(rand.NewPCG(seed, 0))
		d := newTabs(2 + random.IntN(2))
		added, out := 0, map[string]bool{}
		for range 60 {
			a := d.tabs[random.IntN(len(d.tabs))]
			switch have := a.records.Strokes; {
			case random.IntN(3) == 0:
				added++
				d.keep(a, store.Records{Strokes: slices.Concat(have, strokes(added))})
			case random.IntN(3) == 0 && len(have) > 0:
				i := random.IntN(len(have))
				out[have[i].When] = true
				d.keep(a, store.Records{Strokes: slices.Concat(have[:i], have[i+1:])})
			case a.heard < len(d.texts):
				d.hear(t, a, a.heard+1+random.IntN(len(d.texts)-a.heard))
			}
		}
		d.rest(t)
		var want, got []string
		for n := range added {
			if when := strokes(n + 1)[0].When; !out[when] {
				want = append(want, when)
			}
		}
		for _, stroke := range d.tabs[0].records.Strokes {
			got = append(got, stroke.When)
		}
		if len(d.tabs) == 2 {
			require.ElementsMatch(t, want, got, "seed %d", seed)
		}
		require.Subset(t, got, want, "seed %d", seed)
		for _, other := range d.tabs[1:] {
			require.Equal(t, d.tabs[0].records.Encode(), other.records.Encode(), "seed %d", seed)
		}
	}
}

package store_test

import (
	"cmp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/wasm/store"
)

func TestReadingsAndTablesTravel(t *testing.T) {
	s, problems := scenario.Parse("v=1&bridge=9in&cloth=damp&roll=0.02&ball=snooker")
	require.Empty(t, problems)
	k := store.Records{
		Readings: []store.Reading{
			{Of: "speed", Length: "50in", Time: "0.612s", Topspin: "-0.75", By: "sound", When: "2026-11-24T19:00:00Z"},
			{Of: "marks", Length: "0.5m", Time: "1.1s", Third: "1m", ThirdTime: "2.4s", By: "thumb"},
		},
		Tables: []store.Table{store.TableOf(&s, "Harbour Hall 3", "2026-11-24T19:00:00Z")},
	}
	assert.Equal(t, "v=1&ball=snooker&cloth=damp&roll=0.02", k.Tables[0].Link, "a table is no shot")
	back, err := store.Decode(k.Encode())
	require.NoError(t, err)
	assert.Equal(t, k.Readings, back.Readings)
	assert.Equal(t, k.Tables, back.Tables)

	for text, want := range map[string]string{
		`{"v": 2, "readings": [{"of": "luck", "length": "1m", "time": "1s", "by": "thumb"}]}`:  "reading 1: of “luck”, allowed: speed, rest, marks",
		`{"v": 2, "readings": [{"of": "rest", "length": "1m", "time": "1s", "by": "ear"}]}`:    "by “ear”, allowed: thumb, sound, typed",
		`{"v": 2, "readings": [{"of": "rest", "length": "1", "time": "1s", "by": "thumb"}]}`:   "“1”",
		`{"v": 2, "readings": [{"of": "rest", "length": "1m", "time": "", "by": "thumb"}]}`:    "“” is not a time",
		`{"v": 2, "readings": [{"of": "marks", "length": "1m", "time": "1s", "by": "thumb"}]}`: "reading 1",
		`{"v": 2, "tables": [{"name": "4", "link": "v=1&roll=9"}]}`:                            "table 1: roll: “9”",
	} {
		_, err := store.Decode(text)
		assert.ErrorContains(t, err, want, text)
	}
}

// What is measured on one day goes together; on another day it stands alone.
func TestTablesByNameAndDay(t *testing.T) {
	s := scenario.Default()
	s.Cloth = "worn"
	var k store.Records
	measured := func(when, key, text string) {
		table, err := k.Measured(&s, "Table 4", when, key, text)
		require.NoError(t, err)
		k = k.WithTable(table)
	}
	measured("2026-11-24T19:00:00Z", "roll", "0.012")
	first := k
	measured("2026-11-24T19:20:00Z", "slide", "0.21")
	require.Len(t, k.Tables, 1)
	assert.Equal(t, "v=1&cloth=worn&slide=0.21&roll=0.012", k.Tables[0].Link)
	assert.Equal(t, "v=1&cloth=worn&roll=0.012", first.Tables[0].Link, "never changed in place")
	measured("2026-12-01T19:20:00Z", "roll", "0.015")
	require.Len(t, k.Tables, 2)
	assert.Equal(t, "v=1&cloth=worn&roll=0.015", k.Tables[1].Link)
	_, err := k.Measured(&s, "Table 4", "", "roll", "3")
	assert.Error(t, err)

	assert.Equal(t, "", store.Day(""))
	assert.Equal(t, "2026-11-24", store.Day("2026-11-24T19:00:00+00:00"), "the day there, wherever it is read")
}

// A name that a file would be refused for is refused before it is kept.
func TestTableFaults(t *testing.T) {
	good := store.Table{Name: "Table 4, “der Große”", Link: "v=1&cloth=worn"}
	assert.Empty(t, good.Faults())
	for _, bad := range []store.Table{
		{Name: strings.Repeat("4", 61)},
		{Name: "Table 4", Link: "v=1&roll=3"},
	} {
		require.Len(t, bad.Faults(), 1)
		_, err := store.Decode(store.Records{Tables: []store.Table{good, bad}}.Encode())
		assert.EqualError(t, err, "table 2: "+bad.Faults()[0])
	}
}

// A table saved one afternoon in Sydney and one the next morning is two days',
// though it is one day of UTC's; and moments that earlier copies noted in UTC are
// the device's day.
func TestDaysAreTheDevices(t *testing.T) {
	sydney := time.FixedZone("Sydney", 11*3600)
	here := time.Local
	time.Local = sydney
	t.Cleanup(func() { time.Local = here })
	evening := time.Date(2026, 11, 24, 16, 0, 0, 0, sydney)
	morning := time.Date(2026, 11, 25, 9, 0, 0, 0, sydney)
	require.Equal(t, evening.UTC().Day(), morning.UTC().Day())

	var k store.Records
	for _, at := range []time.Time{evening, morning} {
		k = k.WithTable(store.Table{Name: "Table 4", Link: "v=1", When: at.Format(time.RFC3339)})
	}
	assert.Len(t, k.Tables, 2)
	k = k.WithTable(store.Table{Name: "Table 4", Link: "v=1&cloth=worn", When: morning.Add(time.Hour).Format(time.RFC3339)})
	assert.Len(t, k.Tables, 2, "the same day")

	assert.Equal(t, "2026-11-25", store.Day(morning.UTC().Format(time.RFC3339)))
	assert.Equal(t, "2026-11-25", store.Day("2026-11-24T22:00:00.000Z"))
	assert.Equal(t, "2026-11-24", store.Day("2026-11-24T23:30:00-05:00"), "the day of the device that noted it")
	assert.Equal(t, "Tuesday", store.Day("Tuesday"))
	assert.Empty(t, store.Day(""))
}

// Records are in the order in which they were noted, wherever that was.
func TestEarlier(t *testing.T) {
	inOrder := []string{"", "last Tuesday", "2026-11-26T22:00:00.000Z", "2026-11-27T09:30:00.000+11:00", "2026-11-26T23:30:00.000Z", "2026-11-27T10:00:00.000-05:00"}
	for i, a := range inOrder {
		for j, b := range inOrder {
			assert.Equal(t, cmp.Compare(i, j), store.Earlier(a, b), "%q %q", a, b)
		}
	}
	here := time.Date(2026, 11, 27, 12, 0, 0, 0, time.Local).Format(time.RFC3339)
	assert.Negative(t, store.Earlier("2026-11-27", here))
	assert.Positive(t, store.Earlier("2026-11-28", here))
}

package view_test

import (
	"encoding/csv"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/scenario"
	"pivotbench/core/shot"
	"pivotbench/wasm/phrase"
	"pivotbench/wasm/view"
)

// Every cell opens a shot that pockets the object ball, in its middle as nearly
// as whole per cents allow, through a link that is short enough for a code.
func TestCard(t *testing.T) {
	s, problems := scenario.Parse("v=1&bridge=9in&name=Harbour%20%3Cb%3E&cut=15deg")
	require.Empty(t, problems)
	for _, units := range []string{"in", "cm"} {
		s.Units = units
		v := view.CardOf(&s, view.ShowShare)
		require.Len(t, v.Rows, 6)
		marked := 0
		for _, row := range v.Rows {
			require.Len(t, row.Cells, len(v.Columns))
			for _, c := range row.Cells {
				require.Empty(t, c.Why)
				at, problems := scenario.Parse(c.Link)
				require.Empty(t, problems)
				sh := at.Shot()
				var res shot.Result
				shot.Play(&sh, &res)
				var pot shot.Pot
				require.NoError(t, sh.Sink(&res.Path, &pot))
				assert.True(t, pot.In(&sh))
				middle := math.Abs(float64(pot.Miss))
				for _, by := range []float64{-0.01, 0.01} {
					sh.Hands.Back, sh.Hands.Front = at.Back+by, at.Front-by
					shot.Play(&sh, &res)
					require.NoError(t, sh.Sink(&res.Path, &pot))
					assert.Less(t, middle, math.Abs(float64(pot.Miss)))
				}
				assert.Contains(t, c.Text, phrase.Percent(at.Back))
				assert.Less(t, len(c.Link), len(s.Format())+60, c.Link)
				if c.Misses {
					marked++
				}
			}
		}
		assert.Positive(t, marked)
		assert.Contains(t, v.Note, "“!” means that a round")
		for _, what := range []string{view.ShowHeading, view.ShowShift} {
			other := view.CardOf(&s, what)
			assert.Equal(t, "Every aim allows for throw.", other.Note, "nothing is marked, so nothing is said of a mark")
			if what == view.ShowShift {
				assert.Contains(t, other.Title, map[string]string{"in": "inches", "cm": "millimetres"}[units])
			}
			for _, row := range other.Rows {
				for _, c := range row.Cells {
					assert.False(t, c.Misses, "the mark is for shares")
				}
			}
		}
		rows, err := csv.NewReader(strings.NewReader("distance," + strings.SplitN(v.CSV("today"), "\ndistance,", 2)[1])).ReadAll()
		require.NoError(t, err)
		assert.Len(t, rows, 7)
	}
}

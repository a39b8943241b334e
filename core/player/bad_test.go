package player_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/core/player"
	"pivotbench/core/sitting"
	"pivotbench/core/stance"
	"pivotbench/core/stat"
	"pivotbench/core/strike"
	"pivotbench/core/unit"
)

func TestAPlayerNobodyCanFit(t *testing.T) {
	for want, spoil := range map[error]func(*player.Player){
		player.ErrName:   func(p *player.Player) { p.Name = " \t" },
		player.ErrBridge: func(p *player.Player) { p.Grip = player.Usual[unit.Length]{Value: 60 * unit.Inch} },
		player.ErrPaces:  func(p *player.Player) { p.Paces[1].Speed = p.Paces[0].Speed },
	} {
		p := player.New("Jo")
		require.NoError(t, p.Check())
		spoil(&p)
		on := table()
		_, err := player.Start(&p, &on, nil, sitting.Habit)
		assert.Equal(t, want, err)
	}
	p := player.New("Jo")
	p.Paces = nil
	assert.Equal(t, player.ErrPaces, p.Check())
	on := table()
	on.Contact.Side = 0.9
	p = player.New("Jo")
	_, err := player.Start(&p, &on, nil, sitting.Habit)
	assert.Equal(t, strike.ErrOffTip, err)
}

// A player without a cue and with nothing measured still has a list of what is missing,
// and it grows shorter.
func TestWhatIsMissing(t *testing.T) {
	p := player.New("Kit")
	assert.Equal(t, []player.Part{player.TheCue, player.TheBridge, player.TheElevation, player.ThePaces, player.TheFit}, p.Missing())
	p.Cue, p.Fitted = "House 3", "2026-03-03"
	p.Elevation = player.Measured[unit.Angle]{Estimate: stat.NormalEstimate(2*unit.Degree, 0.2*unit.Degree)}
	assert.Equal(t, []player.Part{player.TheBridge, player.ThePaces}, p.Missing())
}

// Two names are one player's when only case and spaces differ.
func TestNamesOfOnePlayer(t *testing.T) {
	assert.Equal(t, player.Key("Ann Lee"), player.Key("  ann   LEE "))
	assert.NotEqual(t, player.Key("Ann Lee"), player.Key("Annlee"))
}

// Strokes noted for the wrong side, as from across the table or off the card of a
// left-hander, don't pass for the player's own; nor does one stroke of somebody else's.
func TestStrokesMixedUp(t *testing.T) {
	t.Parallel()
	p := player.New("Lou")
	p.Hand = player.LeftHanded
	who := sitting.Tester{Pivot: 10 * unit.Inch, Scatter: 0.1 * unit.Degree}
	r := rand.New(rand.NewPCG(9, 9))
	good, swapped, other := start(t, p, nil), start(t, p, nil), start(t, p, nil)
	for i := range 8 {
		s := good.Shot(48*unit.Inch, 12*unit.MilePerHour, side-2*side*float64(i%2), []float64{1, 0}[i/2%2])
		k, err := who.AtLine(s, p.SetUp(sitting.Habit), mark(48*unit.Inch), r)
		require.NoError(t, err)
		good, err = good.Add(k)
		require.NoError(t, err)
		mixed := k
		m := k.Seen.(sitting.Mark)
		m.At = -m.At
		mixed.Seen = m
		swapped, err = swapped.Add(mixed)
		require.NoError(t, err)
		if i == 5 {
			m.At += 8 * unit.Inch
			k.Seen = m
		}
		other, err = other.Add(k)
		require.NoError(t, err)
	}
	fit, _ := good.Misfit()
	assert.Equal(t, sitting.Fits, fit)
	fit, _ = swapped.Misfit()
	assert.Equal(t, sitting.Swapped, fit)
	fit, which := other.Misfit()
	assert.Equal(t, sitting.OneOff, fit)
	assert.Equal(t, []int{5}, which)

	_, err := good.Add(sitting.Stroke{Cue: 1, Shot: good.Shot(24*unit.Inch, 5*unit.MilePerHour, side, 1), Seen: mark(24 * unit.Inch)})
	assert.Equal(t, player.ErrOther, err)
}

// A stroke that nobody can have seen leaves the fit as it is.
func TestStrokesNobodyCanSee(t *testing.T) {
	f := start(t, player.New("Jo"), nil)
	_, err := f.Add(sitting.Stroke{Shot: table(), Seen: sitting.Mark{Read: sitting.ByEye, Across: 50 * unit.Inch}})
	assert.Equal(t, sitting.ErrNoLine, err)
}

// A card says why there is no aim: the tip would slip, the ball stops short, or no hands
// do it; and the other cells stay.
func TestShotsNobodyCanMake(t *testing.T) {
	f := start(t, player.New("Max"), measured(12*unit.Inch, 0.05))
	s := sheet()
	s.Side = 0.6
	assert.Equal(t, strike.ErrMiscue, f.Card(s)[0][0].Err)
	for s.Side = 0.5; f.Card(s)[0][0].Err == nil; s.Side += 0.002 {
	}
	assert.Equal(t, strike.ErrMiscue, f.Card(s)[0][0].Err, "some of the ways he may play it miscue")
	assert.Less(t, s.Side, 0.59)
	s = sheet()
	s.Side = 0
	assert.Equal(t, stance.ErrNoSide, f.Card(s)[0][0].Err)
	s = sheet()
	s.Speeds[0], s.Dists[1] = 0.4*unit.MilePerHour, 90*unit.Inch
	card := f.Card(s)
	assert.Error(t, card[1][0].Err)
	assert.NoError(t, card[1][1].Err)

	steep := player.New("Max")
	steep.Elevation = player.Measured[unit.Angle]{Estimate: stat.NormalEstimate(25*unit.Degree, 1*unit.Degree)}
	c := start(t, steep, measured(12*unit.Inch, 0.05)).Card(sheet())[1][0]
	require.NoError(t, c.Err)
	assert.Equal(t, player.ErrHands, c.Hands)
}

package trial_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"pivotbench/core/trial"
	"pivotbench/core/unit"
)

// The information told of a suggestion is that of the very try: untouched it is
// what Next found, and no bridge nearby tells more than that.
func TestRetold(t *testing.T) {
	for i := range 6 {
		r := rand.New(rand.NewPCG(uint64(i), 31))
		p := measure(t, trial.Draw(r), 3*i, r)
		s := setUp()
		next := p.Next(&s, tipScatter, least, most)
		assert.Equal(t, next, p.Retold(&s, next))

		wrong := next
		wrong.Right, wrong.Bits = !next.Right, 9
		assert.Equal(t, next, p.Retold(&s, wrong), "the better side is found again")

		round := next
		round.Bridge = most
		assert.Less(t, p.Retold(&s, round).Bits, next.Bits)
		assert.Equal(t, most, p.Retold(&s, round).Bridge)

		round.Bridge = next.Bridge + 0.1*unit.Inch
		assert.InEpsilon(t, next.Bits, p.Retold(&s, round).Bits, 0.1, "a tenth of an inch hardly matters")
	}
}

package player

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Of 20 draws in any order each is as likely as any other to be the least, and so to be the
// greatest. So the 20th lies between the least and the greatest of the other 19 in 18 of
// 20 cases, 90 %.
func TestNineteenDrawsHoldTheTwentieth(t *testing.T) {
	values := []float64{7, 3, 12, 5, 9, 1, 17, 14, 19, 2, 8, 11, 4, 16, 6, 18, 10, 13, 15}
	e := estimate[float64](values)
	assert.InDelta(t, 10, e.Median, 1e-12)
	assert.InDelta(t, 1, e.From, 1e-12)
	assert.InDelta(t, 19, e.To, 1e-12)
}

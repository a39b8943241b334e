package trial

import (
	"math"

	"pivotbench/core/shot"
)

// Retold is a suggestion whose bridge, english or gap were brought to round
// values a little away, with the side to play it to and the information
// expected of the try as it is now. s is the set-up it was made for.
func (p *Posterior) Retold(s *shot.Shot, next Suggestion) Suggestion {
	at := *s
	at.Contact.Side, at.Gate.Gap = math.Abs(next.Side), next.Gap
	told := Suggestion{Bridge: next.Bridge, Right: next.Right, Side: next.Side, Gap: next.Gap, Floor: next.Floor, rate: next.rate}
	p.plan(&at).weigh(&told, next.Bridge)
	return told
}

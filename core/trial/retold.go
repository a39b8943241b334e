package trial

import (
	"math"

	"pivotbench/core/shot"
)

// Retold returns a suggestion whose bridge, english or gap were rounded, with the
// better side to play it to and the information expected of the rounded try. s is
// the set-up the suggestion was made for.
func (p *Posterior) Retold(s *shot.Shot, next Suggestion) Suggestion {
	at := *s
	at.Contact.Side, at.Gate.Gap = math.Abs(next.Side), next.Gap
	told := Suggestion{Bridge: next.Bridge, Right: next.Right, Side: next.Side, Gap: next.Gap, Floor: next.Floor, rate: next.rate}
	p.plan(&at).weigh(&told, next.Bridge)
	return told
}

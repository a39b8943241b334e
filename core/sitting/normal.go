package sitting

import "math"

// The steps of the table of the Normal distribution, and how far it reaches.
const (
	normalSteps = 64 // to one
	normalReach = 6
)

// normalTable is Φ in even steps. A posterior asks for it some hundred
// thousand times a try.
var normalTable = func() (t [2*normalReach*normalSteps + 2]float64) {
	for i := range t {
		t[i] = math.Erfc((normalReach-float64(i)/normalSteps)/math.Sqrt2) / 2
	}
	return t
}()

// normal is Φ, the distribution function of the standard Normal distribution,
// to within 1e-5: next to the share of tries that are noted down wrongly that
// is nothing.
func normal(z float64) float64 {
	at := (z + normalReach) * normalSteps
	if !(at > 0) {
		return 0
	}
	if at >= 2*normalReach*normalSteps {
		return 1
	}
	i := int(at)
	return normalTable[i] + (at-float64(i))*(normalTable[i+1]-normalTable[i])
}

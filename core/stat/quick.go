package stat

// The table of the Normal distribution: its steps, and how far it reaches.
const (
	quickSteps = 64 // to a standard deviation
	quickReach = 6
)

var quick = func() (t [2*quickReach*quickSteps + 2]float64) {
	for i := range t {
		t[i] = Normal(float64(i)/quickSteps - quickReach)
	}
	return t
}()

// QuickNormal returns Normal to within 1e-5, out of a table: for posteriors, which
// need some hundred thousand values for each stroke.
func QuickNormal(z float64) float64 {
	at := (z + quickReach) * quickSteps
	if !(at > 0) {
		return 0
	}
	if at >= 2*quickReach*quickSteps {
		return 1
	}
	i := int(at)
	return quick[i] + (at-float64(i))*(quick[i+1]-quick[i])
}
